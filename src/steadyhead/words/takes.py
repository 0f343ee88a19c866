"""The last half of every how: what is then measured or read, and between which points.

Rules
-----
1. A check with two leads names both, red first; one without names none.
2. A caller who draws the leads beside the sentence leaves ``red`` and ``black`` out of the message.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from steadyhead.messages import Value
from steadyhead.words.points import Labelled, point_name

#: What is done for each measure.
TAKES: dict[str, str] = {
    "volts": "Measure volts DC{}.",
    "volts-ac": "Measure volts AC{}.",
    "ohms": "Measure ohms{}.",
    "megohms": "Make an insulation test, at no more volts than the cable is made for{}.",
    "milliamps": "Read the milliamps.",
    "gauge-pressure": "Read the gauge.",
    "own-gauge": "Read your own gauge.",
    "displayed-pressure": "Read the pressure on the display.",
    "displayed-signal": "Read the raw signal on the display.",
    "displayed-fault": "Read the fault on the display.",
}
BETWEEN = "{measure}, {red} to {black}"
WITH_HOOK_UP = "{what} ({hook_up})"
LEADS = ": red lead on {red}, black lead on {black}"


class TakesReader(Labelled, Protocol):
    """The reader of a how."""

    def name(self, kind: str, id_: str) -> str: ...  # noqa: D102 - as in Speaker


def take(reader: TakesReader, values: Mapping[str, Value], name: str) -> str:
    """Return the sentence that says what to measure or read.

    Parameters
    ----------
    reader
        Whose labels name the points.
    values
        ``red`` and ``black`` where leads are to be named; both may be None.
    name
        Which value is the measure.
    """
    template = reader.translated(TAKES[str(values[name])])
    return template.replace("{}", _leads(reader, values))


def _leads(reader: TakesReader, values: Mapping[str, Value]) -> str:
    red, black = values.get("red"), values.get("black")
    if red is None or black is None:
        return ""
    text = reader.translated(LEADS)
    return text.replace("{red}", point_name(str(red), reader)).replace("{black}", point_name(str(black), reader))


def reading_of(reader: TakesReader, values: Mapping[str, Value], name: str) -> str:
    """Return what was read, and between which points: ``volts DC, AI to COM``."""
    measure = reader.name("measure", str(values[name]))
    red, black = values.get("red"), values.get("black")
    if red is None or black is None:
        return measure
    text = reader.translated(BETWEEN).replace("{measure}", measure)
    return text.replace("{red}", point_name(str(red), reader)).replace("{black}", point_name(str(black), reader))


def what_read(reader: TakesReader, values: Mapping[str, Value], name: str) -> str:
    """Return what was read, in which hook-up: ``volts DC, AI to COM (plug off the transducer)``; or what was seen."""
    if values.get("item"):
        return reader.name("item", str(values["item"]))
    arrangement = values.get("arrangement")
    what = reading_of(reader, values, name)
    if arrangement in {None, "connected"}:
        return what
    text = reader.translated(WITH_HOOK_UP)
    return text.replace("{what}", what).replace("{hook_up}", reader.name("arrangement", str(arrangement)))
