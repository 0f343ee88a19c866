"""Birth readings: the numbers of a system when all is well, and what a later number says against one of them.

Rules
-----
1. A number is one figure with its unit. It is kept with how far the instruments may have been off then.
2. Then and now differ by ``now - then``. Two errors that know nothing of each other add as the root of their squares; a
   difference within that is told as no change, one beyond it as moved. Nothing more is decided.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import Any, NamedTuple

from steadyhead.visit.record import Signal

_CONTROLLER: Mapping[str, str] = {"red": "controller.signal", "black": "controller.common"}


class BirthNumber(NamedTuple):
    """One number.

    `row` holds the keys of the reading that it is; empty where no reading of a visit is that. `unit` is the usual one,
    empty where that is the site's own unit of pressure.
    """

    id: str
    dimension: str
    unit: str
    row: Mapping[str, str]


_ROWS = (
    BirthNumber("zero", "pressure", "", {"measure": "displayed-pressure", "arrangement": "vented"}),
    BirthNumber("set", "pressure", "", {"measure": "gauge-pressure"}),
    BirthNumber("signal", "voltage", "V", {"measure": "volts", **_CONTROLLER}),
    BirthNumber("supply", "voltage", "V", {"measure": "volts", **_CONTROLLER, "red": "controller.supply"}),
    BirthNumber("hertz-no-flow", "frequency", "Hz", {"measure": "displayed-hertz"}),
    BirthNumber("amps-no-flow", "current", "A", {"measure": "displayed-amps"}),
    BirthNumber("flow", "flow", "gpm", {"measure": "flow", "arrangement": "steady-draw"}),
    BirthNumber("hertz-flow", "frequency", "Hz", {"measure": "displayed-hertz", "arrangement": "steady-draw"}),
    BirthNumber("amps-flow", "current", "A", {"measure": "displayed-amps", "arrangement": "steady-draw"}),
    BirthNumber("precharge", "pressure", "", {"measure": "precharge"}),
    BirthNumber("level", "length", "m", {"measure": "water-level"}),
    BirthNumber("motor-insulation", "resistance", "Mohm", {}),
    BirthNumber("motor-ohms", "resistance", "ohm", {}),
)
NUMBERS: tuple[str, ...] = tuple(number.id for number in _ROWS)
#: The signal of a current loop, read with the meter in the wire.
_IN_SERIES = BirthNumber("signal", "current", "mA", {"measure": "milliamps", "arrangement": "meter-in-signal"})
#: Whether the loop stands in its usual way: an arrangement that a row leaves out.
USUAL = "connected"


def numbers_of(signal: Signal) -> tuple[BirthNumber, ...]:
    """Return the numbers of a system with such a signal, in the order in which they are read."""
    return tuple(_IN_SERIES if each.id == "signal" and signal.kind == "current" else each for each in _ROWS)


def is_number(number: BirthNumber, body: Mapping[str, Any]) -> bool:
    """Tell whether a reading's keys say that it is this number.

    >>> is_number(_ROWS[4], {"measure": "displayed-hertz", "value": "38 Hz"})
    True
    >>> is_number(_ROWS[4], {"measure": "displayed-hertz", "value": "45 Hz", "arrangement": "steady-draw"})
    False
    """
    if not number.row:
        return False
    row = {"arrangement": USUAL, **number.row}
    return all(body.get(key, USUAL if key == "arrangement" else None) == value for key, value in row.items())


@dataclass(frozen=True, slots=True)
class Moved:
    """What now says against then: the difference and what the instruments tell apart, SI units."""

    difference: float
    within: float

    @property
    def moved(self) -> bool:
        """Whether the difference lies beyond what the instruments may have made of it."""
        return abs(self.difference) > self.within


def moved(then: tuple[float, float], now: tuple[float, float]) -> Moved:
    """Return what now says against then, each with how far the instrument may have been off.

    >>> moved((5.00, 0.03), (5.04, 0.04)).moved
    False
    """
    return Moved(now[0] - then[0], hypot(then[1], now[1]))
