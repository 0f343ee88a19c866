"""How far off the display may be with a new sensor, beside the old one: in pressure, and in parts of the old span.

Rules
-----
1. Every part is a limit, at the worst place of the range. Parts that have nothing to do with one another are taken
   together as the root of their squares (common practice).
2. The sensor: its accuracy of its own span. So a range half as wide again makes an error half as large again.
3. The input: `INPUT_SHARE` of what is entered as its span, since its converter is as coarse as before (common
   practice).
4. A conversion resistor: its tolerance; and the input beside it, where nobody knows how much it takes.
5. Sensor and input that do not follow the supply alike: what the supply may be off.
6. An absolute or a sealed sensor on a gauge display: the weather.
7. Where the new sensor's accuracy is not noted there is no error to tell, only how much wider its range is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import hypot

from steadyhead.setup.scaling import Settings
from steadyhead.setup.signal_match import LEAST_INPUT_OHM, Way, mixes_references
from steadyhead.setup.supply import supply_here
from steadyhead.visit.record import Sensor, Visit

#: What an input adds, of the span that is entered [fraction] (common practice).
INPUT_SHARE = 0.0025
#: Tolerance of a conversion resistor [fraction] (common practice: metal film).
RESISTOR_SHARE = 0.01
#: What a supply may be off where nobody noted its limits [fraction] (common practice).
SUPPLY_SHARE = 0.05
#: What the weather does to the air's pressure [Pa] (common practice).
WEATHER_PA = 3e3


@dataclass(frozen=True, slots=True, kw_only=True)
class Resulting:
    """The error with a new sensor.

    Parameters
    ----------
    parts
        Each part of it by its name: ``sensor``, ``input``, ``resistor``, ``loading``, ``supply``, ``weather`` [Pa].
    total_pa
        All of them together [Pa]; None where the sensor's accuracy is not noted.
    old_pa
        The same with the sensor that stands there now [Pa], None likewise.
    of_span
        `total_pa` in parts of the old span.
    ratio
        `total_pa` over `old_pa`; without both, how much wider the range is.
    """

    parts: Mapping[str, float] = field(default_factory=dict)
    total_pa: float | None = None
    old_pa: float | None = None
    of_span: float | None = None
    ratio: float = 1.0


def resulting(visit: Visit, new: Sensor, way: Way, made: Settings) -> Resulting:
    """Return the error of the display with a new sensor."""
    old = visit.sensor
    parts = _parts(visit, new, way, made)
    before = None if old.accuracy is None else hypot(old.accuracy * old.range.width, INPUT_SHARE * old.range.width)
    if new.accuracy is None:
        return Resulting(parts=parts, old_pa=before, ratio=new.range.width / old.range.width)
    total = hypot(*parts.values())
    ratio = new.range.width / old.range.width if before is None else total / before
    return Resulting(parts=parts, total_pa=total, old_pa=before, of_span=total / old.range.width, ratio=ratio)


def _parts(visit: Visit, new: Sensor, way: Way, made: Settings) -> dict[str, float]:
    """Return the parts of the error that are not nothing."""
    span = made.range.width
    top = way.high / (way.high - way.low) * span  # a signal that is off by a share of itself is off by this much of it
    parts = {"input": INPUT_SHARE * span}
    if new.accuracy is not None:
        parts["sensor"] = new.accuracy * span
    if way.resistor_ohm is not None:
        parts["resistor"] = RESISTOR_SHARE * top
        if visit.controller.input_resistance_ohm is None:
            parts["loading"] = way.resistor_ohm / (way.resistor_ohm + LEAST_INPUT_OHM) * top
    if mixes_references(visit, new.signal):
        parts["supply"] = supply_share(visit) * top
    if new.reference != visit.sensor.reference:
        parts["weather"] = WEATHER_PA
    return parts


def supply_share(visit: Visit) -> float:
    """Return how far the supply may be off its nominal volts [fraction]."""
    here, nominal = supply_here(visit), visit.controller.supply_v
    if here is None or here.low == here.high:
        return SUPPLY_SHARE
    middle = here.middle if nominal is None else nominal
    return max(here.high - middle, middle - here.low) / middle
