"""How each reading moved one suspect: its odds after each, what it foretold, its rivals, and what would decide.

Theory of operation
-------------------
1. The belief takes any part of the readings, so the odds after each are the belief of all readings up to it, in the
   order in which they were taken.
2. A reading's factor is by how much it multiplied the suspect's odds (not its probability): above one it speaks for it,
   below one against it. Factors multiply to the whole.
3. Beside what the suspect foretold stands what its strongest rival of that moment foretold: a reading speaks by the
   difference of the two, not by how well it fits one.
4. What would decide is a check that can still be made and whose outcomes under the suspect and under its strongest
   rival with another remedy share nothing; the fewest minutes first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from steadyhead.diagnosis import checks
from steadyhead.diagnosis.answer import Band, Outcome
from steadyhead.diagnosis.belief import Weighed, believe
from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.foretelling import apart, foretold
from steadyhead.diagnosis.inspections import chance
from steadyhead.diagnosis.observing import Observation, Pressure, Question, Stance, no_gauge, observations
from steadyhead.diagnosis.opening import opened_belief, suspected
from steadyhead.diagnosis.system import System
from steadyhead.loop.wiring import noise_reaches

#: Probabilities are held this far from nothing and from all, so that odds exist.
LEAST = 1e-9
#: A factor between these says little either way.
LITTLE = (0.8, 1.25)
MOST_RIVALS, MOST_DECIDING = 5, 3
#: A suspect, or its rival, that is less likely than this is out: nothing is left to decide.
OUT = 1e-4
#: A look decides where its chance to find something differs by this much.
LOOK_DECIDES = 0.6
#: Cells that foretell what a check would decide, heaviest first.
FEW = 4
#: Checks of an hour or more are no way to decide.
LONGEST_MINUTES = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """What one reading did: the suspect's probability after it, the factor on its odds, and what was foretold."""

    reading: int
    probability: float
    factor: float
    foretold: Outcome | None
    rival: Outcome | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rival:
    """Another suspect and its probability."""

    fault: str
    remedy: str
    probability: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Deciding:
    """A check that would tell the suspect from its strongest rival."""

    question: Question
    minutes: float
    if_so: Outcome
    if_not: Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Reasons:
    """Everything that moved one suspect.

    Parameters
    ----------
    fault, remedy
        The suspect.
    before, probability
        Its probability before the first reading, and now.
    readings
        What each reading did, in the order in which they were taken.
    unused
        Readings that no longer count: the system was mended after them.
    rivals
        The likeliest other suspects now.
    deciding
        What would prove it or clear it.
    """

    fault: str
    remedy: str
    before: float
    probability: float
    readings: tuple[Reason, ...]
    unused: tuple[int, ...]
    rivals: tuple[Rival, ...]
    deciding: tuple[Deciding, ...]

    @property
    def strongest_for(self) -> Reason | None:
        """The reading that spoke for it most, None where none did."""
        best = max(self.readings, key=lambda r: r.factor, default=None)
        return best if best is not None and best.factor > LITTLE[1] else None

    @property
    def strongest_against(self) -> Reason | None:
        """The reading that spoke against it most, None where none did."""
        worst = min(self.readings, key=lambda r: r.factor, default=None)
        return worst if worst is not None and worst.factor < LITTLE[0] else None


#: The kinds of values that reasons are made of, for whoever keeps them.
PARTS = (Band, Deciding, Outcome, Question, Reason, Rival)


def suspects_of(system: System) -> tuple[str, ...]:
    """Return every suspect of a system, a pair as ``a+b``."""
    return tuple(dict.fromkeys(cell.fault for cell in suspected(system)))


def reasons(system: System, fault: str) -> Reasons:
    """Return how each reading moved a suspect.

    Parameters
    ----------
    system
        The system with its visit.
    fault
        One of `suspects_of`.
    """
    seen = observations(system)
    belief, all_cells = opened_belief(system, seen)
    by_fault: dict[str, list[Cell]] = {}
    for cell in all_cells:
        by_fault.setdefault(cell.fault, []).append(cell)
    own = by_fault[fault]
    beliefs = [believe(system, all_cells, seen[:k]).after for k in range(len(seen))]
    beliefs.append(belief.after)
    chances = [_chance(weighed, fault) for weighed in beliefs]
    told = [
        _reason(system, own, (seen, k), beliefs[k], (chances[k], chances[k + 1])) for k in range(len(seen))
    ]
    used = {o.number for o in seen}
    return Reasons(
        fault=fault,
        remedy=own[0].remedy,
        before=chances[0],
        probability=chances[-1],
        readings=tuple(told),
        unused=tuple(r.number for r in system.visit.readings if r.number not in used),
        rivals=_rivals(beliefs[-1], fault),
        deciding=_deciding(system, (own, _rival_cells(by_fault, own, beliefs[-1])), seen),
    )


def factor_between(before: float, after: float) -> float:
    """Return by how much odds were multiplied, from two probabilities.

    >>> round(factor_between(0.5, 0.8), 6), round(factor_between(0.2, 0.2), 6)
    (4.0, 1.0)
    """
    return _odds(after) / _odds(before)


def _odds(probability: float) -> float:
    held = min(max(probability, LEAST), 1.0 - LEAST)
    return held / (1.0 - held)


def _chance(weighed: Sequence[Weighed], fault: str) -> float:
    return min(sum(w.share for w in weighed if w.cell.fault == fault), 1.0)


def _reason(
    system: System,
    own: Sequence[Cell],
    place: tuple[Sequence[Observation], int],
    before: Sequence[Weighed],
    chances: tuple[float, float],
) -> Reason:
    seen, k = place
    o = seen[k]
    mine = believe(system, own, seen[:k]).after
    other = _strongest(before, {own[0].fault}, set())
    return Reason(
        reading=o.number,
        probability=chances[1],
        factor=factor_between(*chances),
        foretold=foretold(system, mine, o.stance, o.question),
        rival=foretold(system, other, o.stance, o.question) if other else None,
    )


def _strongest(weighed: Sequence[Weighed], not_faults: set[str], not_remedies: set[str]) -> list[Weighed]:
    """Return the cells of the likeliest suspect that is none of these."""
    shares: dict[str, float] = {}
    for w in weighed:
        if w.cell.fault not in not_faults and w.cell.remedy not in not_remedies:
            shares[w.cell.fault] = shares.get(w.cell.fault, 0.0) + w.share
    if not shares:
        return []
    best = max(shares, key=lambda f: (shares[f], f))
    return [w for w in weighed if w.cell.fault == best]


def _rivals(weighed: Sequence[Weighed], fault: str) -> tuple[Rival, ...]:
    found: dict[str, Rival] = {}
    for w in weighed:
        if w.cell.fault != fault and w.cell.fault not in found:
            likely = _chance(weighed, w.cell.fault)
            found[w.cell.fault] = Rival(fault=w.cell.fault, remedy=w.cell.remedy, probability=likely)
    return tuple(sorted(found.values(), key=lambda r: (-r.probability, r.fault)))[:MOST_RIVALS]


def _held(system: System, seen: Sequence[Observation]) -> Pressure:
    """Return the pressure that the last reading of a pipe under pressure was taken at."""
    stances = [o.stance for o in seen if o.stance.pressure.known != "nothing" and o.stance.arrangement != "vented"]
    return stances[-1].pressure if stances else no_gauge(system)


def _rival_cells(by_fault: Mapping[str, Sequence[Cell]], own: Sequence[Cell], now: Sequence[Weighed]) -> Sequence[Cell]:
    """Return the cells of the strongest rival with another remedy; none where one of the two is out."""
    other = _strongest(now, {own[0].fault}, {own[0].remedy})
    out = not other or sum(w.share for w in other) < OUT or _chance(now, own[0].fault) < OUT
    return () if out else by_fault[other[0].cell.fault]


def _deciding(
    system: System, two: tuple[Sequence[Cell], Sequence[Cell]], seen: Sequence[Observation]
) -> tuple[Deciding, ...]:
    """Return the checks that tell a suspect from its strongest rival with another remedy, the shortest first."""
    if not two[1]:
        return ()
    mine, other = (believe(system, cells_, seen).after for cells_ in two)
    pressure, here = _held(system, seen), checks.standing(system.visit)
    found = []
    for question in checks.candidates(system, frozenset()):
        spent = checks.minutes(system, question, here)
        if spent < LONGEST_MINUTES and question.measure != "displayed-fault":
            quiet = not noise_reaches(question.arrangement)
            stance = Stance(question.arrangement, question.source, pressure, quiet)
            so, not_so = (foretold(system, each[:FEW], stance, question) for each in (mine, other))
            if so is not None and not_so is not None and _tells(question, (so, not_so), (mine, other)):
                found.append(Deciding(question=question, minutes=spent, if_so=so, if_not=not_so))
    return tuple(sorted(found, key=lambda d: (d.minutes, repr(d.question))))[:MOST_DECIDING]


def _tells(
    question: Question, outcomes: tuple[Outcome, Outcome], two: tuple[Sequence[Weighed], Sequence[Weighed]]
) -> bool:
    if question.item is None:
        return apart(*outcomes)
    chances = [sum(w.share * chance(w.cell, question.item, "wrong") for w in each) for each in two]
    return abs(chances[0] - chances[1]) > LOOK_DECIDES
