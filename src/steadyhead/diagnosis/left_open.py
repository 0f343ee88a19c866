"""What an earlier visit left open, as odds of this one: the trouble was not there then, and somebody comes again.

Theory of operation
-------------------
1. The earlier visit's last belief stands in the visit file (``[former]``), so that a file has one answer everywhere.
2. In a part of all cases what was wrong then is wrong now: there the faults have the odds that they had at its end. In
   the rest something else has come, at the odds that any call begins with. The two are mixed by that part, so that
   nothing is excluded and nothing proved.
3. The part is `COUNTS` on the day of the ending, and half as much after each `HALF_LIFE_D` days.
4. What was repaired since, a suspect all of whose faults were mended, counts `MENDED_AGAIN` times as much; of a pair
   the other half is suspected. That holds for repairs before the first reading here too.
5. Only which fault it is counts: that nothing was found wrong while the trouble was away says nothing of today, so
   no fault, and causes that are not known here, keep the odds of any call.
6. As with a complaint, proof is judged as if nothing had been known (`Cell.said`), and no suspect is left early for it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from steadyhead.diagnosis.cells import BY_ID, Cell
from steadyhead.diagnosis.estimates import NONE_OF_THESE
from steadyhead.diagnosis.pairs import MENDED_AGAIN
from steadyhead.diagnosis.system import System
from steadyhead.messages import Message, message
from steadyhead.visit.record import Former, Visit

#: Part of the cases in which what was wrong when the earlier visit ended is wrong still, and the days after which it
#: is half of that (estimates: common practice, no source).
COUNTS, HALF_LIFE_D = 0.7, 60.0
DAY_S = 86400.0
#: Suspects that name no fault.
NO_FAULT = frozenset(("none", NONE_OF_THESE))
#: As many of what was left open are told, from this share on.
TOLD, LEAST = 3, 0.05
#: Below this part nothing of it counts or is told.
NOTHING = 0.01


def part_of(former: Former) -> float:
    """Return the part of the odds that what was left open makes; 0 where it does not count.

    >>> ago = 60 * DAY_S
    >>> part_of(Former(ended="2026-05-07", ago_s=ago, believed=(("sensor-open", 0.4),)))
    0.35
    """
    named = any(fault not in NO_FAULT for fault, _ in former.believed)
    if not (former.counts and named) or former.ended is None or former.ago_s is None:
        return 0.0
    part = COUNTS * 0.5 ** (max(former.ago_s, 0.0) / DAY_S / HALF_LIFE_D)
    return part if part >= NOTHING else 0.0


def with_left_open(system: System, cells: Sequence[Cell]) -> list[Cell]:
    """Return the cells before the first reading, with what an earlier visit left open."""
    part = part_of(system.visit.former)
    if not part:
        return list(cells)
    plain = _by_suspect(cells)
    odds = _left(system.visit, plain)
    times = {suspect: 1.0 - part + part * odds.get(suspect, share) / share for suspect, share in plain.items()}
    total = sum(cell.weight * times[cell.fault] for cell in cells)
    return [replace(c, weight=c.weight * times[c.fault] / total, said=c.said * times[c.fault]) for c in cells]


def _by_suspect(cells: Sequence[Cell]) -> dict[str, float]:
    """Return each suspect's share as if nothing had been said."""
    found: dict[str, float] = {}
    for cell in cells:
        found[cell.fault] = found.get(cell.fault, 0.0) + cell.weight / cell.said
    total = sum(found.values())
    return {suspect: share / total for suspect, share in found.items() if share > 0.0}


def _left(visit: Visit, plain: Mapping[str, float]) -> dict[str, float]:
    """Return the odds of the faults as the earlier visit left them, together what they have in `plain`.

    What it did not name, and what cannot be here, is shared out as any call has it.
    """
    faults = {suspect: share for suspect, share in plain.items() if suspect not in NO_FAULT}
    whole = sum(faults.values())
    told = _named(visit.former, faults, mended_since(visit))
    believed = 1.0 - sum(share for fault, share in visit.former.believed if fault in NO_FAULT)
    rest = max(believed - sum(told.values()), 0.0)
    others = sum(share for suspect, share in faults.items() if suspect not in told)
    scale = whole / (sum(told.values()) + (rest if others else 0.0))
    return {
        suspect: scale * (told[suspect] if suspect in told else rest * share / others)
        for suspect, share in faults.items()
    }


def _named(former: Former, faults: Mapping[str, float], mended: frozenset[str]) -> dict[str, float]:
    """Return the shares of what was named, by suspects that there are here, with what was mended taken away."""
    found: dict[str, float] = {}
    for suspect, share in former.believed:
        parts = [part for part in suspect.split("+") if part in BY_ID and part not in NO_FAULT]
        left = [part for part in parts if BY_ID[part].remedy not in mended]
        if left == parts and suspect in faults:
            found[suspect] = found.get(suspect, 0.0) + share
            continue
        for part in left or parts:
            if part in faults:
                times = 1.0 if left else MENDED_AGAIN
                found[part] = found.get(part, 0.0) + times * share / len(left or parts)
    return found


def mended_since(visit: Visit) -> frozenset[str]:
    """Return what was repaired since the earlier visit's last reading: before the first reading here, too."""
    here = [action.remedy for action in visit.actions if action.after_reading == 0]
    return frozenset(part for remedy in (*visit.former.mended, *here) for part in remedy.split("+"))


def left_open(visit: Visit) -> tuple[Message, ...]:
    """Return what the earlier visit left open, and how far it counts here; nothing where there was none."""
    former = visit.former
    mended = mended_since(visit)
    named = (fault for suspect, share in former.believed if share >= LEAST for fault in suspect.split("+"))
    left = (fault for fault in named if fault in BY_ID and BY_ID[fault].remedy not in mended)
    likely = tuple(fault for fault in dict.fromkeys(left) if fault not in NO_FAULT)[:TOLD]
    if former.ended is None or not former.believed:
        return ()
    if not former.counts:
        return (message("former-out", day=former.ended),)
    part = part_of(former)
    if not part:
        return (message("former-long-ago", day=former.ended),)
    since = tuple(message("former-mended", remedy=remedy) for remedy in sorted(mended))
    if not likely:
        return (message("former-counts-spread", day=former.ended, share=part), *since)
    return (message("former-counts", day=former.ended, share=part, what=likely), *since)
