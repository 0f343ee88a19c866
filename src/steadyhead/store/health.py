"""The doctor: tells whether the record is sound, and whether its projections say what its facts say.

Rules
-----
1. A check reads and never writes; each has an id, a verdict, and how many things it found wrong.
2. What is examined: the database's own integrity, its foreign keys, that every fact can be read and keeps its own id,
   every photo's hash, every photo that a fact shows, and each projection against one made anew.
3. Where a fact cannot be read, projections are not examined.
4. Only what is lost for good is grave, and stops a backup or a restore; projections can be made anew at any time.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import Connection, Engine, Table, func, select, text

from steadyhead.store import projecting, versions
from steadyhead.store.engines import reader
from steadyhead.store.tables import DERIVED, LASTING, blob, collision, fact, shown

#: Every check, in the order of the report.
CHECK_IDS = ("integrity", "references", "facts", "photos", "shown-photos", "collisions", "projections")
#: The checks that a copy must pass.
GRAVE = frozenset({"integrity", "references", "facts", "photos"})


@dataclass(frozen=True, slots=True)
class Check:
    """One thing that was examined: how many things were looked at, and how many were wrong."""

    id: str
    looked_at: int
    wrong: int

    @property
    def fine(self) -> bool:
        """Whether nothing was wrong."""
        return self.wrong == 0


@dataclass(frozen=True, slots=True)
class Report:
    """What the doctor found."""

    version: str
    backend: str
    checks: tuple[Check, ...]
    rows: dict[str, int]

    @property
    def sound(self) -> bool:
        """Whether every check was passed."""
        return all(check.fine for check in self.checks)

    @property
    def facts(self) -> int:
        """How many facts there are."""
        return self.rows[fact.name]

    @property
    def photos(self) -> int:
        """How many photos there are."""
        return self.rows[blob.name]


def examine(engine: Engine) -> Report:
    """Examine a database and return what was found; nothing is written.

    Raises
    ------
    StoreError
        It cannot be read at all, is newer, or another program's.
    """
    with reader(engine) as connection, connection.begin():
        found = versions.version_of(connection)
        versions.refuse_other(found)
        checks = tuple(_checks(connection))
        tables = (*LASTING.sorted_tables, *DERIVED.sorted_tables)
        rows = {table.name: projecting.count(connection, table) for table in tables}
        return Report(found, connection.dialect.name, checks, rows)


def _checks(connection: Connection) -> Iterator[Check]:
    if connection.dialect.name == "sqlite":
        yield _pragma(connection, "integrity", "PRAGMA integrity_check", "ok")
        yield _pragma(connection, "references", "PRAGMA foreign_key_check", "")
    readable = _facts(connection)
    yield readable
    yield _photos(connection)
    yield _shown_photos(connection)
    yield Check("collisions", *_collisions(connection))
    if readable.fine:
        yield _projections(connection)


def _pragma(connection: Connection, id_: str, pragma: str, good: str) -> Check:
    found = [str(row[0]) for row in connection.execute(text(pragma))]
    return Check(id_, 1, sum(each != good for each in found))


def _facts(connection: Connection) -> Check:
    rows = connection.execute(select(fact.c.body, fact.c.extra)).all()
    return Check("facts", len(rows), sum(not (_is_table(row.body) and _is_table(row.extra)) for row in rows))


def _is_table(json_text: str) -> bool:
    try:
        return isinstance(json.loads(json_text), dict)
    except ValueError:
        return False


def _photos(connection: Connection) -> Check:
    names = list(connection.scalars(select(blob.c.sha256)))
    return Check("photos", len(names), sum(not _is_whole(connection, sha256) for sha256 in names))


def _is_whole(connection: Connection, sha256: str) -> bool:
    row = connection.execute(select(blob.c.bytes, blob.c.size).where(blob.c.sha256 == sha256)).one()
    return len(row.bytes) == row.size and hashlib.sha256(row.bytes).hexdigest() == sha256


def _shown_photos(connection: Connection) -> Check:
    question = select(func.count()).select_from(shown)
    lost = question.where(~select(blob.c.sha256).where(blob.c.sha256 == shown.c.sha256).exists())
    return Check("shown-photos", int(connection.scalar(question) or 0), int(connection.scalar(lost) or 0))


def _collisions(connection: Connection) -> tuple[int, int]:
    """Return how many ids were met with two contents, twice: each is something that somebody should know of."""
    count = int(connection.scalar(select(func.count(collision.c.fact.distinct()))) or 0)
    return count, count


def _projections(connection: Connection) -> Check:
    wrong = looked_at = 0
    for table, rows in projecting.every_row(connection):
        expected = {_frozen(table, row) for row in rows}
        there = {_frozen(table, row._asdict()) for row in connection.execute(select(table))}
        looked_at += len(expected)
        wrong += len(expected ^ there)
    return Check("projections", looked_at, wrong)


def _frozen(table: Table, row: dict[str, object]) -> tuple[object, ...]:
    return tuple(row[column.name] for column in table.columns)
