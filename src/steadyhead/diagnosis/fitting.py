"""One cell fitted to all readings: looked at where the readings ask for it, until its lines are true there.

Rules
-----
1. A look predicts all readings by straight lines about a point of the latents; the readings ask for another point,
   which is looked at next, nearer by where the last step has made it worse.
2. A suspect's first cell is fitted from where the first pass began it; its other places, regimes and makes begin where
   that one has come to, so that each is judged by its own best point.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log

from steadyhead.diagnosis.evidence import Evidence, evidence
from steadyhead.diagnosis.lines import Group, lines
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.rough import Start
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError

#: How often a cell is looked at.
LOOKS = 6
#: Makes that are tried where the first of a suspect came to nothing.
OTHER_STARTS = 4
#: One that promises this much more than was found is stuck; sizes that are then looked at, in deviations.
STUCK, SCANNED = 1.5, (-1.8, -1.2, -0.7, -0.2, 0.3, 0.8, 1.4)
#: One that promises to come this near to the best is looked at as often again.
PROMISING = 3.0
#: How often it is looked at even where its first lines promise little, and how much less they may promise where parts
#: are at their limits and where none is, so that lines are nearly true from afar.
LOOKS_AT_LEAST = 3
DOUBTFUL = {False: 12.0, True: 3.0}
#: Suspects worse than the best by this much, in logarithms, are fitted no further.
LOST = 9.0
#: Furthest point of the latents that a cell is looked at, in standard deviations.
FURTHEST = 3.0
#: Where a step has made it worse, this part of it is taken.
SHORTER = 0.35
#: A step that promises less than this, in logarithms, is not taken.
WORTH_A_STEP = 0.05


class Fit:
    """One cell against all readings: `best` is its logarithm at `here`, the best point that was looked at."""

    __slots__ = (
        "_along", "_doubted", "_groups", "_looks", "_start", "_steps", "_system", "best", "cell", "here", "misfits",
        "prior", "stands_for",
    )  # fmt: skip

    def __init__(self, system: System, start: Start, groups: Sequence[Group]) -> None:
        self._system, self._groups, self._looks = system, groups, start.looks
        self.cell, self.prior = start.cell, start.prior
        self.best = self._along = float("-inf")
        #: How many makes it stands for.
        self.stands_for = 1.0
        self.here = self._start = start.at
        self._steps: list[tuple[Latents, float]] = []
        self._doubted = False
        self.misfits: tuple[tuple[int, float], ...] = ()

    @property
    def makes(self) -> float:
        """Logarithm of how many makes it stands for."""
        return log(self.stands_for)

    @property
    def hope(self) -> float:
        """What it may yet come to."""
        return max(self._along, self.best)

    def settle(self, looks: int, least: float, worth: float = WORTH_A_STEP) -> None:
        """Look on while steps are left, it may come to `least`, and a step promises to be `worth` it."""
        for _ in range(looks):
            if not self._steps or self.hope < least or (self._along <= self.best + worth and not self._doubted):
                return
            self.look_again()

    @property
    def stuck(self) -> bool:
        """Whether its lines promise what no look has found."""
        return self.best < self._along - STUCK

    def scan(self) -> None:
        """Look at other sizes of the fault, all else as it is: past a corner no line tells of what lies behind it."""
        for name in self.cell.sizes[:1]:
            begun = self.here
            for z in SCANNED:
                self.look(begun._replace(**{name: z}))

    def look_again(self) -> None:
        """Look at the next of the points that the readings ask for."""
        target, part = self._steps.pop(0)
        held = [min(max(z, -FURTHEST), FURTHEST) for z in target]
        self.look(Latents(*[h + part * (z - h) for h, z in zip(self.here, held, strict=True)]), part)

    def look(self, at: Latents, part: float = 1.0) -> None:
        """Predict all readings by straight lines about a point of the latents, and weigh them.

        `part` is how much of the step that was asked for has led there.
        """
        looks, self._looks = self._looks if at == self._start else {}, {}
        try:
            found = [line for group in self._groups for line in lines(self._system, self.cell, at, group, looks)]
        except CircuitError:
            return
        weighed = evidence(found, at)
        if self.prior + weighed.here > self.best:
            self.best, self._along = self.prior + weighed.here, self.prior + weighed.along
            self.misfits, self.here = weighed.misfits, at
            self._plan(weighed, min(1.0, 2.0 * part))

    def _plan(self, weighed: Evidence, part: float) -> None:
        """Note the points to look at next: what looks like a slip from afar may be none where all readings ask for."""
        self._steps = [(weighed.posterior, part * shorter) for shorter in (1.0, SHORTER, SHORTER**2)]
        self._doubted = weighed.asked != weighed.posterior
        if self._doubted:
            self._steps = [(weighed.asked, part), (weighed.asked, SHORTER * part), *self._steps]


def leaders(system: System, suspects: Sequence[Sequence[Start]], groups: Sequence[Group]) -> list[Fit]:
    """Return the fit of one cell, or of a few where the first came to nothing, for each suspect, place and regime."""
    best, found = float("-inf"), []
    firsts: dict[str, Fit] = {}
    for starts in suspects:
        first = firsts.get(starts[0].cell.fault)
        for start in starts[: 1 if first else OTHER_STARTS]:
            leader = _leader(system, start, groups, first, best)
            best = max(best, leader.best)
            found.append(leader)
            known = firsts.setdefault(leader.cell.fault, leader)
            if leader.best > known.best:
                firsts[leader.cell.fault] = leader
            if leader.best > best - LOST:
                break
    return found


def _leader(system: System, start: Start, groups: Sequence[Group], first: Fit | None, best: float) -> Fit:
    """Return the fit of one cell, begun where another place or regime of its suspect has come to, if there is one."""
    leader = Fit(system, start, groups)
    if first is not None:
        leader.look(first.here)
    if first is None or leader.hope < first.best - 3.0:
        leader.look(start.at)
        leader.settle(LOOKS_AT_LEAST, best - LOST - DOUBTFUL[start.easy])
    leader.settle(LOOKS, best - LOST, WORTH_A_STEP if first is None else 0.3)
    if leader.hope > best - PROMISING and leader.stuck:
        leader.scan()
        leader.settle(LOOKS, best - PROMISING, 1.0)
    return leader
