"""An edit of a visit file changes what it must and no other byte."""

from __future__ import annotations

from collections.abc import Callable
from difflib import ndiff
from pathlib import Path

import pytest

from steadyhead.errors import VisitFileError
from steadyhead.visit import VisitFile, parse_visit
from steadyhead.visit.record import Action, Figure

TEXT = (Path(__file__).parent / "edit_me.toml").read_text(encoding="utf-8")
GAUGE = {"measure": "gauge-pressure", "value": "51 psi"}


def _file(text: str = TEXT) -> VisitFile:
    return parse_visit(text)


def _changes(before: str, after: str) -> list[str]:
    return [line.rstrip() for line in ndiff(before.splitlines(), after.splitlines()) if line[0] in "+-"]


def test_a_reading_is_added_after_the_last_one_and_before_the_comment_of_the_next_table() -> None:
    """The added lines, and nothing else."""
    after = _file().with_reading(GAUGE)
    added = ["+", "+ [[reading]]", '+ measure = "gauge-pressure"', '+ value = "51 psi"']
    assert sorted(_changes(TEXT, after.text)) == added
    assert after.text.index('"51 psi"') < after.text.index("# The owner said no to this one.")
    assert after.visit.readings[:-1] == _file().visit.readings
    assert after.visit.readings[-1].number == 4


def test_the_file_that_was_edited_stays_as_it_was() -> None:
    """A visit file is frozen: an edit returns a new one."""
    file = _file()
    file.with_reading(GAUGE)
    assert file.text == TEXT


def test_windows_line_ends_stay_windows_line_ends() -> None:
    """Expected: the same edit of the same file, its line ends turned."""
    after = (
        _file(TEXT.replace("\n", "\r\n")).with_reading(GAUGE).without_reading(2).with_action({"remedy": "open-cock"})
    )
    same = _file().with_reading(GAUGE).without_reading(2).with_action({"remedy": "open-cock"})
    assert after.text == same.text.replace("\n", "\r\n")


def test_a_byte_order_mark_stays() -> None:
    """Expected: the same edit, with the mark before it."""
    edited = _file("\ufeff" + TEXT).with_reading(GAUGE).with_reading_replaced(1, GAUGE).without_reading(2)
    assert edited.text == "\ufeff" + _file().with_reading(GAUGE).with_reading_replaced(1, GAUGE).without_reading(2).text


def test_a_file_without_a_last_line_end_gets_one() -> None:
    """A reading added to it does not run into its last line."""
    after = parse_visit('schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar" # plate').with_reading(
        {"measure": "gauge-pressure", "value": "5 bar"}
    )
    assert after.text.endswith('# plate\n\n[[reading]]\nmeasure = "gauge-pressure"\nvalue = "5 bar"\n')


def test_no_line_that_is_only_a_comment_is_lost_with_a_reading() -> None:
    """Expected: the lines of its keys, and one blank line."""
    after = _file().without_reading(2)
    gone = _changes(TEXT, after.text)
    assert not [line for line in gone if line.startswith("- #")]
    assert '- value = "1.12 V"     # it did not move' in gone


def test_actions_stay_between_the_readings_they_stood_between() -> None:
    """The file has actions after readings 1 and 3; the second reading goes."""
    after = _file().without_reading(2)
    assert [action.after_reading for action in _file().visit.actions] == [1, 3]
    assert [action.after_reading for action in after.visit.actions] == [1, 2]
    assert [action.after_reading for action in _file().without_reading(1).visit.actions] == [0, 2]
    assert [action.after_reading for action in _file().without_reading(3).visit.actions] == [1, 2]


def test_a_reading_is_replaced_where_it_stands() -> None:
    """The comment behind the value stays; a new key comes after the old ones, one that is not wanted goes."""
    reading = {
        "measure": "volts",
        "red": "controller.signal",
        "black": "controller.common",
        "value": "1.21 V",
        "pressure": "50 psi",
    }
    after = _file().with_reading_replaced(2, reading)
    assert _changes(TEXT, after.text) == [
        '- arrangement = "connected"',
        '- value = "1.12 V"     # it did not move',
        '+ value = "1.21 V"     # it did not move',
        '+ pressure = "50 psi"',
    ]
    assert after.visit.readings[1].value == Figure(1.21, "V", 0.01)


def test_a_declined_check_goes_with_the_declined_ones() -> None:
    """Expected: after the one that is there, before the actions."""
    after = _file().with_declined({"measure": "inspection", "item": "cock", "why": 'no "cock" here'})
    assert after.visit.declined[1].why == 'no "cock" here'
    assert after.text.index('no \\"cock\\" here') < after.text.index("[[action]]")


def test_an_action_stands_after_the_last_reading_unless_said() -> None:
    """Expected: three readings."""
    assert _file().with_action({"remedy": "open-cock"}).visit.actions[-1] == Action(remedy="open-cock", after_reading=3)
    said = _file().with_action({"remedy": "open-cock", "after_reading": 0})
    assert said.visit.actions[-1].after_reading == 0


def test_a_reading_that_is_refused_is_refused_with_its_line() -> None:
    """The line is that of the new text."""
    with pytest.raises(VisitFileError) as caught:
        _file().with_reading({"measure": "gauge-pressure", "value": "48 V"})
    problem = caught.value.problems[0]
    assert (problem.key, problem.message.id) == ("[[reading]] 4 value", "unit-of-another-kind")
    assert problem.line == _file().with_reading(GAUGE).text.splitlines().index('value = "51 psi"') + 1


@pytest.mark.parametrize("number", [0, 4, -1])
def test_a_reading_that_is_not_there_cannot_be_changed(number: int) -> None:
    """The file has three readings."""
    with pytest.raises(VisitFileError) as caught:
        _file().without_reading(number)
    assert caught.value.problems[0].message.id == "reading-unknown"


def test_readings_in_one_inline_list_are_not_guessed_at() -> None:
    """TOML forbids a further ``[[reading]]`` after an inline list."""
    text = 'schema = 1\nreading = [{ measure = "gauge-pressure", value = "5 bar" }]\n'
    file = parse_visit(text + '[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n')
    row = {"measure": "gauge-pressure", "value": "4 bar"}
    edits: list[Callable[[], VisitFile]] = [
        lambda: file.with_reading(row),
        lambda: file.without_reading(1),
        lambda: file.with_reading_replaced(1, row),
    ]
    for edit in edits:
        with pytest.raises(VisitFileError) as caught:
            edit()
        assert caught.value.problems[0].message.id == "rows-written-inline"


def test_a_file_in_another_order_takes_a_reading_too() -> None:
    """The readings stand first, the sensor last; TOML allows a further row after it."""
    text = 'schema = 1\n[[reading]]\nmeasure = "gauge-pressure"\nvalue = "5 bar"\n\n# plate\n[sensor]\n'
    after = parse_visit(text + 'signal = "4..20 mA"\nrange = "0..10 bar"').with_reading(GAUGE)
    assert [reading.number for reading in after.visit.readings] == [1, 2]
    assert after.without_reading(1).visit.readings[0].value == after.visit.readings[1].value
