"""Invented visits for the tests of the diagnosis, and their answers, each found once."""

from __future__ import annotations

import tomllib
from functools import cache
from typing import Any

import pytest

from steadyhead.diagnosis.system import System
from steadyhead.service.diagnosis import diagnose_text
from steadyhead.visit import parse_visit
from tests.service.answers import EXAMPLES

#: A drive with a 5 V sensor whose plates and settings were all read.
HOUSE = """
schema = 1
[sensor]
signal = "0.5..4.5 V ratiometric"
range = "0..100 psi"
accuracy = "1 %"
supply = "5 V"
[cable]
length = "12 m"
conductor = "22 AWG"
[controller]
supply = "5 V"
supply_limits = "4.5..5.25 V"
input_resistance = "100 kohm"
scaled = "0..100 psi"
low_fault = "0.2 V"
high_fault = "4.8 V"
reference = "ratiometric"
"""
#: The same of a booster set with a current loop.
BOOSTER = """
schema = 1
[sensor]
signal = "4..20 mA"
range = "0..100 psi"
accuracy = "1 %"
supply = "9..30 V"
[cable]
length = "12 m"
conductor = "22 AWG"
[controller]
supply = "24 V"
input_resistance = "250 ohm"
scaled = "0..100 psi"
low_fault = "3.6 mA"
high_fault = "21 mA"
"""
#: Nobody looked at anything but the sensor's plate.
BARE_HOUSE = 'schema = 1\n[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\n'
BARE_BOOSTER = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n'
BARE_AMPLIFIED = 'schema = 1\n[sensor]\nsignal = "0..10 V"\nrange = "0..10 bar"\n'
BARE_CURRENT = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nwires = "three"\nrange = "0..10 bar"\n'

GAUGE = 'gauge = { range = "0..160 psi", grade = "B" }\n'
VAN = f'[instruments]\n{GAUGE}have = ["multimeter", "gauge"]\n'
FULL_VAN = (
    f'[instruments]\n{GAUGE}have = ["multimeter", "gauge", "spare-sensor", "signal-source", "potentiometer",'
    ' "resistors", "spare-lead", "insulation-tester", "clamp-meter"]\n'
)


def known(reason: str) -> pytest.MarkDecorator:
    """Return the mark of a test that shows a known fault of the diagnosis; a test that passes again may lose it."""
    return pytest.mark.xfail(reason=reason, raises=AssertionError, strict=False)


def reading(measure: str, value: str, **more: str) -> str:
    """Return one reading as a file spells it."""
    keys = {"measure": measure, "value": value, **more}
    return "[[reading]]\n" + "".join(f'{key} = "{text}"\n' for key, text in keys.items())


def volts(red: str, black: str, value: str, arrangement: str = "connected") -> str:
    """Return one reading of a voltmeter."""
    return reading("volts", value, red=red, black=black, arrangement=arrangement)


def gauge(value: str) -> str:
    """Return a gauge reading."""
    return reading("gauge-pressure", value)


def signal(value: str, arrangement: str = "connected") -> str:
    """Return the volts of the signal at the panel."""
    return volts("controller.signal", "controller.common", value, arrangement)


def supply(value: str, arrangement: str = "connected") -> str:
    """Return the volts of the sensor's power at the panel."""
    return volts("controller.supply", "controller.common", value, arrangement)


#: The visit that DESIGN opens: 2.42 V were expected at 48 psi.
OPENING = HOUSE + FULL_VAN + gauge("48 psi") + signal("1.12 V")

#: The keys of an answer, in their order.
KEYS_OF_AN_ANSWER = [
    "schema", "engine", "suspects", "remedies", "verdict", "next_checks", "surprises", "expected", "defaults",
]  # fmt: skip

#: Places along a visit at which the contract must hold, beside the examples.
STANDINGS: dict[str, str] = {
    "nothing-read": BARE_HOUSE,
    "nothing-read-two-wires": BARE_BOOSTER,
    "opening": OPENING,
    "at-the-sensor": HOUSE + FULL_VAN + gauge("48 psi") + volts("sensor.signal", "sensor.common", "1.12 V"),
    "unplugged": OPENING + supply("5.01 V") + signal("0.02 V", "sensor-unplugged"),
    "loop-too-low": BOOSTER + FULL_VAN + gauge("50 psi") + reading("displayed-signal", "7.0 mA"),
    "another-panel-upstairs": HOUSE + '[place]\nwalk = "3 min"\ncock = false\n' + VAN + gauge("48 psi")
    + reading("displayed-pressure", "12 psi"),
    "amplified": BARE_AMPLIFIED + FULL_VAN + gauge("5 bar") + reading("displayed-pressure", "0.1 bar"),
    "three-wire-current": BARE_CURRENT + FULL_VAN + gauge("5 bar") + reading("displayed-pressure", "-2.5 bar"),
}  # fmt: skip
ALL = (*STANDINGS, *(path.stem for path in EXAMPLES))


def text_of(name: str) -> str:
    """Return the visit file of a standing or an example."""
    if name in STANDINGS:
        return STANDINGS[name]
    return next(path for path in EXAMPLES if path.stem == name).read_text(encoding="utf-8")


def raw(name: str) -> dict[str, Any]:
    """Return a visit file as TOML alone reads it."""
    return tomllib.loads(text_of(name))


@cache
def answer(text: str) -> dict[str, Any]:
    """Return the answer to a visit file's text, as JSON values."""
    return diagnose_text(text)


def named(name: str) -> dict[str, Any]:
    """Return the answer to a standing or an example."""
    return answer(text_of(name))


def system(text: str) -> System:
    """Return what the diagnosis takes a visit for."""
    return System(parse_visit(text).visit)


def odds(found: dict[str, Any]) -> dict[str, float]:
    """Return each suspect's probability."""
    return {each["fault"]: each["probability"] for each in found["suspects"]}


def needed(found: dict[str, Any], remedy: str) -> float:
    """Return how likely it is that a remedy is needed, alone or with another one."""
    return sum(float(each["probability"]) for each in found["remedies"] if remedy in each["remedy"].split("+"))


def remedies(found: dict[str, Any]) -> dict[str, float]:
    """Return each remedy's probability."""
    return {each["remedy"]: each["probability"] for each in found["remedies"]}
