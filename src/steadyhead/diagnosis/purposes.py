"""Why a check is made: which suspects it tells apart, and what that saves.

Rules
-----
1. It is told by the two likeliest suspects that ask for different repairs and whose outcomes cannot be mistaken for
   each other; a check with no such pair narrows down what is known.
2. What is read again since nothing explains its figure is asked for that.
3. Without outcomes there is no other reason to tell.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from steadyhead.diagnosis.answer import Outcome
from steadyhead.diagnosis.foretelling import apart
from steadyhead.loop.faults import FAULTS
from steadyhead.messages import Message, message

_REMEDY = {fault.id: fault.remedy for fault in FAULTS}


def purpose(outcomes: Sequence[Outcome], saves: float, *, again: bool = False) -> Message | None:
    """Return why a check is made, None where nothing is told of its outcomes.

    Parameters
    ----------
    outcomes
        What it would show under each suspect that counts, the likeliest first.
    saves
        What it saves on average [min].
    again
        Whether nothing explains what was read there before.
    """
    if again:
        return message("check-again", saves=saves)
    if not outcomes:
        return None
    pairs = sorted(combinations(range(len(outcomes)), 2), key=sum)
    for first, second in pairs:
        one, other = outcomes[first], outcomes[second]
        if remedies(one.fault) != remedies(other.fault) and apart(one, other):
            return message("check-tells-apart", one=one.fault, other=other.fault, saves=saves)
    return message("check-narrows", saves=saves)


def remedies(fault: str) -> frozenset[str]:
    """Return what mends a fault, or each of a pair.

    >>> sorted(remedies("open-signal+sensor-low"))
    ['repair-cable', 'replace-sensor']
    """
    return frozenset(_REMEDY.get(part, part) for part in fault.split("+"))
