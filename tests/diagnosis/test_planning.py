"""The planner on beliefs small enough to reckon by hand: what is saved, what is asked together, when it stops."""

from __future__ import annotations

from math import isclose

import pytest

from steadyhead.diagnosis.checks import Standing
from steadyhead.diagnosis.estimates import SHIPPED
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.planning import Plan, Planner, after_check
from tests.diagnosis.toy_planning import (
    A_LOOK,
    BOARD,
    CABLE,
    CABLE_TOO,
    LIFTED,
    LOOK,
    LOOK_TOO,
    READING,
    SENSOR,
    SENSOR_TOO,
    SET_UP,
    SETTING,
    SIGNAL,
    SUPPLY,
    one_cell,
    planner,
    told,
)

ROUNDING = 1e-9
OUTSIDE = Standing(None, at_sensor=False)
AT_THE_PANEL = Standing("connected", at_sensor=False)
#: Which of two remedies it is can only be told by both looks: each alone leaves them evenly open.
CROSSED = {CABLE: 0.25, CABLE_TOO: 0.25, SENSOR: 0.25, SENSOR_TOO: 0.25}
ONE = told(list(CROSSED), CABLE, SENSOR)
OTHER = told(list(CROSSED), CABLE, SENSOR_TOO)


def trip(fault: str) -> float:
    """Return what mending one fault's part costs where another one is at fault."""
    return SHIPPED.second_trip + SHIPPED.cost(one_cell(fault).remedy)


def plan_of(found: Planner, question: Question, here: Standing) -> Plan:
    """Return the plan of one check."""
    return next(plan for plan in found.plans(list(found.looks), here) if plan.question == question)


def test_a_check_that_tells_all_saves_the_second_trip_less_its_minutes() -> None:
    """Closed form: stopping costs a trip for the 0.3 that are no cable; after the look nothing is open."""
    shares = {CABLE: 0.7, SENSOR: 0.3}
    plan = plan_of(planner(shares, {LOOK: told(list(shares), CABLE)}), LOOK, OUTSIDE)
    assert isclose(plan.saves, 0.3 * trip(CABLE) - A_LOOK, rel_tol=ROUNDING)
    assert isclose(plan.surely, plan.saves, rel_tol=ROUNDING)


def test_a_check_saves_less_by_what_it_leaves_open() -> None:
    """Bayes by hand: 0.2 of the broken cables are overlooked, so 0.14 of cable stand beside 0.3 of sensor."""
    shares = {CABLE: 0.7, SENSOR: 0.3}
    shown = {CABLE: (("wrong", 0.8), ("right", 0.2)), SENSOR: (("right", 1.0),)}
    plan = plan_of(planner(shares, {LOOK: shown}), LOOK, OUTSIDE)
    assert isclose(plan.surely, 0.3 * trip(CABLE) - 0.7 * 0.2 * trip(SENSOR) - A_LOOK, rel_tol=ROUNDING)


def test_two_checks_that_tell_nothing_alone_are_found_together() -> None:
    """Closed form: the first look leaves half and half as it was, the second one then tells all: both are paid."""
    plan = plan_of(planner(CROSSED, {LOOK: ONE, LOOK_TOO: OTHER}), LOOK, OUTSIDE)
    stop = 0.5 * max(trip(CABLE), trip(SENSOR))
    assert isclose(plan.surely, stop - 2.0 * A_LOOK, rel_tol=ROUNDING)
    assert isclose(plan.saves, plan.surely, rel_tol=ROUNDING)


def test_a_check_that_tells_nothing_even_with_another_is_not_asked_for() -> None:
    """One of the two looks alone: nothing that it could show would change what is mended."""
    assert planner(CROSSED, {LOOK: ONE}).plans([LOOK], OUTSIDE) == []


def test_readings_that_only_tell_together_share_their_stop() -> None:
    """Minutes by hand: covers off and one reading, then one more reading there; all is told."""
    plan = plan_of(planner(CROSSED, {SUPPLY: ONE, SIGNAL: OTHER}), SUPPLY, OUTSIDE)
    stop = 0.5 * max(trip(CABLE), trip(SENSOR))
    assert isclose(plan.saves, stop - (SET_UP + READING) - READING, rel_tol=ROUNDING)
    assert plan.while_there == (SIGNAL,)


def test_readings_of_two_stops_are_no_bundle() -> None:
    """The same, the second one with all wires lifted: it is planned, but not while there."""
    plan = plan_of(planner(CROSSED, {SUPPLY: ONE, LIFTED: OTHER}), SUPPLY, OUTSIDE)
    stop = 0.5 * max(trip(CABLE), trip(SENSOR))
    lifted = SHIPPED.arrangements["all-lifted"] + READING
    assert isclose(plan.saves, stop - (SET_UP + READING) - lifted, rel_tol=ROUNDING)
    assert plan.while_there == ()


def test_where_the_covers_are_off_a_reading_costs_its_own_minute_alone() -> None:
    """The same check from two places differs by the minutes of setting up."""
    shares = {CABLE: 0.7, SENSOR: 0.3}
    found = planner(shares, {SIGNAL: told(list(shares), CABLE)})
    outside, there = (plan_of(found, SIGNAL, here) for here in (OUTSIDE, AT_THE_PANEL))
    assert isclose(there.saves - outside.saves, SET_UP, rel_tol=ROUNDING)


def test_of_two_checks_that_tell_the_same_the_cheaper_one_comes_first() -> None:
    """At the panel a reading takes a minute, a look four."""
    shares = {CABLE: 0.5, SENSOR: 0.5}
    found = planner(shares, {LOOK: told(list(shares), CABLE), SIGNAL: told(list(shares), CABLE)})
    assert found.plans([LOOK, SIGNAL], AT_THE_PANEL)[0].question == SIGNAL


def test_it_stops_where_a_check_costs_more_than_the_doubt() -> None:
    """By hand: 2 in 100 of a second trip are under three minutes, a look takes four."""
    shares = {CABLE: 0.98, SENSOR: 0.02}
    assert 0.02 * trip(CABLE) < A_LOOK
    assert planner(shares, {LOOK: told(list(shares), CABLE)}).plans([LOOK], OUTSIDE) == []


def test_what_does_not_change_the_remedy_is_not_asked_for() -> None:
    """Two faults of the cable: whichever it is, the cable is mended."""
    shares = {CABLE: 0.5, CABLE_TOO: 0.5}
    assert planner(shares, {LOOK: told(list(shares), CABLE)}).plans([LOOK], OUTSIDE) == []


@pytest.mark.parametrize("question", [LOOK, Question("displayed-pressure")])
def test_a_look_and_a_glance_leave_the_leads_where_they_are(question: Question) -> None:
    """The rule: neither moves a lead."""
    at = Standing("all-lifted", at_sensor=True)
    assert after_check(question, at) == at


def test_three_remedies_need_the_check_that_parts_the_heavy_ones_first() -> None:
    """By hand: the first look tells 0.45 from the rest, the other one 0.1; both cost the same."""
    shares = {CABLE: 0.45, BOARD: 0.45, SETTING: 0.1}
    found = planner(shares, {LOOK: told(list(shares), SETTING), LOOK_TOO: told(list(shares), CABLE)})
    assert found.plans([LOOK, LOOK_TOO], OUTSIDE)[0].question == LOOK_TOO
