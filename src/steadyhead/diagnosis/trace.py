"""The steps that led to an answer, as one small value: what was weighed, what is alive, what each check would pay.

Rules
-----
1. Nothing is weighed anew but the course of the belief, which takes as long as a diagnosis for each reading.
2. What is told is told in the words of the theory: cells, shares, deviations, minutes. It is for whoever doubts an
   answer, not for the panel.
3. Checks that lost stand with those that won, with the reason.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from steadyhead.diagnosis import checks
from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.course import Stage, course_to
from steadyhead.diagnosis.diagnose import Diagnosed, size_of
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.planning import stopping

#: Cells that are told.
HEAVIEST = 12

Fate = Literal["chosen", "costs-more-than-it-saves", "tells-too-little"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """One reading of the visit: whether it was weighed, and how many deviations it lies from what the rest says."""

    reading: int
    weighed: bool
    misfit: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Heavy:
    """One of the heaviest cells."""

    fault: str
    place: str
    severity: float | None
    unit: str | None
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Valued:
    """One check that was thought of: its minutes, what it would save net of them, and what became of it."""

    question: Question
    minutes: float
    saves: float
    fate: Fate


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """The steps.

    Parameters
    ----------
    readings
        All readings of the visit.
    course
        The belief before the first reading and after each.
    cells, alive
        Cells at the beginning, and those that the first rough pass left.
    heaviest
        The heaviest cells now.
    stopping, going_on
        What it costs to mend the likeliest now, and to find out the rest [min].
    checks
        All checks that can be made here, best first.
    """

    readings: tuple[Used, ...]
    course: tuple[Stage, ...]
    cells: int
    alive: int
    heaviest: tuple[Heavy, ...]
    stopping: float
    going_on: float
    checks: tuple[Valued, ...]


def trace(found: Diagnosed) -> Trace:
    """Return the steps of a diagnosis."""
    system, planner = found.system, found.planner
    return Trace(
        readings=_readings(found),
        course=course_to(system, found.seen, found.suspected, found.weighed),
        cells=len(found.suspected),
        alive=len(found.weighed),
        heaviest=tuple(_heavy(w) for w in found.weighed[:HEAVIEST]),
        stopping=stopping(planner.now, system.estimates),
        going_on=planner.prices.price(planner.now),
        checks=_valued(found),
    )


def _readings(found: Diagnosed) -> tuple[Used, ...]:
    weighed = {o.number for o in found.seen}
    misfits = _misfits(found.weighed)
    numbers = [reading.number for reading in found.system.visit.readings]
    return tuple(Used(reading=n, weighed=n in weighed, misfit=misfits.get(n)) for n in numbers)


def _misfits(weighed: Sequence[Weighed]) -> dict[int, float]:
    """Return how far each figure lies from what the others say, over the cells by their shares."""
    found: dict[int, float] = {}
    for w in weighed:
        for number, misfit in w.misfits:
            found[number] = found.get(number, 0.0) + w.share * misfit
    return found


def _heavy(w: Weighed) -> Heavy:
    size, unit = size_of(w)
    return Heavy(fault=w.cell.fault, place=w.cell.place, severity=size, unit=unit, share=w.share)


def _valued(found: Diagnosed) -> tuple[Valued, ...]:
    planner, estimates = found.planner, found.system.estimates
    here = checks.standing(found.system.visit)
    gained = stopping(planner.now, estimates) - planner.prices.price(planner.now)
    won = {plan.question: plan for plan in found.plans}
    rows = []
    for question, told in planner.told.items():
        spent = checks.minutes(found.system, question, here)
        saves = won[question].saves if question in won else told + gained - spent
        rows.append(Valued(question=question, minutes=spent, saves=saves, fate=_fate(question in won, saves)))
    return tuple(sorted(rows, key=lambda v: (v.fate != "chosen", -v.saves, repr(v.question))))


def _fate(won: bool, saves: float) -> Fate:  # noqa: FBT001 - the two things that decide it
    if won:
        return "chosen"
    return "costs-more-than-it-saves" if saves <= 0.0 else "tells-too-little"
