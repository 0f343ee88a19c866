"""What a browser reads of the app: compiled, without what only people read, the same bytes from the same files."""

from __future__ import annotations

import io
import marshal
import os
import zipfile
from pathlib import Path
from types import CodeType

import pytest

from steadyhead.offline.make.archive import compiled, pack, pack_library
from steadyhead.offline.make.left_out import REPLACED, wanted

SOURCE = '''"""Says."""
from dataclasses import dataclass
@dataclass
class Point:
    """A point."""
    x: float
def doubled(point):
    """Double it."""
    assert point.x > 0, "not there"
    return 2 * point.x
'''


def site(folder: Path, stamp: int) -> Path:
    """Write a package and a library as two installers would leave them, at different times."""
    for name, text in {
        "steadyhead/__init__.py": SOURCE,
        "steadyhead/page.css": "p { }",
        "steadyhead/py.typed": "",
        "steadyhead/cli/app.py": "import typer",
        "steadyhead/__pycache__/x.pyc": "x",
        "alembic/ddl/__init__.py": "from . import mssql",
        "lib-1.0.dist-info/METADATA": "Version: 1.0",
        "lib-1.0.dist-info/RECORD": "",
        "lib-1.0.data/data/lib.1": "a manual",
    }.items():
        file = folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
        os.utime(file, (stamp, stamp))
    return folder


def packed(folder: Path, stamp: int) -> bytes:
    """Return an archive of a site that is made for it."""
    pack(site(folder / "site", stamp), folder / "site.zip")
    return (folder / "site.zip").read_bytes()


def run(content: bytes) -> dict[str, object]:
    """Run a compiled module and return what it defines."""
    code = marshal.loads(content[16:])  # noqa: S302 - written a line above
    assert isinstance(code, CodeType)
    names: dict[str, object] = {"__name__": "made"}
    exec(code, names)  # noqa: S102 - the source stands in this file
    return names


@pytest.fixture(autouse=True)
def _a_module_of_that_name(monkeypatch: pytest.MonkeyPatch) -> None:
    """A dataclass looks up the module that it stands in."""
    monkeypatch.setitem(__import__("sys").modules, "made", pytest)


def test_two_folders_at_two_times_make_the_same_bytes(tmp_path: Path) -> None:
    """A phone that has a build fetches it again only where something in it changed."""
    assert packed(tmp_path / "a", 10**9) == packed(tmp_path / "another folder", 2 * 10**9)


def test_only_what_a_browser_reads_is_packed(tmp_path: Path) -> None:
    """No terminal, no test help, no manual page; a library's version stays (importlib.metadata reads it)."""
    archive = zipfile.ZipFile(io.BytesIO(packed(tmp_path, 10**9)))
    assert archive.namelist() == [
        "alembic/ddl/__init__.pyc", "lib-1.0.dist-info/METADATA", "steadyhead/__init__.pyc", "steadyhead/page.css",
    ]  # fmt: skip


def test_a_compiled_module_does_the_same_without_its_docstrings() -> None:
    """PEP 552: an unchecked digest of the source. A check that fails still fails, a class keeps a mark."""
    content = compiled(SOURCE.encode(), "steadyhead/__init__.py")
    assert content[4:8] == b"\1\0\0\0"
    names = run(content)
    point, doubled = names["Point"], names["doubled"]
    assert callable(point)
    assert callable(doubled)
    assert (names.get("__doc__"), doubled.__doc__, point.__doc__) == (None, None, "-")
    assert doubled(point(2.0)) == 4.0
    with pytest.raises(AssertionError, match="not there"):
        doubled(point(-1.0))


def test_pythons_own_library_is_packed_compiled_with_all_else_as_it_was(tmp_path: Path) -> None:
    """No source is left that a start would compile; its docstrings stay, and each module says where it stood."""
    with zipfile.ZipFile(tmp_path / "library.zip", "w") as made:
        for name, text in {"made.py": SOURCE, "email/": "", "email/rules.txt": "text"}.items():
            made.writestr(name, text)
    pack_library(tmp_path / "compiled.zip", tmp_path / "library.zip")
    with zipfile.ZipFile(tmp_path / "compiled.zip") as packed_:
        assert packed_.namelist() == ["email/rules.txt", "made.pyc"]
        names = run(packed_.read("made.pyc"))
        assert f"{(tmp_path / 'library.zip').as_posix()}/made.py".encode() in packed_.read("made.pyc")
    doubled = names["doubled"]
    assert (names["__doc__"], doubled.__doc__) == ("Says.", "Double it.")


def test_no_place_of_this_machine_stands_in_a_compiled_module(tmp_path: Path) -> None:
    """What a failure shows is the name within the archive."""
    assert str(tmp_path).encode() not in packed(tmp_path, 10**9)
    assert b"steadyhead/__init__.py" in compiled(SOURCE.encode(), "steadyhead/__init__.py")


def test_what_is_replaced_names_nothing_that_is_left_out() -> None:
    """Alembic's other dialects are not there, and so nobody may import them."""
    for name, text in REPLACED.items():
        folder = name.rpartition("/")[0]
        imported = [line.split()[-1] for line in text.decode().splitlines() if line.startswith("from . import")]
        assert wanted(name)
        assert [each for each in imported if not wanted(f"{folder}/{each}.py")] == []
