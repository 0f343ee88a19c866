"""Lays out the static folder that any web server can hand a phone once, and that then needs none.

Rules
-----
1. The folder holds the shell's pages and scripts, Pyodide as it is published but for Python's own library, which is
   compiled, and one archive with the app.
2. Every file is named in the service worker with its own digest, and that keeps all of them or none; the version there
   is the digest of them all, so that files of two builds are never mixed.
3. Nothing is fetched or compiled here: who calls has Pyodide unpacked and the archive made (scripts/offline.py).
"""

from __future__ import annotations

import hashlib
import json
import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

#: What a browser needs of Pyodide's folder.
PYODIDE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
#: Which of these is Python's own library.
LIBRARY = "python_stdlib.zip"
WORKER = "sw.js"
#: What stands in the service worker in place of the version and of the list of files.
VERSION, LIST = '"@VERSION@"', '["@FILES@"]'


@dataclass(frozen=True, slots=True)
class Built:
    """A folder that was laid out.

    Parameters
    ----------
    version
        The digest of its files.
    sizes
        Size of each file [bytes], by its address.
    """

    version: str
    sizes: Mapping[str, int]


def build(pyodide: Path, archive: Path, folder: Path, library: Path | None = None) -> Built:
    """Lay the folder out anew.

    Parameters
    ----------
    pyodide
        Pyodide's folder, unpacked.
    archive
        The app and its libraries, compiled by that very Pyodide.
    folder
        What is made; what stood there is removed.
    library
        Python's own library, compiled by that very Pyodide; the one in Pyodide's folder where left out.
    """
    shutil.rmtree(folder, ignore_errors=True)
    contents = dict(_contents(pyodide, archive))
    if library is not None:
        contents[f"/engine/{LIBRARY}"] = library.read_bytes()
    worker = contents.pop(f"/{WORKER}").decode()
    version = digest(contents)
    listed = json.dumps({each: hashlib.sha256(contents[each]).hexdigest() for each in sorted(contents)}, indent=2)
    contents[f"/{WORKER}"] = worker.replace(VERSION, json.dumps(version)).replace(LIST, listed).encode()
    for address, content in contents.items():
        file = folder.joinpath(*address.strip("/").split("/"))
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
    return Built(version, {address: len(contents[address]) for address in sorted(contents)})


def digest(contents: Mapping[str, bytes]) -> str:
    """Return what tells one set of files from every other.

    >>> digest({"/a": b"1", "/b": b"2"}) == digest({"/b": b"2", "/a": b"1"})
    True
    >>> digest({"/a": b"1"}) == digest({"/a": b"2"})
    False
    """
    lines = (f"{hashlib.sha256(contents[address]).hexdigest()} {address}\n" for address in sorted(contents))
    return hashlib.sha256("".join(lines).encode()).hexdigest()[:16]


def _contents(pyodide: Path, archive: Path) -> Iterator[tuple[str, bytes]]:
    """Give every file's address and content."""
    yield from _walked(files("steadyhead.offline") / "site", "")
    yield "/shell/icon.svg", (files("steadyhead.web") / "static" / "icon.svg").read_bytes()
    for name in PYODIDE:
        yield f"/engine/{name}", (pyodide / name).read_bytes()
    yield "/engine/site.zip", archive.read_bytes()


def _walked(folder: Traversable, address: str) -> Iterator[tuple[str, bytes]]:
    for each in folder.iterdir():
        if each.is_dir():
            yield from _walked(each, f"{address}/{each.name}")
        else:
            yield f"{address}/{each.name}", each.read_bytes()
