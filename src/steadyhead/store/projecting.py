"""Keeps what lists read in step with the facts, and can make all of it anew.

Rules
-----
1. A row is made from facts alone, by the same functions whether one fact was added or all is made anew (`ROWS`).
2. What a fact may change: the entity that it speaks of, the visit that it belongs to, and the system of that visit,
   as it was and as it is.
3. What changed is made anew whole: the old row goes, the new one comes, in the transaction that added the fact.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import asdict
from typing import Any

from sqlalchemy import Column, Connection, Table, delete, func, insert, select, union

from steadyhead.store.rows import portions, read_facts, read_facts_in
from steadyhead.store.tables import entity, fact, pending, purged, shown, system_card, visit_card
from steadyhead.visit import cards
from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import heads_of
from steadyhead.visit.pending import pending_of
from steadyhead.visit.union import PURGE, named_by

Rows = list[dict[str, Any]]


def note_purges(connection: Connection, ids: Iterable[str]) -> set[str]:
    """Write down what these purge facts cover, and return it."""
    every = list(ids)
    purges = [one for one in read_facts_in(connection, fact.c.id, every) if one.kind == PURGE]
    rows = [row for one in purges for row in purged_rows(one)]
    _put(connection, purged, purged.c.purge, rows, every)
    return {row["target"] for row in rows}


def refresh(connection: Connection, facts: Sequence[Fact]) -> None:
    """Make anew every row that may have changed with `facts`: every content that came or went."""
    abouts = {one.about for one in facts if cards.is_entity(one)}
    visits = {visit for one in facts if (visit := cards.visit_of(one)) is not None}
    systems = {one.about for one in facts if one.kind == "system"} | _systems_of(connection, visits)
    showing = {row["fact"] for one in facts for row in shown_rows(one)}
    rows = [row for one in read_facts_in(connection, fact.c.id, showing) for row in shown_rows(one)]
    _put(connection, shown, shown.c.fact, rows, showing)
    _renew(connection, entity, entity_rows, abouts)
    _renew(connection, visit_card, visit_rows, visits)
    _renew(connection, pending, pending_rows, visits)
    _renew(connection, system_card, system_rows, systems | _systems_of(connection, visits))


def rebuild(connection: Connection) -> None:
    """Make every projection anew."""
    for table, rows in every_row(connection):
        connection.execute(delete(table))
        _insert(connection, table, rows)


def every_row(connection: Connection) -> Iterator[tuple[Table, Rows]]:
    """Yield each projection's table with the rows that the facts give; later tables are read off the earlier ones."""
    purges = read_facts(connection, fact.c.kind == PURGE)
    yield purged, [row for one in purges for row in purged_rows(one)]
    showing = read_facts(connection, fact.c.body.contains('"sha256"'))
    yield shown, [row for one in showing for row in shown_rows(one)]
    for table, (rows, ids) in ROWS.items():
        yield table, [row for some in portions(ids(connection)) for row in rows(connection, some)]


def purged_rows(one: Fact) -> Rows:
    """Return what a purge names."""
    return [{"target": target, "purge": one.id} for target in dict.fromkeys(named_by(one))]


def shown_rows(one: Fact) -> Rows:
    """Return which photo a fact shows."""
    sha256 = one.body.get("sha256")
    return [{"fact": one.id, "sha256": sha256}] if isinstance(sha256, str) else []


def entity_rows(connection: Connection, abouts: Iterable[str]) -> Rows:
    """Return the rows of these entities."""
    listed = [one for one in read_facts_in(connection, fact.c.about, abouts) if cards.is_entity(one)]
    groups = _grouped(listed, lambda one: f"{one.about} {one.kind}")
    return [asdict(cards.entity_card(heads_of(some))) for some in groups.values()]


def visit_rows(connection: Connection, visits: Iterable[str]) -> Rows:
    """Return the rows of these visits."""
    return [
        asdict(cards.visit_card(visit, heads_of([one for one in some if one.about == visit]), some))
        for visit, some in _facts_of_visits(connection, list(visits)).items()
        if not cards.stands_alone(visit, some)
    ]


def pending_rows(connection: Connection, visits: Iterable[str]) -> Rows:
    """Return the rows of what these visits wait for."""
    return [
        asdict(each)
        for visit, some in _facts_of_visits(connection, list(visits)).items()
        for each in pending_of(visit, heads_of([one for one in some if one.about == visit]), some)
    ]


def system_rows(connection: Connection, systems: Iterable[str]) -> Rows:
    """Return the rows of these systems, given the rows of their visits as they stand."""
    every = list(systems)
    own = [one for one in read_facts_in(connection, fact.c.about, every) if one.kind == "system"]
    visits: dict[str, list[cards.VisitCard]] = defaultdict(list)
    for some in portions(every):
        for row in connection.execute(select(visit_card).where(visit_card.c.system.in_(some))):
            visits[row.system].append(cards.VisitCard(**row._asdict()))
    groups = _grouped(own, lambda one: one.about)
    return [asdict(cards.system_card(heads_of(some), visits[system])) for system, some in groups.items()]


def _all_entities(connection: Connection) -> Iterable[str]:
    return connection.scalars(select(fact.c.about).where(fact.c.kind.in_(sorted(cards.LISTED))).distinct())


def _all_visits(connection: Connection) -> Iterable[str]:
    own = select(fact.c.about).where(fact.c.kind == "visit")
    return connection.scalars(union(own, select(fact.c.visit).where(fact.c.visit.is_not(None), fact.c.kind != "visit")))


def _all_systems(connection: Connection) -> Iterable[str]:
    return connection.scalars(select(fact.c.about).where(fact.c.kind == "system").distinct())


#: Each table with the function that makes its rows, and the one that names all its ids.
ROWS: dict[Table, tuple[Callable[[Connection, Iterable[str]], Rows], Callable[[Connection], Iterable[str]]]] = {
    entity: (entity_rows, _all_entities),
    visit_card: (visit_rows, _all_visits),
    pending: (pending_rows, _all_visits),
    system_card: (system_rows, _all_systems),
}


def _facts_of_visits(connection: Connection, visits: list[str]) -> dict[str, list[Fact]]:
    within = [one for one in read_facts_in(connection, fact.c.visit, visits) if one.kind != "visit"]
    own = [one for one in read_facts_in(connection, fact.c.about, visits) if one.kind == "visit"]
    every = sorted((*within, *own), key=lambda one: one.id)
    return _grouped(every, lambda one: str(cards.visit_of(one)))


def _systems_of(connection: Connection, visits: Iterable[str]) -> set[str]:
    column = visit_card.c.system
    found = [connection.scalars(select(column).where(visit_card.c.visit.in_(some))) for some in portions(visits)]
    return {system for some in found for system in some if system is not None}


def _grouped(facts: Iterable[Fact], key: Callable[[Fact], str]) -> dict[str, list[Fact]]:
    groups: dict[str, list[Fact]] = defaultdict(list)
    for one in facts:
        groups[key(one)].append(one)
    return groups


def _renew(
    connection: Connection, table: Table, rows: Callable[[Connection, Iterable[str]], Rows], ids: set[str]
) -> None:
    for some in portions(sorted(ids)):
        _put(connection, table, next(iter(table.primary_key)), rows(connection, some), some)


def _put(
    connection: Connection, table: Table, key: Column[Any], rows: Rows, ids: Iterable[str]
) -> None:
    """Write rows instead of those that have the same key; a key without a row loses the one it had."""
    for some in portions(ids):
        connection.execute(delete(table).where(key.in_(some)))
    _insert(connection, table, rows)


def _insert(connection: Connection, table: Table, rows: Rows) -> None:
    if rows:
        connection.execute(insert(table), rows)


def count(connection: Connection, table: Table) -> int:
    """Return how many rows a table has."""
    return int(connection.scalar(select(func.count()).select_from(table)) or 0)
