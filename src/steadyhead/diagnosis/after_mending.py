"""What the readings before a repair leave suspected after it.

Rules
-----
1. The loop before a repair was another one. So the readings before it are not weighed with those after it: what they
   made of each suspect becomes its odds, with the repaired part taken away.
2. A suspect that was mended is gone, and what it may have left behind comes up; mended in vain it counts little more.
   Of a pair the other half stays. Whatever the readings said of it, a repair is right half of the time at least.
3. The two loops differ in more than one part, and a repair may disturb others: only a part of the odds is taken so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.cells import BY_ID, single_odds
from steadyhead.diagnosis.estimates import NONE_OF_THESE
from steadyhead.diagnosis.pairs import MENDED_AGAIN, common_pairs, left_over
from steadyhead.diagnosis.priors import prior
from steadyhead.diagnosis.system import System, last_mended
from steadyhead.visit.record import Visit

#: Part of the odds that what was read before the repair decides (an estimate: common practice, no source).
COUNTS = 0.7
#: Who mends something has mostly found something: the least chance that a repair was right (common practice).
FOUND = 0.5


def before_repair(visit: Visit) -> Visit:
    """Return the visit as it stood when the last repair was begun that was read after."""
    last = last_mended(visit)
    actions = tuple(action for action in visit.actions if action.after_reading < last)
    return replace(visit, readings=visit.readings[:last], actions=actions)


def odds_after(system: System, before: Sequence[Weighed]) -> Mapping[str, float]:
    """Return how likely each single fault is once what was mended is mended.

    Parameters
    ----------
    system
        The visit's system, the repair in it.
    before
        The cells after the readings before the repair, their shares summing to one.

    Returns
    -------
    Mapping
        By fault id, summing to one.
    """
    last = last_mended(system.visit)
    mended = frozenset(action.remedy for action in system.visit.actions if action.after_reading == last)
    plain = single_odds(system)
    whole = sum(plain.values())
    told = _stood(system, before, mended)
    total = sum(told.values())
    return {f: (1.0 - COUNTS) * odds / whole + COUNTS * told.get(f, 0.0) / total for f, odds in plain.items()}


def _stood(system: System, before: Sequence[Weighed], mended: frozenset[str]) -> dict[str, float]:
    """Return each fault's share before the repair with what was mended taken away."""
    wrong, cured = _untouched(before, mended), sum(w.share for w in before if _cured(w, mended))
    right = max(cured, FOUND)
    total = sum(wrong.values()) or 1.0
    found = {fault: (1.0 - right) * share / total for fault, share in wrong.items()}
    for w in before:
        if _cured(w, mended):
            for part in w.cell.parts:
                found[part.fault] = found.get(part.fault, 0.0) + w.share * MENDED_AGAIN / len(w.cell.parts)
    plain = prior(system.wires, system.kind, system.estimates)
    for fault, chance in left_over(mended, common_pairs(system.wires, system.kind), plain).items():
        found[fault] = found.get(fault, 0.0) + right * chance
    found["none"] = found.get("none", 0.0) + right
    return found


def _cured(w: Weighed, mended: frozenset[str]) -> bool:
    """Tell whether all faults of a cell were mended."""
    return bool(w.cell.parts) and all(BY_ID[part.fault].remedy in mended for part in w.cell.parts)


def _untouched(before: Sequence[Weighed], mended: frozenset[str]) -> dict[str, float]:
    """Return the shares of what was not mended: of a pair, of the half that was not."""
    found: dict[str, float] = {}
    for w in before:
        left = [part.fault for part in w.cell.parts if BY_ID[part.fault].remedy not in mended]
        for fault in left if w.cell.parts else [NONE_OF_THESE]:
            found[fault] = found.get(fault, 0.0) + w.share / max(len(left), 1)
    return found
