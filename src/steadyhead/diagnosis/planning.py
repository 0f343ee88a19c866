"""Which check saves most minutes from here.

Theory of operation
-------------------
1. What is still to be paid is a price (`steadyhead.diagnosis.prices`): of stopping here, or of finding out.
2. A check parts the suspects by what each would let it show (`steadyhead.diagnosis.predicting`); in each outcome the
   price is counted again. What a check saves is the price of stopping here, less the mean price after it, less its own
   minutes.
3. The best few are looked at two steps deep: after each of their outcomes the best second check is taken, with its
   minutes from where the first one leaves the technician; so readings of one stop are worth their bundle.
4. A check that leaves all odds as they are is never asked for, whatever might follow it.
5. Only the heaviest cells take part.

References
----------
Heckerman, Breese and Rommelse, "Decision-theoretic troubleshooting", Communications of the ACM 38 (1995) 3, 49-57.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.checks import Standing, leads_at_sensor, minutes
from steadyhead.diagnosis.observing import Pressure, Question
from steadyhead.diagnosis.predicting import Outlook, outlooks, spoken_for
from steadyhead.diagnosis.prices import EVEN, Prices, stopping
from steadyhead.diagnosis.system import System
from steadyhead.loop.vocabulary import METER_MEASURES

__all__ = ["Outlook", "Plan", "Planner", "stopping"]

#: Checks that are looked at two steps deep, and those that are tried as the second.
FIRST, SECOND = 8, 10
#: A reading that lowers the price by less tells nothing [min].
TELLING = 0.3
#: One that saves nothing so far must lower the price of finding out by this part of its own minutes.
LEAST_TOLD = 0.15
#: And its outcomes must move this part of the odds on the average.
LEAST_MOVED = 0.02
#: A check must save this much to be worth asking for [min].
WORTH_ASKING = 0.25

#: Cells by their numbers, each with its share.
Held = list[tuple[int, float]]


@dataclass(frozen=True, slots=True)
class Plan:
    """A check that is worth its minutes."""

    question: Question
    minutes: float
    saves: float
    while_there: tuple[Question, ...]
    #: What it saves with the second check alone, nothing more being asked [min].
    surely: float = 0.0


class Planner:
    """Values checks for one visit: predictions are made as they are needed and kept."""

    def __init__(self, system: System, weighed: Sequence[Weighed], pressure: Pressure) -> None:
        self.system = system
        self.pressure = pressure
        self.weighed = spoken_for(weighed)
        self._remedies = [w.cell.remedy for w in self.weighed]
        self._all: Held = [(k, w.share) for k, w in enumerate(self.weighed)]
        self.now = self._mass(self._all)
        self.looks: dict[Question, list[Outlook]] = {}
        #: By how many minutes each check lowers the price of what is not known.
        self.told: dict[Question, float] = {}
        #: What part of the odds each check moves.
        self._moved: dict[Question, float] = {}
        self.prices = Prices(system.estimates, [], {}, {})

    def outlooks(self, questions: Sequence[Question]) -> dict[Question, list[Outlook]]:
        """Return what each check would show under each of the cells that take part, where the loop has an answer."""
        missing = [q for q in questions if q not in self.looks]
        self.looks |= outlooks(self.system, self.weighed, self.pressure, missing)
        return {q: self.looks[q] for q in questions if q in self.looks}

    def plans(self, questions: Sequence[Question], here: Standing) -> list[Plan]:
        """Return the checks that save minutes, best first."""
        known = self.outlooks(questions)
        spent = {q: minutes(self.system, q, here) for q in known}
        cells = [(w.share, w.cell.remedy) for w in self.weighed]
        self.prices = Prices(self.system.estimates, cells, known, spent)
        before, open_ = self.prices.stopping(self.now), self.prices.price(self.now)
        split = {q: self._split(self._all, q) for q in known}
        self._moved = {q: self._moves(parts) for q, parts in split.items()}
        after = {q: sum(self.prices.price(self._mass(part)) for part in parts) for q, parts in split.items()}
        self.told = {q: open_ - left for q, left in after.items()}
        saves = {q: before - after[q] - spent[q] for q in known}
        order = sorted(known, key=lambda q: (self._moved[q] <= LEAST_MOVED, -round(saves[q], 9), key(q)))
        moving = [q for q in order if self._moved[q] > LEAST_MOVED]
        seconds = self._seconds(moving, order)
        found = [
            self._plan(q, spent[q], (before, here), seconds) if k < FIRST else Plan(q, spent[q], saves[q], ())
            for k, q in enumerate(moving)
        ]
        worth = [p for p in found if p.saves > WORTH_ASKING and self._tells(p)]
        return sorted(worth, key=lambda p: (-round(p.saves, 9), key(p.question)))

    def most_telling(self) -> Question | None:
        """Return the meter reading that would tell most, whatever its minutes; None where none tells anything."""
        told = [(gain, q) for q, gain in self.told.items() if q.measure in METER_MEASURES and gain > TELLING]
        return max(told, key=lambda pair: (pair[0], key(pair[1])))[1] if told else None

    def _tells(self, plan: Plan) -> bool:
        """Tell whether a check brings the end nearer: by itself, or with the second one that may follow it."""
        return plan.surely > WORTH_ASKING or self.told[plan.question] > LEAST_TOLD * plan.minutes

    def _moves(self, parts: Sequence[Held]) -> float:
        """Return what part of the odds of the cells a check's outcomes move, on the average; 0 where it tells nothing.

        It is the total variation between the shares after each outcome and those of now.
        """
        moved = 0.0
        for part in parts:
            then: dict[int, float] = {}
            for k, share in part:
                then[k] = then.get(k, 0.0) + share
            whole = sum(then.values())
            moved += 0.5 * sum(abs(then.get(k, 0.0) - whole * share) for k, share in self._all)
        return moved

    def _seconds(self, moving: Sequence[Question], order: Sequence[Question]) -> list[Question]:
        """Return the checks that are tried as the second: the best alone, and the best to tell two remedies apart.

        Where there is room, those too that move nothing alone.
        """
        tellers = [self.prices.apart[pair][1] for pair in sorted(self.prices.apart)]
        often = sorted(set(tellers), key=lambda q: (-tellers.count(q), key(q)))
        return list(dict.fromkeys([*moving[: SECOND // 2], *often, *order]))[:SECOND]

    def _plan(self, q: Question, spent: float, now: tuple[float, Standing], seconds: Sequence[Question]) -> Plan:
        """Return a check's plan two steps deep, with the second checks that share its stop."""
        before, here = now
        there = after_check(q, here)
        left, surely, mates = 0.0, 0.0, dict.fromkeys(seconds, 0.0)
        costs = {s: minutes(self.system, s, there) for s in seconds if s != q}
        for held in self._split(self._all, q):
            mass = self._mass(held)
            whole = sum(mass.values())
            best, chosen = self.prices.stopping(mass), None
            least = best
            if best > WORTH_ASKING * whole:
                for s, cost in costs.items():
                    if cost * whole >= least:
                        continue
                    parts = [self._mass(part) for part in self._split(held, s)]
                    least = min(least, cost * whole + sum(self.prices.stopping(part) for part in parts))
                    price = cost * whole + sum(self.prices.price(part) for part in parts)
                    if price < best - EVEN:
                        best, chosen = price, s
            left, surely = left + best, surely + least
            if chosen is not None:
                mates[chosen] += whole
        shared = [s for s in seconds if mates[s] > 0.3 and _same_stop(q, s)]
        mates_first = tuple(sorted(shared, key=lambda s: (-mates[s], key(s)))[:2])
        return Plan(q, spent, before - left - spent, mates_first, before - surely - spent)

    def _split(self, held: Held, q: Question) -> list[Held]:
        """Return the cells by what a check would show under them."""
        looks = self.looks[q]
        parts: dict[int | str, Held] = {}
        for k, share in held:
            for bin_, part in looks[k].bins:
                if bin_ in parts:
                    parts[bin_].append((k, share * part))
                else:
                    parts[bin_] = [(k, share * part)]
        return list(parts.values())

    def _mass(self, held: Held) -> dict[str, float]:
        remedies = self._remedies
        found: dict[str, float] = {}
        for k, share in held:
            remedy = remedies[k]
            found[remedy] = found.get(remedy, 0.0) + share
        return found


def after_check(q: Question, here: Standing) -> Standing:
    """Return where a check leaves the technician: a look or a free reading moves no lead."""
    if q.measure == "inspection" or (q.measure not in METER_MEASURES and q.arrangement == "connected"):
        return here
    return Standing(q.arrangement, leads_at_sensor(q))


def _same_stop(q: Question, other: Question) -> bool:
    """Tell whether two readings are made at one stop."""
    if "inspection" in {q.measure, other.measure} or q.whose or other.whose:
        return False
    return q.arrangement == other.arrangement and leads_at_sensor(q) == leads_at_sensor(other)


def key(q: Question) -> tuple[str, ...]:
    """Return what orders checks that are worth the same."""
    return (q.measure, q.arrangement, q.red or "", q.black or "", f"{q.source or 0:.6g}", q.item or "", q.whose or "")
