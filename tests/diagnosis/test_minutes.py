"""What a check costs from where the technician stands: the contract's minutes, by hand and by a second counter."""

from __future__ import annotations

from math import isclose
from typing import Any

import pytest

from steadyhead.diagnosis.checks import minutes, standing
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.system import System
from steadyhead.loop.vocabulary import ARRANGEMENTS
from steadyhead.visit import parse_visit
from tests.diagnosis.visits import ALL, BARE_HOUSE, gauge, named, raw, reading, signal, volts

#: The contract's table: minutes to set an arrangement up.
SETTING_UP = {
    "connected": 2, "sensor-unplugged": 3, "supply-terminal-clear": 3, "meter-in-signal": 5, "sensor-leads-lifted": 6,
    "vented": 7, "all-lifted": 8, "source-at-controller": 8, "temporary-cable": 9, "dead-both-free": 10,
    "spare-at-controller": 12, "dead-looped": 12, "spare-at-plug": 15,
}  # fmt: skip
FREE = {"displayed-fault": 0.2, "displayed-pressure": 0.3, "displayed-signal": 0.5, "gauge-pressure": 0.5}
METER = {"volts", "volts-ac", "milliamps", "ohms", "megohms"}

PANEL = Question("volts", "connected", "controller.signal", "controller.common")
SENSOR = Question("volts", "connected", "sensor.supply", "sensor.common")
UNPLUGGED = Question("volts", "sensor-unplugged", "controller.signal", "controller.common")
AT_PLUG = Question("volts", "sensor-unplugged", "sensor.supply", "sensor.common")
OHMS = Question("ohms", "dead-both-free", "wire.supply", "wire.signal")
DISPLAY = Question("displayed-pressure")
AT_PANEL_DONE = signal("2.42 V")
AT_SENSOR_DONE = volts("sensor.signal", "sensor.common", "2.42 V")
UNPLUGGED_DONE = signal("0.00 V", "sensor-unplugged")
SOURCED = Question("displayed-pressure", "source-at-controller", source=2.5)
SOURCED_DONE = reading("displayed-pressure", "0.0 psi", arrangement="source-at-controller", source="0.5 V")

#: What was read, what is asked, and the contract's sum in words of figures.
BY_HAND = [
    ("", PANEL, 2 + 1),
    ("", SENSOR, 2 + 1 + 5),
    ("", UNPLUGGED, 3 + 1),
    ("", DISPLAY, 0.3),
    ("", Question("displayed-fault"), 0.2),
    ("", Question("displayed-signal"), 0.5),
    ("", Question("inspection", item="moisture"), 4),
    ("", Question("inspection", item="min-max"), 10),
    (gauge("48 psi") + reading("displayed-pressure", "48 psi"), PANEL, 2 + 1),
    (AT_PANEL_DONE, PANEL, 1),
    (AT_PANEL_DONE, SENSOR, 1 + 5),
    (AT_PANEL_DONE, UNPLUGGED, 3 + 1),
    (AT_PANEL_DONE, AT_PLUG, 3 + 1 + 5),
    (AT_PANEL_DONE, OHMS, 10 + 1),
    (AT_PANEL_DONE, SOURCED, 8 + 0.3),
    (AT_SENSOR_DONE, SENSOR, 1),
    (AT_SENSOR_DONE, PANEL, 1 + 1),
    (AT_SENSOR_DONE, AT_PLUG, 3 + 1),
    (AT_SENSOR_DONE, UNPLUGGED, 3 + 1 + 1),
    (AT_SENSOR_DONE, DISPLAY, 0.3),
    (UNPLUGGED_DONE, UNPLUGGED, 1),
    (UNPLUGGED_DONE, PANEL, 2 + 1),
    (UNPLUGGED_DONE, DISPLAY, 0.3),
    (UNPLUGGED_DONE, Question("inspection", item="port"), 4),
    (AT_PANEL_DONE + SOURCED_DONE, SOURCED, 0.3),
]


def cost(text: str, question: Question) -> float:
    """Return what a question costs at the end of a visit."""
    visit = parse_visit(text).visit
    return minutes(System(visit), question, standing(visit))


@pytest.mark.parametrize(("done", "question", "wanted"), BY_HAND)
def test_a_check_costs_what_the_contract_says(done: str, question: Question, wanted: float) -> None:
    """The contract's rules, added up by hand."""
    assert isclose(cost(BARE_HOUSE + done, question), wanted, abs_tol=1e-9)


@pytest.mark.parametrize(("walk", "way"), [("1 min", 3.0), ("2 min", 5.0), ("3 min", 7.0), ("30 s", 2.0)])
def test_a_walk_replaces_the_way_to_the_sensor(walk: str, way: float) -> None:
    """The contract: `[place] walk` replaces the 5 by 1 + 2 x walk; the way back still costs 1."""
    place = f'[place]\nwalk = "{walk}"\n'
    assert isclose(cost(BARE_HOUSE + place + AT_PANEL_DONE, SENSOR), 1 + way, abs_tol=1e-9)
    assert isclose(cost(BARE_HOUSE + place + AT_SENSOR_DONE, PANEL), 1 + 1, abs_tol=1e-9)


def test_every_arrangement_costs_what_the_contract_says() -> None:
    """The contract's table, copied into this file."""
    assert {a.id: a.minutes for a in ARRANGEMENTS.values() if not a.water_side} == SETTING_UP


@pytest.mark.parametrize("name", ALL)
def test_minutes_of_every_answer_agree_with_a_second_counter(name: str) -> None:
    """A counter written for this test from the contract, on the file's bare TOML."""
    file = raw(name)
    for each in named(name)["next_checks"]:
        assert isclose(each["minutes"], _counted(file, each), abs_tol=1e-9), each


def _counted(file: dict[str, Any], check: dict[str, Any]) -> float:
    measure, arrangement = check["measure"], check["arrangement"]
    if measure == "inspection":
        return 4.0
    if check.get("whose") == "own":
        return 5.0
    if arrangement == "connected" and measure in FREE:
        return FREE[measure]
    now, at_sensor = _where(file.get("reading", []))
    total = FREE.get(measure, 1.0) + (SETTING_UP[arrangement] if arrangement != now else 0.0)
    if measure in METER and _at_sensor(check) != at_sensor:
        minutes_of_walk = {"min": 1.0, "s": 1.0 / 60.0}
        figure, _, unit = file.get("place", {}).get("walk", "2 min").partition(" ")
        total += 1.0 if at_sensor else 1.0 + 2.0 * float(figure) * minutes_of_walk[unit]
    return total


def _where(readings: list[dict[str, Any]]) -> tuple[str | None, bool]:
    arrangement, at_sensor = None, False
    for each in readings:
        stands = each.get("arrangement", "connected")
        if each["measure"] in METER:
            arrangement, at_sensor = stands, _at_sensor(each)
        elif stands != "connected":
            arrangement = stands
    return arrangement, at_sensor


def _at_sensor(keys: dict[str, Any]) -> bool:
    return any((keys.get(lead) or "").startswith("sensor.") for lead in ("red", "black"))
