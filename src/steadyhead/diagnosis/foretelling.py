"""What a question would have shown under one suspect, when it was asked or if it were asked now.

Rules
-----
1. A suspect foretells by its own cells alone, weighed by the readings that were there before; how likely the suspect is
   plays no part.
2. A band carries nine tenths of the cells and the instrument's own uncertainty, as the outcomes of a check do.
3. A cell whose loop has no answer foretells nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

from steadyhead.diagnosis.answer import Outcome
from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.clamped import as_shown
from steadyhead.diagnosis.doubt import compared, shown_chances
from steadyhead.diagnosis.inspections import chance
from steadyhead.diagnosis.looking import look
from steadyhead.diagnosis.observing import CONTINUOUS, Question, Stance
from steadyhead.diagnosis.outcomes import outcome_of
from steadyhead.diagnosis.planning import Outlook
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError

#: Cells of a suspect that foretell, the heaviest first.
CELLS = 10


def foretold(system: System, weighed: Sequence[Weighed], stance: Stance, question: Question) -> Outcome | None:
    """Return what a question shows under the cells of one suspect; None where they foretell nothing.

    Parameters
    ----------
    system
        The system.
    weighed
        Cells of one suspect, heaviest first.
    stance, question
        How the loop stands, and what is asked.
    """
    found: list[tuple[float, Outlook]] = []
    for w in weighed[:CELLS]:
        outlook = _outlook(system, w, stance, question)
        if outlook is not None:
            found.append((w.share, outlook))
    return outcome_of(system, question, weighed[0].cell.fault, found) if found else None


def apart(one: Outcome, other: Outcome) -> bool:
    """Tell whether two outcomes cannot be mistaken for each other: other words, or bands that share nothing.

    >>> apart(Outcome(fault="a", low=0.0, high=1.0, unit="V"), Outcome(fault="b", low=0.9, high=2.0, unit="V"))
    False
    >>> apart(Outcome(fault="a", low=0.0, high=1.0, unit="V"), Outcome(fault="b", low=1.5, high=None, unit="V"))
    True
    """
    if one.value is not None or other.value is not None:
        return one.value != other.value
    if one.low is None or other.low is None:
        return False
    return _below(one.high, other.low) or _below(other.high, one.low)


def _below(high: float | None, low: float) -> bool:
    return high is not None and high < low


def _outlook(system: System, w: Weighed, stance: Stance, question: Question) -> Outlook | None:
    if question.measure == "inspection":
        wrong = chance(w.cell, question.item or "", "wrong")
        return Outlook(0.0, (("wrong", wrong), ("right", 1.0 - wrong)))
    if question.measure not in {*CONTINUOUS, "displayed-fault"}:
        return None
    try:
        seen = look(system, w.cell, w.at, stance, (question,))
    except CircuitError:
        return None
    if question.measure == "displayed-fault":
        return Outlook(0.0, tuple(shown_chances(system, seen.signal).items()))
    return Outlook(compared(question.measure, as_shown(system, question.measure, seen.values[0])), ())
