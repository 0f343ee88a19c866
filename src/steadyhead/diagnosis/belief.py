"""How likely each suspect is, after all readings of a visit.

Theory of operation
-------------------
1. Every cell gets a quick, generous fit from the readings of the loop as found; hopeless ones are left there.
2. The others are weighed by all readings (`steadyhead.diagnosis.evidence`), first where their latents are zero.
3. A cell that fits roughly is looked at again at the latents that its readings ask for, where its lines are true; a
   step that makes it worse is taken shorter.
4. Words (what a look found, which fault is shown) multiply by their chance.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import erf, exp, log, sqrt

from steadyhead.diagnosis.cells import Cell, Part
from steadyhead.diagnosis.doubt import compared, shown_chances
from steadyhead.diagnosis.evidence import Line, evidence
from steadyhead.diagnosis.inspections import chance
from steadyhead.diagnosis.looking import Look
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import CONTINUOUS, Observation, Pressure, Question, Stance
from steadyhead.diagnosis.slopes import NOTHING_KNOWN, STEP, Moved, Spot, at_ease, moved_values
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError
from steadyhead.loop.vocabulary import METER_MEASURES

#: How far figures are believed: the model leaves things out, so their logarithm counts in this part.
TEMPER = 0.8
#: Cells whose rough fit is this much worse than the best, in logarithms, are looked at no further.
HOPELESS = 7.5
#: How often, and how many of the best cells, are looked at again where the readings ask for it.
AGAIN, BEST = 5, 36
#: Furthest point of the latents that a cell is looked at, in standard deviations.
FURTHEST = 3.0
#: A figure that jumps by this part of the span looks steady half of the time.
STEADY = 0.012
#: Rough allowance for all latents in the first pass, in parts of the signal's or the display's span.
ROUGH = 0.05


@dataclass(frozen=True, slots=True)
class Weighed:
    """A cell after the readings: its share of all probability, and where its latents stand."""

    cell: Cell
    share: float
    at: Latents
    #: For each reading, by its number: how far it lies from what the rest of them say of this cell, in deviations.
    misfits: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True)
class _Group:
    """Readings that share a stance."""

    stance: Stance
    observations: tuple[Observation, ...]

    @property
    def questions(self) -> tuple[Question, ...]:
        return tuple(o.question for o in self.observations)


@dataclass(frozen=True, slots=True)
class Belief:
    """Cells heaviest first, shares summing to one.

    `after` is weighed by all readings; `before` roughly and generously by those that no meter made. `log_after` and
    `log_before` are the logarithms of what all cells of each came to together.
    """

    after: list[Weighed]
    before: list[Weighed]
    log_after: float
    log_before: float


def joined(one: Belief, other: Belief) -> Belief:
    """Return the cells of two beliefs by the same readings as one belief."""
    after, log_after = _joined((one.after, one.log_after), (other.after, other.log_after))
    before, log_before = _joined((one.before, one.log_before), (other.before, other.log_before))
    return Belief(after, before, log_after, log_before)


def _joined(*parts: tuple[list[Weighed], float]) -> tuple[list[Weighed], float]:
    best = max(log_ for _, log_ in parts)
    total = sum(exp(log_ - best) for _, log_ in parts)
    found = [replace(w, share=w.share * exp(log_ - best) / total) for held, log_ in parts for w in held]
    return sorted(found, key=lambda w: -w.share), best + log(total)


def weigh(system: System, cells: Sequence[Cell], observations: Sequence[Observation]) -> list[Weighed]:
    """Return every cell that the readings leave alive, heaviest first, shares summing to one."""
    return believe(system, cells, observations).after


def believe(system: System, cells: Sequence[Cell], observations: Sequence[Observation]) -> Belief:
    """Return the cells after all readings, and before those of the meter."""
    groups = _grouped(observations)
    words = [(log(cell.weight) + _words(cell, observations), cell) for cell in cells]
    all_starts = [_rough_fit(system, cell, score, groups) for score, cell in words]
    before, log_before = _normed([(start.cell, start.unmetered, Latents(), ()) for start in all_starts])
    after, log_after = _fitted(system, _pruned(all_starts), groups, observations)
    return Belief(after, before, log_after, log_before)


def _fitted(
    system: System, starts: list[_Start], groups: Sequence[_Group], observations: Sequence[Observation]
) -> tuple[list[Weighed], float]:
    """Return the cells weighed by all readings, looked at again where the readings ask for it, as `_normed` does."""
    order = sorted(observations, key=lambda o: o.number)
    fits = [_Fit(system, start, groups, order) for start in starts]
    for fit in fits:
        fit.look(fit.here)
    for turn in range(AGAIN):
        fits.sort(key=lambda f: -f.hope)
        best = max(f.best for f in fits)
        for fit in fits[: BEST if turn else 2 * BEST]:
            if fit.hope > best - 9.0 and fit.unfinished:
                fit.look_again()
    return _normed([(f.cell, f.prior + TEMPER * (f.best - f.prior), f.here, f.misfits) for f in fits])


_Scored = tuple[Cell, float, Latents, tuple[tuple[int, float], ...]]


def _normed(scored: list[_Scored]) -> tuple[list[Weighed], float]:
    """Return cells with shares that sum to one from the logarithms of their weights, heaviest first.

    With them stands the logarithm of their sum.
    """
    best = max(score for _, score, _, _ in scored)
    total = sum(exp(score - best) for _, score, _, _ in scored)
    found = [Weighed(cell, exp(score - best) / total, at, misfits) for cell, score, at, misfits in scored]
    return sorted(found, key=lambda w: -w.share), best + log(total)


def _grouped(observations: Sequence[Observation]) -> list[_Group]:
    """Return the continuous readings and shown faults by stance, in an order that does not depend on theirs."""
    by_stance: dict[Stance, list[Observation]] = {}
    for o in observations:
        if o.question.measure in CONTINUOUS or o.question.measure == "displayed-fault":
            by_stance.setdefault(o.stance, []).append(o)
    keyed = sorted(by_stance.items(), key=lambda item: repr(item[0]))
    return [_Group(stance, tuple(sorted(held, key=repr))) for stance, held in keyed]


def _pruned(starts: list[_Start]) -> list[_Start]:
    """Return the cells that are not hopeless, with the complaint or without it: words exclude nothing."""
    unsaid = [start.score - log(start.cell.said) for start in starts]
    best, best_unsaid = max(start.score for start in starts), max(unsaid)
    return [
        start for start, score in zip(starts, unsaid, strict=True)
        if start.score > best - HOPELESS or score > best_unsaid - HOPELESS
    ]  # fmt: skip


def _words(cell: Cell, observations: Sequence[Observation]) -> float:
    """Return the logarithm of the chance of all words, and of gauge readings that only a vacuum explains."""
    total = 0.0
    for o in observations:
        if o.question.measure == "inspection" and o.question.item is not None:
            total += log(chance(cell, o.question.item, o.word))
        total += log(_jump_chance(cell)) if o.jumping else 0.0
    held = {o.stance.pressure for o in observations if o.stance.pressure.sd > 0.0}
    return total + sum(log(_gauge_chance(cell, pressure)) for pressure in sorted(held, key=repr))


def _gauge_chance(cell: Cell, pressure: Pressure) -> float:
    """Return how fitting a gauge reading is: below zero only a vacuum, or a gauge that lies, shows."""
    if pressure.known == "nothing":
        return 1.0
    sd = max(pressure.sd, 1500.0)
    below = 0.5 * (1.0 - erf((pressure.pa + 4000.0) / (sd * sqrt(2.0))))
    if pressure.known == "pinned":
        return 1.0 if cell.has("vacuum") else 0.05
    if cell.has("vacuum"):
        return max(below, 0.002)
    return max(1.0 - below, 0.2 if cell.has("site-gauge-wrong") else 0.01)


def _jump_chance(cell: Cell) -> float:
    return max(_jumps(part) for part in cell.parts)


def _jumps(part: Part) -> float:
    if part.noisy:
        return 0.9
    if part.fault.startswith("intermittent"):
        return 0.6
    return 0.12 if part.fault.startswith(("resistive", "open", "leakage")) else 0.03


def _span(system: System, measure: str) -> float:
    if measure == "displayed-pressure":
        return (system.scaled or system.range).width
    if measure in {"ohms", "megohms"}:
        return 20.0
    if measure in {"volts", "volts-ac"} and system.unit == "A":
        return 0.25 * system.supply_v
    return system.high - system.low if measure != "milliamps" or system.unit == "A" else 0.016


@dataclass(frozen=True, slots=True)
class _Start:
    """A cell's first look at the readings of the loop as found, kept for the second.

    `score` is the logarithm of its rough weight, `unmetered` the same without the meter's readings; `at` the latents
    that were looked at.
    """

    cell: Cell
    score: float
    unmetered: float
    at: Latents
    looks: dict[Stance, tuple[Look, Mapping[str, list[float]]]]
    easy: bool


#: A rough fit that costs less than this, in logarithms, needs no other start.
FITTING = 1.5
#: Where a cell whose supply gives way is looked at too: with a supply that gives more.
STRONG_SUPPLY = Latents(limit=2.2)


def _rough_fit(system: System, cell: Cell, score: float, groups: Sequence[_Group]) -> _Start:
    """Return a quick, generous fit from the readings of the loop as found."""
    start = _rough_at(system, cell, score, groups, Latents())
    if start.easy or len(cell.parts) > 1 or start.score > score - FITTING:
        return start
    other = _rough_at(system, cell, score - 1.0, groups, STRONG_SUPPLY)
    return other if other.score > start.score else start


def _rough_at(system: System, cell: Cell, score: float, groups: Sequence[_Group], at: Latents) -> _Start:
    """Return the rough fit at one point of the latents."""
    looks: dict[Stance, tuple[Look, Mapping[str, list[float]]]] = {}
    unmetered, easy = score, True
    for group in groups:
        if group.stance.arrangement != "connected":
            continue
        try:
            spot = Spot(system, cell, at, group.stance, group.questions)
            base = spot.look()
            by_size = spot.by_size(base)
            at_rest = at_ease(base)
            moved: Moved = [*by_size.values()]
            moved += [] if at_rest else moved_values(system, group.stance, group.questions, base)
        except CircuitError:
            return _Start(cell, float("-inf"), float("-inf"), at, {}, easy=True)
        looks[group.stance] = (base, by_size)
        misses = [_rough_miss(system, o, k, base, moved) for k, o in enumerate(group.observations)]
        shown = [m for m, o in zip(misses, group.observations, strict=True) if o.question.measure not in METER_MEASURES]
        together = sum if at_rest else _worst
        score += together(misses)
        unmetered += together(shown)
        easy = easy and at_rest
    return _Start(cell, score, unmetered, at, looks, easy)


def _worst(misses: Sequence[float]) -> float:
    """Return the worst miss: at a limit, one number that is not yet right throws all readings off together."""
    return min(misses, default=0.0)


def _rough_miss(system: System, o: Observation, k: int, base: Look, moved: Moved) -> float:
    measure = o.question.measure
    if measure == "displayed-fault":
        return 0.0
    value = compared(measure, base.values[k])
    span = _span(system, measure)
    unsure = ROUGH + base.jump + min(o.stance.pressure.sd / system.range.width, 0.3)
    wide = o.sd**2 + (unsure * span) ** 2
    wide += sum(((compared(measure, m[k]) - value) / STEP) ** 2 for m in moved if m is not None)
    miss = o.value - value
    if (o.side == "above" and miss < 0) or (o.side == "below" and miss > 0):
        return 0.0
    return max(-0.3 * miss * miss / wide, -6.0)


class _Fit:
    """One cell against all readings."""

    __slots__ = (
        "along", "best", "cell", "groups", "here", "kept", "misfits", "order", "part", "posterior", "prior", "score",
        "system", "tried",
    )  # fmt: skip

    def __init__(self, system: System, start: _Start, groups: Sequence[_Group], order: Sequence[Observation]) -> None:
        self.system, self.cell, self.groups, self.order = system, start.cell, groups, order
        self.kept = start.looks
        cell = start.cell
        self.prior = log(cell.weight) + _words(cell, order)
        #: Along the lines of the last look, and at the best point that was looked at.
        self.score = self.best = self.along = self.tried = float("-inf")
        self.part = 1.0
        self.posterior = self.here = start.at
        self.misfits: tuple[tuple[int, float], ...] = ()

    @property
    def hope(self) -> float:
        """What it may yet come to."""
        return max(self.score, self.best)

    @property
    def unfinished(self) -> bool:
        """Whether its lines ask for another point than the best one so far."""
        return self.best == float("-inf") or self.along > self.best + 0.05

    def look_again(self) -> None:
        """Look at the latents that the readings ask for, nearer by where that has made it worse."""
        if self.best > self.tried:
            self.part, self.tried = 1.0, self.best
        else:
            self.part *= 0.35
        held = [min(max(z, -FURTHEST), FURTHEST) for z in self.posterior]
        self.look(Latents(*[h + self.part * (z - h) for h, z in zip(self.here, held, strict=True)]))

    def look(self, at: Latents) -> None:
        """Predict all readings by straight lines about a point of the latents, and weigh them."""
        try:
            lines = [line for group in self.groups for line in self._lines(at, group)]
        except CircuitError:
            self.score = float("-inf")
            return
        self.kept = {}
        weighed = evidence(lines, at)
        self.score = self.prior + weighed.along
        if self.prior + weighed.here > self.best:
            self.along = self.score
            self.best, self.posterior, self.misfits = self.prior + weighed.here, weighed.posterior, weighed.misfits
            self.here = at

    def _lines(self, at: Latents, group: _Group) -> list[Line]:
        stance = group.stance
        spot = Spot(self.system, self.cell, at, stance, group.questions)
        if stance in self.kept:
            base, by_size = self.kept[stance]
        else:
            base, by_size = spot.look(), NOTHING_KNOWN
        moved = spot.moved(base, by_size)
        return [_line(self.system, o, k, base, moved) for k, o in enumerate(group.observations)]


def _line(system: System, o: Observation, k: int, base: Look, moved: Moved) -> Line:
    measure = o.question.measure
    if measure == "displayed-fault":
        return Line(o, 0.0, 1.0, (), 1.0, _shown_chance(system, base.signal, o.word))
    value = compared(measure, base.values[k])
    slopes = tuple([(compared(measure, m[k]) - value) / STEP if m is not None else 0.0 for m in moved])
    span = _span(system, measure)
    if base.jump == 0.0 or not _shakes(o.question):
        return Line(o, o.value - value, o.sd**2, slopes, span)
    steady = 1.0 if o.jumping else max(1.0 / (1.0 + (base.jump / STEADY) ** 2), 0.1)
    return Line(o, o.value - value, o.sd**2 + (0.3 * base.jump * span) ** 2, slopes, span, chance=steady)


def _shakes(question: Question) -> bool:
    """Tell whether interference on the signal makes this figure jump."""
    if question.measure.startswith("displayed"):
        return True
    on_signal = any(point is not None and point.endswith(".signal") for point in (question.red, question.black))
    return question.measure == "milliamps" or (question.measure == "volts" and on_signal)


def _shown_chance(system: System, signal: float, word: str) -> float:
    """Return the logarithm of the chance that the controller shows a fault word."""
    shown = shown_chances(system, signal)
    return log(max(shown[word], 0.004)) if word in shown else 0.0
