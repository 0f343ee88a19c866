"""What a check would show under each suspect that counts, in the unit that the instrument shows."""

from __future__ import annotations

from steadyhead.diagnosis.answer import Outcome
from steadyhead.diagnosis.doubt import end_of_scale, spread, uncompared
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.planning import Outlook, Planner
from steadyhead.diagnosis.system import System

#: Suspects that together carry this much of what takes part are told: 95 % of all, and what was left out besides.
CARRY = 0.98
#: What is left out at either end of a suspect's values.
EDGE = 0.05
#: Unit in which each measure is shown, and how many of it make one SI unit.
SHOWN = {
    "volts": ("V", 1.0),
    "volts-ac": ("V", 1.0),
    "milliamps": ("mA", 1e3),
    "ohms": ("ohm", 1.0),
    "megohms": ("Mohm", 1e-6),
}


def shown_unit(system: System, question: Question) -> tuple[str, float]:
    """Return the unit in which the instrument shows a question's answer, and its factor on SI."""
    if question.measure == "displayed-signal":
        return ("mA", 1e3) if system.unit == "A" else ("V", 1.0)
    if question.measure in {"displayed-pressure", "gauge-pressure"}:
        return system.pressure_unit
    return SHOWN[question.measure]


def outcomes(system: System, planner: Planner, question: Question) -> tuple[Outcome, ...]:
    """Return what a check would show under the suspects that carry 95 % of the probability."""
    shares: dict[str, float] = {}
    by_fault: dict[str, list[tuple[float, Outlook]]] = {}
    for w, look in zip(planner.weighed, planner.looks[question], strict=True):
        shares[w.cell.fault] = shares.get(w.cell.fault, 0.0) + w.share
        by_fault.setdefault(w.cell.fault, []).append((w.share, look))
    found, carried = [], 0.0
    for fault in sorted(shares, key=lambda f: (-shares[f], f)):
        if carried >= CARRY:
            break
        carried += shares[fault]
        found.append(outcome_of(system, question, fault, by_fault[fault]))
    return tuple(found)


def outcome_of(system: System, question: Question, fault: str, looks: list[tuple[float, Outlook]]) -> Outcome:
    """Return what a check would show under one suspect, from what it would show under each of its cells."""
    measure = question.measure
    if measure in {"inspection", "displayed-fault"}:
        return Outcome(fault=fault, value=_likeliest(looks))
    unit, factor = shown_unit(system, question)
    first, last = _middle_part(looks)
    low = uncompared(measure, first - 2.0 * spread(system, measure, uncompared(measure, first), 0.0))
    high = uncompared(measure, last + 2.0 * spread(system, measure, uncompared(measure, last), 0.0))
    if measure == "volts-ac":
        low = max(low, 0.0)
    if measure in {"ohms", "megohms"}:
        top = end_of_scale(system, measure, "above")
        past = high >= 0.99 * top
        return Outcome(fault=fault, low=max(low, 0.0) * factor, high=None if past else high * factor, unit=unit)
    return Outcome(fault=fault, low=low * factor, high=high * factor, unit=unit)


def _middle_part(looks: list[tuple[float, Outlook]]) -> tuple[float, float]:
    """Return the ends of the values that carry all but a twentieth of the share on either side."""
    ordered = sorted((look.value, share) for share, look in looks)
    total = sum(share for _, share in ordered)
    run = 0.0
    first, last = ordered[0][0], ordered[-1][0]
    for value, share in ordered:
        if run <= EDGE * total:
            first = value
        run += share
        if run >= (1.0 - EDGE) * total:
            return first, value
    return first, last


def _likeliest(looks: list[tuple[float, Outlook]]) -> str:
    words: dict[str, float] = {}
    for share, look in looks:
        for word, part in look.bins:
            words[str(word)] = words.get(str(word), 0.0) + share * part
    return max(words, key=lambda w: (words[w], w))
