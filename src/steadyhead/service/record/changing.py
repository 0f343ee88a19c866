"""Changes some keys of an entity without settling, by the way, what two devices disagree on.

Rules
-----
1. Where nothing is in conflict after the change, one fact takes the place of all heads.
2. Where a key is still in conflict, each head is changed by a fact of its own: what disagreed goes on to disagree, and
   is shown, until somebody says which it is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from steadyhead.service.record.tokens import Slot
from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import Entity
from steadyhead.visit.pen import Pen

Row = Mapping[str, Any]
Change = Callable[[Row], dict[str, Any]]


def changed(entity: Entity, change: Change, pen: Pen, place: Slot) -> list[Fact]:
    """Return the facts that change an entity; the first has the slot's id.

    Parameters
    ----------
    entity
        What is changed.
    change
        Makes a head's new body of its body.
    pen
        Who writes.
    place
        Where the first new fact goes.
    """
    bodies = [change(head.body) for head in entity.heads]
    unsettled = [key for key in entity.conflicts if len({repr(_at(body, key)) for body in bodies}) > 1]
    if not unsettled:
        return [_fact(entity, change(entity.body), pen, place, entity.replaces)]
    found: list[Fact] = []
    for head, body in zip(entity.heads, bodies, strict=True):
        where = place if not found else Slot(pen.new_id(found[-1].id))
        found.append(_fact(entity, body, pen, where, (head.id,)))
    return found


def _fact(entity: Entity, body: Row, pen: Pen, place: Slot, replaces: tuple[str, ...]) -> Fact:
    return pen.fact(
        entity.kind, body, id_=place.id, about=entity.about, visit=entity.first.visit, supersedes=replaces,
        instrument=entity.head.instrument, extra=place.extra,
    )  # fmt: skip


def _at(body: Row, key: str) -> object:
    """Return what a body says at a key, of a table inside it too: ``cable.length``."""
    if key in body:
        return body[key]
    table, _, inner = key.partition(".")
    value = body.get(table)
    return _at(value, inner) if inner and isinstance(value, Mapping) else None
