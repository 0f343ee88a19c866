"""The screen and the JSON of one suspect's reasons."""

from __future__ import annotations

import json
from functools import cache

import pytest

from steadyhead.cli.why_screen import why_screen
from steadyhead.diagnosis.reasons import Reasons
from steadyhead.errors import UnknownWordError
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.why import suspect_named, why, why_json
from steadyhead.visit import parse_visit
from steadyhead.words import Speaker
from tests.cli.terminal import Terminal
from tests.service.answers import BRIEF

VISIT = parse_visit(BRIEF).visit


@cache
def reasons() -> Reasons:
    """Return the reasons of a wrong setting, in a file of two readings."""
    return why(VISIT, "setting-range", speaker_of(VISIT))


@pytest.mark.parametrize("wide", [80, 48])
def test_the_screen_is_plain_and_names_every_reading(wide: int) -> None:
    """The width, no escape codes, no id of a point; two readings in the file."""
    lines = why_screen(VISIT, reasons(), speaker_of(VISIT), wide)
    text = "\n".join(lines)
    assert [line for line in lines if len(line) > wide or "\x1b" in line] == []
    assert [number for number in range(1, 3) if f"\n  {number}  " not in text] == []
    assert "controller." not in text


def test_json_has_a_reason_for_every_reading() -> None:
    """The file has two readings; the JSON is plain JSON."""
    found = why_json(reasons(), current=False)
    assert json.loads(json.dumps(found, allow_nan=False)) == found
    assert [reason["reading"] for reason in found["readings"]] == [1, 2]
    assert (found["fault"], found["remedy"]) == ("setting-range", "correct-setting")
    assert 0.0 < found["before"] < 1.0


def test_the_command_prints_the_same(terminal: Terminal) -> None:
    """What the use case returns, found by the suspect's name."""
    name = "Transducer range set wrong in the drive"
    ended = terminal.run("why", "-", name, "--json", "--company", "none", stdin=BRIEF.encode())
    assert (ended.code, ended.err) == (0, "")
    assert json.loads(ended.out) == why_json(reasons(), current=True)


@pytest.mark.parametrize(
    ("typed", "fault"),
    [
        ("sensor-low", "sensor-low"),
        ("Sensor Low", "sensor-low"),
        ("transducer stuck low", "sensor-low"),
        ("sensor-low + open-signal", "open-signal+sensor-low"),
    ],
)
def test_a_suspect_goes_by_its_id_or_its_name_and_a_pair_in_any_order(typed: str, fault: str) -> None:
    """The ids sorted, as answers have them."""
    known = ("sensor-low", "open-signal", "open-signal+sensor-low")
    assert suspect_named(typed, known, Speaker()) == fault


def test_a_suspect_that_does_not_exist_is_refused_with_the_nearest(terminal: Terminal) -> None:
    """The exit code of input errors, and the word that was meant."""
    with pytest.raises(UnknownWordError, match="suspect-unknown"):
        suspect_named("nonsense", ("sensor-low",), Speaker())
    ended = terminal.run("why", "-", "revresed", stdin=BRIEF.encode())
    assert (ended.code, ended.out) == (2, "")
    assert "Nearest: reversed" in ended.err


def test_without_a_suspect_it_says_what_each_reading_ruled_out(terminal: Terminal) -> None:
    """A display below zero at 4 bar rules out a healthy loop; the JSON is the course alone."""
    data = BRIEF.encode()
    said = terminal.run("why", "-", stdin=data)
    assert (said.code, said.err) == (0, "")
    assert [line for line in said.out.splitlines() if len(line) > 80] == []
    found = json.loads(terminal.run("why", "-", "--json", stdin=data).out)
    assert [stage["reading"] for stage in found["course"]] == [0, 1, 2]
    assert "none" in found["course"][2]["ruled_out"]
