"""A company's own figures on the command line: found, shown, used, learnt and taken back."""

from __future__ import annotations

import json
import os
import sys
from dataclasses import replace
from pathlib import Path, PurePosixPath, PureWindowsPath

import pytest

from steadyhead.cli.company_input import named_file, settings_file
from steadyhead.store.places import System
from tests.cli.terminal import Terminal
from tests.diagnosis.visits import BARE_HOUSE

OWN = 'schema = 1\n[families]\ndamp = { value = 60, reason = "wet pits" }\n[readings]\ndisplayed-pressure = "3 min"\n'
CLOSED = '[closed]\nfault = "vacuum"\nproved = true\nsecond_trip = true\n'


@pytest.fixture
def company(tmp_path: Path) -> Path:
    """Return a company's file."""
    path = tmp_path / "company.toml"
    path.write_text(OWN, encoding="utf-8")
    return path


@pytest.fixture
def visit(tmp_path: Path) -> Path:
    """Return a visit at which nothing was read."""
    path = tmp_path / "visit.toml"
    path.write_text(BARE_HOUSE, encoding="utf-8")
    return path


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a closed visit, an open one, a broken one, and a note."""
    top = tmp_path / "visits"
    (top / "june").mkdir(parents=True)
    (top / "june" / "closed.toml").write_text(BARE_HOUSE + CLOSED, encoding="utf-8")
    (top / "open.toml").write_text(BARE_HOUSE, encoding="utf-8")
    (top / "broken.toml").write_text("schema = 9\n", encoding="utf-8")
    (top / "note.txt").write_text("call back", encoding="utf-8")
    return top


@pytest.mark.parametrize(
    ("home", "expected"),
    [
        (System("linux", {}, PurePosixPath("/ann")), "/ann/.config/steadyhead/company.toml"),
        (System("linux", {"XDG_CONFIG_HOME": "/c"}, PurePosixPath("/ann")), "/c/steadyhead/company.toml"),
        (
            System("darwin", {}, PurePosixPath("/ann")),
            "/ann/Library/Application Support/steadyhead/company.toml",
        ),
        (
            System("win32", {"APPDATA": r"D:\ann\AppData\Roaming"}, PureWindowsPath(r"D:\ann")),
            r"D:\ann\AppData\Roaming\steadyhead\company.toml",
        ),
        (
            System("win32", {}, PureWindowsPath(r"D:\ann")),
            r"D:\ann\AppData\Roaming\steadyhead\company.toml",
        ),
    ],
)
def test_a_users_file_is_looked_for_where_each_system_keeps_settings(home: System, expected: str) -> None:
    """Where each system says that settings belong (from memory)."""
    assert str(settings_file(home)) == expected


def test_the_option_wins_over_the_environment() -> None:
    """The stated order; an empty variable names nothing."""
    home = System("linux", {"STEADYHEAD_COMPANY": "e.toml"}, PurePosixPath("/"))
    assert named_file("o.toml", home) == "o.toml"
    assert named_file(None, home) == "e.toml"
    assert named_file(None, replace(home, environ={"STEADYHEAD_COMPANY": ""})) is None


def test_a_diagnosis_uses_the_companys_figures(terminal: Terminal, company: Path, visit: Path) -> None:
    """Sixty calls of damp in the company's file: a wet joint leads before the first reading."""
    usual = json.loads(terminal.run("diagnose", str(visit), "--json").out)
    own = json.loads(terminal.run("diagnose", str(visit), "--json", "--company", str(company)).out)
    assert not usual["suspects"][0]["fault"].startswith("leakage-")
    assert own["suspects"][0]["fault"].startswith("leakage-")
    shown = {c["measure"]: c["minutes"] for c in own["next_checks"] if c["arrangement"] == "connected"}
    assert shown["displayed-pressure"] == 3.0


def test_the_environment_names_the_file_too(
    terminal: Terminal, company: Path, visit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same answer as with the option, and ``none`` brings the shipped figures back."""
    by_option = terminal.run("diagnose", str(visit), "--json", "--company", str(company)).out
    shipped = terminal.run("diagnose", str(visit), "--json").out
    monkeypatch.setenv("STEADYHEAD_COMPANY", str(company))
    assert terminal.run("diagnose", str(visit), "--json").out == by_option
    assert terminal.run("diagnose", str(visit), "--json", "--company", "none").out == shipped


def test_a_file_in_the_folder_of_settings_is_found(
    terminal: Terminal, visit: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The last place where it is looked for."""
    shipped = terminal.run("diagnose", str(visit), "--json").out
    monkeypatch.delenv("STEADYHEAD_COMPANY")
    for name in ("XDG_CONFIG_HOME", "APPDATA", "HOME", "USERPROFILE"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    assert terminal.run("diagnose", str(visit), "--json").out == shipped
    own = settings_file(System(sys.platform, os.environ, tmp_path / "home"))
    Path(own).parent.mkdir(parents=True)
    Path(own).write_text(OWN, encoding="utf-8")
    assert terminal.run("diagnose", str(visit), "--json").out != shipped


def test_a_company_file_that_was_named_must_be_there_and_right(terminal: Terminal, visit: Path, tmp_path: Path) -> None:
    """Exit code 2, stdout empty, each problem with its line."""
    missing = terminal.run("diagnose", str(visit), "--company", str(tmp_path / "no.toml"))
    assert (missing.code, missing.out) == (2, "")
    bad = tmp_path / "bad.toml"
    bad.write_text("schema = 1\n[families]\ndampp = 1\n", encoding="utf-8")
    refused = terminal.run("faults", "--company", str(bad))
    assert (refused.code, refused.out) == (2, "")
    assert "bad.toml:3: [families] dampp: " in refused.err
    assert "damp, " in refused.err


def test_the_lists_show_the_companys_figures(terminal: Terminal, company: Path) -> None:
    """The figures of the file."""
    faults = json.loads(terminal.run("faults", "--json", "--company", str(company)).out)
    assert faults[0]["family_per_100_calls"] == 60
    listed = json.loads(terminal.run("checks", "--json", "--company", str(company)).out)
    checks = {check["id"]: check["minutes"] for check in listed}
    assert checks["displayed-pressure"] == 3.0


def test_estimates_are_shown_with_the_companys_own_marked(terminal: Terminal, company: Path) -> None:
    """The figures of the file, and its reason in place of ours."""
    said = terminal.run("estimates", "--company", str(company)).out
    line = next(line for line in said.splitlines() if line.startswith("* damp"))
    assert line.split() == ["*", "damp", "6", "60", "wet", "pits"]
    rows = {(r["section"], r["row"]): r for r in json.loads(terminal.run("estimates", "--json").out)["rows"]}
    assert rows["families", "damp"] == {
        "section": "families", "row": "damp", "unit": "calls", "shipped": 6.0, "company": None, "used": 6.0,
        "reason": "water in plug or splice",
    }  # fmt: skip
    assert max(map(len, said.splitlines())) <= 80


def test_the_effect_on_a_visit_is_told_in_odds_and_in_first_checks(
    terminal: Terminal, company: Path, visit: Path
) -> None:
    """A dear look at the display no longer comes first; damp has grown."""
    found = json.loads(terminal.run("estimates", str(visit), "--json", "--company", str(company)).out)
    damp = next(each for each in found["suspects"] if each["fault"].startswith("leakage-"))
    assert damp["company"] > 3 * damp["shipped"]
    assert found["checks"]["shipped"][0]["measure"] == "displayed-pressure"
    assert found["checks"]["company"] != found["checks"]["shipped"]
    said = terminal.run("estimates", str(visit), "--company", str(company)).out
    assert "then 1 in " in said
    assert max(map(len, said.splitlines())) <= 80
    same = terminal.run("estimates", str(visit)).out
    assert "nobody's move" in same


def test_a_folder_is_learnt_shown_and_taken_back_to_the_byte(
    terminal: Terminal, company: Path, folder: Path
) -> None:
    """One proved vacuum on top of 100 calls; the file's bytes before and after."""
    before = company.read_bytes()
    dry = terminal.run("learn", str(folder), "--company", str(company), "--dry-run")
    assert "Nothing was written." in dry.out
    assert company.read_bytes() == before
    learnt = json.loads(terminal.run("learn", str(folder), "--company", str(company), "--json").out)
    assert (learnt["learnt"], learnt["counts"], learnt["written"]) == (1, 1.0, True)
    assert (len(learnt["not_closed"]), len(learnt["refused"])) == (1, 1)
    assert learnt["second_trips"] == {"needed": 1, "of": 1}
    moved = {row["row"]: row for row in learnt["rows"]}
    assert moved["vacuum"]["after"] > moved["vacuum"]["before"]
    after = company.read_bytes()
    assert after.startswith(before)
    again = terminal.run("learn", str(folder), "--company", str(company))
    assert "0 learnt, 1 known already" in again.out
    assert company.read_bytes() == after
    assert terminal.run("learn", "--undo", "--company", str(company)).code == 0
    assert company.read_bytes() == before
    assert sorted(path.name for path in company.parent.iterdir()) == ["company.toml", "visits"]


def test_lessons_are_taken_back_one_by_one_and_a_new_file_goes(
    terminal: Terminal, folder: Path, tmp_path: Path
) -> None:
    """Two lessons into a file that was not there."""
    path = tmp_path / "own" / "company.toml"
    assert terminal.run("learn", str(folder), "--company", str(path)).code == 0
    first = path.read_bytes()
    (folder / "second.toml").write_text(BARE_HOUSE + '[closed]\nfault = "none"\n', encoding="utf-8")
    assert terminal.run("learn", str(folder), "--company", str(path)).code == 0
    assert path.read_bytes() != first
    assert terminal.run("learn", "--undo", "--company", str(path)).code == 0
    assert path.read_bytes() == first
    undone = terminal.run("learn", "--undo", "--company", str(path)).out
    assert "gone again" in " ".join(undone.split())  # a folder's name may be as long as it likes
    assert list(path.parent.iterdir()) == []
    assert terminal.run("learn", "--undo", "--company", str(path)).code == 2


def test_a_file_that_somebody_edited_since_is_not_taken_back(
    terminal: Terminal, company: Path, folder: Path
) -> None:
    """Nobody's own words are lost."""
    terminal.run("learn", str(folder), "--company", str(company))
    company.write_text(company.read_text(encoding="utf-8") + "# mine\n", encoding="utf-8")
    edited = company.read_bytes()
    ended = terminal.run("learn", "--undo", "--company", str(company))
    assert (ended.code, company.read_bytes()) == (2, edited)


def test_what_to_load_is_shown_and_the_companys_own_chances_count(
    terminal: Terminal, visit: Path, tmp_path: Path
) -> None:
    """A company whose boards always fit; the table at 80 columns; the same in JSON."""
    said = terminal.run("pack", str(visit))
    assert said.code == 0
    assert "transducer, 0..100 psi, 0.5..4.5 V" in said.out
    assert max(map(len, said.out.splitlines())) <= 80
    own = tmp_path / "own.toml"
    own.write_text('schema = 1\n[fits]\nboard = 1\n[needs]\n"look-further/unforeseen" = 0\n', encoding="utf-8")
    usual = json.loads(terminal.run("pack", str(visit), "--json").out)
    better = json.loads(terminal.run("pack", str(visit), "--json", "--company", str(own)).out)
    assert better["second_trip"]["floor"] < usual["second_trip"]["floor"]
    assert better["second_trip"]["before"] <= usual["second_trip"]["before"]
    assert {"part", "which", "needed", "second_trip", "saves_minutes", "load"} == set(usual["parts"][0])
    assert usual["instruments"][0]["instrument"] == "multimeter"


def test_what_is_at_hand_need_not_be_loaded(terminal: Terminal, tmp_path: Path) -> None:
    """The instruments of the file."""
    path = tmp_path / "visit.toml"
    path.write_text(BARE_HOUSE + '[instruments]\nhave = ["multimeter", "spare-lead"]\n', encoding="utf-8")
    found = json.loads(terminal.run("pack", str(path), "--json").out)
    assert found["parts_at_hand"] == ["cable"]
    assert "multimeter" not in {each["instrument"] for each in found["instruments"]}
    assert "At hand already: multimeter, known-good lead." in " ".join(terminal.run("pack", str(path)).out.split())


def test_a_folder_that_cannot_be_made_is_told_in_one_line(terminal: Terminal, folder: Path, tmp_path: Path) -> None:
    """A file stands where the folder should be: exit code 2, no traceback."""
    (tmp_path / "in-the-way").write_text("", encoding="utf-8")
    ended = terminal.run("learn", str(folder), "--company", str(tmp_path / "in-the-way" / "company.toml"))
    assert (ended.code, ended.out) == (2, "")
    assert "cannot be written" in ended.err


@pytest.mark.parametrize("words", [("learn",), ("learn", "no-such-folder"), ("learn", ".", "--company", "none")])
def test_what_cannot_be_learnt_is_refused(terminal: Terminal, words: tuple[str, ...]) -> None:
    """Exit code 2, and nothing on stdout."""
    ended = terminal.run(*words)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err
