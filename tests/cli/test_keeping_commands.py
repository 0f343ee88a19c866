"""repair, night, photo and birth as a person types them: what is kept is what the app's pages read."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.terminal import Terminal
from tests.documents.pictured import PNG
from tests.support import ROOT

EXAMPLE = ROOT / "examples" / "house-damp-cable.toml"
NIGHT = ("--start", "60 psi", "--end", "52 psi", "--evening", "22:00", "--morning", "06:30")


@pytest.fixture(autouse=True)
def _a_record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, terminal: Terminal) -> None:
    """Stand in a folder of its own, with a record there that has one visit."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STEADYHEAD_DATA", str(tmp_path / "record.db"))
    terminal.run("import", str(EXAMPLE))


def test_a_repair_stands_on_the_papers_with_its_part(terminal: Terminal) -> None:
    """The cautions stand before what is kept; the office reads the serial number."""
    ended = terminal.run("repair", "last", "repair-cable", "--place", "plug", "--part", "plug", "--serial", "K-4471")
    assert (ended.code, ended.err) == (0, "")
    assert ended.out.index("lock out and tag") < ended.out.index("kept with visit")
    assert "K-4471" in terminal.run("paper", "last", "office").out


def test_several_parts_are_one_repair_each_with_its_own_numbers(terminal: Terminal) -> None:
    """Two parts in one call: one action of the record, as the app's page keeps it; no old number known of the plug."""
    first, second = ("--serial", "T-9", "--old", "T-1"), ("--serial", "P-7", "--old", "")
    words = ("replace-sensor", "--part", "transducer", *first, "--part", "plug", *second)
    found = json.loads(terminal.run("repair", "last", *words, "--json").out)
    assert found["parts"] == [
        {"part": "transducer", "serial": "T-9", "old": "T-1"}, {"part": "plug", "serial": "P-7"},
    ]  # fmt: skip
    office = terminal.run("paper", "last", "office").out
    assert office.count("After reading 6.") == 1
    assert office.index("T-9") < office.index("P-7")


def test_a_repair_in_json_says_after_which_reading_it_was_made(terminal: Terminal) -> None:
    """The example has six readings."""
    found = json.loads(terminal.run("repair", "last", "replace-sensor", "--tugged", "--json").out)
    assert (found["remedy"], found["after"], found["tugged"]) == ("replace-sensor", 6, True)


def test_a_night_is_kept_and_judged_and_put_right(terminal: Terminal) -> None:
    """8 psi in eight and a half hours, no meter read; then 58 psi was meant: within what needs no leak."""
    terminal.run("end", "last", "night-pending")
    told = terminal.run("night", "last", *NIGHT, "--pump-off", "yes", "--waited", "yes")
    assert (told.code, told.err) == (0, "")
    assert "It fell by 8 psi in 8.5 hours" in told.out
    right = terminal.run("night", "last", *(*NIGHT[:3], "58 psi", *NIGHT[4:]), "--pump-off", "yes", "--waited", "yes")
    assert "It fell by 2 psi" in right.out
    again = terminal.run("night", "last", *NIGHT, "--pump-off", "yes", "--waited", "yes", "--json")
    assert json.loads(again.out)["verdict"] == "either"


def test_a_photo_stands_in_the_record_and_goes_with_the_visit(terminal: Terminal, tmp_path: Path) -> None:
    """The visit's own file, a zip, has its bytes' name in it."""
    (tmp_path / "plate.png").write_bytes(PNG)
    kept = terminal.run("photo", "last", "plate.png", "--shows", "plate", "--says", "the plate")
    assert (kept.code, kept.err) == (0, "")
    assert "the plate" in terminal.run("paper", "last", "next").out


def test_birth_readings_are_kept_and_shown(terminal: Terminal) -> None:
    """Two numbers, a bare figure with the usual unit."""
    assert "No numbers yet" in terminal.run("birth", "last").out
    kept = terminal.run("birth", "last", "set=50 psi", "supply=5.02")
    assert (kept.code, kept.err) == (0, "")
    shown = json.loads(terminal.run("birth", "last", "--json").out)
    assert shown["numbers"] == {"set": "50 psi", "supply": "5.02 V"}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("repair", "last", "replace-sensr"), "nearest first: replace-sensor"),
        (("repair", "last", "repair-cable", "--part", "a", "--part", "b", "--serial", "K"), "Of --serial there are 1"),
        (("repair", "last", "repair-cable", "--serial", "K", "--serial", "L"), "Of --part there are 0"),
        (("repair", "last", "repair-cable", *("--part", "joint") * 21), "it must be 20 at most"),
        (("repair", "last", "none"), "none is not one of the words"),
        (("repair", "01M8K0GD2T23ENQDN3K2DZ1E41", "repair-cable"), "01M8K0GD2T23ENQDN3K2DZ1E41"),
        (("night", "last", *NIGHT), "night-pending"),
        (("photo", "last", "nowhere.jpg"), "nowhere.jpg cannot be read"),
        (("photo", "last", str(EXAMPLE)), "photo"),
        (("birth", "last", "set:50"), "NUMBER=FIGURE"),
        (("birth", "last", "sett=50 psi"), "nearest first: set"),
        (("birth", "last", "set=50 gal"), "set:"),
    ],
)
def test_what_cannot_be_kept_is_refused_with_2(terminal: Terminal, words: tuple[str, ...], told: str) -> None:
    """Nothing on stdout, what was got and what would do on stderr."""
    ended = terminal.run(*words)
    assert (ended.code, ended.out) == (2, "")
    assert told in ended.err
