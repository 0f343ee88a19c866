"""Which instruments to load before the drive, so that the repair can be told from every other.

Theory of operation
-------------------
1. Two cells are told apart by a check as far as what it would show under the one does not overlap what it would show
   under the other. Their overlap is the square of the sum, over the bins of the planner, of the root of the product of
   their chances (Bhattacharyya's coefficient): where both are sure it is one or nothing, and where one is sure it is
   the likelihood of the other. It is never below `SLIP`, since a reading may be a slip. Checks multiply.
2. What is left unproved under a cell is the weight of the cells with another repair, each times its overlap, beside the
   weight of all cells, each times its own; over all cells the mean. With no check at all it is the chance that a repair
   picked by its odds is not the right one.
3. A check can be made with some sets of instruments and not with others. Without a gauge nobody knows the pressure, so
   a figure may lie anywhere between those of `PRESSURES`. After a gauge reading its pressure is known.
4. Nobody has to use what is at hand: of all the sets that can be made of it the one that tells most counts. So an
   instrument more can only help.
5. Instruments are loaded one by one, each time the one that lowers what is left most; ties by name. One that saves less
   than its loading takes stays at home.

The figures rank instruments; they are no odds of a verdict, which hangs on the readings and on what is worth its time.

References
----------
Bhattacharyya, "On a measure of divergence between two statistical populations", 1943 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import fsum, prod, sqrt

from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.checks import candidates
from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.observing import Pressure, Question, no_gauge, observations
from steadyhead.diagnosis.opening import believed
from steadyhead.diagnosis.planning import Outlook, Planner
from steadyhead.diagnosis.system import System
from steadyhead.loop.vocabulary import ARRANGEMENTS, INSTRUMENTS

#: Least overlap of what two cells would show: a reading in fifty is a slip.
SLIP = 0.02
#: Pressures that the pipe may stand at, where nobody read a gauge [parts of the sensor's range].
PRESSURES = (0.3, 0.5, 0.7)
#: Cells that speak for a fault.
SPOKESMEN = 2

#: Instruments, of each group one, that a check needs.
Needs = tuple[frozenset[str], ...]
#: Overlap of each pair of cells, in the order of `combinations`.
Overlaps = list[float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """One instrument, the chance that the repair stays undecided once it is carried, and what that saves [min]."""

    instrument: str
    unproved: float
    saves_minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """What to carry, in the order in which it tells; `before` with what is at hand, `floor` with everything."""

    before: float
    floor: float
    at_hand: tuple[str, ...]
    instruments: tuple[Carried, ...]


def needs_of(question: Question) -> Needs:
    """Return what a check needs: of each group one instrument.

    >>> [sorted(group) for group in needs_of(Question("displayed-pressure", "temporary-cable"))]
    [['spare-lead']]
    """
    found = [frozenset(ARRANGEMENTS[question.arrangement].needs)]
    if question.measure in {"volts", "volts-ac", "ohms", "milliamps"}:
        found.append(frozenset(("multimeter",)))
    if question.measure == "megohms":
        found.append(frozenset(("insulation-tester",)))
    return tuple(group for group in found if group)


def overlaps(looks: Sequence[Mapping[int | str, float]]) -> dict[tuple[int, int], float]:
    """Return the overlap of each pair of cells that share a bin; the others overlap in nothing.

    >>> overlaps([{"low": 1.0}, {"low": 0.36, "high": 0.64}, {"high": 1.0}])
    {(0, 1): 0.6, (1, 2): 0.8}
    """
    by_bin: dict[int | str, list[tuple[int, float]]] = {}
    for k, chances in enumerate(looks):
        for name, chance in chances.items():
            by_bin.setdefault(name, []).append((k, sqrt(chance)))
    found: dict[tuple[int, int], float] = {}
    for held in by_bin.values():
        for (i, root), (j, other) in combinations(held, 2):
            found[i, j] = found.get((i, j), 0.0) + root * other
    return found


class Telling:
    """How far each set of instruments tells the repairs apart.

    Parameters
    ----------
    weights
        Share and repair of each cell.
    looks
        For each check, and each pressure, the chance of each bin under each cell.
    gauge_read
        Whether the pressure is known without a gauge of one's own.
    """

    def __init__(
        self,
        weights: Sequence[tuple[float, str]],
        looks: Mapping[Question, Sequence[Sequence[Mapping[int | str, float]]]],
        *,
        gauge_read: bool,
    ) -> None:
        self.weights = weights
        self.pairs = list(combinations(range(len(weights)), 2))
        self.gauge_read = gauge_read
        self._known: dict[Needs, Overlaps] = {}
        self._unknown: dict[Needs, Overlaps] = {}
        self._kept: dict[tuple[tuple[Needs, ...], bool], float] = {}
        for question, by_pressure in looks.items():
            needs = needs_of(question)
            self._multiply(self._known, needs, _mean([overlaps(looks) for looks in by_pressure]))
            self._multiply(self._unknown, needs, overlaps(_mixed(by_pressure)))

    def _multiply(self, into: dict[Needs, Overlaps], needs: Needs, found: Mapping[tuple[int, int], float]) -> None:
        held = into.setdefault(needs, [1.0] * len(self.pairs))
        into[needs] = [
            old * max(min(found.get(pair, 0.0), 1.0) ** 2, SLIP) for old, pair in zip(held, self.pairs, strict=True)
        ]

    def unproved(self, carried: frozenset[str]) -> float:
        """Return the chance that the repair is not told from another, with these instruments."""
        usable = sorted(
            (needs for needs in self._known if all(group & carried for group in needs)), key=lambda n: [*map(sorted, n)]
        )
        sets = [chosen for count in range(len(usable) + 1) for chosen in combinations(usable, count)]
        with_gauge = self.gauge_read or "gauge" in carried
        return min(self._left(chosen, known) for chosen in sets for known in {False, with_gauge})

    def _left(self, chosen: tuple[Needs, ...], known: bool) -> float:  # noqa: FBT001 - part of what is remembered
        """Return what is left unproved by all checks of some kinds: rule 2."""
        if (chosen, known) not in self._kept:
            table = self._known if known else self._unknown
            held = [table[needs] for needs in chosen]
            self._kept[chosen, known] = self._left_by([prod(each) for each in zip(*held, strict=True)])
        return self._kept[chosen, known]

    def _left_by(self, overlap: Overlaps) -> float:
        rivals = [0.0] * len(self.weights)
        total = [share for share, _ in self.weights]
        for (i, j), part in zip(self.pairs, overlap or [1.0] * len(self.pairs), strict=True):
            (share, remedy), (other, other_remedy) = self.weights[i], self.weights[j]
            total[i] += other * part
            total[j] += share * part
            if remedy != other_remedy:
                rivals[i] += other * part
                rivals[j] += share * part
        return fsum(share * r / t for (share, _), r, t in zip(self.weights, rivals, total, strict=True))


def _mean(tables: Sequence[Mapping[tuple[int, int], float]]) -> dict[tuple[int, int], float]:
    found: dict[tuple[int, int], float] = {}
    for table in tables:
        for pair, overlap in table.items():
            found[pair] = found.get(pair, 0.0) + overlap / len(tables)
    return found


def _mixed(by_pressure: Sequence[Sequence[Mapping[int | str, float]]]) -> list[dict[int | str, float]]:
    """Return each cell's chances where the pressure is not known: figures lie anywhere between those of `PRESSURES`."""
    return [_spread(looks) for looks in zip(*by_pressure, strict=True)]


def _spread(looks: Sequence[Mapping[int | str, float]]) -> dict[int | str, float]:
    """Return one cell's chances with its figures spread evenly from the lowest bin to the highest.

    >>> _spread([{2: 1.0}, {5: 0.5, "OL": 0.5}])
    {'OL': 0.25, 2: 0.1875, 3: 0.1875, 4: 0.1875, 5: 0.1875}
    """
    found: dict[int | str, float] = {}
    figures, mass = [], 0.0
    for chances in looks:
        for name, chance in chances.items():
            if isinstance(name, int):
                figures.append(name)
                mass += chance / len(looks)
            else:
                found[name] = found.get(name, 0.0) + chance / len(looks)
    reach = range(min(figures), max(figures) + 1) if figures else range(0)
    return found | {name: mass / len(reach) for name in reach}


def kit(system: System) -> Kit:
    """Return which instruments to carry to a visit, with all that is known of it."""
    have = frozenset(system.visit.instruments.have or ())
    return packed_kit(telling_of(system), have, system.estimates)


def packed_kit(telling: Telling, at_hand: frozenset[str], estimates: Estimates) -> Kit:
    """Return which instruments to carry, one by one, each time the one that tells most, until the loading takes longer.

    A repair that is not told from another is a second trip.
    """
    before = now = telling.unproved(at_hand)
    carried, left = set(at_hand), sorted(set(INSTRUMENTS) - at_hand)
    found: list[Carried] = []
    while left:
        after = {each: telling.unproved(frozenset({*carried, each})) for each in left}
        best = min(left, key=lambda each: (after[each], each))
        saves = (now - after[best]) * estimates.second_trip
        if saves <= estimates.loading:
            break
        found.append(Carried(instrument=best, unproved=after[best], saves_minutes=saves))
        now = after[best]
        carried.add(best)
        left.remove(best)
    floor = telling.unproved(frozenset(INSTRUMENTS))
    return Kit(before=before, floor=floor, at_hand=tuple(sorted(at_hand)), instruments=tuple(found))


def telling_of(system: System) -> Telling:
    """Return how far every check that could be made at a visit would tell its repairs apart."""
    instruments = replace(system.visit.instruments, have=INSTRUMENTS)
    full = System(replace(system.visit, instruments=instruments), system.estimates)
    seen = observations(full)
    weighed = spokesmen(believed(full, seen).after)
    stances = [o.stance for o in seen if o.stance.arrangement != "vented"]
    read = [stance.pressure for stance in stances if stance.pressure.known != "nothing"]
    pressures = read[-1:] or [_at(full, part) for part in PRESSURES]
    planners = [Planner(full, weighed, pressure) for pressure in pressures]
    asked = [q for q in candidates(full, frozenset()) if q.measure != "gauge-pressure"]
    tables = [planner.outlooks(asked) for planner in planners]
    known = [q for q in asked if all(q in table for table in tables)]
    looks = {q: [[_chances(look) for look in table[q]] for table in tables] for q in known}
    return Telling([(w.share, w.cell.remedy) for w in _taking_part(planners)], looks, gauge_read=bool(read))


def spokesmen(weighed: Sequence[Weighed]) -> list[Weighed]:
    """Return a few cells for each fault, which share its weight, the heaviest first.

    They stand at even parts of the weight of the fault's cells, in the order of place and size.
    """
    by_fault: dict[str, list[Weighed]] = {}
    for w in weighed:
        by_fault.setdefault(w.cell.fault, []).append(w)
    found: list[Weighed] = []
    for held in by_fault.values():
        held.sort(key=lambda w: (_where(w), w.cell.make))
        total = sum(w.share for w in held)
        chosen = [_at_part(held, total * (k + 0.5) / SPOKESMEN) for k in range(SPOKESMEN)]
        found += [replace(w, share=total / SPOKESMEN) for w in chosen]
    return sorted(found, key=lambda w: (-w.share, w.cell.fault, _where(w)))


def _where(w: Weighed) -> list[tuple[str, float]]:
    return [(part.place, part.size) for part in w.cell.parts]


def _at_part(held: Sequence[Weighed], part: float) -> Weighed:
    """Return the cell at which the weights before it and its own first reach `part`."""
    for w in held:
        part -= w.share
        if part <= 0.0:
            return w
    return held[-1]


def _taking_part(planners: Iterable[Planner]) -> Sequence[Weighed]:
    return next(iter(planners)).weighed


def _chances(look: Outlook) -> dict[int | str, float]:
    found: dict[int | str, float] = {}
    for name, chance in look.bins:
        found[name] = found.get(name, 0.0) + chance
    return found


def _at(system: System, part: float) -> Pressure:
    """Return a pressure in the pipe, as well known as a gauge would make it."""
    pa = system.range.low + part * system.range.width
    return replace(no_gauge(system), pa=pa, sd=system.gauge_error(pa) / 2.0)
