"""What one question about a part comes to: it fits, it fits with work, look first, or no; always with its reason.

Rules
-----
1. A "no" has its reason as a message. What nobody noted is a "check", never a "no".
2. Grades rise from good to bad: of several findings the worst one counts.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from steadyhead.messages import Message

Grade = Literal["fits", "with-work", "check", "no"]
Aspect = Literal["signal", "supply", "range", "limits", "pressure", "thread", "plug", "water"]

GRADES: tuple[Grade, ...] = ("fits", "with-work", "check", "no")
FITS, WITH_WORK, CHECK, NO = GRADES


class Finding(NamedTuple):
    """One answer: about what, how good, and why."""

    aspect: Aspect
    grade: Grade
    why: Message


def worst(findings: Iterable[Finding]) -> Grade:
    """Return the worst grade among findings, the best where there are none.

    >>> from steadyhead.messages import message
    >>> worst([Finding("water", "check", message("van-water-unknown"))])
    'check'
    """
    return max((each.grade for each in findings), key=GRADES.index, default=FITS)
