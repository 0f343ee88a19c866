"""At which stop of a visit a check is made, so that a list of checks reads as a round and not as a zigzag.

Everything that affects which stop a check belongs to lives in this file.

Rules
-----
1. Where covers stay on comes first, then a look, then the panel, then the sensor, and last what needs the power off.
2. Within a stop the checks stand as the engine ranks them: what saves most minutes first.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from steadyhead.diagnosis.checks import leads_at_sensor
from steadyhead.diagnosis.observing import Question
from steadyhead.loop.vocabulary import METER_MEASURES

Stop = Literal["covers-on", "look", "panel", "sensor", "power-off"]
STOPS: tuple[Stop, ...] = ("covers-on", "look", "panel", "sensor", "power-off")
#: Hook-ups that are made at one place, whatever is read there.
MADE_AT: Mapping[str, Stop] = {
    "sensor-unplugged": "sensor", "vented": "sensor", "spare-at-plug": "sensor", "temporary-cable": "sensor",
    "dead-both-free": "power-off", "dead-looped": "power-off",
}  # fmt: skip


def stop_of(question: Question) -> Stop:
    """Return the stop at which a check is made."""
    if question.arrangement in MADE_AT:
        return MADE_AT[question.arrangement]
    if question.item is not None:
        return "look"
    if leads_at_sensor(question):
        return "sensor"
    opened = question.arrangement != "connected" or question.measure in {*METER_MEASURES, "min-max"}
    return "panel" if opened else "covers-on"
