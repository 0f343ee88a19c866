"""Heads and pressures at no flow: against hand sums, printed factors and another library."""

from __future__ import annotations

import pytest
from fluids.core import P_from_head, head_from_P

from steadyhead.errors import RangeOfValidityError
from steadyhead.quantities import parse
from steadyhead.water.statics import Between, PumpAtRest, head_m, shut_off_from_test_m, weight_pa


def feet(figure: float) -> float:
    """Return feet of water as metres, by the foot's definition."""
    return figure * 0.3048


def psi(pressure: float) -> float:
    """Return a pressure in psi, by the factor that a national institute prints."""
    return pressure / 6894.757


def test_a_foot_of_water_is_0_433_psi() -> None:
    """The factor on every pump curve and in psi tables (from memory): 0.433 psi a foot, 2.31 feet a psi."""
    assert psi(weight_pa(feet(1.0))) == pytest.approx(0.433, abs=0.0011)  # half a count, and cold against warm water
    assert head_m(6894.757) / 0.3048 == pytest.approx(2.31, abs=0.005)


@pytest.mark.parametrize("metres", [1.0, 30.48, 167.64])
def test_another_library_says_the_same_of_cold_water(metres: float) -> None:
    """The public library `fluids`, with water of 999.975 kg/m3 and its own standard gravity."""
    assert weight_pa(metres) == pytest.approx(P_from_head(metres, 999.97495), rel=1e-9)
    assert head_m(weight_pa(metres)) == pytest.approx(head_from_P(weight_pa(metres), 999.97495), rel=1e-9)


WELL = PumpAtRest(shut_off_m=feet(550), rated_hz=60.0, lift_m=Between(feet(100), feet(100)))
FIFTY = parse("50 psi", "pressure")


@pytest.mark.parametrize(
    ("pump", "hertz"),
    [
        (WELL, 37.5),
        (PumpAtRest(shut_off_m=feet(450), rated_hz=60.0, lift_m=Between(feet(100), feet(100))), 41.5),
        (PumpAtRest(shut_off_m=feet(550), rated_hz=60.0, lift_m=Between(feet(150), feet(150))), 41.7),
    ],
    ids=["healthy", "worn", "level lower"],
)
def test_the_no_flow_speed_is_that_of_the_trades_worked_example(pump: PumpAtRest, hertz: float) -> None:
    """Common practice, by hand: 60 sqrt((50 x 2.31 + lift) / shut-off); 550 ft, 100 ft up: 37.5 Hz, and so on."""
    assert pump.no_flow_hz(FIFTY) == pytest.approx(hertz, abs=0.06)  # the example has one figure after the point


def test_at_full_speed_a_shut_tap_brings_195_psi_to_the_surface() -> None:
    """The trade's own warning, by hand: (550 - 100) ft / 2.31 = 195 psi."""
    assert psi(WELL.surface_pa(60.0)) == pytest.approx(195.0, abs=0.5)


def test_what_comes_in_adds_to_what_the_pump_makes() -> None:
    """By hand: a booster of 100 ft on a main of 40 psi dead-heads at 43.3 + 40 psi."""
    main = Between(parse("40 psi", "pressure"), parse("40 psi", "pressure"))
    booster = PumpAtRest(shut_off_m=feet(100), rated_hz=60.0, incoming_pa=main)
    assert psi(booster.surface_pa(60.0)) == pytest.approx(83.3, abs=0.1)


def test_the_margin_makes_the_most_more_and_the_least_less() -> None:
    """By hand: 1.1 x 550 - 80 = 525 ft at most; 0.9 x 550 - 110 = 385 ft at least."""
    pump = PumpAtRest(shut_off_m=feet(550), rated_hz=60.0, lift_m=Between(feet(80), feet(110)))
    assert pump.surface_most_pa(60.0) == pytest.approx(weight_pa(feet(525)))
    assert pump.surface_least_pa(60.0) == pytest.approx(weight_pa(feet(385)))


@pytest.mark.parametrize("limit", [60.0, 90.0, 150.0, 218.0])
def test_at_the_highest_speed_the_strongest_pump_just_meets_the_limit(limit: float) -> None:
    """Property: what `highest_hz` gives, put back, gives the limit."""
    pascal = limit * 6894.757
    assert WELL.surface_most_pa(WELL.highest_hz(pascal)) == pytest.approx(pascal)


def test_a_limit_that_the_pump_never_meets_leaves_it_its_rated_speed() -> None:
    """By hand: 1.1 x 550 - 100 = 505 ft is 219 psi, below 300."""
    assert WELL.highest_hz(300 * 6894.757) == 60.0


def test_a_limit_that_the_slowest_speed_passes_is_refused() -> None:
    """By hand: at 24 Hz 1.1 x 550 x 0.16 = 97 ft of head; with 80 psi coming in nothing keeps it below 20 psi."""
    main = Between(80 * 6894.757, 80 * 6894.757)
    with pytest.raises(RangeOfValidityError):
        PumpAtRest(shut_off_m=feet(550), rated_hz=60.0, incoming_pa=main).highest_hz(20 * 6894.757)


def test_ones_own_no_flow_test_gives_the_shut_off_head_back() -> None:
    """Property: a pump of 550 ft held at 37.54 Hz by 50 psi is found to have 550 ft."""
    hertz = WELL.no_flow_hz(FIFTY)
    assert shut_off_from_test_m(hertz, FIFTY, feet(100), 60.0) == pytest.approx(feet(550))
