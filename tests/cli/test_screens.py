"""What the commands print: plain, at most 80 columns, in words."""

from __future__ import annotations

import json
import re

import pytest

from steadyhead.cli.check_box import check_box
from steadyhead.cli.diagnose_screen import diagnose_screen
from steadyhead.cli.trace_screen import trace_screen
from steadyhead.cli.visit_input import example_file
from steadyhead.diagnosis.diagnose import diagnosed
from steadyhead.diagnosis.trace import trace
from steadyhead.loop.faults import FAULTS
from steadyhead.loop.vocabulary import ARRANGEMENTS, INSPECTION_ITEMS
from steadyhead.published.catalogue import TABLES
from steadyhead.service.check_words import how_text
from steadyhead.service.diagnosis import speaker_of
from steadyhead.visit import parse_visit
from tests.cli.terminal import Terminal
from tests.service.answers import BRIEF, EXAMPLES, NAMES, answer, visit

QUICK = next(str(path) for path in EXAMPLES if path.stem == "booster-reversed-loop")
MINIMAL = b'schema = 1\n[sensor]\nsignal = "0..20 mA"\nrange = "0..10 bar"\n'
LISTS = [
    ["faults"],
    ["checks"],
    ["tables"],
    ["--help"],
    ["diagnose", "--help"],
    ["expect", QUICK],
    ["check-file", QUICK],
]


def plain(text: str) -> bool:
    """Tell whether a text has no escape codes."""
    return "\x1b" not in text


@pytest.mark.parametrize("wide", [80, 48])
@pytest.mark.parametrize("name", NAMES)
def test_a_diagnosis_is_plain_and_no_line_is_too_long(name: str, wide: int) -> None:
    """The width that is asked for; a box's lines all end together."""
    lines = diagnose_screen(visit(name), answer(name), speaker_of(visit(name)), wide)
    assert [line for line in lines if len(line) > wide or not plain(line)] == []


@pytest.mark.parametrize("name", NAMES)
def test_a_screen_has_words_for_everything(name: str) -> None:
    """No id with a point in it, no brace, no decimals of probability (the trade's own words)."""
    text = "\n".join(diagnose_screen(visit(name), answer(name), speaker_of(visit(name)), 80))
    assert not re.search(r"[{}]|(controller|sensor|wire)\.[a-z]|0\.\d+ probab|posterior", text)
    assert " leak" not in text.replace("water leak", "")


def test_the_cautions_stand_before_the_step() -> None:
    """Safety: every caution of a check is in its frame, in its order, and above what is to be done."""
    open_ones = [name for name in NAMES if answer(name).next_checks]
    assert open_ones
    for name in open_ones:
        speaker, check = speaker_of(visit(name)), answer(name).next_checks[0]
        lines = check_box(visit(name), answer(name), speaker, 80)
        text = " ".join(" ".join(line.strip("|") for line in lines).split())
        places = [text.index(speaker.say(told)) for told in check.cautions]
        step = text.index(how_text(check, visit(name), speaker))
        assert [*places, step] == sorted([*places, step])


def test_the_standing_line_stands_before_the_first_caution() -> None:
    """Local codes and a licensed person come first."""
    lines = diagnose_screen(visit(NAMES[0]), answer(NAMES[0]), speaker_of(visit(NAMES[0])), 80)
    text = "\n".join(lines)
    assert "licensed person" in text
    assert text.index("licensed person") < text.find("! ")


@pytest.mark.parametrize("words", LISTS, ids=lambda words: words[0])
def test_a_list_is_plain_and_no_line_is_too_long(terminal: Terminal, words: list[str]) -> None:
    """80 columns."""
    ended = terminal.run(*words)
    assert ended.code == 0
    assert [line for line in ended.out.splitlines() if len(line) > 80 or not plain(line)] == []


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.id)
def test_a_table_is_shown_whole_with_its_sources(terminal: Terminal, table: object) -> None:
    """The published catalogue."""
    found = next(each for each in TABLES if each is table)
    ended = terminal.run("tables", found.id)
    assert [line for line in ended.out.splitlines() if len(line) > 80] == []
    first = [f"{row[0]:g}" if isinstance(row[0], float) else str(row[0]) for row in found.rows]
    assert [cell for cell in first if cell not in ended.out] == []
    assert ended.out.count("Source:") == len(found.sources)


def test_the_lists_leave_nothing_out(terminal: Terminal) -> None:
    """The fault table and the vocabulary."""
    faults = json.loads(terminal.run("faults", "--json").out)
    assert {each["fault"] for each in faults} == {fault.id for fault in FAULTS}
    checks = json.loads(terminal.run("checks", "--json").out)
    ways = {way.id for way in ARRANGEMENTS.values() if not way.water_side}
    assert {each["id"] for each in checks} >= ways | set(INSPECTION_ITEMS)


def test_json_of_a_diagnosis_is_json_and_nothing_else(terminal: Terminal) -> None:
    """Parsed by the standard library."""
    ended = terminal.run("diagnose", QUICK, "--json")
    assert (ended.code, ended.err) == (0, "")
    assert json.loads(ended.out)["schema"] == 1


@pytest.mark.parametrize(
    "words",
    [["faults"], ["checks"], ["tables"], ["tables", "gauge-grades"], ["expect", QUICK], ["check-file", QUICK]],
    ids=" ".join,
)
def test_every_command_has_its_json(terminal: Terminal, words: list[str]) -> None:
    """Parsed by the standard library."""
    assert json.loads(terminal.run(*words, "--json").out)


def test_standard_input_is_a_file_too(terminal: Terminal) -> None:
    """The same answer as from the file itself, but for nothing."""
    with open(QUICK, "rb") as file:  # noqa: PTH123 - the bytes as they are
        data = file.read()
    assert terminal.run("expect", "-", stdin=data).out == terminal.run("expect", QUICK).out


def test_a_given_pressure_is_used(terminal: Terminal) -> None:
    """The figure given here."""
    assert "Healthy at 3.3 bar" in terminal.run("expect", "-", "--pressure", "3.3 bar", stdin=MINIMAL).out


def test_the_region_changes_the_words(terminal: Terminal) -> None:
    """Common practice: a transducer in North America, a sensor elsewhere."""
    assert "ransducer" in terminal.run("faults").out
    assert "ransducer" not in terminal.run("faults", "--region", "elsewhere").out


def test_without_a_command_an_example_is_worked(terminal: Terminal) -> None:
    """The example that every installation carries, and what to try next."""
    ended = terminal.run()
    assert ended.code == 0
    assert [line for line in ended.out.splitlines() if len(line) > 80 or not plain(line)] == []
    assert str(example_file().visit.site.name) in ended.out
    assert "steadyhead diagnose FILE" in ended.out


def test_a_file_cannot_speak_to_the_terminal(terminal: Terminal) -> None:
    """A site's name and a label with the sequence that clears a screen."""
    text = MINIMAL + b'[site]\nname = "a\\u001b[2Jb"\n[labels]\n"controller.signal" = "c\\u001b[2Jd"\n'
    assert plain(terminal.run("expect", "-", "--pressure", "3 bar", stdin=text).out)


@pytest.mark.parametrize("wide", [80, 48])
def test_the_steps_are_plain_and_no_line_is_too_long(wide: int) -> None:
    """The width that is asked for; every reading of the file is named."""
    visit_ = parse_visit(BRIEF).visit
    found = diagnosed(visit_)
    lines = trace_screen(visit_, trace(found), speaker_of(visit_), wide)
    assert [line for line in lines if len(line) > wide or not plain(line)] == []
    assert all(any(line.startswith(f"  {r.number}  ") for line in lines) for r in visit_.readings)


def test_the_steps_stand_below_the_answer(terminal: Terminal) -> None:
    """The answer's own screen, unchanged, at the top."""
    data = BRIEF.encode()
    answer_alone = terminal.run("diagnose", "-", stdin=data).out
    assert terminal.run("diagnose", "-", "--trace", stdin=data).out.startswith(answer_alone)
