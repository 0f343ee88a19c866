"""Grades of pressure gauges by the American standard: how far a gauge may be off, by where its pointer stands.

Rules
-----
1. The error allowed is a percentage of the gauge's span: -15..160 psi has a span of 175 psi.
2. Grades A, B and C allow less in the middle half of the scale than in its lower and upper quarter. The ends of the
   middle half, 25 % and 75 %, are taken as part of it.
"""

from __future__ import annotations

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.published.source import Source, Table, Validity

SOURCE = Source(
    cite="ASME B40.100, Pressure gauges and gauge attachments",
    locator="table of accuracy grades",
    seen="memory",
    via="republished lists agree with one figure a grade (4A 0.1, 1A 1, A 2, B 3, D 5) and with the quarters of A only",
)

#: Grade; percent of span in the lower quarter, the middle half and the upper quarter of the scale.
ROWS = (
    ("4A", 0.1, 0.1, 0.1),
    ("3A", 0.25, 0.25, 0.25),
    ("2A", 0.5, 0.5, 0.5),
    ("1A", 1.0, 1.0, 1.0),
    ("A", 2.0, 1.0, 2.0),
    ("B", 3.0, 2.0, 3.0),
    ("C", 4.0, 3.0, 4.0),
    ("D", 5.0, 5.0, 5.0),
)
GRADES = tuple(row[0] for row in ROWS)
PLACES = Validity(quantity="place-on-scale", low=0.0, high=1.0, unit="")
_BY_GRADE = {row[0]: row[1:] for row in ROWS}
_LOWER_QUARTER, _UPPER_QUARTER = 0.25, 0.75


def allowed_error(grade: str, place: float) -> float:
    """Return the error that a grade allows, as a fraction of the gauge's span.

    Parameters
    ----------
    grade
        One of `GRADES`.
    place
        Where the pointer stands: 0 at the lower end of the scale, 1 at the upper end.

    Raises
    ------
    UnknownWordError
        ``gauge-grade-unknown``: no such grade.
    RangeOfValidityError
        The place is outside 0..1.

    Examples
    --------
    >>> allowed_error("B", 0.2), allowed_error("B", 0.5)
    (0.03, 0.02)
    """
    if grade not in _BY_GRADE:
        raise UnknownWordError(message("gauge-grade-unknown", got=grade, must_be=GRADES, nearest=_nearest(grade)))
    PLACES.require(place)
    lower, middle, upper = _BY_GRADE[grade]
    percent = lower if place < _LOWER_QUARTER else upper if place > _UPPER_QUARTER else middle
    return percent / 100


def _nearest(grade: str) -> tuple[str, ...]:
    plain = grade.strip().casefold().removeprefix("grade").strip().upper()
    return (plain,) if plain in _BY_GRADE else ()


TABLE = Table(
    id="gauge-grades",
    title="Grades of pressure gauges (American), error allowed",
    columns=("grade", "lower quarter [% of span]", "middle half [% of span]", "upper quarter [% of span]"),
    rows=ROWS,
    sources=(SOURCE,),
    valid=(PLACES,),
    note="From memory of the standard; one figure a grade was seen in a republished list.",
)
