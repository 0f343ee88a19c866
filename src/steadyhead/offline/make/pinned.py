"""What the phone's site is made of beside the app: which Pyodide and which libraries, each file by its digest.

Rules
-----
1. A site is made of these very files, wherever they come from: a file with another content is refused by name.
2. The versions of the libraries are those of constraints.txt, and that of Pyodide the one that the tests run in;
   ``builders/phone_pins.py --write`` writes pinned.json anew.
3. MarkupSafe is published compiled only; of its wheel the plain Python part is taken (`left_out`).
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path

from steadyhead.errors import InputError
from steadyhead.messages import message

PINNED = "pinned.json"


@dataclass(frozen=True, slots=True)
class Library:
    """One library's wheel.

    Parameters
    ----------
    name, version
        As the registry calls it.
    file
        The wheel's name.
    sha256
        The wheel's digest.
    """

    name: str
    version: str
    file: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Pins:
    """All that a site is made of beside the app.

    Parameters
    ----------
    pyodide
        Pyodide's version.
    engine
        The digest of each file of Pyodide's that a site holds, by its name.
    libraries
        The wheels.
    """

    pyodide: str
    engine: dict[str, str]
    libraries: tuple[Library, ...]


@cache
def pins() -> Pins:
    """Return what a site is made of beside the app."""
    told = json.loads(files("steadyhead.offline.make").joinpath(PINNED).read_text(encoding="utf-8"))
    return Pins(told["pyodide"], told["engine"], tuple(Library(**each) for each in told["libraries"]))


def engine_in(folder: Path) -> Path:
    """Return Pyodide's folder, once each file in it is known to be the right one.

    Raises
    ------
    InputError
        ``offline-part-missing`` or ``offline-part-other``.
    """
    for name, sha256 in pins().engine.items():
        check(folder / name, sha256)
    return folder


def wheels_in(folder: Path) -> tuple[Path, ...]:
    """Return the wheels of a folder, once each is known to be the right one.

    Raises
    ------
    InputError
        ``offline-part-missing`` or ``offline-part-other``.
    """
    return tuple(check(folder / each.file, each.sha256) for each in pins().libraries)


def check(file: Path, sha256: str) -> Path:
    """Return a file, once it is known to be the right one.

    Raises
    ------
    InputError
        ``offline-part-missing`` or ``offline-part-other``.
    """
    if not file.is_file():
        raise InputError(message("offline-part-missing", name=file.name, folder=str(file.parent)))
    if hashlib.sha256(file.read_bytes()).hexdigest() != sha256:
        raise InputError(message("offline-part-other", name=file.name, folder=str(file.parent)))
    return file
