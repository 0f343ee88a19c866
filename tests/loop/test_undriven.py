"""Where nothing drives the signal: insulation, pull-ups, junctions and dead amplifiers, by Ohm's law and a pencil."""

from __future__ import annotations

import pytest

from tests.loop.benches import PSI, amplified, faulty, three_wire, volt

#: The input's 1 Mohm beside the meter's 10 [ohm].
METERED = 1e7 / 11


@pytest.mark.parametrize("ohm", [3e6, 30e6, 300e6])
def test_a_sound_cable_lets_a_little_through_to_a_signal_wire_that_nothing_drives(ohm: float) -> None:
    """Plug off, 24 V through R into the input's 1 Mohm and the meter's 10: 24 x 0.909 / (0.909 + R), by Ohm's law."""
    loop = amplified(insulation_ohm=ohm).built(50 * PSI)
    found = volt(loop, "controller.signal", "sensor-unplugged")
    assert found == pytest.approx(24.0 * METERED / (METERED + ohm), rel=0.015)


@pytest.mark.parametrize("arrangement", ["sensor-leads-lifted", "all-lifted", "supply-terminal-clear"])
def test_insulation_goes_with_the_wires(arrangement: str) -> None:
    """With the cable off its terminals, or its supply wire off, nothing comes through it."""
    loop = amplified(insulation_ohm=3e6).built(50 * PSI)
    assert volt(loop, "controller.signal", arrangement) == pytest.approx(0.0, abs=0.01)


def test_insulation_moves_no_signal_that_a_sensor_drives() -> None:
    """1 ohm against 3 Mohm from 24 V: 8 microvolts."""
    driven = volt(amplified(insulation_ohm=3e6).built(50 * PSI), "controller.signal")
    assert driven == pytest.approx(volt(amplified().built(50 * PSI), "controller.signal"), abs=1e-4)


def test_an_output_with_less_than_a_junctions_volts_drives_nothing() -> None:
    """On 0.2 V no transistor conducts: 5 V through 1 Mohm into 0.909 stand at 2.38 V, sensor or no sensor."""
    loop = three_wire(supply_v=0.2, diodes=False, pull_v=5.0, pull_ohm=1e6).built(50 * PSI)
    assert volt(loop, "controller.signal") == pytest.approx(5.0 * METERED / (1e6 + METERED), abs=0.03)


def test_a_reversed_sensor_that_blocks_its_supply_still_lets_its_common_pin_through_to_the_signal() -> None:
    """Its common pin stands on 5 V; the junction from there to the signal pin takes 0.4 V of 40 uA: common practice."""
    loop = faulty(three_wire(reverse="nothing", diodes=True), "swapped-supply-common").built(50 * PSI)
    assert volt(loop, "controller.signal") == pytest.approx(4.6, abs=0.1)
    assert volt(loop, "controller.supply") == pytest.approx(5.0, abs=0.05)


def test_a_dead_amplifier_stands_up_to_its_own_rail() -> None:
    """On 24 V and 1.5 V short of it: 22.5 V at the worst, and anything from its own 10 V on."""
    at_the_rail = faulty(amplified(clamp_v=60.0), "sensor-high", 1.0).built(50 * PSI)
    assert volt(at_the_rail, "controller.signal") == pytest.approx(22.5, abs=0.1)
    seen = [volt(faulty(amplified(clamp_v=60.0), "sensor-high", s).built(0.0), "controller.signal") for s in (0.1, 0.5)]
    assert 10.0 < seen[0] < seen[1] < 22.5


def test_a_pull_up_on_the_sensors_power_goes_with_it() -> None:
    """Half of 5 V: 2.5 V through 1 Mohm into 0.909 stand at 1.19 V with the plug off; 3.3 V of logic stay."""
    for pull_v, left in ((5.0, 2.5), (3.3, 3.3)):
        loop = faulty(three_wire(pull_v=pull_v, pull_ohm=1e6), "controller-supply-low", 0.5).built(0.0)
        found = volt(loop, "controller.signal", "sensor-unplugged")
        assert found == pytest.approx(left * METERED / (1e6 + METERED), abs=0.03)
