"""An answer of the engine as a text and back, for whoever keeps answers.

Rules
-----
1. It is JSON. What is read again is of the kind that was asked for, made of the kinds of its parts, or is refused: a
   text can name nothing else.
2. Every figure comes back to the last digit.
3. It is no format for others: it is read by the very version that wrote it (for programs there is `answer_json`).
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from steadyhead.diagnosis.answer import Answer, Band, NextCheck, Outcome, Remedy, Surprise, Suspect, Verdict
from steadyhead.diagnosis.memory import Asked, T
from steadyhead.diagnosis.observing import Question
from steadyhead.messages import Message, message

#: The diagnosis of a visit.
DIAGNOSIS = Asked("diagnosis", Answer, (Band, NextCheck, Outcome, Question, Remedy, Surprise, Suspect, Verdict))
#: The keys of a value's kind, and of a mapping.
_KIND, _ENTRIES = "is", "has"


def text_of(answer: Any) -> str:  # noqa: ANN401 - any answer of the engine
    """Return an answer as a text."""
    return json.dumps(_plain(answer), separators=(",", ":"), ensure_ascii=False)


def answer_of(text: str, asked: Asked[T]) -> T | None:
    """Return the answer of a text; None where it is the text of none to what was asked."""
    known = {kind.__name__: kind for kind in (asked.kind, *asked.parts)}
    try:
        found = _made(json.loads(text), known)
    except (ValueError, KeyError, TypeError, AttributeError):
        return None
    return found if isinstance(found, asked.kind) else None


def plain(value: Any) -> Any:  # noqa: ANN401 - any value of the record
    """Return a value's fields as JSON has them, for a key: equal for equal values, whatever order they were made in.

    >>> plain(Question("volts"))["measure"], plain({"a": (1, 2)})
    ('volts', {'has': {'a': [1, 2]}})
    """
    return _plain(value)


def _plain(value: Any) -> Any:  # noqa: ANN401 - as above
    if isinstance(value, Message):
        return {_KIND: "Message", "id": value.id, _ENTRIES: {k: _plain(v) for k, v in value.values.items()}}
    if is_dataclass(value):
        return {_KIND: type(value).__name__, **{f.name: _plain(getattr(value, f.name)) for f in fields(value)}}
    if isinstance(value, Mapping):
        return {_ENTRIES: {str(k): _plain(v) for k, v in value.items()}}
    if isinstance(value, tuple | list):
        return [_plain(each) for each in value]
    if isinstance(value, frozenset | set):
        return sorted(map(_plain, value), key=repr)
    return value


def _made(value: Any, known: Mapping[str, type[Any]]) -> Any:  # noqa: ANN401 - as above
    if isinstance(value, list):
        return tuple([_made(each, known) for each in value])
    if not isinstance(value, dict):
        return value
    entries = {key: _made(each, known) for key, each in value.get(_ENTRIES, {}).items()}
    kind = value.get(_KIND)
    if kind is None:
        return entries
    if kind == "Message":
        return message(value["id"], **entries)
    return known[kind](**{key: _made(each, known) for key, each in value.items() if key != _KIND})
