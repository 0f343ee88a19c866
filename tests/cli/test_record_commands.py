"""backup, restore, doctor as a person types them."""

from __future__ import annotations

import json
import re
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from steadyhead.bootstrap import open_home, place_named
from steadyhead.store.versions import TODAY
from tests.cli.terminal import Terminal
from tests.store.samples import WHOLE, filled

MANUAL = Path(__file__).resolve().parents[2] / "docs" / "store.md"


@pytest.fixture
def record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a filled record, which the environment names; the folder is the current one."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STEADYHEAD_DATA", str(tmp_path / "record.db"))
    home = open_home(place_named(None))
    filled(home.store)
    home.close()
    return tmp_path / "record.db"


def test_a_backup_is_written_told_and_restored(terminal: Terminal, record: Path) -> None:
    """The invented visit's counts."""
    done = terminal.run("backup", "monday.db")
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("Backed up and proved: monday.db,")
    assert f"{len(WHOLE)} facts, 1 photos" in done.out
    told = json.loads(terminal.run("restore", "monday.db", "--json").out)
    assert (told["file"], told["facts"], told["photos"]) == (str(record), len(WHOLE), 1)
    assert Path(told["aside"]).is_file()
    assert not re.search(r"[:]", Path(told["aside"]).name)


def test_the_commands_of_the_manual_run(terminal: Terminal, record: Path) -> None:
    """The block of docs/store.md that needs a record of one's own."""
    assert record.is_file()
    block = re.search(r"^```sh\n(.*?)^```$", MANUAL.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)
    assert block is not None
    for line in block[1].splitlines():
        assert terminal.run(*line.removeprefix("steadyhead ").split()).code == 0


def test_a_refusal_ends_with_2_and_says_what_would_do(terminal: Terminal, record: Path) -> None:
    """Exit codes of the commands; stdout stays empty."""
    record.with_name("taken.db").write_bytes(b"")
    for words, said in (
        (("backup", "taken.db"), "nothing is overwritten"),
        (("doctor", "--bundle", "record.db"), "nothing is overwritten"),
        (("doctor", "--bundle", "no/such/folder"), "cannot be written"),
        (("restore", "gone.db"), "There is no file"),
        (("restore", "taken.db"), "nothing was ever kept"),
        (("doctor", "--data", "none.db"), "no record at"),
        (("backup", "b.db", "--data", "none.db"), "no record at"),
    ):
        ended = terminal.run(*words)
        assert (ended.code, ended.out) == (2, "")
        assert said in ended.err.replace("\n", " ")
    assert not record.with_name("none.db").exists()


def test_the_doctor_finds_heals_and_writes_a_bundle(terminal: Terminal, record: Path) -> None:
    """A list that was broken on purpose: found, exit code 2; made anew, exit code 0."""
    assert terminal.run("doctor").code == 0
    with closing(sqlite3.connect(record)) as plain, plain:
        plain.execute("UPDATE visit_card SET readings = 99")
    found = terminal.run("doctor")
    assert found.code == 2
    assert "! lists say what the facts say" in found.out
    assert "doctor --rebuild" in found.out
    healed = terminal.run("doctor", "--rebuild", "--bundle", "bundle.json", "--json")
    told = json.loads(healed.out)
    assert (healed.code, told["sound"], told["rebuilt"], told["bundle"]) == (0, True, True, "bundle.json")
    assert json.loads(record.with_name("bundle.json").read_text(encoding="utf-8"))["rows"]["fact"] == len(WHOLE)


def test_a_newer_record_is_refused_in_words(terminal: Terminal, record: Path) -> None:
    """What was got, what it must be, what to do; exit code 2."""
    with closing(sqlite3.connect(record)) as plain, plain:
        plain.execute("UPDATE alembic_version SET version_num = '0099'")
    for words in (("doctor",), ("doctor", "--rebuild"), ("backup", "b.db")):
        ended = terminal.run(*words)
        assert (ended.code, ended.out) == (2, "")
        assert f"of version 99; this program reads versions up to {int(TODAY)}" in ended.err.replace("\n", " ")


@pytest.mark.parametrize("words", [("doctor",), ("backup", "b.db"), ("restore", "b.db"), ("doctor", "--rebuild")])
def test_a_page_has_80_columns(terminal: Terminal, record: Path, words: tuple[str, ...]) -> None:
    """Plain text of 80 columns; a path alone may be longer."""
    if words[0] == "restore":
        record.rename("b.db")
    lines = terminal.run(*words).out.splitlines()
    assert [line for line in lines if len(line) > 80 and " " in line.strip()] == []
