"""Which pressures a check takes: never beyond what relief and weakest part stand; up before down; round figures."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.errors import SensorCheckError
from steadyhead.sensorcheck.points import PURPOSES, Allowed, Plan, plan
from steadyhead.sensorcheck.run import Conditions
from steadyhead.visit.record import Interval
from tests.sensorcheck.runs import BAR, BOOSTER, HOUSE, PSI

FEW = settings(max_examples=60, deadline=None)


def in_psi(found: Plan) -> list[float]:
    """Return the levels in psi."""
    return [round(each / PSI, 6) for each in found.levels]


def test_a_full_check_has_six_points_going_up_and_coming_down() -> None:
    """EURAMET cg-17, 5.2.1, basic procedure (republished): one run, six points, increasing and decreasing."""
    found = plan(HOUSE, Allowed(pump_pa=100 * PSI), pressure_from="hand-pump", unit_pa=PSI)
    assert in_psi(found) == [0, 20, 40, 60, 80, 100]
    ways = [each.direction for each in found.steps]
    assert ways == ["up"] * 6 + ["down"] * 5
    assert [round(each.pressure_pa / PSI) for each in found.steps] == [0, 20, 40, 60, 80, 100, 80, 60, 40, 20, 0]


def test_cycles_repeat_the_whole_way() -> None:
    """The table of purposes: three cycles of eleven levels are three times 21 points."""
    found = plan(HOUSE, Allowed(), "laboratory", pressure_from="hand-pump", unit_pa=PSI)
    assert len(found.steps) == 3 * 21
    assert [each.cycle for each in found.steps] == [1] * 21 + [2] * 21 + [3] * 21


@pytest.mark.parametrize(
    ("allowed", "highest", "why"),
    [
        (Allowed(relief_pa=75 * PSI, weakest_pa=125 * PSI), 67.5, "relief"),
        (Allowed(relief_pa=150 * PSI, weakest_pa=80 * PSI), 80.0, "weakest"),
        (Allowed(relief_pa=75 * PSI, weakest_pa=125 * PSI, gauge=Interval(0.0, 60 * PSI)), 60.0, "gauge"),
        (Allowed(relief_pa=75 * PSI, weakest_pa=125 * PSI, pump_pa=62 * PSI), 62.0, "pump"),
        (Allowed(ordinary_pa=55 * PSI), 55.0, "ordinary"),
        (Allowed(relief_pa=75 * PSI, ordinary_pa=55 * PSI), 55.0, "ordinary"),
        (Allowed(), 50.0, "unknown"),
    ],
)
def test_a_house_is_never_pumped_beyond_what_it_stands(allowed: Allowed, highest: float, why: str) -> None:
    """Rules 1 and 2 (common practice): a tenth below relief, the weakest part, the scale, the pump, or as it runs."""
    found = plan(HOUSE, allowed, unit_pa=PSI)
    assert found.highest_pa / PSI == pytest.approx(highest)
    assert found.limited_by == why
    assert max(found.levels) <= found.highest_pa + 1e-6
    assert "plan-ends-below-top" in [each.id for each in found.notes]


def test_a_hand_pump_goes_to_the_top_of_the_sensor_and_never_above() -> None:
    """Rule 3."""
    allowed = Allowed(pump_pa=600 * PSI, gauge=Interval(0.0, 160 * PSI))
    found = plan(HOUSE, allowed, pressure_from="hand-pump", unit_pa=PSI)
    assert (max(in_psi(found)), found.limited_by, round(found.share, 6)) == (100, "sensor", 1.0)
    assert found.notes == ()


def test_with_little_of_the_range_a_hand_pump_is_named() -> None:
    """Rule 6: what cannot be reached is told, with what would reach it."""
    ids = [each.id for each in plan(HOUSE, Allowed(ordinary_pa=50 * PSI), unit_pa=PSI).notes]
    assert ids == ["plan-ends-below-top", "plan-limits-unknown", "plan-hand-pump-would-do-more"]


def test_a_system_that_cannot_be_vented_has_no_zero() -> None:
    """Rule 6."""
    found = plan(HOUSE, Allowed(ordinary_pa=70 * PSI, lowest_pa=20 * PSI), unit_pa=PSI)
    assert min(in_psi(found)) == 20
    assert "plan-begins-above-zero" in [each.id for each in found.notes]


def test_too_little_to_check_is_refused() -> None:
    """A tenth of the range says nothing of the sensor; the refusal says what would help."""
    with pytest.raises(SensorCheckError, match="nothing-to-check"):
        plan(HOUSE, Allowed(ordinary_pa=28 * PSI, lowest_pa=20 * PSI), unit_pa=PSI)


def test_at_rest_there_is_one_level() -> None:
    """A closed form: the height of the water stands still."""
    found = plan(HOUSE, Allowed(lowest_pa=12 * PSI), "quick", pressure_from="static", unit_pa=PSI)
    assert in_psi(found) == [12]
    assert [each.way.id for each in found.steps] == ["reach-static"]


def test_a_gauge_above_the_sensor_ends_its_range_lower_on_the_dial() -> None:
    """NIST SP 811 (republished): 1 ftH2O = 2989.067 Pa, so ten feet are 4.335 psi off the top."""
    ten_feet = Conditions(height_m=3.048)
    found = plan(HOUSE, Allowed(), pressure_from="hand-pump", unit_pa=PSI, conditions=ten_feet)
    assert found.highest_pa / PSI == pytest.approx(100 - 4.335, abs=0.001)


def test_an_absolute_sensor_is_planned_in_gauge_pressure() -> None:
    """By definition: 16 bar absolute under 1 bar of air are 15 bar on the gauge; below zero nobody goes."""
    sensor = replace(BOOSTER, reference="absolute")
    found = plan(sensor, Allowed(), pressure_from="hand-pump", conditions=Conditions(barometer_pa=1 * BAR))
    assert min(found.levels) == 0.0
    assert found.highest_pa == pytest.approx(15 * BAR)


@pytest.mark.parametrize("way", ["system", "hand-pump", "static"])
def test_the_law_comes_before_every_other_caution(way: str) -> None:
    """DESIGN: local codes and a licensed person come first; fire pumps are refused."""
    found = plan(BOOSTER, Allowed(lowest_pa=0.0), pressure_from=way)  # type: ignore[arg-type]
    ids = [each.id for each in found.cautions]
    assert ids[:2] == ["local-codes-first", "fire-pump-refused"]
    assert "milliamp-jack-and-back" in ids
    hidden = way != "system"
    assert ("stop-the-drive" in ids) == hidden
    assert ("starts-by-itself" in ids) != hidden


def test_letting_all_pressure_off_a_running_system_stops_the_drive_first() -> None:
    """An empty pipe tells the drive to run flat out: the step that drains has its caution, and the one after too."""
    steps = plan(HOUSE, Allowed(relief_pa=75 * PSI, weakest_pa=125 * PSI), "repeat", unit_pa=PSI).steps
    drains = [each for each in steps if each.way.id == "reach-drained"]
    assert drains
    assert all(each.cautions[0].id == "stop-the-drive" for each in drains)
    raised = [after for before, after in pairwise(steps) if before.pressure_pa == 0 < after.pressure_pa]
    assert [each.cautions[0].id for each in raised] == ["starts-by-itself"] * 3


@FEW
@given(
    st.floats(30, 400), st.floats(30, 400), st.floats(0, 15), st.sampled_from(sorted(PURPOSES)),
    st.sampled_from([PSI, BAR, 1000.0]),
)  # fmt: skip
def test_levels_rise_and_stay_within_what_is_allowed(
    relief: float, weakest: float, lowest: float, purpose: str, unit: float
) -> None:
    """A property: rising, as many as the purpose says, the last within the gap of one round step below the highest."""
    allowed = Allowed(relief_pa=relief * PSI, weakest_pa=weakest * PSI, lowest_pa=lowest * PSI)
    found = plan(HOUSE, allowed, purpose, unit_pa=unit)  # type: ignore[arg-type]
    assert found.levels[0] >= lowest * PSI * (1 - 1e-9)
    levels = found.levels
    assert list(levels) == sorted(set(levels))
    assert len(levels) == PURPOSES[purpose].levels  # type: ignore[index]
    assert levels[-1] <= found.highest_pa * (1 + 1e-9) <= min(0.9 * relief, weakest, 100) * PSI * (1 + 2e-9)
    assert found.highest_pa - levels[-1] <= (found.highest_pa - levels[0]) / (len(levels) - 1) / 45


@FEW
@given(st.sampled_from(sorted(PURPOSES)))
def test_every_level_is_taken_from_both_sides_but_the_top(purpose: str) -> None:
    """A property: the same number of ups and downs at each level below the top."""
    found = plan(HOUSE, Allowed(), purpose, pressure_from="hand-pump", unit_pa=PSI)  # type: ignore[arg-type]
    for level in found.levels[:-1]:
        here = [each.direction for each in found.steps if each.pressure_pa == level]
        assert here.count("up") == here.count("down") == found.purpose.cycles
