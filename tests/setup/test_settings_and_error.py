"""What is entered and how far off the display may be: closed forms, and the loop solved as a circuit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.loop.draft import LoopDraft
from steadyhead.loop.parts import Screen
from steadyhead.loop.readings import at_rest, seen_signal, shown_pressure
from steadyhead.setup.van import Match, matched
from steadyhead.visit.record import Interval, Signal, Site, Visit
from tests.loop.benches import amplified, three_wire, two_wire
from tests.setup.benches import MILLIAMPS, ONE_TO_FIVE, PSI, TEN_VOLT, about, ids, on_van, plate, system

HALF_A_TENTH_PSI = 0.05 * PSI  #: what a display of tenths cannot show
#: A two-wire sensor's current rises by 1 uA a volt: at 15 V more than its least, 15 uA of 16 mA.
OWN_RISE_PSI = 0.1 * PSI


def test_0_to_150_in_the_place_of_0_to_100_is_a_setting_and_half_as_much_error_again() -> None:
    """The trade's own example: scaling, and 1.5 times the error."""
    match = matched(system(), on_van(plate(top_psi=150.0)))
    assert match.settings is not None
    assert (match.settings.range.low, match.settings.range.high) == pytest.approx((0.0, 150 * PSI))
    assert match.error is not None
    assert match.error.ratio == pytest.approx(1.5)
    assert match.error.parts["sensor"] == pytest.approx(1.5 * PSI)
    assert (match.grade, match.lasts) == ("with-work", "permanent")


def test_parts_of_the_error_are_taken_together_as_the_root_of_their_squares() -> None:
    """1 % and 0.25 % of 100 psi: sqrt(1 + 0.0625) = 1.0308 psi."""
    error = matched(system(), on_van()).error
    assert error is not None
    assert error.total_pa == pytest.approx(1.0307764 * PSI, rel=1e-6)
    assert error.of_span == pytest.approx(0.010307764, rel=1e-6)


def test_without_an_accuracy_only_the_range_is_compared() -> None:
    """200 psi over 100: twice as wide; no figure is made up."""
    error = matched(system(), on_van(plate(top_psi=200.0, accuracy=None))).error
    assert error is not None
    assert (error.total_pa, error.ratio) == (None, 2.0)


def test_a_resistor_and_a_fixed_signal_bring_their_own_errors() -> None:
    """At the top of 0.88..4.4 V a share of the signal is 4.4 / 3.52 = 1.25 of the span: 1 % makes 1.25 psi of 100."""
    match = matched(system(input_resistance_ohm=None, supply_v=24.0, supply_limits=None), on_van(plate(MILLIAMPS)))
    assert match.error is not None
    assert match.error.parts["resistor"] == pytest.approx(1.25 * PSI)
    assert match.error.parts["loading"] == pytest.approx(220 / 50220 * 125 * PSI)
    assert match.error.parts["supply"] == pytest.approx(0.05 * 125 * PSI)
    assert match.lasts == "temporary"


@pytest.mark.parametrize(
    ("low", "high", "stays"),
    [(0.2, 4.8, True), (0.49, 4.8, False), (0.2, 4.5, False), (None, None, False)],
)
def test_fault_limits_stay_only_where_they_lie_outside_the_new_signal(
    low: float | None, high: float | None, stays: bool
) -> None:
    """0.5..4.5 V: limits inside a hundredth of its span trip in service; unknown ones are looked at."""
    match = matched(system(low_fault=low, high_fault=high), on_van())
    (found,) = about(match, "limits")
    assert (found.grade == "fits") == stays
    assert match.settings is not None
    assert match.settings.low_fault is not None
    assert match.settings.high_fault is not None
    assert match.settings.low_fault < 0.5
    assert match.settings.high_fault > 4.5


def test_over_a_resistor_the_limits_are_those_of_milliamps_as_volts() -> None:
    """NE 43: 3.6 and 21 mA; over 250 ohm (beside 1 Mohm) 0.9 and 5.25 V."""
    match = matched(system(ONE_TO_FIVE, low_fault=1.1, high_fault=5.0), on_van(plate(MILLIAMPS)))
    assert match.settings is not None
    assert (match.settings.low_fault, match.settings.high_fault) == pytest.approx((0.9, 5.25), rel=1e-3)
    assert ids(match, "limits") == [("with-work", "van-limits-move")]


def test_an_absolute_sensor_is_shifted_by_the_air_of_the_place() -> None:
    """U.S. Standard Atmosphere 1976 at 1000 m: 89876 Pa; 0..100 psi absolute is -89876 Pa at its low end."""
    visit = replace(system(), site=Site(altitude_m=1000.0))
    match = matched(visit, on_van(plate(reference="absolute")))
    assert match.settings is not None
    assert match.settings.range.low == pytest.approx(-89876, abs=1.0)
    assert match.lasts == "temporary"


def shown(match: Match, visit: Visit, draft: LoopDraft, pressure: float, *, stretched: bool = False) -> float:
    """Return what the display shows at a pressure, with what the sheet says entered: the circuit, solved."""
    made, own = match.settings, visit.sensor.signal
    assert made is not None
    ends = (made.low, made.high) if not stretched else (own.low, own.high)
    range_ = made.stretched if stretched else made.range
    assert range_ is not None
    kind = made.kind
    screen = Screen(kind=kind, low=ends[0], high=ends[1], scale_low=range_.low, scale_high=range_.high)
    loop = replace(draft, screen=screen).built(pressure)
    return shown_pressure(seen_signal(at_rest(loop, "connected"), screen), screen)


POINTS = [0.0, 20.0, 50.0, 80.0, 100.0]


@pytest.mark.parametrize("psi", POINTS)
@pytest.mark.parametrize("stretched", [False, True])
def test_the_conversion_shows_the_true_pressure_over_the_whole_range(psi: float, stretched: bool) -> None:
    """The loop as a circuit: a two-wire sensor on 24 V, 250 ohm beside the input's 1 Mohm; Kirchhoff decides."""
    visit = system(ONE_TO_FIVE)
    match = matched(visit, on_van(plate(MILLIAMPS)))
    assert match.way.resistor_ohm is not None
    beside = match.way.resistor_ohm * 1e6 / (1e6 + match.way.resistor_ohm)
    draft = two_wire(input_ohm=beside)
    got = shown(match, visit, draft, psi * PSI, stretched=stretched)
    assert got == pytest.approx(psi * PSI, abs=OWN_RISE_PSI)


@pytest.mark.parametrize("psi", POINTS)
def test_a_stretched_range_shows_the_truth_where_the_menu_keeps_its_ends(psi: float) -> None:
    """A sensor of 0..5 V on an input that is set for 0..10 V: the circuit, solved."""
    visit = system(ONE_TO_FIVE, sensor=plate(TEN_VOLT), high_fault=10.5, low_fault=None)
    half = Signal(kind="voltage", low=0.0, high=5.0, wires=3)
    match = matched(visit, on_van(plate(half)))
    assert match.way.id == "ends"
    draft = amplified(high=5.0, most=5.25)
    assert shown(match, visit, draft, psi * PSI, stretched=True) == pytest.approx(psi * PSI, abs=HALF_A_TENTH_PSI)


@pytest.mark.parametrize("psi", [0.0, 60.0, 150.0])
def test_a_wider_sensor_shows_the_truth_once_its_range_is_entered(psi: float) -> None:
    """A ratiometric 0..150 psi sensor in the place of 0..100: the circuit, solved; 5 mA in 0.4 ohm allowed for."""
    visit = system()
    match = matched(visit, on_van(plate(top_psi=150.0)))
    draft = three_wire(range_high=150 * PSI)
    assert shown(match, visit, draft, psi * PSI) == pytest.approx(psi * PSI, abs=3 * HALF_A_TENTH_PSI)


def test_too_little_supply_makes_the_refused_loop_clip() -> None:
    """12 V is refused for 9 V and 5 V; the circuit with a sensor of 10 V at its top shows less than the truth."""
    visit = system(ONE_TO_FIVE, supply_v=12.0)
    match = matched(visit, on_van(plate(MILLIAMPS, supply=Interval(10.0, 30.0))))
    assert about(match, "supply")[0].grade == "no"
    draft = two_wire(input_ohm=249.94, supply_v=12.0)
    assert shown(match, visit, draft, 100 * PSI) < 80 * PSI


def test_fault_limits_in_another_unit_are_not_kept() -> None:
    """An input set from volts to milliamps: 3.6 and 21 mA of NE 43."""
    match = matched(system(ONE_TO_FIVE, settable=True), on_van(plate(MILLIAMPS)))
    assert match.settings is not None
    assert (match.settings.low_fault, match.settings.high_fault) == pytest.approx((0.0036, 0.021))
