"""A fact: the one thing that the record is made of, so that two devices can bring theirs together and lose nothing.

Rules
-----
1. A fact never changes. A correction is another fact that names, in `supersedes`, the one that it takes the place of.
2. An entity (a site, a system, a visit, a reading, ...) is the ULID in `about`; the first fact of a reading, an action,
   a note or another thing that is met once has ``about == id``.
3. A body speaks the visit file's language: keys and texts of its tables, ``"1.12 V"``, never figures in SI units.
4. What a newer version put in (kinds, keys of a body, keys beside these) is kept and passed on as it came.
5. The contract is the canonical text: JSON with sorted keys, no space between, UTF-8, no NaN, one line.
6. A fact that a `purge` covers is `emptied`: what remains tells that there was something, and not what or whose.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, TypeAlias

from steadyhead.errors import RecordError
from steadyhead.visit.fact_fields import DEEPEST, FIELDS, check_depth, check_keys, refused

Json: TypeAlias = "str | int | float | bool | Sequence[Json] | Mapping[str, Json] | None"

LARGEST = 256 * 1024  #: bytes of one fact's canonical text

_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"')
_BRACKET = re.compile(r"[\[\]{}]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One fact.

    Parameters
    ----------
    id
        Its ULID.
    kind
        What it is: ``reading``, ``action``, ... (`steadyhead.visit.fact_kinds`); a newer version may know more.
    about
        ULID of the entity that it speaks of.
    visit
        ULID of the visit that it belongs to, or None.
    body
        What it says.
    at
        When, UTC: ``2026-05-04T07:09:31.250Z``, by the clock of the device that wrote it.
    zone
        IANA name of the site's time zone.
    author
        Who wrote it.
    instrument
        ULID of the instrument that it was read with, or None.
    program
        Version of the program that wrote it.
    supersedes
        ULIDs of the facts that it takes the place of.
    extra
        Keys that this version does not know, as they came.
    """

    id: str
    kind: str
    about: str
    visit: str | None = None
    body: Mapping[str, Any] = field(default_factory=dict, hash=False)
    at: str
    zone: str = "UTC"
    author: str = ""
    instrument: str | None = None
    program: str = ""
    supersedes: tuple[str, ...] = ()
    extra: Mapping[str, Any] = field(default_factory=dict, hash=False)


def canonical(fact: Fact) -> str:
    """Return the fact's canonical text, without a line end.

    Raises
    ------
    RecordError
        It holds what JSON cannot: NaN, a number without end, half a sign.

    Examples
    --------
    >>> note = Fact(id="0" * 26, kind="note", about="0" * 26, body={"text": "wet"}, at="2026-05-04T07:09:31.250Z")
    >>> canonical(note)[:60]
    '{"about":"00000000000000000000000000","at":"2026-05-04T07:09'
    """
    plain = dict(fact.extra) | {one.name: getattr(fact, one.name) for one in FIELDS}
    try:
        text = json.dumps(plain, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False,
                          default=_plain)  # fmt: skip
        text.encode("utf-8")
    except (TypeError, ValueError, RecursionError) as error:
        raise RecordError(refused("fact", fact.id, "JSON without NaN, in whole signs")) from error
    return text


def _plain(value: object) -> object:
    """Return a mapping or a tuple of an unusual class as JSON's own."""
    if isinstance(value, Mapping):
        return dict(value)
    raise TypeError


def fact_from_text(text: str | bytes) -> Fact:
    """Return the fact that a JSON text says, whether canonical or not.

    Raises
    ------
    RecordError
        It is no fact: no JSON, a key said twice, a field that is missing or of another form.
    """
    if len(text) > LARGEST:
        raise RecordError(refused("fact", len(text), f"at most {LARGEST} bytes"))
    try:
        stop_at_depth(text if isinstance(text, str) else text.decode("utf-8"))
        plain = json.loads(text, object_pairs_hook=_no_key_twice, parse_constant=_no_constant, parse_float=_finite)
    except (ValueError, RecursionError) as error:
        raise RecordError(refused("fact", text[:80], "one JSON object, each key once, without NaN")) from error
    return fact_from_json(plain)


def fact_from_json(plain: object) -> Fact:
    """Return the fact that JSON values say.

    Raises
    ------
    RecordError
        A field is missing or of another form; the message names it.
    """
    if not isinstance(plain, Mapping):
        raise RecordError(refused("fact", plain, "one JSON object"))
    check_keys(plain)
    known: dict[str, Any] = {one.name: plain.get(one.name, one.default) for one in FIELDS}
    for one in FIELDS:
        one.check(known[one.name])
    known["supersedes"] = tuple(known["supersedes"])
    extra = {key: value for key, value in plain.items() if key not in known}
    check_depth(extra)
    fact = Fact(**known, extra=extra)
    canonical(fact)
    return fact


def emptied(fact: Fact) -> Fact:
    """Return what remains of a fact that was purged: its ids, its kind, its time; nothing that anybody said.

    >>> note = Fact(id="0" * 26, kind="note", about="0" * 26, body={"text": "wet"}, at="", author="Ann")
    >>> emptied(note).body, emptied(note).author
    ({}, '')
    """
    return replace(fact, body={}, extra={}, author="", zone="", instrument=None, program="")


def stop_at_depth(text: str) -> None:
    """Pass over a text whose brackets are nested no deeper than a fact's: a browser's Python dies of deeper ones.

    Raises
    ------
    ValueError
        They are nested deeper.
    """
    deep = 0
    for bracket in _BRACKET.findall(_QUOTED.sub("", text)):
        deep += 1 if bracket in "[{" else -1
        if deep > DEEPEST + 2:  # those of the fact itself, and of its body
            raise ValueError(deep)


def _no_key_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError(pairs)
    return found


def _no_constant(text: str) -> float:
    raise ValueError(text)


def _finite(text: str) -> float:
    value = float(text)
    if value - value != 0.0:
        raise ValueError(text)
    return value


