"""Makes the phone's site: fetches, compiles, lays out, and puts the whole in its place at once.

Rules
-----
1. Everything is made in a folder beside the wanted one and renamed at the end: who stops it in the middle, or whose
   disk runs full, has what stood there before, and nothing half.
2. A folder that holds something else is never touched. One of an older site is replaced whole.
3. The app in the site is the one that makes it: this very package, as it is installed here.
4. The same app and the same pins make the same bytes, in whatever folder, at whatever time, on whatever machine.
"""

from __future__ import annotations

import errno
import hashlib
import json
import shutil
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.resources import as_file, files
from pathlib import Path
from tempfile import mkdtemp

from steadyhead import __version__
from steadyhead.errors import InputError
from steadyhead.messages import Message, message
from steadyhead.offline.build import LIBRARY, build
from steadyhead.offline.make.fetching import fetch_engine, fetch_wheels, run, tool
from steadyhead.offline.make.pinned import engine_in, wheels_in
from steadyhead.offline.make.size import Size, size_of
from steadyhead.web.phone_site import PROGRAM, SAID

FORMAT = 1
#: Hears what is being done.
Beginning = Callable[[Message], None]


@dataclass(frozen=True, slots=True)
class Wish:
    """What is to be made.

    Parameters
    ----------
    folder
        Where the site will stand.
    pyodide
        A folder with Pyodide's files; None fetches them.
    wheels
        A folder with the libraries' wheels; None fetches them.
    """

    folder: Path
    pyodide: Path | None = None
    wheels: Path | None = None


@dataclass(frozen=True, slots=True)
class Site:
    """What was made.

    Parameters
    ----------
    folder
        Where it stands.
    version
        The digest of its files, which the service worker carries.
    size
        How large it is.
    """

    folder: Path
    version: str
    size: Size


def make(wish: Wish, begin: Beginning) -> Site:
    """Make a site and return it.

    Parameters
    ----------
    wish
        Where, and of what.
    begin
        Hears each step as it begins.

    Raises
    ------
    InputError
        The folder holds something else, a tool or a part is missing, or the disk is full.
    """
    folder = wish.folder.absolute()
    free(folder)
    node = tool("node")
    with _beside(folder) as made:
        begin(message("offline-step-parts"))
        engine = engine_in(wish.pyodide.absolute() if wish.pyodide else fetch_engine(made / "engine"))
        wheels = wheels_in(wish.wheels.absolute() if wish.wheels else fetch_wheels(made / "wheels"))
        begin(message("offline-step-compile"))
        gather(made / "unpacked", wheels)
        pack(node, engine, made / "unpacked", made / "site.zip")
        begin(message("offline-step-lay-out"))
        built = build(engine, made / "site.zip", made / "site", made / LIBRARY)
        say_what_it_is(made / "site", built.version)
        size = size_of(made / "site")
        put(made / "site", folder, made / "before")
    return Site(folder, built.version, size)


def free(folder: Path) -> None:
    """Go on only where a site may be put.

    Raises
    ------
    InputError
        ``offline-folder-taken``: something else stands there.
    """
    empty = not folder.exists() or (folder.is_dir() and not any(folder.iterdir()))
    if not empty and not is_site(folder):
        raise InputError(message("offline-folder-taken", folder=str(folder)))


def is_site(folder: Path) -> bool:
    """Tell whether a folder is a site that was made here."""
    try:
        said = json.loads((folder / SAID).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return False
    return isinstance(said, dict) and said.get("program") == PROGRAM and (folder / "sw.js").is_file()


def gather(folder: Path, wheels: tuple[Path, ...]) -> None:
    """Unpack the wheels side by side, and put this very package beside them."""
    for wheel in wheels:
        with zipfile.ZipFile(wheel) as archive:
            archive.extractall(folder)
    with as_file(files(PROGRAM)) as own:
        shutil.copytree(own, folder / PROGRAM, ignore=shutil.ignore_patterns("__pycache__"))


def pack(node: str, engine: Path, unpacked: Path, archive: Path) -> None:
    """Have the app and its libraries compiled into one archive, and Python's own beside it, by who will read them."""
    with as_file(files("steadyhead.offline.make").joinpath("compile.mjs")) as script:
        run([node, str(script), str(engine), str(unpacked), str(archive)], archive.parent, "node")


def say_what_it_is(folder: Path, version: str) -> None:
    """Write down, in the site, what it is and the digest of each of its files."""
    there = sorted(file for file in folder.rglob("*") if file.is_file())
    digests = {f.relative_to(folder).as_posix(): hashlib.sha256(f.read_bytes()).hexdigest() for f in there}
    said = {"schema": FORMAT, "program": PROGRAM, "of": __version__, "version": version, "files": digests}
    (folder / SAID).write_text(json.dumps(said, indent=1) + "\n", encoding="utf-8", newline="\n")


def put(site: Path, folder: Path, aside: Path) -> None:
    """Put a site in its place, and what stood there aside; back again where that fails."""
    stood = folder.exists()
    if stood:
        folder.rename(aside)
    try:
        site.rename(folder)
    except OSError:
        if stood:
            aside.rename(folder)
        raise


@contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """Give a folder beside another one, and take it away again whatever happens."""
    made: Path | None = None
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        made = Path(mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
        yield made
    except OSError as error:
        full = error.errno in {errno.ENOSPC, errno.EDQUOT}
        id_ = "offline-disk-full" if full else "offline-cannot-write"
        raise InputError(message(id_, folder=str(folder), why=error.strerror or str(error))) from error
    finally:
        if made is not None:
            shutil.rmtree(made, ignore_errors=True)
