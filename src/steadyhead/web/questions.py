"""A check as a form and an address spell it: the keys of a question in one text.

Rules
-----
1. ``measure;arrangement;red;black;source;item``, an empty piece where there is none; a source in SI units. A seventh
   piece, ``own``, asks for the technician's own gauge.
2. What a browser sends is anybody's text: every piece is a word of the vocabulary and they fit together, or it is
   refused.
"""

from __future__ import annotations

from math import isfinite

from steadyhead.diagnosis.observing import Question
from steadyhead.errors import UnknownWordError
from steadyhead.loop.vocabulary import ARRANGEMENTS, INSPECTION_ITEMS, METER_MEASURES, POINTS
from steadyhead.messages import message
from steadyhead.visit.measures import MEASURE, POINTS_IN
from steadyhead.visit.nearest import shown

PIECES = 6
OWN = "own"
#: What the loop can be asked, and how it can stand: the water side has pages of its own to come.
ASKED = (*METER_MEASURES, "gauge-pressure", "displayed-pressure", "displayed-signal", "displayed-fault", "inspection")
LOOP = tuple(id_ for id_, each in ARRANGEMENTS.items() if not each.water_side)
_LISTS: tuple[tuple[str, ...], ...] = (ASKED, LOOP, ("", *POINTS), ("", *POINTS))


def key_of(question: Question) -> str:
    """Return a question as one text.

    >>> key_of(Question("volts", "connected", "controller.signal", "controller.common"))
    'volts;connected;controller.signal;controller.common;;'
    """
    source = "" if question.source is None else repr(question.source)
    pieces = (question.measure, question.arrangement, question.red, question.black, source, question.item)
    return ";".join(piece or "" for piece in (*pieces, *((question.whose,) if question.whose else ())))


def question_of_key(text: str) -> Question:
    """Return the question that a text spells.

    Raises
    ------
    UnknownWordError
        It is none.
    """
    pieces, whose = text.split(";"), None
    if len(pieces) == PIECES + 1 and pieces[0] == "gauge-pressure" and pieces[-1] == OWN:
        whose = pieces.pop()
    if len(pieces) != PIECES or any(piece not in words for piece, words in zip(pieces, _LISTS, strict=False)):
        raise UnknownWordError(message("web-check-unknown", got=shown(text)))
    measure, arrangement, red, black, source, item = pieces
    if item not in ("", *INSPECTION_ITEMS):
        raise UnknownWordError(message("web-check-unknown", got=shown(text)))
    found = Question(measure, arrangement, red or None, black or None, _source(source, text), item or None, whose)
    if not is_whole(found):
        raise UnknownWordError(message("web-check-unknown", got=shown(text)))
    return found


def is_whole(question: Question) -> bool:
    """Tell whether a question has the keys that its measure needs, and no other, where its hook-up has the points.

    >>> is_whole(Question("inspection")), is_whole(Question("inspection", item="cock"))
    (False, True)
    """
    known = MEASURE[question.measure]
    leads = {question.red, question.black} - {None}
    there = set(POINTS_IN[question.arrangement])
    return (
        len(leads) == (2 if known.leads else 0)
        and leads <= there
        and (question.item is not None) == ("item" in known.needs)
        and (not known.arrangements or question.arrangement in known.arrangements)
        and (question.source is None or question.arrangement == "source-at-controller")
    )


def _source(piece: str, text: str) -> float | None:
    if not piece:
        return None
    try:
        value = float(piece)
    except ValueError as error:
        raise UnknownWordError(message("web-check-unknown", got=shown(text))) from error
    if not isfinite(value):
        raise UnknownWordError(message("web-check-unknown", got=shown(text)))
    return value
