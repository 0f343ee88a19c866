"""visits, export, import as a person types them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from steadyhead.visit import load_visit
from tests.cli.terminal import Terminal
from tests.support import ROOT

EXAMPLE = ROOT / "examples" / "house-damp-cable.toml"
KEPT = ROOT / "tests" / "record" / "kept" / "visit_1.visit"


@pytest.fixture(autouse=True)
def _two_records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Stand in a folder of its own, with a record there."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STEADYHEAD_DATA", str(tmp_path / "record.db"))


def test_a_visit_goes_from_one_record_into_another_and_is_the_same(terminal: Terminal, tmp_path: Path) -> None:
    """The visit file that went in first; the second time nothing is new."""
    taken = terminal.run("import", str(EXAMPLE))
    assert (taken.code, taken.err) == (0, "")
    listed = json.loads(terminal.run("visits", "--json").out)["visits"]
    assert [each["readings"] for each in listed] == [len(load_visit(EXAMPLE).visit.readings)]
    assert terminal.run("export", "last", "farm.visit").code == 0
    assert load_visit(tmp_path / "farm.visit").visit == load_visit(EXAMPLE).visit
    for new in (True, False):
        told = json.loads(terminal.run("import", "farm.visit", "--data", "other.db", "--json").out)
        assert (told["visits"], told["new"] > 0) == ([listed[0]["id"]], new)
    assert terminal.run("export", listed[0]["id"], "again.visit", "--data", "other.db").code == 0
    assert (tmp_path / "again.visit").read_bytes() == (tmp_path / "farm.visit").read_bytes()


def test_visits_are_listed_and_found_by_what_was_said(terminal: Terminal) -> None:
    """The kept visit's own words."""
    assert "no visit" in terminal.run("visits").out
    terminal.run("import", str(KEPT))
    said = terminal.run("visits", "FLAT").out
    assert "proved-on-site, readings: 2" in said
    assert "House pump: Runs flat out" in said
    assert max(map(len, said.splitlines())) <= 80
    assert "no visit" in terminal.run("visits", "leaking").out


def test_what_cannot_be_done_is_refused_with_2(terminal: Terminal, tmp_path: Path) -> None:
    """Nothing is written over, nothing damaged is taken in."""
    (tmp_path / "taken.visit").write_bytes(b"mine")
    (tmp_path / "cut.visit").write_bytes(KEPT.read_bytes()[:-9])
    for words, said in (
        (("export", "last", "new.visit"), "no visit in this record"),
        (("export", "0" * 26, "new.visit"), "There is no visit"),
        (("export", "last", "new.zip"), ".visit"),
        (("export", "last", "taken.visit"), "Nothing is written over"),
        (("import", "gone.visit"), "There is no file"),
        (("import", "cut.visit"), "is damaged"),
    ):
        ended = terminal.run(*words)
        assert (ended.code, ended.out) == (2, "")
        assert said in ended.err
    assert (tmp_path / "taken.visit").read_bytes() == b"mine"
