"""What a night tells: by closed forms (Boyle, Gay-Lussac), by exact arithmetic."""

from __future__ import annotations

from dataclasses import replace
from math import isclose

import pytest

from steadyhead.figures import trail
from steadyhead.water.night import (
    ALL_TAPS,
    COOLS_K,
    EVENING_K,
    HALF_A_DIVISION_PA,
    NO,
    UNKNOWN,
    WARM_AIR_PA,
    YES,
    Night,
    judge,
)

PSI = 6894.757293168361
GALLON = 0.003785411784
NIGHT = Night(start_pa=60 * PSI, end_pa=52 * PSI, over_s=8 * 3600.0, waited=YES, holds=YES)
TANK = replace(NIGHT, tank_m3=20 * GALLON, precharge_pa=38 * PSI)


def test_the_fall_and_what_falls_in_an_hour_are_arithmetic() -> None:
    """60 to 52 psi in 8 hours: 8 psi, 1 psi in an hour."""
    found = judge(NIGHT)
    assert isclose(found.fall.value, 8 * PSI)
    assert isclose(found.per_hour.value, PSI)


def test_the_fall_is_so_much_water_by_boyle() -> None:
    """Pre-charge times tank is constant: air of 20 gal at 38 psi stands in 14.1 gal at 60 psi and in 15.8 at 52."""
    air = 101325.0
    volumes = [20 * (38 * PSI + air) / (psi * PSI + air) for psi in (60, 52)]
    lost = judge(TANK).lost
    assert lost is not None
    assert isclose(lost.value, (volumes[1] - volumes[0]) * GALLON, rel_tol=1e-12)
    assert volumes == pytest.approx([14.1, 15.8], abs=0.05)


def test_what_needs_no_leak_is_the_gauge_and_air_that_cools() -> None:
    """At one volume the pressure goes with the temperature: 5 K of 293.15 K of 74.7 psi absolute is 1.27 psi."""
    found = judge(NIGHT)
    cooling = (60 * PSI + 101325.0) * 5.0 / 293.15
    assert (COOLS_K, EVENING_K) == (5.0, 293.15)
    assert isclose(found.needs_no_leak.value, 2**0.5 * HALF_A_DIVISION_PA + cooling)
    assert cooling / PSI == pytest.approx(1.27, abs=0.01)


def test_ten_minutes_that_nobody_waited_may_be_four_psi() -> None:
    """Common practice: after a quick 40 to 60 psi it falls 2 to 4 psi with no leak. 5 psi decide nothing then."""
    early = replace(NIGHT, end_pa=55 * PSI, waited=NO)
    assert judge(early).verdict == "unclear"
    assert judge(replace(early, waited=YES)).verdict == "pump-side"
    small, smaller = (judge(replace(early, waited=waited)).needs_no_leak.value for waited in (NO, YES))
    assert isclose(small - smaller, WARM_AIR_PA)


@pytest.mark.parametrize(
    ("verdict", "more"),
    [
        ("pump-side", {}),
        ("either", {"holds": NO}),
        ("either", {"holds": UNKNOWN}),
        ("house-side", {"holds": NO, "drawn_m3": 0.01}),
        ("pump-side", {"holds": UNKNOWN, "drawn_m3": 0.0}),
        ("either", {"shut": ALL_TAPS}),
        ("house-side", {"shut": ALL_TAPS, "drawn_m3": 0.01}),
        ("pump-side", {"shut": ALL_TAPS, "drawn_m3": 0.0}),
        ("tight", {"end_pa": 59 * PSI}),
        ("contradicts", {"end_pa": 59 * PSI, "drawn_m3": 0.01}),
        ("rises", {"end_pa": 70 * PSI}),
        ("nothing", {"pump_off": NO}),
        ("house-draws", {"pump_off": NO, "drawn_m3": 0.01}),
        ("no-draw", {"pump_off": NO, "drawn_m3": 0.0}),
    ],
)
def test_each_case_tells_what_the_trade_reads_in_it(verdict: str, more: dict[str, float]) -> None:
    """By reasoning on which side of a meter, or of a valve that holds, water can have gone."""
    assert judge(replace(NIGHT, **more)).verdict == verdict  # type: ignore[arg-type]


@pytest.mark.parametrize(("gallons", "verdict"), [(1.6, "house-side"), (0.5, "both")])
def test_the_meter_is_held_against_what_the_tank_gave(gallons: float, verdict: str) -> None:
    """The tank gave 1.69 gal (Boyle, as above): 1.6 through the meter is nearly all of it, 0.5 is not."""
    drawn = replace(TANK, shut=ALL_TAPS, drawn_m3=gallons * GALLON)
    assert judge(drawn).verdict == verdict


def test_every_figure_leads_down_to_what_was_read() -> None:
    """The descent of a loss names both pressures."""
    names = {each.name for _, each in trail(judge(TANK).loss)}
    assert {"night-start", "night-end", "night-cools", "night-half-division"} <= names
