"""Runs inside Pyodide: packs the unpacked wheels into one archive that this very Python imports from without compiling.

Rules
-----
1. Modules are compiled here, by the Python that will read them, and marked as never to be checked against a source.
2. What only people, compilers or tests read is left out: sources, types, licences stay with the wheels.
3. Names are sorted and no file has a date, so that the same wheels make the same archive.
"""

from __future__ import annotations

import py_compile
import zipfile
from pathlib import Path

SITE = Path("/site")
ARCHIVE = Path("/build/site.zip")
COMPILED = Path("/compiled.pyc")
#: Endings that nothing asks for at run time.
LEFT_OUT = frozenset({".pyc", ".pyi", ".pyx", ".pxd", ".c", ".h", ".typed"})
#: Modules that read their own source, to import what they name only when it is used. Without it anyio imports all of
#: itself at once, and with that what a browser's Python lacks (concurrent.interpreters).
READ_THEMSELVES = frozenset({"anyio/__init__.py"})
#: Folders with the libraries' help for tests.
TESTING = "testing"
#: Of a wheel's own description only this is read at run time: its version, and what it plugs in where.
DESCRIPTION = frozenset({"METADATA", "entry_points.txt"})


def main() -> None:
    """Write the archive."""
    with zipfile.ZipFile(ARCHIVE, "w") as archive:
        for file in sorted(SITE.rglob("*")):
            if file.is_file() and wanted(file):
                add(archive, file)


def wanted(file: Path) -> bool:
    """Tell whether anything reads a file at run time."""
    if file.parent.suffix == ".dist-info":
        return file.name in DESCRIPTION
    inside = file.relative_to(SITE).parts
    return file.suffix not in LEFT_OUT and TESTING not in inside and not any(".dist-info" in part for part in inside)


def add(archive: zipfile.ZipFile, file: Path) -> None:
    """Add a file, compiled if it is a module."""
    name = file.relative_to(SITE).as_posix()
    if file.suffix == ".py":
        archive.writestr(zipfile.ZipInfo(f"{name}c"), compiled(file, name), zipfile.ZIP_DEFLATED, 9)
    if file.suffix != ".py" or name in READ_THEMSELVES:
        archive.writestr(zipfile.ZipInfo(name), file.read_bytes(), zipfile.ZIP_DEFLATED, 9)


def compiled(file: Path, name: str) -> bytes:
    """Return a module, compiled."""
    mode = py_compile.PycInvalidationMode.UNCHECKED_HASH
    py_compile.compile(str(file), str(COMPILED), name, doraise=True, invalidation_mode=mode)
    return COMPILED.read_bytes()
