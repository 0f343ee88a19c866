"""Faults that only show once a part is past its corner, or far from the middle of a scale: found by Ohm's law alone."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.cells import begins, cells
from steadyhead.diagnosis.checks import candidates
from steadyhead.diagnosis.makes import FIRST
from steadyhead.diagnosis.observing import observations
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import BOOSTER, FULL_VAN, HOUSE, VAN, gauge, reading, system, volts

SUPPLY, SIGNAL, COMMON = "controller.supply", "controller.signal", "controller.common"


def test_a_joint_in_the_signal_wire_that_rivals_the_input_is_found() -> None:
    """Ohm's law: 2.42 V at the sensor (48 psi of 100) through 120 kohm into 100 kohm leave 1.10 V at the terminal."""
    found = shares(
        HOUSE + VAN + gauge("48 psi") + reading("displayed-pressure", "15 psi")
        + volts(SIGNAL, COMMON, "1.10 V") + volts("sensor.signal", "sensor.common", "2.40 V")
    )  # fmt: skip
    assert found.get("resistive-signal", 0.0) > 0.3, sorted(found.items(), key=lambda item: -item[1])[:4]
    assert found["resistive-signal"] + found.get("open-signal", 0.0) > 0.9, "and a pull-up shows it too"


def test_a_shorted_sensor_behind_a_supply_that_just_bears_it_is_found() -> None:
    """Ohm's law: 3.9 V over 37 ohm are 105 mA, of which 250 ohm take 80 mA at 20 V and a clamp the rest."""
    found = shares(
        BOOSTER + VAN + gauge("70 psi") + reading("displayed-fault", "high-signal")
        + volts(SUPPLY, SIGNAL, "3.90 V") + volts(SIGNAL, COMMON, "20.00 V")
        + 2 * reading("milliamps", "105.2 mA", arrangement="meter-in-signal")
        + volts("sensor.supply", "sensor.signal", "3.88 V") + volts(SIGNAL, COMMON, "0.00 V", "sensor-unplugged")
    )  # fmt: skip
    with_it = sum(share for fault, share in found.items() if "sensor-shorted" in fault)
    assert with_it > 0.7
    assert found.get("sensor-shorted", 0.0) > 0.5
    assert found.get("leakage-supply-signal", 0.0) > 0.002, "37 ohm in the plug would show the same, and is rarer"


def test_a_supply_that_gives_next_to_nothing_is_found() -> None:
    """Ohm's law and a source of current: 3.6 mA is all there is, at 4 V of 24, and the sensor is not at fault."""
    found = shares(
        BOOSTER + VAN + gauge("60 psi") + reading("displayed-fault", "low-signal")
        + volts(SUPPLY, COMMON, "4.3 V") + volts(SUPPLY, SIGNAL, "3.4 V") + volts(SIGNAL, COMMON, "0.90 V")
        + reading("milliamps", "3.57 mA", arrangement="meter-in-signal")
        + volts(SIGNAL, COMMON, "0.00 V", "sensor-unplugged")
    )  # fmt: skip
    board = sum(share for fault, share in found.items() if fault.startswith("controller-supply"))
    assert board > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


@pytest.mark.parametrize("ends", ["62..78 psi", "56..84 psi"])
def test_a_display_that_jumps_beside_a_meter_that_stands_is_noise(ends: str) -> None:
    """A meter shows the mean, the display takes moments: common practice. 70 psi of 100 are 3.80 V in 250 ohm."""
    found = shares(
        BOOSTER + VAN + gauge("70 psi") + reading("displayed-pressure", f"{ends} jumping")
        + volts(SIGNAL, COMMON, "3.80 V") + reading("milliamps", "15.2 mA", arrangement="meter-in-signal")
    )  # fmt: skip
    noisy = found.get("noise-pickup", 0.0) + found.get("shield-looped", 0.0)
    assert noisy > 0.4, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_an_insulation_tester_says_no_more_than_little_of_a_wet_joint() -> None:
    """It is made for megohms, and the joint's own volts fool its first step: 0.04 Mohm contradicts no 134 ohm."""
    read = reading("megohms", "0.04 Mohm", arrangement="dead-both-free", red="wire.supply", black="wire.common")
    (seen,) = [o for o in observations(system(HOUSE + FULL_VAN + read)) if o.question.measure == "megohms"]
    assert seen.side == "below"
    high = reading("megohms", "0.40 Mohm", arrangement="dead-both-free", red="wire.supply", black="wire.common")
    (seen,) = [o for o in observations(system(HOUSE + FULL_VAN + high)) if o.question.measure == "megohms"]
    assert seen.side == ""


@pytest.mark.parametrize("seed", range(0, 5000, 97))
def test_the_first_makes_begin_at_a_small_a_middling_and_a_large_size(seed: int) -> None:
    """A property: one in each third of the scale; and all makes together one in each eighth of it."""
    sizes = begins(seed)
    assert sorted(int(3.0 * sizes[number]) for number in FIRST) == [0, 1, 2]
    assert sorted(int(8.0 * size) for size in sizes) == list(range(8))


def test_a_joint_in_the_common_that_starves_the_sensor_is_found_although_one_place_was_begun_again() -> None:
    """Ohm's law: 325 ohm and 6 mA lift the sensor's common by 2 V; with 2.9 V left its output stands at that common."""
    found = shares(
        HOUSE + VAN + gauge("48 psi") + volts(SIGNAL, COMMON, "1.99 V") + volts(SIGNAL, COMMON, "1.99 V", "vented")
        + volts(SUPPLY, COMMON, "4.96 V", "sensor-unplugged") + volts(SIGNAL, COMMON, "0.01 V", "sensor-unplugged")
        + volts("sensor.supply", "sensor.signal", "2.93 V") + volts("sensor.signal", "sensor.common", "0.01 V")
    )  # fmt: skip
    assert found.get("resistive-common", 0.0) > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]


@pytest.mark.parametrize("there", [True, False])
def test_where_there_is_no_cock_none_is_suspected_and_none_is_looked_at(there: bool) -> None:
    """A plain fact: what is not there is not shut."""
    told = system(HOUSE + VAN + f"[place]\ncock = {str(there).lower()}\n" + gauge("48 psi"))
    assert any(cell.fault == "sensor-cock-shut" for cell in cells(told)) == there
    assert any(question.item == "cock" for question in candidates(told, frozenset())) == there


def test_a_gauge_that_sticks_near_nothing_is_off_by_most_of_the_pressure() -> None:
    """A plugged snubber holds a needle at any pressure (common practice): 70 psi of 100 are shown, vented none."""
    found = shares(
        BOOSTER + VAN + gauge("3 psi") + reading("displayed-pressure", "70 psi") + volts(SIGNAL, COMMON, "3.80 V")
        + volts(SIGNAL, COMMON, "1.00 V", "vented") + reading("inspection", "right", item="cock")
    )  # fmt: skip
    assert found.get("site-gauge-wrong", 0.0) > 0.4, sorted(found.items(), key=lambda item: -item[1])[:4]
