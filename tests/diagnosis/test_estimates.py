"""The estimates are one value: every row has its reason, and every sum that uses one uses the value given."""

from __future__ import annotations

from math import isclose

import pytest

from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import NONE_OF_THESE, SECTIONS, SHIPPED, Row
from steadyhead.diagnosis.priors import prior
from steadyhead.loop.faults import FAULTS, faults_of
from steadyhead.loop.vocabulary import ARRANGEMENTS, INSPECTION_ITEMS
from steadyhead.visit import parse_visit
from tests.diagnosis.visits import BARE_HOUSE

VISIT = parse_visit(BARE_HOUSE).visit


def test_every_row_has_a_reason_and_lies_within_its_sections_ends() -> None:
    """The house rule: no number without a reason and a range."""
    assert set(SHIPPED.rows) == set(SECTIONS)
    for name, rows in SHIPPED.rows.items():
        for row in rows.values():
            assert row.reason
            assert SECTIONS[name].least <= row.value <= SECTIONS[name].most


def test_every_fault_hook_up_and_look_has_its_row() -> None:
    """The vocabulary itself."""
    assert set(SHIPPED.faults) == {fault.id for fault in FAULTS}
    assert set(SHIPPED.families) == {fault.family for fault in FAULTS} | {NONE_OF_THESE}
    assert set(SHIPPED.arrangements) == {a.id for a in ARRANGEMENTS.values() if not a.water_side}
    assert set(SHIPPED.inspections) == set(INSPECTION_ITEMS)
    assert set(SHIPPED.costs) == {fault.remedy for fault in FAULTS} | {"look-further"}


def test_a_family_met_twice_as_often_has_twice_the_odds() -> None:
    """Closed form: odds beside any other family are proportional to the calls."""
    usual = prior(3, "ratiometric")
    twice = SHIPPED.replaced({("families", "damp"): Row(2 * SHIPPED.families["damp"], "wet pits here")})
    found = prior(3, "ratiometric", twice)
    for fault in faults_of(3, "ratiometric"):
        times = (found[fault.id] / found["none"]) / (usual[fault.id] / usual["none"])
        assert isclose(times, 2.0 if fault.family == "damp" else 1.0, rel_tol=1e-12)


def test_a_share_within_a_family_takes_from_its_family_alone() -> None:
    """The rule of the table: a family keeps its share, however it is divided."""
    usual = prior(3, "ratiometric")
    more = prior(3, "ratiometric", SHIPPED.replaced({("faults", "sensor-frozen"): Row(30.0, "a bad batch")}))
    assert more["sensor-frozen"] > 2 * usual["sensor-frozen"]
    assert isclose(more["cable-cut"], usual["cable-cut"], rel_tol=1e-12)


@pytest.mark.parametrize("second_trip", [0.0, 480.0])
def test_the_price_of_a_second_trip_moves_what_a_check_saves(second_trip: float) -> None:
    """A check is worth more where being wrong costs more."""
    usual = diagnose(VISIT).next_checks[0].saves_minutes
    other = diagnose(VISIT, SHIPPED.replaced({("trips", "second-trip"): Row(second_trip, "an island")}))
    saves = other.next_checks[0].saves_minutes if other.next_checks else 0.0
    assert (saves > usual) == (second_trip > SHIPPED.second_trip)


def test_a_checks_minutes_and_a_repairs_cost_are_the_companys() -> None:
    """The rows given here."""
    own = SHIPPED.replaced(
        {
            ("readings", "displayed-pressure"): Row(2.0, "the display sits behind a cover"),
            ("parts", "replace-sensor"): Row(200.0, "special thread"),
        }
    )
    found = diagnose(VISIT, own)
    shown = next(c for c in found.next_checks if c.question.measure == "displayed-pressure")
    assert shown.minutes == 2.0
    assert next(r.cost_minutes for r in found.remedies if r.remedy == "replace-sensor") == 30.0 + 200.0


def test_a_pair_costs_what_its_two_repairs_cost() -> None:
    """Addition."""
    assert SHIPPED.cost("repair-cable+replace-sensor") == 40.0 + 90.0


def test_a_row_that_does_not_exist_is_a_mistake() -> None:
    """Rule 2: rows are never added."""
    with pytest.raises(KeyError, match="gremlins"):
        SHIPPED.replaced({("families", "gremlins"): Row(1.0, "")})
