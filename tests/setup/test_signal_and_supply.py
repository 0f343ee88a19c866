"""How a signal gets in, and whether its supply is right: from Ohm's law and the trade's own rules."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.published.conductor_awg import area_m2
from steadyhead.setup.signal_match import way_in
from steadyhead.setup.supply import drop_v
from steadyhead.setup.van import matched
from steadyhead.visit.record import Cable, Interval, Signal
from tests.setup.benches import FIVE_VOLT, MILLIAMPS, ONE_TO_FIVE, TEN_VOLT, about, ids, on_van, plate, system


def test_250_ohm_makes_1_to_5_volts_of_4_to_20_milliamps() -> None:
    """Ohm's law: 0.004 x 250 = 1, 0.020 x 250 = 5; 0.020^2 x 250 = 0.1 W; 24^2 / 250 = 2.3 W where the wires touch."""
    way, _ = way_in(system(ONE_TO_FIVE, input_resistance_ohm=None), MILLIAMPS)
    assert (way.id, way.resistor_ohm) == ("resistor", 250.0)
    assert (way.low, way.high) == pytest.approx((1.0, 5.0))
    assert (way.heat_w, way.shorted_w) == pytest.approx((0.1, 2.304))


def test_an_input_of_half_to_four_and_a_half_volts_takes_the_next_smaller_resistor() -> None:
    """0.020 x 250 = 5 V is above 4.5; 0.020 x 220 = 4.4 is not; 1 Mohm beside it takes 0.022 %."""
    way, _ = way_in(system(), MILLIAMPS)
    assert way.resistor_ohm == 220.0
    assert way.high == pytest.approx(4.4 * 1e6 / (1e6 + 220), rel=1e-12)


@pytest.mark.parametrize(
    ("supply", "grade"), [(13.9, "no"), (14.0, "fits"), (24.0, "fits"), (30.0, "fits"), (30.1, "no"), (5.0, "no")]
)
def test_a_loop_needs_its_own_least_volts_and_five_more_for_the_resistor(supply: float, grade: str) -> None:
    """The trade's rule: 250 ohm only if the supply is the sensor's least (9 V) and 5 V more; 30 V is its most."""
    match = matched(system(ONE_TO_FIVE, supply_v=supply), on_van(plate(MILLIAMPS)))
    assert about(match, "supply")[0].grade == grade


def test_what_the_resistor_and_the_cable_take_is_told() -> None:
    """0.020 A x (250 + 2 x 300 m x 20.948 ohm/km) = 5.251 V (ASTM B258 copper, AWG 18; P1.6 of our references)."""
    visit = replace(system(MILLIAMPS), cable=Cable(length_m=300.0, conductor_m2=area_m2(18)))
    way, _ = way_in(visit, MILLIAMPS)
    assert drop_v(visit, plate(MILLIAMPS), way) == pytest.approx(5.0 + 0.2514, abs=0.001)


def test_a_five_volt_sensor_dies_on_24_volts() -> None:
    """A plate of 5 V, on 24 V: refused, with both figures."""
    match = matched(system(ONE_TO_FIVE), on_van(plate(FIVE_VOLT)))
    (found,) = about(match, "supply")
    assert (found.grade, found.why.id) == ("no", "van-supply-too-much")
    assert found.why.values["least"] == 24.0


def test_volts_that_may_fall_below_what_it_needs_are_measured_first() -> None:
    """4.75..5.25 V here, made for 5..5.5: neither right nor wrong."""
    match = matched(system(), on_van(plate(supply=Interval(5.0, 5.5))))
    assert about(match, "supply")[0].grade == "check"


@pytest.mark.parametrize(("settable", "grade"), [(True, "with-work"), (None, "check"), (False, "no")])
def test_volts_into_a_milliamps_input_hang_on_a_setting(settable: bool | None, grade: str) -> None:
    """The input's resistor shorts volts; unknown is looked at, never refused."""
    match = matched(system(MILLIAMPS, settable=settable), on_van(plate(TEN_VOLT)))
    assert about(match, "signal")[0].grade == grade
    assert (match.settings is None) == (settable is False)


@pytest.mark.parametrize(("settable", "grade"), [(True, "with-work"), (None, "check"), (False, "no")])
def test_ten_volts_into_an_input_of_five_hang_on_a_setting(settable: bool | None, grade: str) -> None:
    """More than the input's end is never tried."""
    match = matched(system(ONE_TO_FIVE, settable=settable), on_van(plate(TEN_VOLT)))
    assert about(match, "signal")[0].grade == grade


def test_milliamps_too_small_for_any_resistor_are_refused_with_the_reason() -> None:
    """An input of 0..1 V: 0.020 x 100 = 2 V is above it, and no smaller resistor is carried."""
    low = Signal(kind="voltage", low=0.0, high=1.0, wires=3)
    match = matched(system(ONE_TO_FIVE, sensor=plate(low)), on_van(plate(MILLIAMPS)))
    assert ids(match, "signal") == [("no", "van-signal-no-resistor")]
    assert (match.grade, match.settings, match.pins) == ("no", None, ())


def test_an_input_that_can_be_set_to_milliamps_needs_no_resistor() -> None:
    """Menu and slide switch before a part that stands in."""
    match = matched(system(ONE_TO_FIVE, settable=True), on_van(plate(MILLIAMPS)))
    assert (match.way.id, match.way.resistor_ohm) == ("setting", None)


def test_a_zero_that_is_no_signal_is_told_and_does_not_stay() -> None:
    """0 V and a broken wire look alike (common practice)."""
    match = matched(system(ONE_TO_FIVE, settable=True), on_van(plate(TEN_VOLT)))
    assert ("with-work", "van-signal-dead-zero") in ids(match, "signal")
    assert match.lasts == "temporary"
    assert match.settings is not None
    assert match.settings.low_fault is None


#: The ends of a 5 V sensor, that do not follow the supply.
HALF_VOLT = Signal(kind="voltage", low=0.5, high=4.5, wires=3)


@pytest.mark.parametrize(
    ("reference", "signal", "said"),
    [
        ("ratiometric", FIVE_VOLT, None),
        ("fixed", FIVE_VOLT, "van-signal-follows"),
        ("ratiometric", HALF_VOLT, "van-signal-stands-still"),
        ("fixed", HALF_VOLT, None),
        (None, FIVE_VOLT, None),
        (None, HALF_VOLT, "van-signal-reference-unknown"),
    ],
)
def test_sensor_and_input_follow_the_supply_alike_or_it_is_told(
    reference: str | None, signal: Signal, said: str | None
) -> None:
    """TRADE: sag to 4.5 V at 50 psi gives 2.25 V; a ratiometric input still shows 50, a fixed one 43.75."""
    match = matched(system(reference=reference), on_van(plate(signal, supply=Interval(5.0, 5.0))))
    found = [id_ for _, id_ in ids(match, "signal") if id_ != "van-signal-same"]
    assert found == ([] if said is None else [said])
