"""Classes of pressure gauges by the European standard: how far a gauge may be off, anywhere on its scale.

The error allowed is the class itself, as a percentage of the gauge's span.
"""

from __future__ import annotations

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.published.source import Source, Table

SOURCE = Source(
    cite="EN 837-1:1996, Pressure gauges, Part 1: Bourdon tube pressure gauges",
    locator="table 11, maximum permissible errors",
    seen="republished",
    via="a public transcription of the standard's text",
)

#: Class as it stands on the dial; greatest error allowed [% of span].
ROWS = (
    ("0.1", 0.1),
    ("0.25", 0.25),
    ("0.6", 0.6),
    ("1", 1.0),
    ("1.6", 1.6),
    ("2.5", 2.5),
    ("4", 4.0),
)
CLASSES = tuple(row[0] for row in ROWS)
_BY_CLASS = dict(ROWS)


def allowed_error(class_: str) -> float:
    """Return the error that a class allows, as a fraction of the gauge's span.

    Parameters
    ----------
    class_
        One of `CLASSES`; ``1.0`` is the same as ``1`` and a decimal comma will do.

    Raises
    ------
    UnknownWordError
        ``gauge-class-unknown``: no such class.

    Examples
    --------
    >>> allowed_error("1.6")
    0.016
    """
    found = _BY_CLASS.get(_plain(class_))
    if found is None:
        raise UnknownWordError(message("gauge-class-unknown", got=class_, must_be=CLASSES, nearest=_nearest(class_)))
    return found / 100


def _plain(class_: str) -> str:
    return class_.strip().replace(",", ".").removesuffix(".0")


def _nearest(class_: str) -> tuple[str, ...]:
    from difflib import get_close_matches  # noqa: PLC0415 - 3 ms of import, needed only to refuse

    return tuple(get_close_matches(_plain(class_), CLASSES, cutoff=0.5))


TABLE = Table(
    id="gauge-classes",
    title="Classes of pressure gauges (European), error allowed",
    columns=("class", "anywhere on the scale [% of span]"),
    rows=ROWS,
    sources=(SOURCE,),
)
