"""What each check would show under the suspects that count, in bins that tell readings apart.

Rules
-----
1. A suspect and place is spoken for by a few cells of its heaviest makes, the same makes for all where it has them, so
   that no check seems to tell suspects apart by what only their makes differ in.
2. Outcomes are taken in bins about three deviations wide, softly, so that nothing hangs on a bin's edge.
3. A fault that comes and goes shows either of its states.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import floor, log

from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.clamped import as_shown
from steadyhead.diagnosis.doubt import compared, end_of_scale, shown_chances, spread
from steadyhead.diagnosis.inspections import chance
from steadyhead.diagnosis.lines import AWAY
from steadyhead.diagnosis.looking import Drafts, look
from steadyhead.diagnosis.observing import Pressure, Question, Stance
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError
from steadyhead.loop.wiring import noise_reaches

#: Suspects and places that take part, and the share of probability at which the rest is left out.
HEAVIEST, ENOUGH = 80, 0.99
#: Makes of each suspect and place, and the share below which one make speaks for it.
MAKES, SMALL = 3, 0.03
#: Width of a bin, in standard deviations.
BIN = 3.0

Bins = tuple[tuple[int | str, float], ...]


@dataclass(frozen=True, slots=True)
class Outlook:
    """What a check would show under one cell: its place on the compared scale in bins, or the chance of each word."""

    value: float
    bins: Bins


def spoken_for(weighed: Sequence[Weighed]) -> list[Weighed]:
    """Return a few cells of each suspect and place that counts, which share its weight; shares sum to one."""
    makes: dict[tuple[float, ...], float] = {}
    together: dict[tuple[str, str], list[Weighed]] = {}
    for w in weighed:
        makes[w.cell.make] = makes.get(w.cell.make, 0.0) + w.share
        together.setdefault((w.cell.fault, w.cell.place), []).append(w)
    shares = {key: sum(w.share for w in held) for key, held in together.items()}
    found: list[Weighed] = []
    share = 0.0
    for key in sorted(shares, key=lambda k: (-shares[k], k))[:HEAVIEST]:
        if share > ENOUGH:
            break
        share += shares[key]
        count = MAKES if shares[key] > SMALL else 1
        held = sorted(together[key], key=lambda w: (-w.share * makes[w.cell.make], w.cell.make))[:count]
        part = shares[key] / sum(w.share for w in held)
        found += [replace(w, share=w.share * part) for w in held]
    return [replace(w, share=w.share / share) for w in found]


def outlooks(
    system: System, weighed: Sequence[Weighed], pressure: Pressure, questions: Sequence[Question]
) -> dict[Question, list[Outlook]]:
    """Return what each question would show under each cell; a question that the loop cannot answer is left out."""
    found: dict[Question, list[Outlook]] = {}
    by_stance: dict[tuple[str, float | None], list[Question]] = {}
    for q in questions:
        if q.measure == "inspection":
            found[q] = [_inspected(w, q) for w in weighed]
        elif q.measure != "gauge-pressure" or q.whose is not None:
            by_stance.setdefault((q.arrangement, q.source), []).append(q)
    drafts = [Drafts() for _ in weighed]
    for (arrangement, source), group in by_stance.items():
        stance = Stance(arrangement, source, pressure, quiet=not noise_reaches(arrangement))
        try:
            rows = [_looked(system, w, stance, tuple(group), own) for w, own in zip(weighed, drafts, strict=True)]
        except CircuitError:
            continue
        for i, q in enumerate(group):
            found[q] = [row[i] for row in rows]
    return found


def _looked(
    system: System, w: Weighed, stance: Stance, group: tuple[Question, ...], drafts: Drafts
) -> list[Outlook]:
    found = _of_one_state(system, w, stance, group, drafts)
    if not w.cell.comes_and_goes:
        return found
    away = _of_one_state(system, replace(w, cell=w.cell.away()), stance, group, Drafts())
    return [_either(here, gone) for here, gone in zip(found, away, strict=True)]


def _either(here: Outlook, gone: Outlook) -> Outlook:
    """Return the outlook of a fault that is there or away."""
    there = tuple((bin_, part * (1.0 - AWAY)) for bin_, part in here.bins)
    return Outlook(here.value, (*there, *((bin_, part * AWAY) for bin_, part in gone.bins)))


def _of_one_state(
    system: System, w: Weighed, stance: Stance, group: tuple[Question, ...], drafts: Drafts
) -> list[Outlook]:
    seen = look(system, w.cell, w.at, stance, group, drafts=drafts)
    found = []
    for q, value in zip(group, seen.values, strict=True):
        if q.measure == "displayed-fault":
            chances = shown_chances(system, seen.signal)
            found.append(Outlook(0.0, tuple((word, p) for word, p in chances.items() if p > 1e-3)))
        else:
            found.append(_binned(system, q, value, seen.jump))
    return found


def _inspected(w: Weighed, q: Question) -> Outlook:
    wrong = chance(w.cell, q.item or "", "wrong")
    return Outlook(0.0, (("wrong", wrong), ("right", 1.0 - wrong)))


def _binned(system: System, q: Question, value: float, jump: float) -> Outlook:
    """Return where a value lies, counted in deviations from zero, shared between the two bins beside it."""
    measure = q.measure
    value = as_shown(system, measure, value)
    top = end_of_scale(system, measure, "above")
    if measure in {"ohms", "megohms"} and value > top:
        return Outlook(compared(measure, top), (("OL", 1.0),))
    place = round(deviations(system, measure, value) / BIN, 9)
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
    if measure == "gauge-pressure":
        return value / spread(system, measure, value, 0.0)
    if measure in {"displayed-pressure", "displayed-signal"}:
        return value / (3.0 * least)
    relative = 0.015
    sign = 1.0 if value >= 0 else -1.0
    return sign * log(1.0 + relative * abs(value) / least) / relative
