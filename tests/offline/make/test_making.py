"""A site is made whole or not at all, of the pinned parts alone, and the same bytes wherever and whenever."""

from __future__ import annotations

import errno
import hashlib
import json
import re
import sys
import zipfile
from importlib.metadata import requires
from pathlib import Path

import pytest

from steadyhead.errors import InputError
from steadyhead.messages import Message, message
from steadyhead.offline.build import LIBRARY
from steadyhead.offline.make import fetching, making, pinned
from steadyhead.offline.make.making import Wish, is_site, make
from steadyhead.offline.make.size import MOST_MB, size_of
from steadyhead.web.phone_site import read_site
from tests.support import ROOT

pytestmark = pytest.mark.laptop

#: What a browser needs not: the command line, its typesetting, the server.
NOT_IN_A_BROWSER = {"typer", "uvicorn"}


def digest(file: Path) -> str:
    """Return a file's SHA-256."""
    return hashlib.sha256(file.read_bytes()).hexdigest()


@pytest.fixture
def wish(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Wish:
    """Return a wish whose parts are small stand-ins, pinned as they are; compiling is copying a name."""
    engine, wheels = tmp_path / "engine", tmp_path / "wheels"
    engine.mkdir()
    wheels.mkdir()
    for name in pinned.pins().engine:
        (engine / name).write_text(name, encoding="utf-8")
    with zipfile.ZipFile(wheels / "lib-1.whl", "w") as archive:
        archive.writestr("lib/__init__.py", "")
    files = {file.name: digest(file) for file in engine.iterdir()}
    library = pinned.Library("lib", "1", "lib-1.whl", digest(wheels / "lib-1.whl"))
    monkeypatch.setattr(pinned, "pins", lambda: pinned.Pins("1", files, (library,)))
    monkeypatch.setattr(making, "tool", lambda name: name)
    monkeypatch.setattr(making, "pack", packed)
    return Wish(tmp_path / "out" / "phone", engine, wheels)


def packed(_node: str, _engine: Path, unpacked: Path, archive: Path) -> None:
    """Write down what would be compiled, in place of the archive."""
    names = sorted(file.relative_to(unpacked).as_posix() for file in unpacked.rglob("*.py"))
    assert {"lib/__init__.py", "steadyhead/__init__.py"} <= set(names)
    archive.write_text("\n".join(names), encoding="utf-8")
    archive.with_name(LIBRARY).write_text("compiled", encoding="utf-8")


def unheard(_: Message) -> None:
    """Hear nothing of the steps."""


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder."""
    return {f.relative_to(folder).as_posix(): f.read_bytes() for f in folder.rglob("*") if f.is_file()}


def refused(wish: Wish) -> str:
    """Return the id of what a wish is refused with."""
    with pytest.raises(InputError) as error:
        make(wish, unheard)
    return error.value.message.id


def test_a_site_that_was_made_can_be_handed_out_and_nothing_is_left_beside_it(wish: Wish) -> None:
    """Every file of it is in its own list, with its digest (SHA-256); Python's own library is the compiled one."""
    made = make(wish, unheard)
    assert (wish.folder / "engine" / LIBRARY).read_text(encoding="utf-8") == "compiled"
    site = read_site(wish.folder)
    assert set(site.files) == set(contents(wish.folder)) - {"build.json"}
    assert made.version in site.files["sw.js"].decode()
    assert [each.name for each in wish.folder.parent.iterdir()] == ["phone"]


def test_two_folders_get_the_same_bytes(wish: Wish, tmp_path: Path) -> None:
    """Nothing in a site tells where or when it was made."""
    make(wish, unheard)
    make(Wish(tmp_path / "a deeper folder" / "b", wish.pyodide, wish.wheels), unheard)
    assert contents(wish.folder) == contents(tmp_path / "a deeper folder" / "b")


def test_an_older_site_is_replaced_whole(wish: Wish) -> None:
    """What was in it and is no more goes."""
    make(wish, unheard)
    (wish.folder / "old.js").write_text("", encoding="utf-8")
    make(wish, unheard)
    assert "old.js" not in contents(wish.folder)


def test_a_folder_with_something_else_in_it_is_left_alone(wish: Wish) -> None:
    """Somebody's photos are not a site."""
    wish.folder.mkdir(parents=True)
    (wish.folder / "photo.jpg").write_bytes(b"1")
    assert refused(wish) == "offline-folder-taken"
    assert contents(wish.folder) == {"photo.jpg": b"1"}
    assert refused(Wish(wish.folder / "photo.jpg", wish.pyodide, wish.wheels)) == "offline-folder-taken"


@pytest.mark.parametrize("stops", [KeyboardInterrupt(), OSError(errno.ENOSPC, "No space left on device")])
def test_who_is_stopped_in_the_middle_keeps_what_stood_there(
    wish: Wish, monkeypatch: pytest.MonkeyPatch, stops: BaseException
) -> None:
    """Ctrl-C and a full disk, while it compiles: the older site is as it was, and nothing lies beside it."""
    make(wish, unheard)
    before = contents(wish.folder)

    def stopped(*_: object) -> None:
        raise stops

    monkeypatch.setattr(making, "pack", stopped)
    with pytest.raises((KeyboardInterrupt, InputError)) as error:
        make(wish, unheard)
    if isinstance(error.value, InputError):
        assert error.value.message.id == "offline-disk-full"
    assert contents(wish.folder) == before
    assert [each.name for each in wish.folder.parent.iterdir()] == ["phone"]


def test_a_part_that_is_missing_or_another_is_named(wish: Wish) -> None:
    """One byte more is another file; nothing is made of it."""
    assert wish.wheels is not None
    wheel = wish.wheels / "lib-1.whl"
    wheel.write_bytes(wheel.read_bytes() + b" ")
    assert refused(wish) == "offline-part-other"
    wheel.unlink()
    assert refused(wish) == "offline-part-missing"
    assert not wish.folder.exists()


def test_without_node_it_is_said_before_anything_is_done(
    wish: Wish, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A path on which no program stands."""
    monkeypatch.setattr(making, "tool", fetching.tool)
    monkeypatch.setenv("PATH", str(tmp_path))
    assert refused(wish) == "offline-no-tool"
    assert not wish.folder.parent.exists()


def test_what_a_tool_says_as_it_fails_is_passed_on(tmp_path: Path) -> None:
    """A program that ends with an error, and what it says of that."""
    words = [sys.executable, "-c", "import sys; sys.exit('no way there')"]
    with pytest.raises(InputError) as error:
        fetching.run(words, tmp_path, "npm")
    assert error.value.message == message("offline-tool-failed", name="npm", code=1, said="no way there")


def test_the_pins_are_the_locked_versions() -> None:
    """constraints.txt, and the Pyodide that the tests run in (scripts/pyodide/package.json)."""
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    locked = {normal(name): version for name, _, version in (line.partition("==") for line in lines) if version}
    assert {each.name: each.version for each in pinned.pins().libraries}.items() <= locked.items()
    manifest = json.loads((ROOT / "scripts" / "pyodide" / "package.json").read_text(encoding="utf-8"))
    assert pinned.pins().pyodide == manifest["devDependencies"]["pyodide"]


def test_all_that_the_app_needs_is_pinned() -> None:
    """The libraries that the package asks for, down to the last, but for a terminal's and a server's."""
    needed, asked = {"steadyhead"}, ["steadyhead"]
    while asked:
        for line in requires(asked.pop()) or ():
            name, _, when = line.partition(";")
            name = normal(re.split(r"[^\w.-]", name.strip())[0])
            if not when and name not in needed | NOT_IN_A_BROWSER:
                needed.add(name)
                asked.append(name)
    assert needed - {"steadyhead"} <= {each.name for each in pinned.pins().libraries}


def normal(name: str) -> str:
    """Return a library's name as registries compare it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def test_a_download_is_measured_as_it_is_sent(tmp_path: Path) -> None:
    """A million equal signs are next to nothing; what is compressed already stays as large as it is."""
    (tmp_path / "a.js").write_bytes(b"a" * 1_000_000)
    (tmp_path / "b.zip").write_bytes(bytes(range(256)))
    size = size_of(tmp_path)
    assert size.bytes == {"a.js": 1_000_000, "b.zip": 256}
    assert size.sent["a.js"] < 2000
    assert size.sent["b.zip"] == 256
    assert size.sent_mb < MOST_MB
    assert not is_site(tmp_path)
