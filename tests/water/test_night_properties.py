"""What a night tells, whatever was read: a larger loss never looks tighter, a larger tank loses more water."""

from __future__ import annotations

from dataclasses import replace
from math import isclose

from hypothesis import given
from hypothesis import strategies as st

from steadyhead.water.night import NO, UNKNOWN, YES, Night, judge
from tests.water.test_night import PSI

PRESSURES = st.floats(10 * PSI, 150 * PSI)


@given(PRESSURES, PRESSURES, st.floats(600, 12 * 3600), st.sampled_from([YES, NO, UNKNOWN]))
def test_more_lost_never_looks_tighter(start: float, end: float, over: float, waited: str) -> None:
    """A property: with the morning's pressure lower and all else the same, tight never comes after a loss."""
    night = Night(start_pa=start, end_pa=end, over_s=over, waited=waited, holds=YES)
    lower = replace(night, end_pa=0.8 * end)
    if not judge(night).tight and judge(night).verdict != "rises":
        assert not judge(lower).tight
    assert judge(lower).loss.value >= judge(night).loss.value


@given(PRESSURES, PRESSURES, st.floats(0.01, 1.0))
def test_a_tank_that_loses_pressure_loses_water_and_a_larger_one_more(start: float, end: float, tank: float) -> None:
    """By Boyle the water is in proportion to the tank."""
    night = Night(start_pa=start, end_pa=end, over_s=3600.0, tank_m3=tank, precharge_pa=20 * PSI)
    one, two = judge(night).lost, judge(replace(night, tank_m3=2 * tank)).lost
    assert one is not None
    assert two is not None
    assert isclose(two.value, 2 * one.value, rel_tol=1e-9, abs_tol=1e-15)
    if abs(start - end) > 1e-9 * start:
        assert (one.value > 0) == (end < start)
