"""A check as a form and an address spell it: the six keys of a question in one text.

Rules
-----
1. ``measure;arrangement;red;black;source;item``, an empty piece where there is none; a source in SI units.
2. What a browser sends is anybody's text: every piece is a word of the vocabulary, or it is refused.
"""

from __future__ import annotations

from math import isfinite

from steadyhead.diagnosis.observing import Question
from steadyhead.errors import UnknownWordError
from steadyhead.loop.vocabulary import ARRANGEMENTS, INSPECTION_ITEMS, MEASURES, POINTS
from steadyhead.messages import message
from steadyhead.visit.nearest import shown

PIECES = 6
_LISTS: tuple[tuple[str, ...], ...] = (MEASURES, tuple(ARRANGEMENTS), ("", *POINTS), ("", *POINTS))


def key_of(question: Question) -> str:
    """Return a question as one text.

    >>> key_of(Question("volts", "connected", "controller.signal", "controller.common"))
    'volts;connected;controller.signal;controller.common;;'
    """
    source = "" if question.source is None else repr(question.source)
    pieces = (question.measure, question.arrangement, question.red, question.black, source, question.item)
    return ";".join(piece or "" for piece in pieces)


def question_of_key(text: str) -> Question:
    """Return the question that a text spells.

    Raises
    ------
    UnknownWordError
        It is none.
    """
    pieces = text.split(";")
    if len(pieces) != PIECES or any(piece not in words for piece, words in zip(pieces, _LISTS, strict=False)):
        raise UnknownWordError(message("web-check-unknown", got=shown(text)))
    measure, arrangement, red, black, source, item = pieces
    if item not in ("", *INSPECTION_ITEMS):
        raise UnknownWordError(message("web-check-unknown", got=shown(text)))
    return Question(measure, arrangement, red or None, black or None, _source(source, text), item or None)


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
