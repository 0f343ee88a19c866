"""Where a display stops: at the ends of its scale (`display = "clamped"`), or where its converter sees no more.

Rules
-----
1. Its ends are those of the setting that was read, else of the sensor's range: with another setting nobody knows them.
2. A figure at an end, or past it, is read as one that lies past its instrument's scale.
3. What is foretold of such a display stops at the same ends.
4. Of the others every second one goes on as the signal does; the rest see no more from somewhere past the signal's end
   (common practice: a converter with a fifth in hand). So a figure past the end may be where the converter stops.
"""

from __future__ import annotations

from math import exp, pi, sqrt

from steadyhead.diagnosis.system import System
from steadyhead.loop.parts import Screen
from steadyhead.visit.record import Beyond, Figure, Interval

#: How near to an end a figure is at it, in parts of the scale.
AT_THE_END = 0.004
#: Part of the converters that see no more from somewhere past the signal's end on, and how far beyond they still do, in
#: parts of the signal's span.
STOPS, STOPS_WITHIN = 0.5, 0.4


def stops_at(system: System, measure: str) -> Interval | None:
    """Return the pressures [Pa] at which the display stops; None where it goes on, or for another measure."""
    if measure != "displayed-pressure" or system.visit.controller.display != "clamped":
        return None
    return system.scaled or system.range


def as_read(system: System, measure: str, value: Figure) -> Figure | Beyond:
    """Return a figure, where it stands at an end of a display that stops there as one past it."""
    ends = stops_at(system, measure)
    if ends is None:
        return value
    near = AT_THE_END * ends.width + 0.5 * value.resolution
    if value.value <= ends.low + near:
        return Beyond("below", ends.low, value.unit)
    if value.value >= ends.high - near:
        return Beyond("above", ends.high, value.unit)
    return value


def as_shown(system: System, measure: str, value: float) -> float:
    """Return what is shown of a value."""
    ends = stops_at(system, measure)
    return value if ends is None else min(max(value, ends.low), ends.high)


def past_converter(screen: Screen, measure: str, read: float, foretold: float, variance: float) -> float | None:
    """Return the chance of a figure's being where the converter stops, over that of a figure that is foretold.

    None where it is likelier as foretold, lies within the scale, or above what is foretold.

    Parameters
    ----------
    screen
        How the display is set.
    measure
        What was read.
    read, foretold
        The figure, and what a converter that goes on would show.
    variance
        Of the figure about what is foretold.
    """
    if measure == "displayed-pressure":
        top, wide = screen.scale_high, screen.scale_high - screen.scale_low
    elif measure == "displayed-signal":
        top, wide = screen.high, screen.high - screen.low
    else:
        return None
    if not top + AT_THE_END * wide < read < min(foretold, top + STOPS_WITHIN * wide):
        return None
    whole = sqrt(2.0 * pi * variance)
    stops = STOPS / (STOPS_WITHIN * wide) * whole
    return stops if stops > exp(-0.5 * min((foretold - read) ** 2 / variance, 1300.0)) else None
