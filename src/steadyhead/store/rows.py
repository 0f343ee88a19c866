"""A fact as a row, and back; what a newer version put in comes out as it went in.

Rules
-----
1. Body and extras are JSON text with sorted keys; what a fact replaces stands in a table of its own.
2. Facts come in the order of their ids.
3. Questions with many ids are asked in portions: a database limits how many values one question may hold.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, select

from steadyhead.store.tables import fact, supersedes
from steadyhead.visit.facts import Fact

#: Values in one question: SQLite's limit was 999 for long.
PORTION = 500

_COLUMNS = ("id", "kind", "about", "visit", "at", "zone", "author", "instrument", "program")


def row_of(one: Fact) -> dict[str, Any]:
    """Return the row of table `fact`."""
    plain = {name: getattr(one, name) for name in _COLUMNS}
    return plain | {"body": text_of(one.body), "extra": text_of(one.extra)}


def replaced_rows(one: Fact) -> list[dict[str, str | int]]:
    """Return the rows of table `supersedes`."""
    return [{"fact": one.id, "place": place, "names": names} for place, names in enumerate(one.supersedes)]


def text_of(value: Mapping[str, Any]) -> str:
    """Return JSON text with sorted keys, in signs that every database takes."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), allow_nan=False, default=_plain)


def _plain(value: object) -> object:
    """Return a mapping of an unusual class as JSON's own.

    Raises
    ------
    TypeError
        It is no mapping.
    """
    if isinstance(value, Mapping):
        return dict(value)
    raise TypeError(type(value))


def read_facts(connection: Connection, *conditions: ColumnElement[bool]) -> list[Fact]:
    """Return the facts that meet every condition, in the order of their ids."""
    rows = connection.execute(select(fact).where(*conditions).order_by(fact.c.id)).all()
    replaced = _replaced(connection, [row.id for row in rows])
    return [_fact(row, replaced[row.id]) for row in rows]


def read_facts_in(connection: Connection, column: ColumnElement[Any], values: Iterable[str]) -> list[Fact]:
    """Return the facts whose column holds one of the values, portion by portion."""
    found = [one for some in portions(values) for one in read_facts(connection, column.in_(some))]
    return sorted(found, key=lambda one: one.id)


def portions(values: Iterable[str]) -> Iterator[list[str]]:
    """Yield the values in portions, each value once."""
    every = list(dict.fromkeys(values))
    return (every[start : start + PORTION] for start in range(0, len(every), PORTION))


def _replaced(connection: Connection, ids: list[str]) -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = defaultdict(list)
    for some in portions(ids):
        question = select(supersedes).where(supersedes.c.fact.in_(some)).order_by(supersedes.c.fact, supersedes.c.place)
        for row in connection.execute(question):
            found[row.fact].append(row.names)
    return defaultdict(tuple, {id_: tuple(names) for id_, names in found.items()})


def _fact(row: Row[Any], replaced: tuple[str, ...]) -> Fact:
    plain = {name: getattr(row, name) for name in _COLUMNS}
    return Fact(**plain, body=json.loads(row.body), extra=json.loads(row.extra), supersedes=replaced)
