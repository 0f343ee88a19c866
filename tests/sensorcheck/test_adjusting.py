"""A new setting for the controller: exact where the sensor is straight, refused where no straight line helps."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.sensorcheck.adjusting import Adjustment, Basis, adjustment, bend_of
from steadyhead.sensorcheck.characteristics import characteristics
from steadyhead.sensorcheck.run import CheckRun, Conditions, Point
from steadyhead.visit.record import Interval
from tests.sensorcheck.runs import BAR, BOOSTER, GAUGE, HOUSE, PSI, shown_run, swept

FEW = settings(max_examples=25, deadline=None)
ONE_MILLIPASCAL = 1e-3
SURE = Basis(tolerance=0.01, u_reference_pa=100.0)
LEVELS = (0.0, 20.0, 40.0, 60.0, 80.0, 100.0)


def adjusted(zero: float, slope: float, basis: Basis = SURE, levels: tuple[float, ...] = LEVELS) -> Adjustment:
    """Return the adjustment of a sensor that tells ``zero + slope x pressure`` [psi], read in volts."""
    points = tuple(
        Point(reference_pa=p * PSI, signal=0.5 + 0.04 * (zero + slope * p), supply_v=5.0, direction="up")
        for p in levels
    )
    run = CheckRun(sensor=HOUSE, reference=GAUGE, points=points)
    return adjustment(run, characteristics(run), basis)


def ids(found: Adjustment) -> list[str]:
    """Return why it was refused."""
    return [each.id for each in found.refused]


@FEW
@given(st.floats(-8, 8), st.floats(0.9, 1.1))
def test_a_straight_sensor_is_put_right_altogether(zero: float, slope: float) -> None:
    """A closed form: it tells t = z + s p; at its ends it means (0 - z) / s and (100 - z) / s, and nothing is left."""
    found = adjusted(zero, slope)
    assert found.low is not None
    assert found.high is not None
    assert found.low.value == pytest.approx(-zero / slope * PSI, abs=ONE_MILLIPASCAL)
    assert found.high.value == pytest.approx((100.0 - zero) / slope * PSI, abs=ONE_MILLIPASCAL)
    assert found.worst_after == pytest.approx(0.0, abs=ONE_MILLIPASCAL)


@FEW
@given(st.lists(st.integers(-2000, 2000), min_size=6, max_size=6))
def test_what_is_left_sums_to_nothing_and_no_setting_leaves_less(offs: list[int]) -> None:
    """The normal equations of least squares: residuals sum to zero: no other setting has a smaller sum of squares."""
    rows = [(p * PSI, p * PSI + off, "up", 1) for p, off in zip(LEVELS, offs, strict=True)]
    run = shown_run(HOUSE, rows)  # type: ignore[arg-type]
    found = adjustment(run, characteristics(run), SURE)
    left = [each.after.value for each in found.residuals]
    assert sum(left) == pytest.approx(0.0, abs=0.01)
    assert sum(each * each for each in left) <= sum(off * off for off in offs) * (1 + 1e-9) + 1e-6


def test_a_display_is_adjusted_from_the_setting_that_made_it() -> None:
    """A closed form: set to 0..150 psi on a 0..100 psi sensor, the display shows 1.5 times the pressure."""
    rows = [(p * PSI, 1.5 * p * PSI, "up", 1) for p in LEVELS]
    run = shown_run(HOUSE, rows)  # type: ignore[arg-type]
    basis = replace(SURE, scaled=Interval(0.0, 150.0 * PSI))
    found = adjustment(run, characteristics(run), basis)
    assert found.low is not None
    assert found.high is not None
    assert found.low.value == pytest.approx(0.0, abs=ONE_MILLIPASCAL)
    assert found.high.value == pytest.approx(100.0 * PSI, abs=ONE_MILLIPASCAL)
    assert "adjust-setting-assumed" not in [each.id for each in found.notes]
    assert "adjust-setting-assumed" in [each.id for each in adjustment(run, characteristics(run), SURE).notes]


def test_the_setting_of_an_absolute_sensor_is_absolute() -> None:
    """By definition: a 0..16 bar absolute sensor that tells 0.1 bar too much is right with -0.1..15.9, air at 1 bar.

    The same from a display that was set to 0..16 bar absolute.
    """
    sensor, air = replace(BOOSTER, reference="absolute"), Conditions(barometer_pa=BAR)
    signals = tuple(
        Point(reference_pa=p * BAR, signal=0.004 + 0.001 * (p + 1.0 + 0.1), direction="up") for p in (0, 5, 10, 15)
    )
    shown = tuple(Point(reference_pa=p * BAR, shown_pa=(p + 1.1) * BAR, direction="up") for p in (0, 5, 10, 15))
    by_signal = CheckRun(sensor=sensor, reference=GAUGE, conditions=air, points=signals)
    by_display = replace(by_signal, points=shown, read_as="displayed-pressure")
    for run in (by_signal, by_display):
        found = adjustment(run, characteristics(run), replace(SURE, scaled=Interval(0.0, 16.0 * BAR)))
        assert found.was == Interval(0.0, 16.0 * BAR)
        assert found.low is not None
        assert found.high is not None
        assert found.low.value / BAR == pytest.approx(-0.1, abs=1e-9)
        assert found.high.value / BAR == pytest.approx(15.9, abs=1e-9)
        assert found.high.dimension == "absolute-pressure"


def test_where_only_the_top_may_be_set_the_low_end_stays() -> None:
    """A closed form: a sensor that tells 1.05 p is right with 100 / 1.05 at its top; its low end is not touched."""
    found = adjusted(0.0, 1.05, replace(SURE, keep_low=True))
    assert found.low is not None
    assert found.high is not None
    assert found.low.value == pytest.approx(0.0, abs=ONE_MILLIPASCAL)
    assert found.high.value == pytest.approx(100.0 / 1.05 * PSI, abs=ONE_MILLIPASCAL)


def test_a_bent_sensor_is_refused() -> None:
    """Rule 4: half of 1 % of 100 psi may stay bent, 0.5 psi; this one is 2 psi off in its middle alone."""
    rows = [(p * PSI, (p + (2.0 if p == 40.0 else 0.0)) * PSI, "up", 1) for p in LEVELS]
    run = shown_run(HOUSE, rows)  # type: ignore[arg-type]
    assert ids(adjustment(run, characteristics(run), SURE))[0] == "adjust-too-bent"


def test_hysteresis_counts_as_bend() -> None:
    """Rule 4: 0.6 psi between up and down is no matter of a straight line."""
    rows = [(p * PSI, (1.03 * p + (0.6 if way == "down" else 0.0)) * PSI, way, c) for p, way, c in swept(LEVELS)]
    run = shown_run(HOUSE, rows)
    found = characteristics(run)
    assert bend_of(found) / PSI == pytest.approx(0.6, abs=1e-6)
    assert ids(adjustment(run, found, SURE)) == ["adjust-too-bent"]
    assert ids(adjustment(run, found, replace(SURE, tolerance=0.02))) == []


def test_a_change_that_the_gauge_itself_may_be_off_by_is_refused() -> None:
    """Rule 5: 0.5 psi off, and the gauge is known to 0.3 psi: twice that is more than the change."""
    assert ids(adjusted(0.5, 1.0, replace(SURE, u_reference_pa=0.3 * PSI))) == ["adjust-mere-noise"]
    assert ids(adjusted(0.5, 1.0, replace(SURE, u_reference_pa=0.2 * PSI))) == []


def test_scatter_alone_is_refused_too() -> None:
    """Rule 5: readings that jump by 1 psi about the right line are no reason to change a setting."""
    rows = [(p * PSI, (p + jump) * PSI, "up", 1) for p, jump in zip(LEVELS, (1, -1, 1, -1, 1, -1), strict=True)]
    run = shown_run(HOUSE, rows)  # type: ignore[arg-type]
    basis = Basis(tolerance=0.05, u_reference_pa=0.0)
    assert ids(adjustment(run, characteristics(run), basis)) == ["adjust-mere-noise"]


@pytest.mark.parametrize(
    ("levels", "reason"), [((0.0, 60.0), "adjust-needs-levels"), ((40.0, 50.0, 60.0), "adjust-needs-range")]
)
def test_too_little_is_refused(levels: tuple[float, ...], reason: str) -> None:
    """Rule 6."""
    assert ids(adjusted(5.0, 1.0, levels=levels)) == [reason]


def test_one_level_gives_no_setting_at_all() -> None:
    """One pressure lays no line."""
    found = adjusted(5.0, 1.0, levels=(50.0,))
    assert (found.low, found.high, found.residuals, found.worst_after) == (None, None, (), None)
    assert ids(found) == ["adjust-needs-levels"]


def test_what_was_not_reached_is_told() -> None:
    """Rule 6: drawn on from 60 psi."""
    assert "adjust-drawn-on" in [each.id for each in adjusted(5.0, 1.0, levels=(0.0, 20.0, 40.0, 60.0)).notes]
    assert "adjust-without-tolerance" in [each.id for each in adjusted(5.0, 1.0, replace(SURE, tolerance=None)).notes]
