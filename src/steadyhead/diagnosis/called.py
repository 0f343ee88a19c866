"""Why somebody called: a fault that nobody could have noticed is seldom what they called for.

Rules
-----
1. A fault shows when the display is off the pressure by some parts in a hundred of the range, when it jumps, or when a
   fault is shown; how far it must be off is judged softly.
2. What is no fault of the loop's reading (nothing, a meter that lies) or shows elsewhere (a vacuum, a gauge, a joint
   that comes and goes) needs no such sign.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.doubt import shown_chances
from steadyhead.diagnosis.lines import Kept
from steadyhead.diagnosis.looking import look
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Observation, Question, Stance, no_gauge
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError
from steadyhead.loop.readings import shown_pressure

#: Half of the people notice a display that is this far off [parts of span]; chance that somebody calls all the same.
NOTICED, ALL_THE_SAME = 0.03, 0.2
#: Faults that show elsewhere.
ELSEWHERE = frozenset(("none", "none-of-these", "meter-wrong", "vacuum", "site-gauge-wrong", "own-gauge-wrong"))
_DISPLAY = (Question("displayed-pressure"),)
NOTHING_SEEN: Kept = {}


class Called:
    """The chance that somebody called, for the cells of one visit."""

    def __init__(self, system: System, observations: Sequence[Observation]) -> None:
        self._system = system
        stood = [o.stance.pressure for o in observations]
        held = [pressure for pressure in stood if pressure.known != "nothing" and pressure.sd]
        self._stance = Stance("connected", None, held[0] if held else no_gauge(system))

    def __call__(self, cell: Cell, z: Latents, known: Kept = NOTHING_SEEN) -> float:
        """Return the logarithm of the chance that a cell made somebody call; `known` are looks at this very point."""
        if cell.fault in ELSEWHERE or cell.comes_and_goes or cell.noisy:
            return 0.0
        system = self._system
        if self._stance in known:
            seen = known[self._stance][0]
        else:
            try:
                seen = look(system, cell, z, self._stance, _DISPLAY)
            except CircuitError:
                return 0.0
        off = (shown_pressure(seen.signal, seen.loop.screen) - seen.pressure) / system.range.width / NOTICED
        quiet = shown_chances(system, seen.signal)["none"] * exp(-0.5 * min(off * off, 100.0))
        return log(1.0 - (1.0 - ALL_THE_SAME) * quiet)
