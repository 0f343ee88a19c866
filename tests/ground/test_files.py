"""The checkout can be used on every system, and speaks of no machine but the reader's."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path, PurePosixPath

import pytest

from tests.support import ROOT, project_files

pytestmark = pytest.mark.laptop

#: Signs and names that Windows refuses, from its naming rules (from memory).
FORBIDDEN = re.compile(r'[<>:"\\|?*\x00-\x1f]')
RESERVED = {"con", "prn", "aux", "nul", *(f"com{n}" for n in range(1, 10)), *(f"lpt{n}" for n in range(1, 10))}

#: Package registries and folders of one machine; written in two parts, so that this file does not break its own rule.
PLACES = (
    "pypi" + ".org",
    "pythonhosted" + ".org",
    "npmjs" + ".org",
    "npmjs" + ".com",
    "deb.debian" + ".org",
    "unpkg" + ".com",
    "jsdelivr" + ".net",
    "/ro" + "ot/",
    "/wo" + "rk/",
    "/ho" + "me/",
    "/Use" + "rs/",
    "C:" + "\\",
    "/opt" + "/",
)
#: The home folder inside the browser's Python is no machine's.
ALLOWED = {"scripts/pyodide/run.mjs": "/ho" + "me/pyodide"}


def names() -> list[str]:
    """Return every file's name within the checkout."""
    return [file.relative_to(ROOT).as_posix() for file in project_files()]


def faults_of(name: str) -> list[str]:
    """Return the parts of a file's name that Windows cannot have."""
    parts = PurePosixPath(name).parts
    return [
        part
        for part in parts
        if FORBIDDEN.search(part) or part.endswith((" ", ".")) or part.split(".")[0].lower() in RESERVED
    ]


def text_of(file: Path) -> str | None:
    """Return a file's text, or None where it is none."""
    try:
        return file.read_bytes().decode("utf-8")
    except UnicodeDecodeError:
        return None


def test_every_name_can_stand_on_windows() -> None:
    """Windows' own rules, at the head of this file."""
    assert faults_of("a/con.txt") == ["con.txt"]
    assert {name: faults_of(name) for name in names() if faults_of(name)} == {}


def test_no_two_names_differ_only_in_case() -> None:
    """Windows and macOS take them for one file."""
    twins = [name for name, count in Counter(name.lower() for name in names()).items() if count > 1]
    assert twins == []


def test_no_path_is_too_long_for_windows() -> None:
    """260 signs in all (from memory), with 100 left for the folder that the checkout stands in."""
    assert [name for name in names() if len(name) > 160] == []


def test_no_file_names_a_package_registry_or_a_place_on_one_machine() -> None:
    """Every install goes through the reader's own client and its settings."""
    found = []
    for file in project_files():
        name = file.relative_to(ROOT).as_posix()
        text = (text_of(file) or "").replace(ALLOWED.get(name, "\0"), "")
        found += [f"{name}: {place}" for place in PLACES if place in text]
    assert found == []


def test_text_is_utf_8_with_unix_line_ends() -> None:
    """One kind of line end, so that a digest is the same on every system; pictures and archives are no text."""
    texts = {".py", ".md", ".toml", ".txt", ".json", ".po", ".pot", ".mjs", ".cir", ".css", ".html", ".js"}
    bad = [
        file.relative_to(ROOT).as_posix()
        for file in project_files(*texts)
        if "archive" not in file.parts and "broken" not in file.parts
        and ((text := text_of(file)) is None or "\r" in text)
    ]
    assert bad == []
