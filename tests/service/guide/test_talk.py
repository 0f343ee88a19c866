"""The guide hears what a technician types, keeps it at once, and loses nothing."""

from __future__ import annotations

import tomllib
from dataclasses import replace

import pytest

from steadyhead.diagnosis.checks import standing
from steadyhead.service.guide.rows import declined_rows, reading_row
from steadyhead.service.guide.state import Doubt, Take
from steadyhead.service.guide.thinking import ask_next
from tests.service.guide.talks import PLATE, talk

#: The healthy three-wire line at 48 psi: 0.5 + 48/100 x 4 = 2.42 V, and 48 psi on the display.
HEALTHY = ("48", "48.0")


def test_a_new_file_needs_two_plate_figures_and_no_more() -> None:
    """The visit file's own rule: signal and range are required, the rest is not."""
    begun = talk(None).says("1", "100 psi")
    assert begun.disk is not None
    assert begun.visit.sensor.range.high == pytest.approx(100 * 6894.757293168361)
    assert "guide-asks-complaint" in begun.ids
    assert begun.says("", "").asked == "gauge-pressure"


@pytest.mark.usefixtures("plate_alone")
def test_the_complaint_is_kept_in_the_technicians_words() -> None:
    """The words that were typed."""
    assert talk(None).says("4-20 mA", "0-10 bar", 'It "hunts"').visit.complaint.text == 'It "hunts"'


@pytest.mark.usefixtures("plate_alone")
def test_what_came_before_is_kept_in_the_words_of_the_file() -> None:
    """The keys of the complaint; a line without such a word is asked again."""
    begun = talk(None).says("1", "100 psi", "")
    kept = begun.says("suddenly, after lightning, all night").visit.complaint
    assert (kept.since, kept.when, kept.changed) == ("sudden", "night", ("storm",))
    assert "guide-no-history" in begun.says("beats me").ids
    assert begun.says("beats me", "").visit.complaint.changed == ()


@pytest.mark.usefixtures("plate_alone")
def test_nothing_is_kept_before_signal_and_range_are_known() -> None:
    """A signal alone is no visit file."""
    assert talk(None).says("1", None).disk is None


@pytest.mark.parametrize("wrong", ["", "banana", "9", "100 psi", "20..4 mA"])
def test_a_signal_that_is_none_is_asked_again(wrong: str) -> None:
    """The opening goes on afterwards as if nothing had been typed."""
    begun = talk(None).says(wrong)
    assert begun.disk is None
    assert begun.says("2", "10 bar").visit.sensor.signal.kind == "current"


def test_gauge_and_display_come_first() -> None:
    """The trade: first what can be seen with the covers on."""
    begun = talk()
    assert begun.asked == "gauge-pressure"
    assert begun.says("48").asked == "displayed-pressure"
    stormy = PLATE + '\n[complaint]\nsince = "sudden"\nchanged = ["storm"]\n'
    assert talk(stormy).says("48").asked == "displayed-pressure"


def test_a_bare_figure_has_the_unit_that_was_asked_for() -> None:
    """48 psi is 330,948.35 Pa (one psi is 6,894.757 Pa)."""
    kept = talk().says("48")
    assert kept.values == ["48 psi"]
    assert kept.visit.readings[0].value.value == pytest.approx(48 * 6894.757293168361)  # type: ignore[union-attr]


@pytest.mark.usefixtures("plate_alone")
def test_every_answer_is_in_the_file_at_once_and_comments_stay() -> None:
    """The text of the plate, byte for byte, stands at the head of what is on the disk."""
    kept = talk().says("48", "16.8")
    assert kept.disk is not None
    assert kept.disk.startswith(PLATE)
    assert [row["value"] for row in tomllib.loads(kept.disk)["reading"]] == ["48 psi", "16.8 psi"]


def test_a_guide_that_was_cut_off_goes_on_where_it_stood() -> None:
    """The same question after the same file, whatever the sitting."""
    first = talk().says("48", "16.8", "can't")
    second = talk(first.disk)
    assert second.guide.asks == first.guide.asks
    assert second.says("1.12").values == ["48 psi", "16.8 psi", "1.12 V"]


@pytest.mark.parametrize("wrong", ["banana", "4.8 V", "", "48 psi psi", "--", "1,2,3"])
def test_an_entry_that_cannot_be_read_changes_nothing_and_is_asked_again(wrong: str) -> None:
    """The file and the question are as they were."""
    begun = talk()
    after = begun.says(wrong)
    assert after.disk == PLATE
    assert after.guide.asks == begun.guide.asks
    assert len(after.turns[-1].said) >= 1


def test_a_word_that_is_nearly_a_command_is_named() -> None:
    """The list of commands."""
    assert "guide-perhaps-command" in talk().says("hlep").ids


@pytest.mark.usefixtures("plate_alone")
def test_a_figure_ten_times_off_is_questioned_and_the_right_one_kept_on_yes() -> None:
    """480 psi on a 0..100 psi system; a tenth of it is a pressure that it can have."""
    asked = talk().says("480")
    assert isinstance(asked.guide.asks, Doubt)
    assert asked.disk == PLATE
    assert asked.says("yes").values == ["48 psi"]
    assert asked.says("47").values == ["47 psi"]


@pytest.mark.parametrize("word", ["no", "480", "480 psi"])
@pytest.mark.usefixtures("plate_alone")
def test_an_odd_figure_that_is_confirmed_stands_and_is_not_argued_with_twice(word: str) -> None:
    """The technician's word."""
    kept = talk().says("480", word)
    assert kept.values == ["480 psi"]
    assert kept.asked != "gauge-pressure"
    assert "gauge-pressure" in {question.measure for question in kept.guide.trusted}


def test_a_check_whose_odd_figure_was_confirmed_is_not_offered_again() -> None:
    """The next of the list comes instead."""
    begun = talk().says("48").guide
    assert isinstance(begun.asks, Take)
    asks = ask_next(replace(begun, trusted=frozenset({begun.asks.check.question}))).guide.asks
    assert isinstance(asks, Take)
    assert asks.check.question != begun.asks.check.question


def test_a_lost_decimal_sign_in_volts_is_questioned() -> None:
    """112 V on a 5 V loop where 1.12 V is what 16.8 psi on the display ask for: 0.5 + 16.8/100 x 4 = 1.172 V.

    A dead loop would show next to nothing, so a sign lost one place further may be meant as well.
    """
    asked = talk().says("48", "16.8", "can't")
    assert asked.asked == "volts"
    doubted = asked.says("112").guide.asks
    assert isinstance(doubted, Doubt)
    assert doubted.meant in {"1.12 V", "0.112 V"}


@pytest.mark.usefixtures("plate_alone")
def test_a_figure_that_no_loop_can_bring_is_questioned_even_where_no_slip_explains_it() -> None:
    """7777777 psi on the display of a 0..100 psi system; no slip of the list brings it to what is likely there."""
    asked = talk().says("48", "7777777")
    assert isinstance(asked.guide.asks, Doubt)
    assert asked.says("no").asked == "displayed-pressure"
    assert asked.says("yes").values[-1] == "7777777 psi"
    assert asked.says("47").values[-1] == "47 psi"


def test_a_figure_that_fits_is_never_questioned() -> None:
    """A healthy loop's figures."""
    assert "guide-did-you-mean" not in talk().says(*HEALTHY).ids


@pytest.mark.usefixtures("plate_alone")
def test_what_cannot_be_done_is_declined_with_its_reason_and_not_asked_again() -> None:
    """The row that the visit file has for it."""
    begun = talk()
    after = begun.says("can't, hose tap is frozen")
    assert [(d.measure, d.why) for d in after.visit.declined] == [("gauge-pressure", "hose tap is frozen")]
    assert after.asked != "gauge-pressure"


def test_a_hook_up_that_cannot_be_made_falls_as_a_whole() -> None:
    """One word of the technician for all readings of a hook-up that does not stand yet; asked at the panel's end."""
    begun = talk().says("48", "16.8", "1.12")
    offered = {number: begun.says(f"skip {number}").guide.asks for number in range(1, 16)}
    hook_ups = {
        number: chosen.check.question.arrangement
        for number, chosen in offered.items()
        if isinstance(chosen, Take)
        and chosen.check.question.arrangement not in {"connected", standing(begun.visit).arrangement}
        and str(chosen.check.question.red).startswith("controller.")
    }
    number, hook_up = next(iter(hook_ups.items()))
    after = begun.says(f"skip {number}", "can't")
    assert {d.arrangement for d in after.visit.declined} == {hook_up}
    assert after.guide.answer is not None
    assert hook_up not in {check.question.arrangement for check in after.guide.answer.next_checks}


@pytest.mark.usefixtures("plate_alone")
def test_skipping_changes_no_file_and_comes_round_again() -> None:
    """Passing over is no answer."""
    begun = talk().says("48")
    passed = begun.says("skip")
    assert passed.disk == begun.disk
    assert passed.guide.asks != begun.guide.asks
    again = passed
    for _ in range(40):
        again = again.says("skip")
        if "guide-all-skipped" in again.ids:
            break
    assert "guide-all-skipped" in again.ids


@pytest.mark.usefixtures("plate_alone")
def test_skip_with_a_number_goes_to_that_check() -> None:
    """The second of the checks listed below the first."""
    begun = talk().says("48")
    assert begun.guide.answer is not None
    gone = begun.says("skip 1").guide.asks
    assert isinstance(gone, Take)
    assert gone.check.question == begun.guide.answer.next_checks[1].question
    assert "guide-skip-which" in begun.says("skip 99").ids


@pytest.mark.usefixtures("plate_alone")
def test_back_takes_back_whatever_was_answered_last() -> None:
    """The text before that answer."""
    begun = talk().says("48")
    assert begun.says("16.8", "back").disk == begun.disk
    assert begun.says("can't", "back").disk == begun.disk
    assert begun.says("16.8", "back").guide.asks == begun.guide.asks


@pytest.mark.usefixtures("plate_alone")
def test_in_a_later_sitting_back_corrects_the_last_reading_and_keeps_it_until_then() -> None:
    """The old value stands until a new one is given."""
    later = talk(talk().says("48").disk).says("back")
    assert later.values == ["48 psi"]
    assert later.says("").values == ["48 psi"]
    assert later.says("46").values == ["46 psi"]


@pytest.mark.usefixtures("plate_alone")
def test_an_earlier_answer_is_corrected_in_its_place() -> None:
    """The order of the readings stays."""
    after = talk().says("48", "16.8", "fix 1 46.5")
    assert after.values == ["46.5 psi", "16.8 psi"]
    assert talk().says("48", "16.8", "fix 1", "47").values == ["47 psi", "16.8 psi"]
    assert talk().says("48", "16.8", "fix 1 can't").values == ["16.8 psi"]


@pytest.mark.parametrize("line", ["fix", "fix 9", "fix x", "fix 1 banana"])
@pytest.mark.usefixtures("plate_alone")
def test_a_correction_that_cannot_be_changes_nothing(line: str) -> None:
    """The file."""
    begun = talk().says("48")
    assert begun.says(line).disk == begun.disk


@pytest.mark.usefixtures("plate_alone")
def test_what_is_known_can_be_put_in() -> None:
    """The key of the visit file, with the comment behind it."""
    after = talk().says("set sensor.range 0..150 psi", "set place.cock no", "set site.name Fern Row")
    assert after.visit.sensor.range.high == pytest.approx(150 * 6894.757293168361)
    assert after.visit.place.cock is False
    assert after.visit.site.name == "Fern Row"
    assert "# three wires" in (after.disk or "")


@pytest.mark.parametrize(
    "line", ["set", "set sensor.range", "set sensor.range 5 V", "set sensr.range 0..1 bar", "set x y"]
)
def test_what_cannot_be_set_is_refused_and_changes_nothing(line: str) -> None:
    """The file."""
    assert talk().says(line).disk == PLATE


@pytest.mark.parametrize("line", ["why", "list", "help", "cautions", "WHY", "readings"])
@pytest.mark.usefixtures("plate_alone")
def test_a_question_to_the_guide_loses_nothing(line: str) -> None:
    """File and question are as they were."""
    begun = talk().says("48")
    after = begun.says(line)
    assert after.disk == begun.disk
    assert after.guide.asks == begun.guide.asks
    assert after.turns[-1].said


def test_cautions_are_told_in_full_once_a_visit() -> None:
    """Every caution of the second check at the terminals stands among those that were told before."""
    begun = talk().says("48", "16.8", "can't")
    told = begun.guide.told
    assert "mains-beside-terminals" in told
    shown = begun.says("1.12").turns[-1].said[-1]
    assert "mains-beside-terminals" in shown.told  # type: ignore[union-attr]


def test_the_end_of_all_lines_ends_it_and_says_how_to_go_on() -> None:
    """Nothing more comes."""
    ended = talk().says("48", None)
    assert ended.turns[-1].ended
    assert ended.ids[-1] == "guide-left"


def test_rows_written_in_one_list_are_refused_with_what_to_do() -> None:
    """The editor of files cannot add to an inline list."""
    text = 'schema = 1\nreading = [{measure = "gauge-pressure", value = "48 psi"}]\n' + PLATE.partition("1\n")[2]
    after = talk(text).says("16.8")
    assert "rows-written-inline" in after.ids
    assert after.disk == text


def test_the_own_gauge_is_written_down_as_whose_it_is() -> None:
    """Asked for by its number, kept with its owner, and foretold from then on."""
    begun = talk().says("48", "16.8")
    answer = begun.guide.answer
    assert answer is not None
    wanted = next(check for check in answer.next_checks if check.question.whose)
    row = reading_row(wanted, "47 psi", begun.guide.known.visit)
    assert row == {"measure": "gauge-pressure", "whose": "own", "value": "47 psi"}
    file = begun.guide.known.with_reading(row)
    assert file.visit.readings[-1].named == "own-gauge"
    declined = declined_rows(wanted.question, begun.guide.known.visit, "")
    assert declined == [{"measure": "gauge-pressure", "whose": "own"}]
