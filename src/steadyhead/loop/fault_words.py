"""What a fault of the sensing loop is made of: its words, its scale, its places, and what it changes.

Rules
-----
1. A fault changes a `LoopDraft`, by a severity and a place; it never looks at readings.
2. Severity is a number on the fault's own scale: resistance by its logarithm, errors in parts of span.
3. A wiring fault has a place. At the terminal it leaves with the wire; in the run it stays in the cable; at the plug it
   is in the crimp, which stays with the cable, or between contact and pin, which parts when the plug comes off. A path
   between wires may lie across the terminal block itself: it stays there when every wire is off.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import exp, log

from steadyhead.loop.draft import LoopDraft

Change = Callable[[LoopDraft, float, str], None]

TERMINAL, BLOCK, RUN, CRIMP, MATING = "terminal", "terminal:block", "run", "plug:crimp", "plug:mating"
#: Where a wiring fault sits, with its share: 60 % at the plug, 25 % at the terminal, 15 % in the run (common practice).
WIRING_PLACES: tuple[tuple[str, float], ...] = ((TERMINAL, 0.25), (RUN, 0.15), (CRIMP, 0.2), (MATING, 0.4))
LEAK_PLACES: tuple[tuple[str, float], ...] = (
    (TERMINAL, 0.1), (BLOCK, 0.1), (RUN, 0.25), (CRIMP, 0.48), (MATING, 0.07),
)  # fmt: skip
NOWHERE: tuple[tuple[str, float], ...] = (("", 1.0),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Severity:
    """The scale of a fault's size: from `low` to `high`, by its logarithm or straight, in `unit`."""

    low: float
    high: float
    unit: str
    logarithmic: bool = True

    def at(self, part: float) -> float:
        """Return the severity at a part of the scale, 0 to 1."""
        if self.logarithmic:
            return exp(log(self.low) + part * log(self.high / self.low))
        return self.low + part * (self.high - self.low)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault of the sensing loop.

    Parameters
    ----------
    id
        The word in files.
    remedy
        What mends it.
    family
        Whose share of calls it takes part in.
    share
        How much of the family's calls it is.
    change
        What it does to a loop.
    severity
        Scale of its size, or None where it has none.
    places
        Where it can be, with shares.
    wires
        Sensors that can have it: 2 or 3 wires, or both.
    kinds
        Sensor kinds that can have it.
    """

    id: str
    remedy: str
    family: str
    share: float
    change: Change
    severity: Severity | None = None
    places: tuple[tuple[str, float], ...] = NOWHERE
    wires: tuple[int, ...] = (2, 3)
    kinds: tuple[str, ...] = ("ratiometric", "voltage", "loop", "current")


def place_word(place: str) -> str | None:
    """Return the place as files spell it: ``plug`` for both halves of a plug, None for none."""
    return place.split(":", maxsplit=1)[0] or None
