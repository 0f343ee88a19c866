"""A gauge's grade or class as a visit file names it, and the error that it allows.

Rules
-----
1. American grades and European classes share one key: no word is both.
2. ``grade B``, ``class 1.6`` and ``1,6`` are read as ``B`` and ``1.6``.
"""

from __future__ import annotations

import re

from steadyhead.published import gauge_classes, gauge_grades
from steadyhead.visit.kinds import Known, OneOf

GRADES: tuple[str, ...] = (*gauge_grades.GRADES, *gauge_classes.CLASSES)

_PREFIX = re.compile(r"(grade|class|cl\.?|kl\.?)\s*(?=\S)", re.IGNORECASE)


class Grade(OneOf):
    """One word of `GRADES`, with or without what a dial prints before it."""

    def __init__(self) -> None:
        super().__init__(*GRADES)

    def read(self, raw: object, known: Known) -> str:
        """Return the grade or class."""
        if isinstance(raw, str):
            word = _PREFIX.sub("", raw.strip(), count=1).replace(",", ".").upper()
            raw = next((grade for grade in GRADES if word in {grade, f"{grade}.0"}), raw)
        return super().read(raw, known)


def allowed_error(grade: str, place: float) -> float:
    """Return the error that a grade or class allows, as a fraction of the gauge's span.

    Parameters
    ----------
    grade
        One of `GRADES`.
    place
        Where the pointer stands: 0 at the lower end of the scale, 1 at the upper end.

    Examples
    --------
    >>> allowed_error("B", 0.0), allowed_error("1.6", 0.5)
    (0.03, 0.016)
    """
    if grade in gauge_grades.GRADES:
        return gauge_grades.allowed_error(grade, place)
    return gauge_classes.allowed_error(grade)
