"""Pairs without a common cause: looked at only where no single fault will do.

Rules
-----
1. They are opened when the best single fault, or pair with one cause, fits worse than one visit in a hundred would let
   it, though one reading may have been a slip: its second worst reading, by what all others say of it, lies further off
   than the second largest of so many normal numbers.
2. They are opened too when something was mended and the readings after it say that something is still wrong.
3. Then each of the eight likeliest single faults is joined with each other one, at the chance of a coincidence.
4. What was read before a repair still tells what else is suspected after it (`steadyhead.diagnosis.after_mending`).
5. What an earlier visit left open counts before the first reading (`steadyhead.diagnosis.left_open`).
6. The single faults keep their weight of evidence: the opened pairs are weighed beside them, never in their stead.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from statistics import NormalDist

from steadyhead.diagnosis.after_mending import before_repair, odds_after
from steadyhead.diagnosis.belief import Belief, Weighed, believe, joined
from steadyhead.diagnosis.cells import BY_ID, Cell, cells, of_pair, single_odds
from steadyhead.diagnosis.left_open import with_left_open
from steadyhead.diagnosis.observing import Observation, observations
from steadyhead.diagnosis.pairs import COINCIDENCE, cause_of, together
from steadyhead.diagnosis.system import System, last_mended

#: Faults that are joined with one another.
LIKELIEST = 8
#: A fit that fewer visits than this would show is no fit.
SELDOM = 0.01
#: After a repair, something is still wrong where that is likelier than this.
STILL_WRONG = 0.5
#: Faults below this share of the probability are no part of the fit that is judged.
COUNTS = 0.02


def opened_belief(system: System, seen: Sequence[Observation]) -> tuple[Belief, list[Cell]]:
    """Return the cells after all readings, and every cell that is suspected, the opened pairs among them."""
    first = _first(system)
    belief = believe(system, first, seen)
    others = opened(system, belief) if needed(system, belief) else []
    if not others:
        return belief, first
    return joined(belief, believe(system, others, seen)), [*first, *others]


def _first(system: System) -> list[Cell]:
    """Return the cells before the first reading; once something was mended, what was read before it counts instead."""
    if last_mended(system.visit):
        return cells(system, odds_after(system, _before(system)))
    return with_left_open(system, cells(system))


def _before(system: System) -> Sequence[Weighed]:
    """Return the cells after the readings that were taken before the last repair."""
    then = replace(system, visit=before_repair(system.visit))
    return believed(then, observations(then)).after


def believed(system: System, seen: Sequence[Observation]) -> Belief:
    """Return the cells after all readings: single faults and pairs with one cause, and where needed other pairs."""
    return opened_belief(system, seen)[0]


def suspected(system: System) -> list[Cell]:
    """Return the cells of every suspect of a visit, the opened pairs among them."""
    return opened_belief(system, observations(system))[1]


def needed(system: System, belief: Belief) -> bool:
    """Tell whether single faults, and pairs with one cause, are too few to explain this visit."""
    if last_mended(system.visit) and _still_wrong(belief.after) > STILL_WRONG:
        return True
    return worst_chance(belief.after) < SELDOM


def _still_wrong(weighed: Sequence[Weighed]) -> float:
    return sum(w.share for w in weighed if not w.cell.has("none"))


def worst_chance(weighed: Sequence[Weighed]) -> float:
    """Return the chance of readings that fit no better than these, under the cell that they fit best of those alive.

    With n readings whose second worst lies q deviations from what the others say, and p the chance of as much in one:
    ``1 - (1 - p)^n - n p (1 - p)^(n - 1)``, as if they were independent.
    """
    known = [w for w in weighed if w.cell.parts]
    whole = sum(w.share for w in known)
    chances = [_chance(w) for w in known if w.share > COUNTS * whole]
    return max(chances, default=1.0)


def _chance(w: Weighed) -> float:
    count = len(w.misfits)
    if count < 2:
        return 1.0
    second = sorted(misfit for _, misfit in w.misfits)[-2]
    inside = 2.0 * NormalDist().cdf(second) - 1.0
    return 1.0 - inside**count - count * (1.0 - inside) * inside ** (count - 1)


def opened(system: System, belief: Belief) -> list[Cell]:
    """Return the cells of the likeliest faults joined, each pair with the chance of a coincidence."""
    odds = single_odds(system)
    whole = sum(odds.values())
    found: list[Cell] = []
    for a, b in combinations(likeliest(belief), 2):
        if together(BY_ID[a], BY_ID[b]) and cause_of(a, b) is None:
            found += of_pair(BY_ID[a], BY_ID[b], COINCIDENCE * odds[a] * odds[b] / whole**2)
    return found


def likeliest(belief: Belief) -> list[str]:
    """Return the likeliest single faults after all readings, and where those are few, before the meter's."""
    found: dict[str, float] = {}
    for w in belief.after:
        for part in w.cell.parts:
            if part.fault != "none":
                found[part.fault] = found.get(part.fault, 0.0) + w.share
    first = sorted(found, key=lambda fault: (-found[fault], fault))[:LIKELIEST]
    for w in belief.before:
        if len(first) == LIKELIEST:
            break
        if len(w.cell.parts) == 1 and not w.cell.has("none", *first):
            first.append(w.cell.fault)
    return first
