"""Runs inside Pyodide: packs the unpacked wheels into one archive that this very Python imports from without compiling.

Its own library, of which Pyodide brings the sources alone, is packed so as well: compiling them took a third of a first
start.

Rules
-----
1. Modules are compiled here, by the Python that will read them, and marked as never to be checked against a source.
2. What nothing reads at run time is left out (`left_out`); so are the docstrings of modules and functions. A class
   keeps a mark in its docstring's place: a dataclass without any works out a text for it. Checks (``assert``) stay.
   Of Python's own library all is kept, docstrings too: Pyodide reads some of its own.
3. Names are sorted and no file has a date or a place on a disk, so that the same wheels make the same archive.
"""

from __future__ import annotations

import ast
import marshal
import os
import zipfile
from collections.abc import Iterator
from importlib.util import MAGIC_NUMBER, source_hash
from pathlib import Path
from types import CodeType

from steadyhead.offline.make.left_out import REPLACED, wanted

#: What a compiled module says of itself: that a digest of its source stands in it, and that nobody need look (PEP 552).
UNCHECKED = (0b01).to_bytes(4, "little")
#: Modules that read their own source, to import what they name only when it is used. Without it anyio imports all of
#: itself at once, and with that what a browser's Python lacks (concurrent.interpreters).
READ_THEMSELVES = frozenset({"anyio/__init__.py"})
#: What stands where a class had its docstring.
MARK = "-"
HARDEST = 9


def pack(site: Path, archive: Path) -> None:
    """Write the archive.

    Parameters
    ----------
    site
        The unpacked wheels, side by side.
    archive
        What is written.
    """
    with zipfile.ZipFile(archive, "w") as into:
        for name, content in packed(site):
            into.writestr(zipfile.ZipInfo(name), content, zipfile.ZIP_DEFLATED, HARDEST)


def packed(site: Path) -> Iterator[tuple[str, bytes]]:
    """Give the name and the content of each file of the archive."""
    for file in sorted(site.rglob("*"), key=lambda file: file.relative_to(site).as_posix()):
        name = file.relative_to(site).as_posix()
        if file.is_file() and wanted(name):
            content = REPLACED.get(name) or file.read_bytes()
            if file.suffix == ".py":
                yield f"{name}c", compiled(content, name)
            if file.suffix != ".py" or name in READ_THEMSELVES:
                yield name, content


def pack_library(archive: Path, library: Path | None = None) -> None:
    """Write Python's own library anew, compiled.

    Parameters
    ----------
    archive
        What is written.
    library
        The archive with the sources; the one that this Python reads its own from where left out.
    """
    library = library or Path(os.__file__).parent
    with zipfile.ZipFile(library) as sources, zipfile.ZipFile(archive, "w") as into:
        for name in sorted(each for each in sources.namelist() if not each.endswith("/")):
            content = sources.read(name)
            if name.endswith(".py"):
                content = _file_of(compile(content, f"{library.as_posix()}/{name}", "exec", dont_inherit=True), content)
                name += "c"  # noqa: PLW2901 - the compiled one stands in its place
            into.writestr(zipfile.ZipInfo(name), content, zipfile.ZIP_DEFLATED, HARDEST)


def compiled(source: bytes, name: str) -> bytes:
    """Return a module, compiled, as a file that Python reads it from."""
    return _file_of(compile(without_docstrings(source), name, "exec", dont_inherit=True), source)


def _file_of(code: CodeType, source: bytes) -> bytes:
    return MAGIC_NUMBER + UNCHECKED + source_hash(source) + marshal.dumps(code)


def without_docstrings(source: bytes) -> ast.Module:
    """Return a module without what only people read.

    >>> print(ast.unparse(without_docstrings(b"def told(): 'It says so.'; return 1")))
    def told():
        return 1
    >>> print(ast.unparse(without_docstrings(b"def told(): 'It says so.'")))
    def told():
        pass
    """
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            _strip(node)
    return tree


def _strip(node: ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef) -> None:
    """Take the docstring out of one node."""
    match node.body:
        case [ast.Expr(value=ast.Constant(value=str()) as said) as first, *others]:
            if isinstance(node, ast.ClassDef):
                said.value = MARK
            elif others or isinstance(node, ast.Module):
                node.body = others
            else:
                node.body = [ast.copy_location(ast.Pass(), first)]
