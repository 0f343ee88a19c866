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
from copy import copy
from math import log

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.evidence import Line, evidence, missed, unlikely
from steadyhead.diagnosis.lines import Group, Kept, Looks, bare, lines
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.rough import OTHER_STARTS, Start
from steadyhead.diagnosis.slopes import adrift, at_ease
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError

#: How often a cell is looked at.
LOOKS = 6
#: A misfit that a better start may take away, in deviations, and the most that one reading's is counted for.
CONTRADICTED, FAR, MOST_OF_ONE = 2.5, 8.0, 12.0
#: One that promises this much more than was found is stuck.
STUCK = 1.5
#: How often it is looked at even where its first lines promise little, and how much less they may promise where parts
#: are at their limits and where none is, so that lines are nearly true from afar.
LOOKS_AT_LEAST = 3
DOUBTFUL = {False: 6.0, True: 3.0}
#: Pull-ups that are tried where nothing drives the signal, in deviations: where it stands then goes by their decades.
PULLS = (-1.4, -2.2)
#: Suspects worse than the best by this much, in logarithms, are fitted no further.
LOST = 9.0
#: Furthest point of the latents that a cell is looked at, in standard deviations.
FURTHEST = 3.0
#: Parts of a step that are tried.
PARTS = (1.0, 0.4, 0.15)
#: Steps of one number about a fit that is stuck, and how often they are tried.
NUDGES, NUDGED = (-0.6, -0.2, 0.2, 0.6), 4
#: So many numbers are moved alone to where the readings ask for them, none by less than this.
ONE_AT_A_TIME, LEAST_NUDGE = 6, 0.1
#: Less of a difference than this decides nothing: the last digits are another machine's own.
EVEN = 1e-6
#: A step that promises less than this, in logarithms, is not taken.
WORTH_A_STEP = 0.05


def even(value: float) -> float:
    """Return a logarithm without the digits in which two machines may differ."""
    return round(value, 6)


class Fit:
    """One cell against all readings: `best` is its logarithm at `here`, the best point that was looked at."""

    __slots__ = (
        "_along", "_at", "_doubted", "_groups", "_looks", "_missed", "_start", "_system", "_targets", "adrift", "best",
        "cell", "easy", "found", "here", "misfits", "near", "prior", "stands_for",
        "worst_first",
    )  # fmt: skip

    def __init__(self, system: System, start: Start, groups: Sequence[Group], near: Kept | None = None) -> None:
        self._system, self._groups, self._looks = system, groups, start.looks
        #: Looks at the last point, or a like cell's, which tell in which regions parts may be.
        self.near = start.looks if near is None else near
        #: The readings that were missed most, first.
        self.worst_first = groups
        self.cell, self.prior = start.cell, start.prior
        self.best = self._along = float("-inf")
        #: How many makes it stands for.
        self.stands_for = 1.0
        self.here = self._start = start.at
        #: The looks at the best point, where they are this cell's own and not another place's, which reads alike.
        self.found: Kept = {}
        self._at, self._missed, self._doubted = start.at, float("inf"), False
        self._targets: tuple[Latents, ...] = ()
        #: Whether no part is at a limit where it was looked at last, so that lines are nearly true from afar.
        self.easy = start.easy
        #: Whether nothing drives the signal there, so that the make of the input decides where it stands.
        self.adrift = False
        self.misfits: tuple[tuple[int, float], ...] = ()

    def at_another_place(self, prior: float, cell: Cell) -> Fit:
        """Return the fit of a cell that looks alike, with its own prior."""
        other = copy(self)
        other.cell, other.prior, other.best, other.found = cell, prior, self.best - self.prior + prior, {}
        return other

    @property
    def makes(self) -> float:
        """Logarithm of how many makes it stands for."""
        return log(self.stands_for)

    @property
    def hope(self) -> float:
        """What it may yet come to."""
        return max(self._along, self.best)

    def settle(self, looks: int, least: float, worth: float = WORTH_A_STEP) -> None:
        """Look on while it may come to `least`, a step promises to be `worth` it, and some part of it is."""
        for _ in range(looks):
            if self.hope < least or (self._along <= self.best + worth and not self._doubted):
                return
            begun = self._further()
            if begun is None or not self.look(*begun):
                return

    def _further(self) -> tuple[Latents, Kept] | None:
        """Return a better point on the way to those that the readings ask for, with its looks, or None."""
        for part in PARTS:
            for target in self._targets:
                held = [min(max(z, -FURTHEST), FURTHEST) for z in target]
                at = Latents(*[h + part * (z - h) for h, z in zip(self._at, held, strict=True)])
                misses, looks = self.misses(at, self._missed - EVEN)
                if misses < self._missed - EVEN:
                    return at, looks
        return None

    @property
    def contradicted(self) -> bool:
        """Whether lines promise what no look has found, or a reading contradicts it: far where none is at a limit."""
        most = FAR if self.easy else CONTRADICTED
        off = any(misfit > most for _, misfit in self.misfits)
        return off or self.best < self._along - STUCK

    @property
    def within_reach(self) -> float:
        """What it would come to if no reading contradicted it, for the worst of them."""
        off = [min(0.5 * misfit * misfit, MOST_OF_ONE) for _, misfit in self.misfits if misfit > CONTRADICTED]
        return max(self.best, self._along) + sum(off)

    def misses(self, at: Latents, least: float, *, keep: bool = False) -> tuple[float, Kept]:
        """Return how far a point of the latents misses the readings, no line drawn, and the looks at it.

        What misses by `least` and more is looked at no further: the readings that were missed most come first. With
        `keep` the system's memory answers: for points that no reading has chosen.
        """
        looks = Looks({}, {} if keep else self.near, keep=keep)
        total = unlikely(at)
        try:
            for group in self.worst_first:
                if total >= least:
                    return float("inf"), looks.here
                total += missed(bare(self._system, self.cell, at, group, looks))
        except CircuitError:
            return float("inf"), {}
        return total, looks.here

    def pulled(self) -> None:
        """Look where the input's pull-up is stronger, if that misses less."""
        for z in PULLS:
            self.tried(self._at._replace(pull=z))

    def nudged(self, names: Sequence[str], least: float) -> None:
        """Look about where it stands, one number at a time, while its lines promise what no look has found.

        At a corner lines point past it: a sensor that is just awake is asleep a little further.
        """
        for _ in range(NUDGED):
            if self.best > self._along - STUCK or self._along < least:
                return
            near = [self.here._replace(**{name: getattr(self.here, name) + step}) for name in names for step in NUDGES]
            near += self._one_at_a_time()
            missed, found = self.misses(self.here, float("inf"))[0], None
            for at in near:
                misses, looks = self.misses(at, missed - EVEN)
                if misses < missed - EVEN:
                    missed, found = misses, (at, looks)
            if found is None or not self.look(*found):
                return
            self.settle(LOOKS, least)

    def _one_at_a_time(self) -> list[Latents]:
        """Return the points at which one number alone is what the readings ask for: those that have furthest to go."""
        asked = [min(max(z, -FURTHEST), FURTHEST) for z in self._targets[0]]
        ways = [(even(abs(z - here)), name, z) for name, z, here in zip(Latents._fields, asked, self.here, strict=True)]
        far = sorted(ways, key=lambda way: (-way[0], way[1]))[:ONE_AT_A_TIME]
        return [self.here._replace(**{name: z}) for away, name, z in far if away > LEAST_NUDGE]

    def informed_by(self, other: Fit) -> bool:
        """Look where another suspect's fit stands in all but the sizes, if that misses less; tell whether it does."""
        return self.tried(other.here._replace(severity=self.here.severity, second=self.here.second))

    def tried(self, at: Latents) -> bool:
        """Look at a point if it misses less; tell whether it does."""
        misses, looks = self.misses(at, self._missed - EVEN)
        return misses < self._missed - EVEN and self.look(at, looks)

    def look(self, at: Latents, taken: Kept | None = None) -> bool:
        """Predict all readings by straight lines about a point of the latents, and weigh them; tell whether that went.

        The looks `taken` are those already taken at this point.
        """
        looks = Looks(taken or dict(self._looks if at == self._start else {}), self.near)
        try:
            found = [lines(self._system, self.cell, at, group, looks) for group in self._groups]
        except CircuitError:
            return False
        weighed = evidence([line for held in found for line in held], at)
        misses = [missed(held) for held in found]
        order = sorted(range(len(found)), key=lambda k: (-even(misses[k]), k))
        self.worst_first = [self._groups[k] for k in order]
        self.near = looks.here
        self.easy = all(base.operation is None or at_ease(base) for base, _ in looks.here.values())
        self.adrift = any(adrift(base) for base, _ in looks.here.values())
        self._at, self._missed, self._along = at, unlikely(at) + sum(misses), self.prior + weighed.along
        self._doubted = weighed.asked != weighed.posterior
        asked = (weighed.asked, weighed.posterior) if self._doubted else (weighed.posterior,)
        self._targets = (*asked, *_held(asked, found, at))
        if self.prior + weighed.here > self.best + EVEN:
            self.best, self.misfits, self.here = self.prior + weighed.here, weighed.misfits, at
            self.found = {} if at == self._start else looks.here
        return True


def _held(asked: Sequence[Latents], found: Sequence[Sequence[Line]], at: Latents) -> list[Latents]:
    """Return the points that readings ask for, with what moves none of them here left where it stands.

    A supply that is just strong enough moves nothing; back at its middle it would give way.
    """
    slopes = [line.slopes for lines_ in found for line in lines_ if line.slopes]
    idle = [k for k, z in enumerate(at) if z and not any(row[k] for row in slopes)]
    if not idle:
        return []
    return [target._replace(**{Latents._fields[k]: at[k] for k in idle}) for target in asked]


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
            if leader.best > known.best + EVEN:
                firsts[leader.cell.fault] = leader
            if leader.best > best - LOST:
                break
    return found


def informed(fits: Sequence[Fit]) -> None:
    """Look on at what is behind from where others stand: at a fault's places from the best of them, then at all.

    From the best suspect only what is no fault counts: joints, volts, the gauge's error. A long run in thin copper
    shows under every suspect; each would else have to find it by itself.
    """
    by_fault: dict[str, Fit] = {}
    for fit in sorted(fits, key=lambda f: (even(f.best - f.prior), f.cell.key, f.cell.make)):
        by_fault[fit.cell.fault] = fit
    best = max(fits, key=lambda fit: (even(fit.best), fit.cell.key, fit.cell.make))
    for fit in fits:
        known = by_fault[fit.cell.fault]
        found = known.best - known.prior + fit.prior
        if found > best.best - LOST and fit.best < found - STUCK and fit.tried(known.here):
            fit.settle(LOOKS, best.best - LOST)
        elif fit.best < best.best - STUCK and fit.informed_by(best):
            fit.settle(LOOKS, best.best - LOST - DOUBTFUL[fit.easy])


def _leader(system: System, start: Start, groups: Sequence[Group], first: Fit | None, best: float) -> Fit:
    """Return the fit of one cell, begun where another place or regime of its suspect has come to, if there is one."""
    leader = Fit(system, start, groups, None if first is None else first.near)
    if first is not None:
        leader.look(first.here)
    if first is None or leader.hope < first.best - 3.0 or first.best < best - LOST:
        leader.look(start.at)
        if leader.adrift:
            leader.pulled()
        leader.settle(LOOKS_AT_LEAST, best - LOST - DOUBTFUL[start.easy])
    leader.settle(LOOKS, best - LOST, WORTH_A_STEP if first is None else 0.3)
    return leader
