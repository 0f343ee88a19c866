"""The steps that led to an answer agree with the answer, and with the minutes' own table."""

from __future__ import annotations

from functools import cache

import pytest

from steadyhead.diagnosis import checks
from steadyhead.diagnosis.answer import Outcome
from steadyhead.diagnosis.diagnose import Diagnosed, diagnosed
from steadyhead.diagnosis.purposes import purpose
from steadyhead.diagnosis.trace import Trace, trace
from steadyhead.visit import parse_visit

TEXT = """schema = 1
[sensor]
signal = "0.5..4.5 V ratiometric"
range = "0..100 psi"
[[reading]]
measure = "gauge-pressure"
value = "20 psi"
[[action]]
remedy = "open-cock"
after_reading = 1
[[reading]]
measure = "gauge-pressure"
value = "48 psi"
[[reading]]
measure = "displayed-pressure"
value = "15.5 psi"
[[reading]]
measure = "volts"
red = "controller.signal"
black = "controller.common"
value = "1.12 V"
"""


@cache
def found() -> Diagnosed:
    """Return the diagnosis of the visit above, with what led to it."""
    return diagnosed(parse_visit(TEXT).visit)


@cache
def steps() -> Trace:
    """Return its steps."""
    return trace(found())


def test_every_reading_is_named_and_those_before_a_repair_are_not_weighed() -> None:
    """The four readings of the file; the action stands after the first."""
    assert [(r.reading, r.weighed) for r in steps().readings] == [(1, False), (2, True), (3, True), (4, True)]


def test_a_misfit_is_told_for_figures_alone() -> None:
    """A gauge is what the others are judged by; display and volts are figures."""
    assert [r.misfit is None for r in steps().readings] == [True, True, False, False]
    assert all(r.misfit is None or r.misfit >= 0.0 for r in steps().readings)


def test_the_course_ends_where_the_answer_stands() -> None:
    """The answer's own first suspect."""
    last, first = steps().course[-1], found().answer.suspects[0]
    assert (last.leads, last.reading) == (first.fault, 4)
    assert last.probability == pytest.approx(first.probability, abs=1e-9)
    assert steps().course[0].reading == 0


def test_what_a_reading_rules_out_is_unlikely_from_then_on() -> None:
    """1.12 V at 48 psi is no healthy loop: the plate's line gives 2.42 V."""
    out = {fault for stage in steps().course for fault in stage.ruled_out}
    assert "none" in out


def test_cells_only_die() -> None:
    """The first pass leaves some of them, and the heaviest come first."""
    assert 0 < steps().alive <= steps().cells
    shares = [heavy.share for heavy in steps().heaviest]
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) <= 1.0 + 1e-9


def test_the_chosen_checks_are_those_of_the_answer_in_its_order() -> None:
    """The answer's own next checks, their minutes and savings."""
    chosen = [each for each in steps().checks if each.fate == "chosen"]
    told = [(c.question, c.minutes, c.saves_minutes) for c in found().answer.next_checks]
    assert sorted(map(repr, ((c.question, c.minutes, c.saves) for c in chosen))) == sorted(map(repr, told))


def test_no_check_that_can_be_made_is_left_out_but_those_that_foretell_nothing() -> None:
    """The list of candidates; the gauge foretells nothing."""
    wanted = set(checks.candidates(found().system, frozenset()))
    assert {each.question for each in steps().checks} <= wanted
    assert wanted - {each.question for each in steps().checks} <= {q for q in wanted if q.measure == "gauge-pressure"}


def test_a_check_that_lost_says_why() -> None:
    """Its own figures: below zero it costs more than it saves."""
    for each in steps().checks:
        if each.fate == "costs-more-than-it-saves":
            assert each.saves <= 0.0
        else:
            assert each.saves > 0.0


def test_a_check_is_made_for_the_likeliest_two_that_it_tells_apart() -> None:
    """The bands of these outcomes: the first two overlap, the first and the third do not."""
    told = (
        Outcome(fault="sensor-low", low=0.0, high=1.0, unit="V"),
        Outcome(fault="open-signal", low=0.5, high=2.0, unit="V"),
        Outcome(fault="none", low=3.0, high=4.0, unit="V"),
    )
    because = purpose(told, 5.0)
    assert because is not None
    assert (because.id, because.values["one"], because.values["other"]) == ("check-tells-apart", "sensor-low", "none")


def test_suspects_with_one_repair_need_not_be_told_apart() -> None:
    """Both are mended by replacing the sensor."""
    told = (
        Outcome(fault="sensor-low", low=0.0, high=1.0, unit="V"),
        Outcome(fault="sensor-high", low=4.0, high=5.0, unit="V"),
    )
    because = purpose(told, 5.0)
    assert because is not None
    assert because.id == "check-narrows"
    assert purpose((), 5.0) is None
