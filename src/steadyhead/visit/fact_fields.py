"""The fields of a fact: the one table that the reader, the JSON Schema and the manual of the record walk.

Everything that affects which fields a fact has, and which forms they may take, lives in this file.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from steadyhead.errors import RecordError
from steadyhead.messages import Message, message
from steadyhead.visit.ids import ULID_PATTERN, is_ulid
from steadyhead.visit.nearest import shown

KIND_PATTERN = r"^[a-z][a-z0-9-]{0,63}$"
AT_PATTERN = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}\.[0-9]{3}Z$"
LONGEST_LINE = 200  #: signs of a name, a zone, a version
MOST_REPLACED = 1000  #: facts that one fact may name as replaced
DEEPEST = 16  #: brackets inside brackets of a body

Check = Callable[[Any], None]


class Field(NamedTuple):
    """One field of a fact: its name, what it says, its check, its JSON Schema, and what holds without it."""

    name: str
    says: str
    check: Check
    schema: Mapping[str, Any]
    default: Any = None
    nullable: bool = False

    @property
    def required(self) -> bool:
        """Whether a fact is refused without it."""
        return self.default is None and not self.nullable


def refused(field: str, got: object, must_be: str) -> Message:
    """Return the message for a field that has another form than it must have."""
    return message("fact-refused", field=field, got=shown(str(got)), must_be=must_be)


def _matching(field: str, accepts: Callable[[str], bool], must_be: str, *, nullable: bool = False) -> Check:
    def check(value: Any) -> None:  # noqa: ANN401 - what a file holds
        if nullable and value is None:
            return
        if not isinstance(value, str) or not accepts(value):
            raise RecordError(refused(field, value, must_be))

    return check


def _pattern(pattern: str) -> Callable[[str], bool]:
    compiled = re.compile(pattern.removesuffix("$"))
    return lambda text: compiled.fullmatch(text) is not None


def _is_line(text: str) -> bool:
    return len(text) <= LONGEST_LINE and all(sign.isprintable() for sign in text)


def _check_replaced(value: Any) -> None:  # noqa: ANN401 - what a file holds
    fine = isinstance(value, (list, tuple)) and len(value) <= MOST_REPLACED and all(map(is_ulid, value))
    if not fine or len(set(value)) != len(value):
        raise RecordError(refused("supersedes", value, f"a list of at most {MOST_REPLACED} ULIDs, each once"))


def _check_body(value: Any) -> None:  # noqa: ANN401 - what a file holds
    if not isinstance(value, Mapping):
        raise RecordError(refused("body", value, "a JSON object"))
    check_depth(value)


def check_keys(value: Mapping[Any, Any]) -> None:
    """Pass over a mapping whose keys are texts without a NUL.

    Raises
    ------
    RecordError
        One is not.
    """
    if not all(isinstance(key, str) and "\0" not in key for key in value):
        raise RecordError(refused("body", value, "keys that are texts"))


def check_depth(value: object, deep: int = 0) -> None:
    """Pass over JSON values that are nested no deeper than `DEEPEST`.

    Raises
    ------
    RecordError
        They are nested deeper, or are no JSON values.
    """
    if deep > DEEPEST:
        raise RecordError(refused("body", "...", f"brackets nested at most {DEEPEST} deep"))
    if isinstance(value, Mapping):
        check_keys(value)
        for inner in value.values():
            check_depth(inner, deep + 1)
    elif isinstance(value, Sequence) and not isinstance(value, (str, bytes)):
        for inner in value:
            check_depth(inner, deep + 1)
    elif isinstance(value, str) and "\0" in value:
        raise RecordError(refused("body", value, "text without a NUL, which some databases cannot hold"))
    elif not (value is None or isinstance(value, (str, int, float, bool))):
        raise RecordError(refused("body", value, "text, number, true, false, null, list or object"))


_ULID = {"type": "string", "pattern": ULID_PATTERN}
_ULID_OR_NULL = {"type": ["string", "null"], "pattern": ULID_PATTERN}
_LINE = {"type": "string", "maxLength": LONGEST_LINE}
_IS_A_LINE = f"a text of one line, at most {LONGEST_LINE} signs"

FIELDS: tuple[Field, ...] = (
    Field("id", "Its ULID.", _matching("id", is_ulid, "a ULID"), _ULID),
    Field(
        "kind",
        "What kind of fact it is; a newer version may know more kinds.",
        _matching("kind", _pattern(KIND_PATTERN), "a word in small letters"),
        {"type": "string", "pattern": KIND_PATTERN},
    ),
    Field("about", "ULID of the entity that it speaks of.", _matching("about", is_ulid, "a ULID"), _ULID),
    Field(
        "visit",
        "ULID of the visit that it belongs to.",
        _matching("visit", is_ulid, "a ULID or null", nullable=True),
        _ULID_OR_NULL,
        nullable=True,
    ),
    Field("body", "What it says, in the visit file's language.", _check_body, {"type": "object"}),
    Field(
        "at",
        "When it was written, UTC, by the clock of the device that wrote it.",
        _matching("at", _pattern(AT_PATTERN), "a time such as 2026-05-04T07:09:31.250Z"),
        {"type": "string", "pattern": AT_PATTERN},
    ),
    Field("zone", "IANA name of the site's time zone.", _matching("zone", _is_line, _IS_A_LINE), _LINE, "UTC"),
    Field("author", "Who wrote it.", _matching("author", _is_line, _IS_A_LINE), _LINE, ""),
    Field(
        "instrument",
        "ULID of the instrument that it was read with.",
        _matching("instrument", is_ulid, "a ULID or null", nullable=True),
        _ULID_OR_NULL,
        nullable=True,
    ),
    Field("program", "Version of the program that wrote it.", _matching("program", _is_line, _IS_A_LINE), _LINE, ""),
    Field(
        "supersedes",
        "ULIDs of the facts that it takes the place of.",
        _check_replaced,
        {"type": "array", "items": _ULID, "maxItems": MOST_REPLACED, "uniqueItems": True},
        (),
    ),
)
