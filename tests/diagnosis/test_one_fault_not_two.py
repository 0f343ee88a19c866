"""Readings of one fault that two faults would explain too, as far as the devices' makes go: by Ohm's law alone."""

from __future__ import annotations

from math import log
from statistics import NormalDist

import pytest

from steadyhead.diagnosis.belief import believe
from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.observing import observations
from steadyhead.diagnosis.pull_up import pull_ohm, pull_slope
from steadyhead.diagnosis.verdict import contradicted
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import BOOSTER, FULL_VAN, HOUSE, gauge, reading, system, volts

SUPPLY, SIGNAL, COMMON = "controller.supply", "controller.signal", "controller.common"
#: A house controller whose converter measures against a reference of its own.
FIXED = HOUSE.replace('reference = "ratiometric"', 'reference = "fixed"')

#: A van with a middling meter and no spare.
METER = """
[place]
cock = false
[instruments]
gauge = { range = "0..160 psi", accuracy = "2 %" }
meter = { volts = "0.8 % + 1 x 0.001 V", milliamps = "0.8 % + 3 x 0.01 mA", ohms = "1 % + 3 x 0.1 ohm" }
have = ["multimeter", "gauge", "insulation-tester"]
"""


def with_part(found: dict[str, float], fault: str) -> float:
    """Return how likely a fault is, alone or beside another one."""
    return sum(share for name, share in found.items() if fault in name.split("+"))


def test_a_shorted_sensor_is_no_bad_wire_where_a_pull_up_holds_the_idle_signal() -> None:
    """Ohm's law: 5 V behind 1.3 Mohm into 100 kohm are 0.357 V; a supply that folds back gives 5 mA in 50 ohm."""
    found = shares(
        FIXED + FULL_VAN + gauge("56 psi") + reading("displayed-pressure", "-6.2 psi")
        + volts(SIGNAL, COMMON, "0.357 V", "sensor-unplugged") + volts(SIGNAL, COMMON, "0.252 V")
        + volts("sensor.supply", "sensor.common", "0.245 V") + volts("sensor.signal", "sensor.common", "0.251 V")
    )  # fmt: skip
    assert found.get("sensor-shorted", 0.0) > 0.1, sorted(found.items(), key=lambda item: -item[1])[:4]
    assert found.get("resistive-supply", 0.0) < 0.1


def test_a_current_far_past_the_range_is_the_sensors_own() -> None:
    """A current sensor whose electronics is gone lets through more than 26 mA (common practice): 28 mA in 250 ohm."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("57 psi") + reading("displayed-fault", "high-signal")
        + volts(SIGNAL, COMMON, "7.00 V") + reading("displayed-pressure", "150 psi", arrangement="vented")
        + reading("milliamps", "28.0 mA", arrangement="meter-in-signal")
        + reading("displayed-pressure", "150 psi", arrangement="temporary-cable")
    )  # fmt: skip
    assert with_part(found, "sensor-high") > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_reversed_sensor_that_conducts_beside_a_spare_that_blocks_is_good() -> None:
    """A junction and 2 ohm at 80 mA are 0.86 V; a spare with another protection lets nothing through reversed."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("32 psi") + reading("displayed-fault", "high-signal")
        + volts(SUPPLY, SIGNAL, "0.86 V") + volts(SIGNAL, COMMON, "20.0 V")
        + reading("inspection", "wrong", item="wiring-order")
        + reading("displayed-pressure", "-25 psi", arrangement="spare-at-plug")
    )  # fmt: skip
    assert found.get("reversed", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_weak_supply_that_bears_the_spare_worse_is_one_fault() -> None:
    """Ohm's law: 0.8 mA through the sensor leaves 0.6 V, and 0.2 V where the spare draws three times as much."""
    found = shares(
        HOUSE + FULL_VAN + gauge("74 psi") + reading("displayed-fault", "low-signal")
        + volts(SUPPLY, COMMON, "0.60 V") + volts("sensor.supply", "sensor.common", "0.60 V")
        + volts("sensor.supply", "sensor.common", "4.90 V", "sensor-unplugged")
        + volts("sensor.signal", "sensor.common", "0.00 V", "sensor-unplugged")
        + volts(SUPPLY, COMMON, "0.20 V", "spare-at-plug")
    )  # fmt: skip
    pairs = sum(share for fault, share in found.items() if "+" in fault)
    assert pairs < 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_converter_without_its_reference_shows_nothing() -> None:
    """A converter that measures against 0.9 V converts nothing (most want about a volt): 0.54 V are shown as none."""
    found = shares(
        HOUSE + FULL_VAN + gauge("77 psi") + reading("displayed-pressure", "-12.5 psi")
        + reading("displayed-fault", "low-signal") + volts("sensor.supply", "sensor.signal", "0.37 V")
        + volts("sensor.supply", "sensor.common", "4.95 V", "sensor-unplugged")
        + volts("sensor.signal", "sensor.common", "0.53 V") + volts("sensor.supply", "sensor.common", "0.90 V")
    )  # fmt: skip
    assert with_part(found, "controller-input-dead") < 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_shorted_sensor_and_a_clamp_that_conducts_are_one_fault() -> None:
    """Ohm's law: 199 mA through 3 ohm and the joints are 0.76 V; 250 ohm take 93 mA of it at 23.3 V, a clamp the rest.

    A storm makes two faults likelier, and still not likelier than one.
    """
    booster = BOOSTER.replace("0..100 psi", "0..200 psi").replace('accuracy = "1 %"', 'accuracy = "1.5 %"')
    for unread in ('[cable]\nlength = "12 m"\nconductor = "22 AWG"\n', 'low_fault = "3.6 mA"\nhigh_fault = "21 mA"\n'):
        booster = booster.replace(unread, "")
    found = shares(
        booster + METER + '[complaint]\nshown = ["high-signal"]\nchanged = ["storm"]\n' + gauge("139 psi")
        + reading("displayed-pressure", "1113 psi") + reading("displayed-fault", "high-signal")
        + reading("displayed-signal", "93.04 mA", arrangement="connected")
        + volts(SIGNAL, COMMON, "0.001 V", "sensor-unplugged") + volts(SUPPLY, SIGNAL, "0.763 V")
        + volts(SIGNAL, COMMON, "23.30 V") + reading("milliamps", "199.3 mA", arrangement="meter-in-signal")
        + reading("milliamps", "199.1 mA", arrangement="meter-in-signal")
    )  # fmt: skip
    assert found.get("sensor-shorted", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_wet_joint_whose_own_volts_push_the_ohmmeter_up_a_range_needs_no_bad_sensor() -> None:
    """Ohm's law: 60 ohm hold a 10 V output at 1.8 V; 0.25 V of its own over 0.1 mA are shown as 2.6 kohm."""
    text = HOUSE.replace("0.5..4.5 V ratiometric", "0..10 V").replace('supply = "5 V"', 'supply = "12 V"')
    text = text.replace('supply_limits = "4.5..5.25 V"\n', "").replace('reference = "ratiometric"', "")
    text = text.replace('low_fault = "0.2 V"\nhigh_fault = "4.8 V"\n', "")
    found = shares(
        text + FULL_VAN + gauge("68 psi") + reading("displayed-pressure", "18 psi") + volts(SIGNAL, COMMON, "1.80 V")
        + volts(SUPPLY, COMMON, "11.95 V") + volts("sensor.signal", "sensor.common", "1.80 V")
        + reading("inspection", "wrong", item="moisture")
        + reading("ohms", "OL", red="wire.supply", black="wire.common", arrangement="dead-both-free")
        + reading("ohms", "2.56 kohm", red="wire.signal", black="wire.common", arrangement="dead-both-free")
    )  # fmt: skip
    assert found.get("leakage-signal-common", 0.0) > 0.3, sorted(found.items(), key=lambda item: -item[1])[:4]


@pytest.mark.parametrize("ohm", [50e3, 160e3, 500e3, 30e6, 60e6, 300e6])
def test_pull_ups_are_as_often_strong_as_inputs_that_are_meant_to_show_an_open_wire(ohm: float) -> None:
    """Two kinds in one: 13 of 100 about 150 kohm, the others about 60 Mohm, each by a factor of 3.3.

    Against Python's own normal distribution.
    """
    normal = NormalDist()
    low, high = -6.0, 6.0
    while high - low > 1e-9:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if pull_ohm(middle) < ohm else (low, middle)
    kinds = ((0.13, NormalDist(11.92, 1.2)), (0.87, NormalDist(17.91, 1.2)))
    wanted = sum(part * kind.cdf(log(ohm)) for part, kind in kinds)
    assert normal.cdf(low) == pytest.approx(wanted, abs=0.07)


@pytest.mark.parametrize("z", [-2.5, -1.2, 0.0, 1.0])
def test_the_slope_of_a_pull_up_is_that_of_its_logarithm(z: float) -> None:
    """A central difference."""
    step = 1e-4
    slope = log(pull_ohm(z + step) / pull_ohm(z - step)) / (2.0 * step)
    assert pull_slope(pull_ohm(z)) == pytest.approx(slope, rel=1e-6)


def test_a_leak_beside_a_clamp_that_conducts_is_no_reversed_sensor() -> None:
    """Ohm's law: with the plug off 510 ohm carry 32.6 mA of 16.6 V, through 226 ohm; the clamp takes the sensor's."""
    booster = BOOSTER.replace("0..100 psi", "0..300 psi").replace('accuracy = "1 %"', 'accuracy = "0.25 %"')
    for unread in ('[cable]\nlength = "12 m"\nconductor = "22 AWG"\n', 'input_resistance = "250 ohm"\n'):
        booster = booster.replace(unread, "")
    found = shares(
        booster + METER + gauge("138 psi") + 2 * reading("displayed-pressure", "500.3 psi")
        + reading("displayed-fault", "high-signal") + volts(SUPPLY, SIGNAL, "16.42 V") + volts(SIGNAL, COMMON, "7.69 V")
        + volts(SIGNAL, COMMON, "7.36 V", "sensor-unplugged")
        + 2 * reading("milliamps", "56.5 mA", arrangement="meter-in-signal")
        + reading("displayed-pressure", "484.8 psi", arrangement="vented")
    )  # fmt: skip
    assert with_part(found, "leakage-supply-signal") > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_reading_that_nothing_explains_bars_a_proof_until_it_is_taken_again() -> None:
    """By the rule: one meter's reading off, and no second one that is explained; a look and a display bar nothing."""
    text = HOUSE + FULL_VAN + gauge("48 psi") + reading("displayed-pressure", "47 psi") + volts(SIGNAL, COMMON, "0.3 V")
    once = observations(system(text))
    again = observations(system(text + volts(SIGNAL, COMMON, "2.42 V")))
    display, odd = (o.number for o in once if o.question.measure in {"displayed-pressure", "volts"})
    assert contradicted(once, frozenset({odd}))
    assert not contradicted(once, frozenset({display}))
    assert not contradicted(again, frozenset({odd}))
    assert contradicted(again, frozenset({o.number for o in again if o.question.measure == "volts"}))


def test_interference_shifts_the_mean_at_both_ends_of_a_cable_by_the_same_volts() -> None:
    """Common practice: a rectified hum moves a signal's mean; 0.3 V at the panel are 0.3 V at the plug."""
    found = shares(
        HOUSE + FULL_VAN + gauge("60 psi") + reading("displayed-pressure", "44..62 psi jumping")
        + reading("volts-ac", "0.12 V", red=SIGNAL, black=COMMON) + volts(SIGNAL, COMMON, "2.60 V")
        + volts("sensor.signal", "sensor.common", "2.60 V") + volts("sensor.supply", "sensor.signal", "2.40 V")
        + reading("displayed-pressure", "60 psi", arrangement="temporary-cable")
    )  # fmt: skip
    picked_up = with_part(found, "noise-pickup") + with_part(found, "shield-looped")
    assert picked_up > 0.1, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_supply_too_weak_for_its_own_lamp_is_one_fault() -> None:
    """Ohm's law: half a milliampere through a controller's own 3 kohm is 1.5 V, and next to nothing with the sensor."""
    found = shares(
        HOUSE + FULL_VAN + gauge("60 psi") + reading("displayed-fault", "low-signal")
        + volts(SUPPLY, COMMON, "0.09 V") + volts("sensor.supply", "sensor.common", "0.09 V")
        + volts(SUPPLY, COMMON, "1.50 V", "sensor-unplugged") + volts(SUPPLY, COMMON, "1.51 V", "sensor-unplugged")
    )  # fmt: skip
    assert found.get("controller-supply-weak", 0.0) > 0.2, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_sensor_asleep_behind_a_leak_in_its_plug_is_good() -> None:
    """Ohm's law: 57 mA in 12 ohm of each wire leave 3.4 V of 4.8 V, too little for many a sensor, and lift common."""
    found = shares(
        HOUSE + FULL_VAN + gauge("60 psi") + reading("displayed-signal", "0.72 V")
        + volts("sensor.supply", "sensor.common", "3.40 V", "sensor-unplugged")
        + volts("sensor.signal", "sensor.common", "-0.69 V", "sensor-unplugged")
        + volts(SUPPLY, COMMON, "4.78 V", "sensor-unplugged")
    )  # fmt: skip
    across = found.get("leakage-supply-common", 0.0) + found.get("short-supply-common", 0.0)
    assert across > 0.03, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_common_that_is_open_keeps_its_chance_where_one_junction_drops_less_than_most() -> None:
    """Common practice: at microamperes a junction drops 0.25 V as well as 0.5 V, the same at every reading of it."""
    found = shares(
        FIXED + FULL_VAN + gauge("50 psi") + reading("displayed-pressure", "106 psi") + volts(SIGNAL, COMMON, "4.75 V")
        + volts(SUPPLY, COMMON, "5.00 V") + volts("sensor.supply", "sensor.signal", "0.25 V")
        + volts(SIGNAL, COMMON, "0.02 V", "sensor-unplugged")
    )  # fmt: skip
    assert found.get("open-common", 0.0) > 0.015, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_current_input_switched_to_volts_is_told_whatever_resistance_it_has_then() -> None:
    """Ohm's law: 24 V less 5.3 V at the sensor leave 18.7 V: 3.5 mA through 5.35 kohm; the display says volts.

    Voltage inputs have from some kilohms to some hundreds of them (common practice).
    """
    booster = BOOSTER.replace("0..100 psi", "0..60 psi").replace('input_resistance = "250 ohm"\n', "")
    found = shares(
        booster + FULL_VAN + gauge("33 psi") + reading("displayed-pressure", "112 psi")
        + reading("displayed-fault", "high-signal") + reading("displayed-signal", "18.7 V")
        + volts(SUPPLY, SIGNAL, "5.30 V") + volts(SIGNAL, COMMON, "18.7 V")
        + reading("milliamps", "3.50 mA", arrangement="meter-in-signal")
    )  # fmt: skip
    assert found.get("setting-signal-kind", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_junction_between_crossed_wires_is_off_at_all_figures_of_the_signal_alike() -> None:
    """Supply and signal crossed: 4.92 V less a junction's 0.65 V stand at the input, whatever the pressure.

    A good lead on the floor leaves the crossing behind. Four figures that agree are one doubt about the junction.
    """
    found = shares(
        HOUSE.replace("0..100 psi", "0..150 psi") + FULL_VAN + gauge("113 psi")
        + reading("displayed-pressure", "141 psi") + volts(SIGNAL, COMMON, "4.26 V")
        + volts(SIGNAL, COMMON, "4.25 V", "vented")
        + reading("displayed-pressure", "140.9 psi", arrangement="vented")
        + reading("displayed-pressure", "112.5 psi", arrangement="temporary-cable")
    )  # fmt: skip
    assert found.get("swapped-supply-signal", 0.0) > 0.03, sorted(found.items(), key=lambda item: -item[1])[:9]


def test_a_spare_that_drives_harder_into_a_shorted_input_is_no_second_fault() -> None:
    """Ohm's law: 9 mA of the sensor in 14 ohm are 0.126 V, 20 mA of a spare 0.28 V; joints and the meter take a little.

    Two outputs of one kind differ so much (common practice: 5 to 25 mA).
    """
    found = shares(
        FIXED + FULL_VAN + gauge("42 psi") + reading("displayed-pressure", "-9.4 psi")
        + reading("displayed-fault", "low-signal") + volts("sensor.supply", "sensor.signal", "4.86 V")
        + volts("sensor.signal", "sensor.common", "0.126 V")
        + volts("sensor.signal", "sensor.common", "0.001 V", "sensor-unplugged")
        + volts("sensor.supply", "sensor.signal", "5.00 V", "sensor-unplugged")
        + volts(SIGNAL, COMMON, "0.280 V", "spare-at-controller")
    )  # fmt: skip
    assert found.get("controller-input-dead", 0.0) > 0.2, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_interference_is_gone_while_the_drive_stands_and_shifts_the_mean_by_half_of_what_it_shakes() -> None:
    """A display that jumps by 18 psi about 67 psi where the gauge has 79, and is right and steady by a lead of its own.

    All meters agree about the mean; with the drive stopped and the plug off nothing is shifted (common practice).
    """
    found = shares(
        FIXED + FULL_VAN + gauge("79.2 psi") + reading("displayed-pressure", "57.6..75.7 psi jumping")
        + reading("displayed-fault", "none") + volts(SIGNAL, COMMON, "3.179 V") + volts(SUPPLY, COMMON, "5.002 V")
        + reading("displayed-pressure", "79.0 psi", arrangement="temporary-cable")
        + reading("displayed-signal", "2.80..3.53 V jumping") + reading(
            "volts-ac", "0.201 V", red=SIGNAL, black=COMMON
        )
        + volts("sensor.supply", "sensor.signal", "4.94 V", "sensor-unplugged")
        + volts("sensor.signal", "sensor.common", "0.000 V", "sensor-unplugged")
    )  # fmt: skip
    assert found.get("noise-pickup", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_stiff_source_that_holds_a_shorted_input_up_is_no_second_fault() -> None:
    """Ohm's law: 4.5 V behind 6 ohm are 2.25 V on 6 ohm, shown as 43.7 psi; the sensor's 12 mA there are 0.07 V.

    A bench supply or a battery is as stiff; a potentiometer's wiper has hundreds of ohms (common practice).
    """
    found = shares(
        FIXED + FULL_VAN + gauge("49 psi") + reading("displayed-pressure", "-10.8 psi")
        + reading("displayed-fault", "low-signal") + volts(SUPPLY, COMMON, "5.01 V") + volts(SIGNAL, COMMON, "0.072 V")
        + volts(SIGNAL, COMMON, "0.060 V", "temporary-cable")
        + reading("displayed-pressure", "43.7 psi", arrangement="source-at-controller", source="4.5 V")
        + reading("displayed-pressure", "18.7 psi", arrangement="source-at-controller", source="2.5 V")
        + reading("displayed-pressure", "-6.2 psi", arrangement="source-at-controller", source="0.5 V")
        + reading("inspection", "right", item="input-setting")
    )  # fmt: skip
    assert found.get("controller-input-dead", 0.0) > 0.42, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_load_that_holds_the_supply_down_is_found_in_the_make_of_a_low_supply() -> None:
    """Ohm's law: 88 mA in 12 ohm are 1.05 V, and 4 mA less with a sensor on it, 1.10 V without.

    Both need a converter that still measures against 1.05 V, which few do (common practice).
    """
    unread = (
        'accuracy = "1 %"\n', '[cable]\nlength = "12 m"\nconductor = "22 AWG"\n', 'supply_limits = "4.5..5.25 V"\n',
        'scaled = "0..150 psi"\n', 'low_fault = "0.2 V"\nhigh_fault = "4.8 V"\n', 'reference = "ratiometric"\n',
    )  # fmt: skip
    text = HOUSE.replace("0..100 psi", "0..150 psi").replace("100 kohm", "22.2 kohm")
    for line in unread:
        text = text.replace(line, "")
    coarse = METER.replace('0.8 % + 1 x 0.001 V', '0.8 % + 2 x 0.01 V').replace('"0..160 psi", accuracy = "2 %"', (
        '"0..100 psi", grade = "B"'
    ))
    found = shares(
        text + coarse + '[complaint]\nchanged = ["recent-work"]\nsince = "sudden"\n' + gauge("52.0 psi")
        + reading("displayed-pressure", "-2.8 psi") + reading("displayed-fault", "none")
        + reading("displayed-signal", "0.43 V") + volts(SIGNAL, COMMON, "0.10 V")
        + volts("sensor.signal", "sensor.common", "0.06 V") + volts("sensor.supply", "sensor.common", "1.02 V")
        + volts("sensor.supply", "sensor.signal", "0.95 V") + volts(SUPPLY, COMMON, "1.05 V")
        + volts(SUPPLY, COMMON, "1.10 V", "sensor-unplugged")
    )  # fmt: skip
    assert found.get("other-load", 0.0) > 0.03, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_strong_pull_up_is_seen_under_every_suspect() -> None:
    """Ohm's law: 0.13 V on an idle 26.6 kohm are 4.9 uA through 1 Mohm from 5 V, whatever else is wrong."""
    text = HOUSE.replace('input_resistance = "100 kohm"', 'input_resistance = "26.6 kohm"').replace(
        "0..100 psi", "0..300 psi"
    )
    told = system(
        text + METER + gauge("131 psi") + reading("displayed-pressure", "7.3 psi") + reading("displayed-fault", "none")
        + volts(SUPPLY, COMMON, "5.02 V", "sensor-unplugged") + reading("displayed-signal", "0.60 V")
        + volts(SIGNAL, COMMON, "0.130 V", "sensor-unplugged") + volts(SIGNAL, COMMON, "0.130 V", "sensor-leads-lifted")
        + reading("inspection", "right", item="wiring-order") + volts(SIGNAL, COMMON, "0.60 V")
    )  # fmt: skip
    worst: dict[str, float] = {}
    for w in believe(told, cells(told), observations(told)).after:
        off = max((misfit for number, misfit in w.misfits if number in {6, 7}), default=0.0)
        worst[w.cell.fault] = min(worst.get(w.cell.fault, off), off)
    for fault in ("sensor-low", "sensor-frozen", "port-blocked"):
        assert worst[fault] < 1.0, worst
