"""Where the record lives: what a person named, else where this system keeps a program's data.

Rules
-----
1. ``--data`` wins, then the environment's ``STEADYHEAD_DATA``: a file, or the address of a company's database
   (``postgresql://...``). A file's folder is made when it is missing.
2. Else ``steadyhead.db`` in the user's own folder of data: ``%LOCALAPPDATA%`` on Windows, ``~/Library/Application
   Support`` on macOS, ``$XDG_DATA_HOME`` or ``~/.local/share`` elsewhere; in it ``steadyhead``.
3. The log stands beside the file; beside no file, in that folder of data.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path, PurePath
from typing import Literal

from steadyhead.errors import StoreError
from steadyhead.messages import message

VARIABLE = "STEADYHEAD_DATA"
FILE = "steadyhead.db"
#: How an address begins that is no file.
SERVERS = ("postgresql://", "postgresql+psycopg://")
_PASSWORD = re.compile(r"(?<=:)[^:/@]*(?=@)")


@dataclass(frozen=True, slots=True)
class Place:
    """Where the record lives, and what stands beside it.

    Parameters
    ----------
    address
        A file, or the text of a database's address.
    folder
        Where the log and the copies before a migration go; on a phone a folder in memory.
    journal
        How SQLite keeps a transaction: ``wal`` where there is shared memory, ``truncate`` in a browser.
    spare
        The one file for the copy before a migration, where a home has just so many files: a phone's browser.
    """

    address: Path | str
    folder: Path
    journal: Literal["wal", "truncate"] = "wal"
    spare: Path | None = None

    @property
    def name(self) -> str:
        """Where the record lives, without a password."""
        return str(self.address) if isinstance(self.address, Path) else _PASSWORD.sub("***", self.address)

    @property
    def file(self) -> Path:
        """The SQLite file.

        Raises
        ------
        StoreError
            The record lives on a server.
        """
        if isinstance(self.address, str):
            raise StoreError(message("data-on-a-server"))
        return self.address


@dataclass(frozen=True, slots=True)
class System:
    """What a system says of its user: the platform's name, the environment, and the home folder."""

    platform: str
    environ: Mapping[str, str]
    folder: PurePath


def place_of(given: str | None, system: System) -> Place:
    """Return where the record lives.

    Parameters
    ----------
    given
        What stands behind ``--data``; None where nothing does.
    system
        What this system says of its user.
    """
    named = given or system.environ.get(VARIABLE) or str(usual_folder(system) / FILE)
    journal: Literal["wal", "truncate"] = "truncate" if system.platform == "emscripten" else "wal"
    if named.startswith(SERVERS):
        return Place(named, Path(usual_folder(system)), journal)
    file = Path(named).absolute()
    return Place(file, file.parent, journal)


def usual_folder(system: System) -> PurePath:
    """Return the folder where a user's data are kept.

    >>> from pathlib import PurePosixPath
    >>> str(usual_folder(System("linux", {}, PurePosixPath("/ann"))))
    '/ann/.local/share/steadyhead'
    """
    return own_folder(system, windows=("LOCALAPPDATA", "AppData/Local"), other=("XDG_DATA_HOME", ".local/share"))


def own_folder(system: System, *, windows: tuple[str, str], other: tuple[str, str]) -> PurePath:
    """Return this program's folder of one purpose: where a variable says, else at its usual place in the home folder.

    Parameters
    ----------
    system
        What this system says of its user.
    windows, other
        The variable, and the usual place, on Windows and where there is neither Windows nor macOS.
    """
    if system.platform == "darwin":
        return system.folder / "Library/Application Support" / "steadyhead"
    variable, place = windows if system.platform == "win32" else other
    return type(system.folder)(system.environ.get(variable) or system.folder / place) / "steadyhead"
