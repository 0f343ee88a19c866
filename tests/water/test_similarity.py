"""A centrifugal pump at another speed: against printed examples, and as properties of the laws."""

from __future__ import annotations

import math

import pytest

from steadyhead.errors import RangeOfValidityError
from steadyhead.water.curve import TwoPoints
from steadyhead.water.similarity import flow_at, head_at, hertz_for, power_at


def test_a_tenth_more_speed_gives_a_tenth_more_flow_and_a_fifth_more_head() -> None:
    """A pump-sizing tool's public notes (seen): 10 % more speed, 10 % more flow, 21 % more head, about 33 % power."""
    assert flow_at(66.0, 100.0, 60.0) == pytest.approx(110.0)
    assert head_at(66.0, 100.0, 60.0) == pytest.approx(121.0)
    assert power_at(66.0, 100.0, 60.0) == pytest.approx(133.1)


def test_half_the_speed_gives_a_quarter_of_the_head() -> None:
    """A trade magazine's example (seen), read backwards: twice the speed, twice the flow, four times the head."""
    assert flow_at(30.0, 80.0, 60.0) == pytest.approx(40.0)
    assert head_at(30.0, 10.0, 60.0) == pytest.approx(2.5)


def test_a_tenth_less_speed_takes_a_quarter_off_the_power() -> None:
    """A government tip sheet on pump speed (from memory): 10 % slower needs some 27 % less power."""
    assert power_at(54.0, 1.0, 60.0) == pytest.approx(0.729)


@pytest.mark.parametrize("hertz", [24.0, 30.0, 43.3, 60.0, 72.0])
def test_the_speed_for_a_head_is_the_speed_that_gives_it(hertz: float) -> None:
    """Property: one is the other's inverse."""
    assert hertz_for(head_at(hertz, 167.6, 60.0), 167.6, 60.0) == pytest.approx(hertz)


@pytest.mark.parametrize("hertz", [0.0, 23.9, 72.1, 120.0, math.nan])
def test_far_from_the_curves_speed_the_laws_refuse(hertz: float) -> None:
    """The stated range: from two fifths of the rated speed to a fifth above it."""
    with pytest.raises(RangeOfValidityError, match="speed ratio"):
        head_at(hertz, 100.0, 60.0)


def test_a_head_below_zero_asks_for_no_speed() -> None:
    """Nothing turns a pump backwards."""
    with pytest.raises(RangeOfValidityError):
        hertz_for(-1.0, 100.0, 60.0)


PUMP = TwoPoints(shut_off_m=100.0, duty_m=64.0, duty_m3s=0.002, rated_hz=60.0)


@pytest.mark.parametrize("hertz", [30.0, 45.0, 60.0])
def test_both_points_of_a_curve_move_by_the_laws(hertz: float) -> None:
    """Property: the parabola through two points, moved, goes through the two points, moved."""
    r = hertz / 60.0
    assert PUMP.head_m(0.0, hertz) == pytest.approx(100.0 * r * r)
    assert PUMP.head_m(0.002 * r, hertz) == pytest.approx(64.0 * r * r)


def test_beyond_the_duty_flow_the_curve_is_not_known() -> None:
    """The stated range: the duty flow, moved to this speed."""
    with pytest.raises(RangeOfValidityError, match="flow"):
        PUMP.head_m(0.0011, 30.0)
