"""Finds what is at fault in the sensing loop of a constant-pressure water system, and proves it.

The names below are the whole public Python interface; everything else may move.

Examples
--------
A file is read with ``load_visit("visit.toml")``; here its text stands in the example:

>>> from steadyhead import Speaker, diagnose, parse_visit
>>> visit = parse_visit('''schema = 1
... [sensor]
... signal = "0.5..4.5 V ratiometric"
... range = "0..100 psi"
... ''').visit
>>> answer = diagnose(visit)  # nothing was read yet: the usual odds, and where to begin
>>> answer.verdict.state, answer.next_checks[0].minutes > 0
('open', True)
>>> Speaker(labels={"wire.signal": "blue"}).name("fault", "open-signal")
'blue wire open'
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"

if TYPE_CHECKING:
    from steadyhead.diagnosis.diagnose import diagnose
    from steadyhead.errors import InputError, SteadyheadError, VisitFileError
    from steadyhead.service.diagnosis import diagnose_text
    from steadyhead.visit import load_visit, parse_visit
    from steadyhead.words import Speaker

__all__ = [
    "__version__",
    "load_visit",
    "parse_visit",
    "diagnose",
    "diagnose_text",
    "Speaker",
    "SteadyheadError",
    "InputError",
    "VisitFileError",
]

_HOMES = {
    "load_visit": "steadyhead.visit",
    "parse_visit": "steadyhead.visit",
    "diagnose": "steadyhead.diagnosis.diagnose",
    "diagnose_text": "steadyhead.service.diagnosis",
    "Speaker": "steadyhead.words",
    "SteadyheadError": "steadyhead.errors",
    "InputError": "steadyhead.errors",
    "VisitFileError": "steadyhead.errors",
}


def __getattr__(name: str) -> Any:  # noqa: ANN401 - each name has its own type
    """Import what is asked for when it is asked for, so that ``--version`` answers at once."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")  # noqa: EM102, TRY003 - Python's own words
    from importlib import import_module  # noqa: PLC0415 - not needed by --version

    return getattr(import_module(_HOMES[name]), name)


def __dir__() -> list[str]:
    """Return the public names."""
    return sorted(__all__)
