"""What lists and pages ask: facts by what they speak of, cards by what a person types.

Rules
-----
1. Every question here is answered by an index; only the search for a text looks through the cards of one kind.
2. Cards come last changed first, by the id of the last fact; a page goes on below the last card of the page before.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from sqlalchemy import ColumnElement, Connection, Table, func, or_, select

from steadyhead.service.ports import FactSize, PhotoShown
from steadyhead.store.rows import portions, read_facts, read_facts_in
from steadyhead.store.tables import blob, entity, fact, pending, shown, system_card, visit_card
from steadyhead.visit.cards import EntityCard, SystemCard, VisitCard, folded, visit_of
from steadyhead.visit.facts import Fact
from steadyhead.visit.pending import Pending

#: What stands around a fact's body in its text: keys, ids, times, names.
_FRAME = 260
_CARDS: dict[Table, Any] = {visit_card: VisitCard, system_card: SystemCard}


def facts(
    connection: Connection, *, about: str | None = None, visit: str | None = None, kind: str | None = None
) -> tuple[Fact, ...]:
    """Return the facts that meet all that is asked, in the order of their ids."""
    where = [column == value for column, value in ((fact.c.about, about), (fact.c.kind, kind)) if value is not None]
    if visit is None:
        return tuple(read_facts(connection, *where))
    found = read_facts(connection, *where, or_(fact.c.visit == visit, fact.c.about == visit))
    return tuple(one for one in found if visit_of(one) == visit)


def facts_after(connection: Connection, after: str, limit: int) -> tuple[Fact, ...]:
    """Return the facts that come after an id, in the order of their ids."""
    ids = connection.scalars(select(fact.c.id).where(fact.c.id > after).order_by(fact.c.id).limit(limit)).all()
    return tuple(read_facts(connection, fact.c.id > after, fact.c.id <= ids[-1])) if ids else ()


def fact_sizes(connection: Connection, after: str, limit: int) -> tuple[FactSize, ...]:
    """Return how long the facts are that come after an id, in the order of their ids."""
    size = func.length(fact.c.body) + func.length(fact.c.extra) + _FRAME
    columns = (fact.c.id, fact.c.kind, fact.c.about, fact.c.visit, size)
    rows = connection.execute(select(*columns).where(fact.c.id > after).order_by(fact.c.id).limit(limit))
    return tuple(FactSize(*row) for row in rows)


def facts_showing(connection: Connection, photos: Iterable[str]) -> tuple[Fact, ...]:
    """Return the facts that show one of these photos, in the order of their ids."""
    ids = [
        id_
        for some in portions(photos)
        for id_ in connection.scalars(select(shown.c.fact).where(shown.c.sha256.in_(some)))
    ]
    return tuple(read_facts_in(connection, fact.c.id, ids))


def photos_shown(connection: Connection, after: str, limit: int) -> tuple[PhotoShown, ...]:
    """Return the photos that facts show whose SHA-256 comes after `after`, in order, with their size where they are."""
    named = select(shown.c.sha256).where(shown.c.sha256 > after).distinct().order_by(shown.c.sha256).limit(limit)
    some = named.subquery()
    question = select(some.c.sha256, blob.c.size).outerjoin(blob, blob.c.sha256 == some.c.sha256)
    return tuple(PhotoShown(row.sha256, row.size) for row in connection.execute(question.order_by(some.c.sha256)))


def conditions(table: Table, text: str, **equal: str | None) -> list[ColumnElement[bool]]:
    """Return what a card must meet: these columns as told, and each word of the text somewhere in what finds it."""
    found = [table.c[name] == value for name, value in equal.items() if value is not None]
    words = folded(text).split()
    return [*found, *(table.c.search.contains(word, autoescape=True) for word in words)]


def page(
    connection: Connection, table: Table, where: list[ColumnElement[bool]], before: str, limit: int
) -> tuple[Any, ...]:
    """Return one page of cards, last changed first."""
    below = [table.c.last < before] if before else []
    rows = connection.execute(select(table).where(*where, *below).order_by(table.c.last.desc()).limit(limit))
    return tuple(_CARDS[table](**row._asdict()) for row in rows)


def names(connection: Connection, ids: Iterable[str]) -> dict[str, str]:
    """Return what entities are called, by their ids; one that has no name, or is none, has none here."""
    found: dict[str, str] = {}
    for some in portions(ids):
        rows = connection.execute(select(entity.c.about, entity.c.name).where(entity.c.about.in_(some)))
        found |= {row.about: row.name for row in rows if row.name}
    return found


def entities(connection: Connection, kind: str, text: str, limit: int) -> tuple[EntityCard, ...]:
    """Return entities of a kind, by name."""
    question = select(entity).where(*conditions(entity, text, kind=kind)).order_by(entity.c.search, entity.c.about)
    return tuple(EntityCard(**row._asdict()) for row in connection.execute(question.limit(limit)))


def waited_for(connection: Connection, visit: str | None, limit: int) -> tuple[Pending, ...]:
    """Return what one visit waits for, or all of them, what is due first first."""
    where = [] if visit is None else [pending.c.visit == visit]
    question = select(pending).where(*where).order_by(pending.c.due, pending.c.about).limit(limit)
    return tuple(Pending(**row._asdict()) for row in connection.execute(question))
