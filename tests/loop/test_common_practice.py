"""What every technician knows that a loop shows, in figures that a pencil gives (common practice, no source)."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from steadyhead.loop.draft import LoopDraft
from steadyhead.loop.readings import at_rest, milliammeter, seen_signal, shown_pressure
from tests.loop.benches import PSI, amplified, faulty, three_wire, three_wire_current, two_wire, volt

#: Joints, input and meter together take less than this from 5 V.
TWO_MILLIVOLT = 2e-3
#: A two-wire sensor's current still rises a little with its volts: 1 uA a volt.
THIRTY_MICROAMP = 30e-6


@pytest.mark.parametrize(("psi", "expected"), [(0, 0.5), (50, 2.5), (100, 4.5)])
def test_a_half_to_four_and_a_half_volt_sensor_reads_on_its_straight_line(psi: float, expected: float) -> None:
    """Volts = 0.5 + 4.0 x psi / 100."""
    assert volt(three_wire().built(psi * PSI), "controller.signal") == pytest.approx(expected, abs=TWO_MILLIVOLT)


@pytest.mark.parametrize(("psi", "expected"), [(1, 0.1), (50, 5.0), (100, 10.0)])
def test_a_zero_to_ten_volt_sensor_reads_on_its_straight_line(psi: float, expected: float) -> None:
    """Volts = 10 x psi / 100."""
    assert volt(amplified().built(psi * PSI), "controller.signal") == pytest.approx(expected, abs=TWO_MILLIVOLT)


@pytest.mark.parametrize("make", [two_wire, three_wire_current])
@pytest.mark.parametrize(("psi", "expected"), [(0, 4e-3), (25, 8e-3), (50, 12e-3), (100, 20e-3)])
def test_a_current_sensor_reads_on_its_straight_line(
    make: Callable[[], LoopDraft], psi: float, expected: float
) -> None:
    """Milliampere = 4 + 16 x psi / 100, by the meter in line and by the volts over the input's 250 ohm."""
    loop = make().built(psi * PSI)
    assert milliammeter(at_rest(loop, "meter-in-signal"), loop) == pytest.approx(expected, abs=THIRTY_MICROAMP)
    assert volt(loop, "controller.signal") == pytest.approx(250 * expected, abs=250 * THIRTY_MICROAMP)


def test_the_display_shows_the_pressure() -> None:
    """50 psi is 50 psi, give or take a tenth."""
    for make in (three_wire, amplified, two_wire, three_wire_current):
        loop = make().built(50 * PSI)
        shown = shown_pressure(seen_signal(at_rest(loop, "connected"), loop.screen), loop.screen)
        assert shown / PSI == pytest.approx(50, abs=0.1)


def test_a_sagging_supply_moves_the_signal_but_not_a_ratiometric_display() -> None:
    """4.5 V at 50 psi gives 2.25 V: a ratiometric input still shows 50 psi, a fixed one 43.75."""
    loop = three_wire(supply_v=4.5).built(50 * PSI)
    operation = at_rest(loop, "connected")
    assert operation.volt("controller.signal") == pytest.approx(2.25, abs=TWO_MILLIVOLT)
    assert shown_pressure(seen_signal(operation, loop.screen), loop.screen) / PSI == pytest.approx(50, abs=0.1)
    assert (operation.volt("controller.signal") - 0.5) / 4.0 * 100 == pytest.approx(43.75, abs=0.1)


@pytest.mark.parametrize(("wire", "at_zero", "at_full"), [("common", 2.25, 0.25), ("supply", -0.25, -2.25)])
def test_a_surge_protector_of_twenty_ohm_lifts_one_end_and_spares_the_other(
    wire: str, at_zero: float, at_full: float
) -> None:
    """20 ohm and 5 mA are 0.1 V: 0.1 x (1 - ratio) more by common, 0.1 x ratio less by supply; 25 psi a volt."""
    for psi, expected in ((0, at_zero), (100, at_full)):
        clean = volt(three_wire(draw_siemens=1.02e-3).built(psi * PSI), "controller.signal")
        draft = faulty(three_wire(draw_siemens=1.02e-3), f"resistive-{wire}", 20.0, "run")
        moved = (volt(draft.built(psi * PSI), "controller.signal") - clean) * 25
        assert moved == pytest.approx(expected, abs=0.03)


def test_a_current_loop_does_not_care_about_twenty_ohm() -> None:
    """A current is the same all round its loop."""
    for wire in ("supply", "signal"):
        loop = faulty(two_wire(), f"resistive-{wire}", 20.0, "run").built(100 * PSI)
        assert volt(loop, "controller.signal") == pytest.approx(5.0, abs=250 * THIRTY_MICROAMP)


def test_a_signal_joint_does_nothing_until_kilohms() -> None:
    """1 kohm before 1 Mohm takes 0.1 %; 1 Mohm with the meter's 10 Mohm takes about half."""
    small = faulty(three_wire(), "resistive-signal", 1e3, "terminal").built(50 * PSI)
    assert volt(small, "controller.signal") == pytest.approx(2.5, rel=2.5e-3)
    large = faulty(three_wire(), "resistive-signal", 1e6, "terminal").built(50 * PSI)
    assert volt(large, "controller.signal") == pytest.approx(2.5 * 0.909 / 1.909, rel=0.01)


def test_an_open_common_usually_reads_high() -> None:
    """The sensor's common floats up to its supply, and its signal goes along, perhaps a junction's 0.6 V below."""
    for make, full in ((three_wire, 4.5), (amplified, 10.0)):
        loop = faulty(make(), "open-common", 0.0, "run").built(30 * PSI)
        assert volt(loop, "controller.signal") > 0.95 * full


def test_an_open_supply_or_signal_reads_nothing() -> None:
    """Nothing drives the input, so its own resistance holds it at common."""
    for make in (three_wire, amplified, two_wire, three_wire_current):
        for wire in ("supply", "signal"):
            loop = faulty(make(), f"open-{wire}", 0.0, "run").built(50 * PSI)
            assert volt(loop, "controller.signal") == pytest.approx(0.0, abs=0.02)


def test_a_shorted_supply_is_pulled_down_and_recovers_when_the_pair_is_lifted() -> None:
    """1 ohm at 0.1 A leaves 0.1 V, and what the limit gives way by; with the wires off the 5 V is back."""
    loop = faulty(three_wire(), "short-supply-common", 1.0, "run").built(50 * PSI)
    assert volt(loop, "controller.supply") < 0.3
    for arrangement in ("sensor-leads-lifted", "all-lifted", "supply-terminal-clear"):
        assert volt(loop, "controller.supply", arrangement) == pytest.approx(5.0, abs=TWO_MILLIVOLT)
    assert volt(loop, "controller.supply", "sensor-unplugged") < 0.3


@pytest.mark.parametrize("arrangement", ["sensor-leads-lifted", "all-lifted", "supply-terminal-clear"])
@pytest.mark.parametrize("volts", [4.87, 5.0, 5.13, 23.7, 24.0])
def test_a_supply_without_load_reads_its_own_volts(arrangement: str, volts: float) -> None:
    """A meter's 10 Mohm is no load for a supply of an ohm: it takes a ten-millionth."""
    loop = three_wire(supply_v=volts, source_ohm=1.0).built(0.0)
    assert volt(loop, "controller.supply", arrangement) == pytest.approx(volts, rel=1e-6)


def test_another_device_on_the_supply_stays_until_its_own_wire_is_off() -> None:
    """With the sensor's leads lifted it still pulls the supply down; with every wire off the terminal it is gone."""
    loop = three_wire(other_load_ohm=5.0, source_ohm=5.0, limit_a=2.0).built(50 * PSI)
    assert volt(loop, "controller.supply", "sensor-leads-lifted") == pytest.approx(2.5, abs=0.01)
    for arrangement in ("supply-terminal-clear", "all-lifted"):
        assert volt(loop, "controller.supply", arrangement) == pytest.approx(5.0, abs=0.01)


def test_a_starved_two_wire_sensor_lets_its_current_fall() -> None:
    """24 V less 10 V over three inputs of 250 ohm in series: 14 / 0.75 = 18.7 mA is the most that it can keep."""
    strong = two_wire(input_ohm=750.0).built(85 * PSI)
    assert volt(strong, "controller.signal") / 750 == pytest.approx(17.6e-3, abs=THIRTY_MICROAMP)
    weak = two_wire(input_ohm=750.0).built(100 * PSI)
    assert 17.6e-3 < volt(weak, "controller.signal") / 750 < 19.2e-3


def test_a_two_wire_sensor_on_a_volt_input_starves_and_pegs_the_display() -> None:
    """24 V less the 7 V that wake it, on 10 kohm: 1.5 to 1.7 mA flow, and the input sees some 16 V."""
    loop = two_wire(input_ohm=10e3).built(50 * PSI)
    assert 1.4e-3 < milliammeter(at_rest(loop, "meter-in-signal"), loop) < 1.7e-3
    assert volt(loop, "controller.signal") > 10.0


def test_a_reversed_two_wire_sensor_passes_nothing_or_everything() -> None:
    """With a diode in series nothing flows; with one across it, 24 V less a junction meet 250 ohm, or the limit."""
    blocking = faulty(two_wire(reverse="nothing"), "reversed").built(50 * PSI)
    assert volt(blocking, "controller.signal") == pytest.approx(0.0, abs=1e-3)
    passing = faulty(two_wire(reverse="diode"), "reversed").built(50 * PSI)
    assert volt(passing, "controller.signal") == pytest.approx((24 - 0.6) * 250 / 260, rel=0.01)


def test_a_current_input_clamps_when_it_is_overdriven() -> None:
    """Plus shorted to signal puts 24 V on 250 ohm; a clamp at 12 V behind 50 ohm holds it below 15 V."""
    loop = faulty(two_wire(clamp_v=12.0, source_ohm=50.0), "short-supply-signal", 0.1, "run").built(50 * PSI)
    assert 12.0 < volt(loop, "controller.signal") < 18.0


def test_an_active_current_source_holds_its_current_and_gives_way_below_its_own_volts() -> None:
    """12 mA through 250 ohm are 3.000 V; through 100 kohm the source's own 22 to 24 V end it."""
    good = at_rest(two_wire().built(0.0), "source-at-controller", 12e-3)
    assert good.volt("controller.signal") == pytest.approx(3.0, abs=1e-4)
    bad = at_rest(faulty(two_wire(), "setting-signal-kind", 0.4, "switch").built(0.0), "source-at-controller", 12e-3)
    assert 22.0 < bad.volt("controller.signal") <= 24.0


def test_a_source_of_volts_shows_what_it_gives() -> None:
    """2.5 V behind 100 ohm into 1 Mohm."""
    found = at_rest(three_wire().built(0.0), "source-at-controller", 2.5)
    assert found.volt("controller.signal") == pytest.approx(2.5, abs=TWO_MILLIVOLT)


def test_loop_power_from_outside_needs_its_zero_joined() -> None:
    """Joined by a link the loop works; with its zero open no current finds its way back."""
    joined = two_wire(return_ohm=0.2).built(50 * PSI)
    assert volt(joined, "controller.signal") == pytest.approx(3.0, abs=250 * THIRTY_MICROAMP)
    apart = two_wire(return_ohm=1e9).built(50 * PSI)
    assert volt(apart, "controller.signal") == pytest.approx(0.0, abs=1e-3)


def test_swapped_supply_and_common_give_no_signal_of_the_pressure() -> None:
    """The sensor has its polarity reversed: whatever is read, it does not follow the pressure."""
    for reverse in ("nothing", "diode"):
        for diodes in (True, False):
            seen = [
                volt(faulty(three_wire(reverse=reverse, diodes=diodes), "swapped-supply-common").built(p * PSI),
                     "controller.signal")
                for p in (10, 90)
            ]  # fmt: skip
            assert seen[0] == pytest.approx(seen[1], abs=1e-6)


def test_a_reversed_supply_that_meets_a_diode_is_pulled_down() -> None:
    """A diode across the sensor holds the supply at about a junction's volts."""
    loop = faulty(three_wire(reverse="diode"), "swapped-supply-common").built(50 * PSI)
    assert 0.5 < volt(loop, "controller.supply") < 1.0


def test_a_voltmeter_across_an_open_wire_still_sees_ten_megohm() -> None:
    """An open break of 3 Gohm before a 10 Mohm meter shows 0.3 % of what stands behind it."""
    loop = faulty(three_wire(), "open-signal", 0.0, "plug:mating").built(50 * PSI)
    assert abs(volt(loop, "sensor.signal", "sensor-leads-lifted")) < 0.05
