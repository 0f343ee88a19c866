"""The company's own estimates that a command works with: where they are looked for, and in which order.

Rules
-----
1. ``--company FILE`` wins, then the environment's ``STEADYHEAD_COMPANY``; a file that is named there must exist. Else
   ``company.toml`` in the user's own folder of settings holds, where there is one.
2. ``none`` in place of a file means the shipped estimates, whatever stands elsewhere.
3. The folder of settings is where each system keeps them: ``%APPDATA%`` on Windows, ``~/Library/Application Support``
   on macOS, ``$XDG_CONFIG_HOME`` or ``~/.config`` elsewhere; in it ``steadyhead``.
"""

from __future__ import annotations

from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from steadyhead.bootstrap import this_system
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.errors import FileUnreadableError
from steadyhead.messages import message
from steadyhead.store.places import System, own_folder

if TYPE_CHECKING:
    from steadyhead.diagnosis.company import Company

VARIABLE = "STEADYHEAD_COMPANY"
NONE = "none"
FILE = "company.toml"


def settings_file(system: System) -> PurePath:
    """Return where a user's own company file is looked for.

    >>> from pathlib import PurePosixPath
    >>> str(settings_file(System("linux", {}, PurePosixPath("/ann"))))
    '/ann/.config/steadyhead/company.toml'
    """
    return own_folder(system, windows=("APPDATA", "AppData/Roaming"), other=("XDG_CONFIG_HOME", ".config")) / FILE


def named_file(given: str | None, system: System) -> str | None:
    """Return the file that a person named, ``none`` included; None where nobody named one."""
    return given or system.environ.get(VARIABLE) or None


def file_in_use(given: str | None) -> Path | None:
    """Return the company's file to judge by, None where the shipped estimates hold.

    Parameters
    ----------
    given
        What stands behind ``--company``.
    """
    system = this_system()
    named = named_file(given, system)
    if named is not None:
        return None if named == NONE else Path(named)
    usual = Path(settings_file(system))
    return usual if usual.is_file() else None


def estimates_of(given: str | None) -> Estimates:
    """Return the estimates to judge by: the company's, or the shipped ones where there is no file.

    Raises
    ------
    InputError
        The file that was named is not there or cannot be read, or it is refused.
    """
    path = file_in_use(given)
    return SHIPPED if path is None else _loaded(path).estimates


def company_of(given: str | None) -> Company:
    """Return what the company's file says; nothing where there is none.

    Raises
    ------
    InputError
        As `estimates_of`.
    """
    path = file_in_use(given)
    return _nothing() if path is None else _loaded(path)


def path_to_change(given: str | None) -> Path:
    """Return the company's file that is to be changed; it need not exist yet.

    Raises
    ------
    FileUnreadableError
        It is ``none``.
    """
    system = this_system()
    named = named_file(given, system)
    if named == NONE:
        raise FileUnreadableError(message("company-file-needed", got=NONE))
    return Path(named) if named is not None else Path(settings_file(system))


def company_at(path: Path) -> Company:
    """Return what stands in the company's file, nothing where there is none yet.

    Raises
    ------
    InputError
        It cannot be read, or it is refused.
    """
    return _loaded(path) if path.exists() else _nothing()


def _loaded(path: Path) -> Company:
    from steadyhead.service.company_files import load_company  # noqa: PLC0415 - most have no file, and wait for nothing

    return load_company(path)


def _nothing() -> Company:
    from steadyhead.diagnosis.company import NO_COMPANY  # noqa: PLC0415 - as above

    return NO_COMPANY
