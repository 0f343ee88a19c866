"""A sensor's fault told from the cable's: what must have been read before either is called proved."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.cells import Cell, Part, single
from steadyhead.diagnosis.makes import COMMON, Latents
from steadyhead.diagnosis.observing import observations
from steadyhead.diagnosis.system import System
from steadyhead.diagnosis.verdict import sensor_could_do_it, sure
from steadyhead.visit import parse_visit
from tests.diagnosis.visits import HOUSE, VAN, answer, gauge, odds, reading, signal, volts

AMPLIFIED = """
schema = 1
[sensor]
signal = "0..10 V"
range = "0..100 psi"
accuracy = "0.5 %"
[controller]
supply = "12 V"
scaled = "0..100 psi"
"""


def held(fault: str, place: str) -> list[Weighed]:
    """Return a belief in one fault."""
    cell: Cell = single(Part(fault, place, 0.5, 0.3), 1.0, COMMON[0])
    return [Weighed(cell, 1.0, Latents(), ())]


@pytest.mark.parametrize(
    ("arrangement", "could"),
    [("connected", True), ("vented", True), ("sensor-unplugged", False), ("all-lifted", False)],
)
def test_a_leak_is_proved_only_by_a_reading_with_the_sensor_out_of_the_loop(arrangement: str, could: bool) -> None:
    """Whatever a path between wires does to the signal, a sensor may do from within."""
    text = HOUSE + VAN + gauge("50 psi") + signal("1.20 V", arrangement)
    seen = observations(System(parse_visit(text).visit))
    assert sensor_could_do_it(held("leakage-signal-common", "plug:mating"), seen, "repair-cable") is could


def test_an_open_wire_needs_no_sensor_out_of_the_loop() -> None:
    """Right at the plug and gone at the panel: no sensor parts one wire's two ends."""
    seen = observations(System(parse_visit(HOUSE + VAN + gauge("50 psi") + signal("0.00 V")).visit))
    assert not sensor_could_do_it(held("open-signal", "run"), seen, "repair-cable")


def test_nothing_is_as_good_as_proved_while_more_may_be_needed() -> None:
    """58 in 100 for the cable alone, 34 for cable and sensor: the cable is needed, but one in three needs more."""
    assert not sure({"repair-cable": 0.58, "repair-cable+replace-sensor": 0.34, "replace-sensor": 0.08}, "repair-cable")
    assert sure({"repair-cable": 0.90, "repair-cable+replace-sensor": 0.09, "none": 0.01}, "repair-cable")


def test_two_tenths_of_a_volt_with_the_plug_off_convict_no_plug() -> None:
    """12 V through a sound cable's 30 Mohm into 500 kohm are 12 x 0.5 / 30.5 = 0.197 V, by Ohm's law.

    The signal is 2 V low by a zero that has moved; damp that did this would be some hundred ohms.
    """
    found = answer(
        AMPLIFIED + VAN + gauge("35 psi") + reading("displayed-pressure", "15.0 psi") + signal("1.50 V")
        + signal("0.197 V", "sensor-unplugged") + signal("0.00 V", "sensor-leads-lifted")
    )  # fmt: skip
    assert (found["verdict"]["remedy"], found["verdict"]["state"]) != ("repair-cable", "proved")
    remedies = {item["remedy"]: item["probability"] for item in found["remedies"]}
    assert remedies["replace-sensor"] > remedies["repair-cable"]


def test_a_wire_that_hangs_open_on_a_weak_pull_up_is_found() -> None:
    """Right at the plug, 0.39 V at the panel: 5 V through 10 times the input's resistance and more stand there so."""
    found = answer(
        'schema = 1\n[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\n' + VAN
        + gauge("39 psi") + volts("sensor.signal", "sensor.common", "2.08 V") + signal("0.39 V")
    )  # fmt: skip
    assert found["verdict"]["remedy"] == "repair-cable"
    assert odds(found)["open-signal"] > 0.5


@pytest.mark.parametrize("stop", ["0.10 V", "0.20 V", "0.30 V"])
def test_an_output_may_stop_anywhere_below_its_low_end(stop: str) -> None:
    """A zero that has moved by -27 % of 4 V asks for -0.58 V at no pressure; the output stops where its make does."""
    found = answer(
        HOUSE + VAN + gauge("50 psi") + signal("1.42 V") + signal(stop, "vented")
    )  # fmt: skip
    assert odds(found)["sensor-zero-shift"] > 0.1
