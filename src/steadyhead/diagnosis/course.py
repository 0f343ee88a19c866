"""How the belief went, reading by reading: what led after each, and what each ruled out.

Rules
-----
1. The belief of all readings up to one, in the order in which they were taken; those before a repair are not weighed.
2. A suspect is ruled out by the reading after which it is below `RULED_OUT`, if it was above `COUNTED` before.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from steadyhead.diagnosis.belief import Weighed, believe
from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.observing import Observation, observations
from steadyhead.diagnosis.opening import opened_belief
from steadyhead.diagnosis.system import System

COUNTED, RULED_OUT = 0.02, 0.004


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """Where the belief stood after a reading (0: before the first): who led, how likely, who was ruled out by it."""

    reading: int
    leads: str
    probability: float
    ruled_out: tuple[str, ...]


def course(system: System) -> tuple[Stage, ...]:
    """Return where the belief stood before the first reading and after each."""
    seen = observations(system)
    belief, suspected = opened_belief(system, seen)
    return course_to(system, seen, suspected, belief.after)


def course_to(
    system: System, seen: Sequence[Observation], suspected: Sequence[Cell], after: Sequence[Weighed]
) -> tuple[Stage, ...]:
    """Return the same where the belief after all readings, of every suspect, is known already."""
    shares = [_shares(believe(system, suspected, seen[:k]).after) for k in range(len(seen))]
    shares.append(_shares(after))
    numbers = [0, *(o.number for o in seen)]
    before = [{}, *shares]
    return tuple(_stage(number, b, now) for number, b, now in zip(numbers, before, shares, strict=False))


def ruled_out(before: dict[str, float], now: dict[str, float]) -> tuple[str, ...]:
    """Return which suspects counted before and are out now, the likeliest first.

    >>> ruled_out({"a": 0.5, "b": 0.1, "c": 0.01}, {"a": 0.999, "b": 0.001})
    ('b',)
    """
    gone = [fault for fault, share in before.items() if share > COUNTED and now.get(fault, 0.0) < RULED_OUT]
    return tuple(sorted(gone, key=lambda fault: (-before[fault], fault)))


def _stage(number: int, before: dict[str, float], now: dict[str, float]) -> Stage:
    leads = max(now, key=lambda fault: (now[fault], fault))
    return Stage(reading=number, leads=leads, probability=min(now[leads], 1.0), ruled_out=ruled_out(before, now))


def _shares(weighed: Sequence[Weighed]) -> dict[str, float]:
    found: dict[str, float] = {}
    for w in weighed:
        found[w.cell.fault] = found.get(w.cell.fault, 0.0) + w.share
    return found
