"""The database itself refuses to change or delete a fact, whoever asks."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing

import pytest

from steadyhead.store.places import Place
from steadyhead.store.unit import Store
from tests.record.bench import fact
from tests.store.samples import VISIT, filled


@pytest.fixture
def plain(place: Place, store: Store) -> Iterator[sqlite3.Connection]:
    """Return a connection of another program to a filled database; it knows nothing of ours."""
    filled(store)
    with closing(sqlite3.connect(place.file, isolation_level=None)) as connection:
        connection.execute("PRAGMA recursive_triggers=ON")
        yield connection


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("UPDATE fact SET body = '{\"value\":\"7 psi\"}' WHERE kind = 'reading'", "never changed"),
        ("UPDATE fact SET at = '2020-01-01T00:00:00.000Z'", "never changed"),
        ("UPDATE fact SET body = '{}', extra = '{}'", "never changed"),
        ("DELETE FROM fact", "never deleted"),
        ("INSERT OR REPLACE INTO fact SELECT * FROM fact", "never deleted"),
        ("UPDATE blob SET bytes = x'00'", "never changed"),
    ],
)
def test_a_fact_is_neither_changed_nor_deleted(plain: sqlite3.Connection, statement: str, said: str) -> None:
    """Rule 1 of the guards, against the database's own language."""
    before = plain.execute("SELECT * FROM fact").fetchall()
    with pytest.raises(sqlite3.IntegrityError, match=said):
        plain.execute(statement)
    assert plain.execute("SELECT * FROM fact").fetchall() == before


def test_what_a_fact_replaces_is_neither_changed_nor_deleted(plain: sqlite3.Connection, store: Store) -> None:
    """Rule 4 of the guards."""
    with store.writing() as unit:
        unit.add([fact(80, "visit", 3, visit=3, supersedes=[3])])
        unit.commit()
    for statement in ("UPDATE supersedes SET names = 'x'", "DELETE FROM supersedes"):
        with pytest.raises(sqlite3.IntegrityError, match="what a fact replaces"):
            plain.execute(statement)


def test_a_purge_opens_one_way_only_and_only_for_what_it_covers(plain: sqlite3.Connection, store: Store) -> None:
    """Rule 2 of the guards: after a purge of the visit its facts may be emptied, and nothing else."""
    with store.writing() as unit:
        unit.add([fact(81, "purge", of=[3])])
        unit.commit()
    plain.execute("UPDATE fact SET body = '{}', extra = '{}' WHERE visit = ?", (VISIT.id,))
    for statement in (
        "UPDATE fact SET body = '{\"text\":\"x\"}', extra = '{}' WHERE visit = ?",
        "UPDATE fact SET body = '{}', extra = '{}', about = 'x' WHERE visit = ?",
        "UPDATE fact SET body = '{}', extra = '{}' WHERE visit IS NULL OR visit <> ?",
    ):
        with pytest.raises(sqlite3.IntegrityError, match="never changed"):
            plain.execute(statement, (VISIT.id,))
