"""What few volts do: an output floats, a diode in series holds off, a wet joint fools an ohmmeter. By Ohm's law."""

from __future__ import annotations

from steadyhead.diagnosis.observing import observations
from steadyhead.diagnosis.opening import opened_belief
from tests.diagnosis.test_one_fault_not_two import COMMON, SIGNAL, SUPPLY, with_part
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import gauge, reading, system, volts


def with_all_pairs(text: str) -> dict[str, float]:
    """Return each fault's share after the readings, other pairs opened where none else fits."""
    told = system(text)
    found: dict[str, float] = {}
    for w in opened_belief(told, observations(told))[0].after:
        found[w.cell.fault] = found.get(w.cell.fault, 0.0) + w.share
    return found


def test_an_output_floats_on_a_supply_that_does_not_wake_it() -> None:
    """Ohm's law: 1.5 mA in 2.8 kohm leave the sensor 0.78 V; its signal hangs a junction of 16 uA below its common."""
    text = (
        'schema = 1\n[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\nsupply = "5 V"\n'
        '[controller]\nsupply = "5 V"\ninput_resistance = "237 kohm"\nscaled = "0..100 psi"\n'
        '[place]\nwalk = "0.5 min"\ncock = false\n'
        '[instruments]\ngauge = { range = "-15..100 psi", accuracy = "1 %" }\n'
        'meter = { volts = "0.3 % + 1 x 0.001 V", milliamps = "0.8 % + 3 x 0.01 mA", ohms = "1 % + 5 x 0.1 ohm" }\n'
        'have = ["multimeter", "gauge", "spare-sensor", "clamp-meter"]\n[complaint]\nsince = "sudden"\n'
    )
    found = with_all_pairs(
        text + gauge("40.0 psi") + reading("displayed-pressure", "84.3 psi") + reading("displayed-fault", "none")
        + volts("sensor.signal", "sensor.common", "-0.343 V") + volts("sensor.supply", "sensor.signal", "1.121 V")
        + volts("sensor.signal", "sensor.common", "-0.343 V") + volts(SIGNAL, COMMON, "3.899 V")
        + volts("sensor.supply", "sensor.common", "0.777 V")
    )  # fmt: skip
    assert found.get("resistive-common", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_swapped_sensor_behind_a_diode_draws_nothing_from_an_idle_input() -> None:
    """Ohm's law: an idle 104 kohm input stands at 0.12 V, plug on or off: no junction conducts with so little."""
    text = (
        'schema = 1\n[sensor]\nsignal = "0..10 V"\nrange = "0..100 psi"\n'
        '[controller]\nsupply = "15 V"\ninput_resistance = "104 kohm"\nscaled = "0..100 psi"\n'
        '[instruments]\ngauge = { range = "-15..100 psi", accuracy = "2 %" }\nhave = ["multimeter", "gauge"]\n'
        'meter = { volts = "0.3 % + 1 x 0.01 V", milliamps = "1 % + 3 x 0.01 mA", ohms = "1.2 % + 5 x 0.1 ohm" }\n'
        '[complaint]\nchanged = ["recent-work"]\n'
    )
    found = shares(
        text + gauge("31 psi") + reading("displayed-pressure", "1.6 psi") + reading("displayed-fault", "none")
        + reading("displayed-signal", "0.16 V") + volts(SUPPLY, COMMON, "15.40 V") + volts(SIGNAL, COMMON, "0.12 V")
        + volts("sensor.supply", "sensor.signal", "-15.10 V") + volts("sensor.supply", "sensor.common", "0.12 V")
        + volts("sensor.supply", "sensor.common", "0.12 V", "sensor-unplugged")
    )  # fmt: skip
    assert found.get("swapped-supply-signal", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_signal_at_half_of_a_supply_of_four_tenths_of_a_volt_is_no_dead_board() -> None:
    """Ohm's law: what holds 12 V at 0.42 V without the sensor's wires, and not once clear, is another load."""
    text = (
        'schema = 1\n[sensor]\nsignal = "0..10 V"\nrange = "0..200 psi"\naccuracy = "1.5 %"\nsupply = "8..30 V"\n'
        '[cable]\nlength = "37 m"\n[controller]\nsupply = "12 V"\nlow_fault = "-0.6 V"\nhigh_fault = "10.6 V"\n'
        '[place]\ncock = false\n[instruments]\ngauge = { range = "-15..160 psi", accuracy = "1 %" }\n'
        'meter = { volts = "0.3 % + 2 x 0.001 V", milliamps = "1 % + 3 x 0.01 mA", ohms = "0.8 % + 5 x 0.1 ohm" }\n'
        'have = ["multimeter", "gauge", "spare-sensor", "spare-lead"]\n[complaint]\nchanged = ["power-cut"]\n'
    )
    found = shares(
        text + gauge("109.5 psi") + reading("displayed-pressure", "5.2 psi") + reading("displayed-fault", "none")
        + volts(SUPPLY, COMMON, "0.420 V") + volts(SUPPLY, COMMON, "0.421 V", "sensor-unplugged")
        + volts(SIGNAL, COMMON, "-0.001 V", "sensor-unplugged") + reading("displayed-signal", "0.26 V")
        + volts(SUPPLY, COMMON, "11.59 V", "supply-terminal-clear")
        + volts(SUPPLY, COMMON, "0.421 V", "sensor-leads-lifted")
        + volts(SIGNAL, COMMON, "0.001 V", "sensor-leads-lifted") + volts(SIGNAL, COMMON, "0.233 V")
    )  # fmt: skip
    assert found.get("other-load", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_wet_joint_reads_otherwise_on_an_ohmmeter_than_in_the_loop() -> None:
    """Ohm's law: 7 mA in 75 ohm are 0.54 V; 0.19 V of its own over a milliampere are 190 ohm more on an ohmmeter.

    A wet joint's ohms differ with the current's direction and size (common practice): 574 are shown.
    """
    text = (
        'schema = 1\n[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..300 psi"\naccuracy = "1 %"\n'
        '[cable]\nlength = "4 m"\n[controller]\nsupply = "5 V"\n[place]\nwalk = "4 min"\ncock = false\n'
        '[instruments]\ngauge = { range = "0..200 psi", accuracy = "2 %" }\n'
        'meter = { volts = "0.3 % + 1 x 0.001 V", milliamps = "0.8 % + 2 x 0.01 mA", ohms = "1.2 % + 2 x 0.1 ohm" }\n'
        'have = ["multimeter", "gauge", "spare-sensor", "signal-source", "potentiometer", "resistors"]\n'
    )
    ohms = {"arrangement": "dead-both-free", "red": "wire.signal"}
    found = with_all_pairs(
        text + gauge("140.0 psi") + reading("displayed-pressure", "3.8 psi") + reading("displayed-fault", "none")
        + reading("displayed-signal", "0.55 V") + volts(SIGNAL, COMMON, "0.193 V", "sensor-unplugged")
        + volts(SUPPLY, COMMON, "4.998 V") + volts(SIGNAL, COMMON, "0.543 V")
        + volts(SIGNAL, COMMON, "0.000 V", "sensor-leads-lifted")
        + reading("ohms", "573.8 ohm", black="wire.common", **ohms) + reading("ohms", "OL", black="earth", **ohms)
        + reading("ohms", "573.6 ohm", black="wire.common", **ohms)
    )  # fmt: skip
    assert with_part(found, "leakage-signal-common") > 0.8, sorted(found.items(), key=lambda item: -item[1])[:4]
