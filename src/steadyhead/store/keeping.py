"""Adds facts: those that are new, each once, with what purges take away and with both sides of a collision.

Rules
-----
1. What stands afterwards is the union of what stood and what came (`steadyhead.visit.union`).
2. A fact that a purge covers is kept emptied, whichever of the two came first; photos that only such facts showed go.
3. One id with two contents is a mistake or an attack. Every content is kept in `collision`; the fact is the one that
   the union chooses on every device; the ids are reported.
4. Projections follow in the same transaction.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, delete, insert, or_, select, update

from steadyhead.service.ports import Added
from steadyhead.store import projecting
from steadyhead.store.rows import portions, read_facts, read_facts_in, replaced_rows, row_of
from steadyhead.store.tables import blob, collision, fact, purged, shown, supersedes
from steadyhead.visit.facts import Fact, canonical, emptied
from steadyhead.visit.union import PURGE, chosen, covers


def add(connection: Connection, facts: Iterable[Fact]) -> Added:
    """Add facts and bring the projections along."""
    given = list(facts)
    purges = _take(connection, [one for one in given if one.kind == PURGE])
    targets = projecting.note_purges(connection, [one.id for one in purges.touched])
    were = _empty_covered(connection, targets)
    others = [one for one in given if one.kind != PURGE]
    named = frozenset(targets_among(connection, (name for one in others for name in _names(one))))
    late = [one for one in others if covers(named, one)]
    rest = _take(connection, [emptied(one) if covers(named, one) else one for one in others])
    projecting.refresh(connection, [*purges.touched, *were, *rest.touched])
    _forget_photos(connection, [*were, *late])
    return Added(purges.new + rest.new, tuple(sorted({*purges.collided, *rest.collided})))


def targets_among(connection: Connection, ids: Iterable[str]) -> set[str]:
    """Return those of these ids that a purge names."""
    found: set[str] = set()
    for some in portions(ids):
        found.update(connection.scalars(select(purged.c.target).where(purged.c.target.in_(some))))
    return found


@dataclass(frozen=True, slots=True)
class _Taken:
    """What taking facts did; `touched` has every content that came or went."""

    new: tuple[str, ...]
    collided: tuple[str, ...]
    touched: tuple[Fact, ...]


def _take(connection: Connection, given: Sequence[Fact]) -> _Taken:
    known = {one.id: one for one in read_facts_in(connection, fact.c.id, (one.id for one in given))}
    contents = _contents([*known.values(), *given])
    new = [chosen(*some) for id_, some in contents.items() if id_ not in known]
    _insert(connection, new)
    several = {id_: some for id_, some in contents.items() if len(some) > 1}
    for id_, some in several.items():
        _keep_all(connection, id_, some)
    collided = tuple(id_ for id_, some in several.items() if _is_collision(some))
    touched = (*new, *(one for some in several.values() for one in (*some, chosen(*some))))
    return _Taken(tuple(one.id for one in new), collided, touched)


def _contents(facts: Iterable[Fact]) -> dict[str, list[Fact]]:
    """Return every content of every id, each once."""
    found: dict[str, dict[str, Fact]] = {}
    for one in facts:
        found.setdefault(one.id, {}).setdefault(canonical(one), one)
    return {id_: list(some.values()) for id_, some in found.items()}


def _is_collision(contents: Sequence[Fact]) -> bool:
    """Tell whether contents say different things, and are not one that was purged on another device."""
    return len({canonical(emptied(one)) for one in contents}) > 1 or sum(bool(one.body) for one in contents) > 1


def _insert(connection: Connection, new: Sequence[Fact]) -> None:
    if new:
        connection.execute(insert(fact), [row_of(one) for one in new])
    if rows := [row for one in new for row in replaced_rows(one)]:
        connection.execute(insert(supersedes), rows)


def _names(one: Fact) -> set[str]:
    return {one.id, one.about} | ({one.visit} if one.visit else set())


def _empty_covered(connection: Connection, targets: Iterable[str]) -> list[Fact]:
    """Empty the facts that stand in the store and that new purges cover; return them as they were."""
    were: dict[str, Fact] = {}
    for some in portions(targets):
        of = or_(fact.c.id.in_(some), fact.c.about.in_(some), fact.c.visit.in_(some))
        for one in read_facts(connection, of, fact.c.kind != PURGE):
            were[one.id] = one
            connection.execute(update(fact).where(fact.c.id == one.id).values(**row_of(emptied(one))))
            connection.execute(delete(collision).where(collision.c.fact == one.id))
    return list(were.values())


def _forget_photos(connection: Connection, touched: Iterable[Fact]) -> None:
    """Delete the photos that facts showed, as they were or as they came, and that no fact shows any more."""
    for sha256 in sorted({row["sha256"] for one in touched for row in projecting.shown_rows(one)}):
        if connection.scalar(select(shown.c.fact).where(shown.c.sha256 == sha256).limit(1)) is None:
            connection.execute(delete(blob).where(blob.c.sha256 == sha256))


def _keep_all(connection: Connection, id_: str, contents: Sequence[Fact]) -> None:
    """Keep every content of one id, and as the fact the one that the union chooses."""
    for one in contents:
        _keep_content(connection, one)
    first = chosen(*contents)
    connection.execute(update(fact).where(fact.c.id == id_).values(**row_of(first)))
    connection.execute(delete(supersedes).where(supersedes.c.fact == id_))
    if rows := replaced_rows(first):
        connection.execute(insert(supersedes), rows)


def _keep_content(connection: Connection, one: Fact) -> None:
    content = canonical(one)
    sha256 = hashlib.sha256(content.encode()).hexdigest()
    there = select(collision.c.fact).where(collision.c.fact == one.id, collision.c.sha256 == sha256)
    if connection.scalar(there) is None:
        connection.execute(insert(collision).values(fact=one.id, sha256=sha256, content=content))
