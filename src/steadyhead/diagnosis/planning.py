"""Which check saves most minutes from here.

Theory of operation
-------------------
1. What is still to be paid after a check is the smaller of stopping (a wrong remedy's price times its odds) and of
   going on (a price on each bit that is not yet known).
2. A check parts the suspects by what each would let it show. Its outcomes are taken in bins about three deviations
   wide, softly, so that nothing hangs on a bin's edge; in each bin the same price is counted again.
3. What a check saves is the price of stopping here, less the mean price after it, less its own minutes. Checks of one
   stop are also valued in pairs, since setting up is paid once.
4. Only the heaviest cells take part: what they leave out weighs less than a thousandth.

References
----------
Heckerman, Breese and Rommelse, "Decision-theoretic troubleshooting", Communications of the ACM 38 (1995) 3, 49-57.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, log, log2

from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.checks import Standing, leads_at_sensor, minutes
from steadyhead.diagnosis.doubt import compared, end_of_scale, shown_chances, spread
from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.inspections import chance
from steadyhead.diagnosis.looking import look
from steadyhead.diagnosis.observing import Pressure, Question, Stance
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError
from steadyhead.loop.vocabulary import METER_MEASURES

#: Cells that take part, and the share of all probability at which the rest is left out.
HEAVIEST, ENOUGH = 95, 0.997
#: Price of what is not known [min/bit], and of beginning to find out [min].
BIT_MINUTES, START_MINUTES = 8.0, 3.0
#: A check must lower the price of what is not known by this part of its own minutes, or it tells too little.
LEAST_LEARNED = 0.15
#: A reading that lowers it by less tells nothing [min].
TELLING = 0.3
#: Width of a bin, in standard deviations.
BIN = 3.0
#: A part that was not needed costs its price on top of the second trip, in this part.
WASTED = 0.25
#: Where the repair was needed and another one beside it, the reading after the first says so while one is still there:
#: this part of a second trip is saved.
HALF_DONE = 0.6

Mass = dict[str, float]


@dataclass(frozen=True, slots=True)
class Outlook:
    """What a check would show under one cell: its place on the compared scale in bins, or the chance of each word."""

    value: float
    bins: tuple[tuple[int | str, float], ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """A check that is worth its minutes."""

    question: Question
    minutes: float
    saves: float
    while_there: tuple[Question, ...]


def stopping(mass: Mass, estimates: Estimates) -> float:
    """Return what it costs to stop here and mend what is likeliest: a second trip where that is wrong [min x mass]."""
    total = sum(mass.values())
    if total <= 0.0:
        return 0.0
    best, remedy = max((p, r) for r, p in mass.items())
    half = sum(p for r, p in mass.items() if "+" in r and r != remedy and remedy in r.split("+"))
    return (estimates.second_trip + WASTED * estimates.cost(remedy)) * (total - best - HALF_DONE * half)


def going_on(mass: Mass) -> float:
    """Return about what it costs to find out the rest: a price on each bit that is not known [min x mass]."""
    total = sum(mass.values())
    if total <= 0.0:
        return 0.0
    bits = -sum(p * log2(p / total) for p in mass.values() if p > 0.0)
    return BIT_MINUTES * bits + START_MINUTES * total


def price(mass: Mass, estimates: Estimates) -> float:
    """Return what is still to be paid: the smaller of stopping and of going on."""
    return min(stopping(mass, estimates), going_on(mass))


class Planner:
    """Values checks for one visit: predictions are made as they are needed and kept."""

    def __init__(self, system: System, weighed: Sequence[Weighed], pressure: Pressure) -> None:
        self.system = system
        self.pressure = pressure
        self.weighed = _heaviest(weighed)
        self.now: Mass = {}
        for w in self.weighed:
            self.now[w.cell.remedy] = self.now.get(w.cell.remedy, 0.0) + w.share
        self.looks: dict[Question, list[Outlook]] = {}
        #: By how many minutes each check lowers the price of what is not known.
        self.told: dict[Question, float] = {}

    def plans(self, questions: Sequence[Question], here: Standing) -> list[Plan]:
        """Return the checks that save minutes, best first."""
        before, open_ = stopping(self.now, self.system.estimates), price(self.now, self.system.estimates)
        self._predict(questions)
        alone = {q: before - self.after((q,)) for q in questions if q in self.looks}
        self.told = {q: gain - (before - open_) for q, gain in alone.items()}
        found = []
        for q, gain in alone.items():
            cost = minutes(self.system, q, here)
            partner, extra = self._partner(q, alone, here, before)
            saves = gain - cost
            there: tuple[Question, ...] = ()
            if partner is not None and extra > saves:
                saves, there = extra, (partner,)
            learned = open_ - (before - saves - cost)
            if saves > 0.0 and learned > LEAST_LEARNED * cost:
                found.append(Plan(q, cost, saves, there))
        return sorted(found, key=lambda p: (-p.saves, _key(p.question)))

    def outlooks(self, questions: Sequence[Question]) -> dict[Question, list[Outlook]]:
        """Return what each check would show under each of the cells that take part, where the loop has an answer."""
        self._predict(questions)
        return {q: self.looks[q] for q in questions if q in self.looks}

    def most_telling(self) -> Question | None:
        """Return the meter reading that would tell most, whatever its minutes; None where none tells anything."""
        told = [(gain, q) for q, gain in self.told.items() if q.measure in METER_MEASURES and gain > TELLING]
        return max(told, key=lambda pair: (pair[0], _key(pair[1])))[1] if told else None

    def _partner(
        self, q: Question, alone: dict[Question, float], here: Standing, before: float
    ) -> tuple[Question | None, float]:
        """Return the reading of the same stop that is worth most beside this one, and what both save."""
        if q.measure not in METER_MEASURES and q.arrangement == "connected":
            return None, 0.0
        there = Standing(q.arrangement, leads_at_sensor(q))
        best: tuple[Question | None, float] = (None, 0.0)
        mates = [o for o in alone if o != q and o.arrangement == q.arrangement and o.measure in METER_MEASURES]
        for other in sorted(mates, key=lambda o: -alone[o])[:4]:
            cost = minutes(self.system, q, here) + minutes(self.system, other, there)
            saves = before - self.after((q, other)) - cost
            if saves > best[1]:
                best = (other, saves)
        return best

    def after(self, questions: tuple[Question, ...]) -> float:
        """Return the mean price after these checks."""
        parts: dict[tuple[int | str, ...], Mass] = {}
        for k, w in enumerate(self.weighed):
            spots: list[tuple[tuple[int | str, ...], float]] = [((), w.share)]
            for q in questions:
                spots = [
                    ((*key, bin_), share * part) for key, share in spots for bin_, part in self.looks[q][k].bins
                ]
            for key, share in spots:
                mass = parts.setdefault(key, {})
                mass[w.cell.remedy] = mass.get(w.cell.remedy, 0.0) + share
        return sum(price(mass, self.system.estimates) for mass in parts.values())

    def _predict(self, questions: Sequence[Question]) -> None:
        by_stance: dict[tuple[str, float | None], list[Question]] = {}
        for q in questions:
            if q.measure == "inspection":
                self.looks[q] = [_inspected(w, q) for w in self.weighed]
            elif q.measure != "gauge-pressure":
                by_stance.setdefault((q.arrangement, q.source), []).append(q)
        for (arrangement, source), group in by_stance.items():
            stance = Stance(arrangement, source, self.pressure, quiet=arrangement == "temporary-cable")
            try:
                rows = [self._looked(w, stance, tuple(group)) for w in self.weighed]
            except CircuitError:
                continue
            for i, q in enumerate(group):
                self.looks[q] = [row[i] for row in rows]

    def _looked(self, w: Weighed, stance: Stance, group: tuple[Question, ...]) -> list[Outlook]:
        seen = look(self.system, w.cell, w.at, stance, group)
        found = []
        for q, value in zip(group, seen.values, strict=True):
            if q.measure == "displayed-fault":
                chances = shown_chances(self.system, seen.signal)
                found.append(Outlook(0.0, tuple((word, p) for word, p in chances.items() if p > 1e-3)))
            else:
                found.append(_binned(self.system, q, value, seen.jump))
        return found


def _heaviest(weighed: Sequence[Weighed]) -> list[Weighed]:
    found: list[Weighed] = []
    share = 0.0
    for w in weighed[:HEAVIEST]:
        found.append(w)
        share += w.share
        if share > ENOUGH:
            break
    return [Weighed(w.cell, w.share / share, w.at, w.misfits) for w in found]


def _inspected(w: Weighed, q: Question) -> Outlook:
    item = q.item or ""
    wrong = chance(w.cell, item, "wrong")
    return Outlook(0.0, (("wrong", wrong), ("right", 1.0 - wrong)))


def _binned(system: System, q: Question, value: float, jump: float) -> Outlook:
    """Return where a value lies, counted in deviations from zero, shared between the two bins beside it."""
    measure = q.measure
    top = end_of_scale(system, measure, "above")
    if measure in {"ohms", "megohms"} and value > top:
        return Outlook(compared(measure, top), (("OL", 1.0),))
    place = deviations(system, measure, value) / BIN
    if jump > 0.005 and measure.startswith("displayed"):
        return Outlook(compared(measure, value), (("jumping", 0.9), (floor(place), 0.1)))
    low = floor(place)
    part = place - low
    return Outlook(compared(measure, value), ((low, 1.0 - part), (low + 1, part)))


def deviations(system: System, measure: str, value: float) -> float:
    """Return a value as the number of standard deviations between it and zero, on a scale where each is as wide."""
    if measure in {"ohms", "megohms"}:
        return compared(measure, value) / (spread(system, measure, max(abs(value), 1.0), 0.0) + 0.05)
    least = spread(system, measure, 0.0, 0.0) * 1.5
    if measure in {"displayed-pressure", "displayed-signal"}:
        return value / (3.0 * least)
    relative = 0.015
    sign = 1.0 if value >= 0 else -1.0
    return sign * log(1.0 + relative * abs(value) / least) / relative


def _key(q: Question) -> tuple[str, ...]:
    return (q.measure, q.arrangement, q.red or "", q.black or "", f"{q.source or 0:.6g}", q.item or "")
