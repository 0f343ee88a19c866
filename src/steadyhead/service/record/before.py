"""Use case: before the drive, what is asked about the place itself: who depends on the water, and how to get in.

Rules
-----
1. Both belong to the system, not to the call: the next visit there knows them already.
2. What stands already is not kept again: a page that is sent with nothing changed makes no fact.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.service.record.changing import changed
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.whole import entity, line_of, said
from steadyhead.visit.fact_kinds import DEPENDENTS
from steadyhead.visit.nearest import nearest_first, shown


def set_place(
    given: Given, system: str, *, depends: tuple[str, ...], access: str, name: str, token: str | None = None
) -> None:
    """Keep who depends on a system's water, how to get in, and what it is called; an empty one is unknown.

    Parameters
    ----------
    given
        Store, ids, clock.
    system
        The system.
    depends
        Words of `steadyhead.visit.fact_kinds.DEPENDENTS`.
    access
        Keys, a dog, the walk, where to park.
    name
        What the system is called; empty leaves that as it is.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such system.
    RecordError
        It says too much.
    UnknownWordError
        Nobody is called so.
    """
    for word in depends:
        if word not in DEPENDENTS:
            allowed, nearest = nearest_first(word, DEPENDENTS)
            raise UnknownWordError(message("word-unknown", got=shown(word), must_be=allowed, nearest=nearest))
    told = {"depends": list(depends), "access": line_of(access)} | ({"name": line_of(name)} if name else {})

    def change(body: Mapping[str, Any]) -> dict[str, Any]:
        return said({**body, **told})

    with given.writing() as work:
        now = entity(work, system)
        place = slot(work, given.ids, now.history, token)
        if place.already is None and _plain(change(now.body)) != _plain(now.body):
            work.add(changed(now, change, given.pen(work), place))
            work.commit()


def _plain(body: Mapping[str, Any]) -> dict[str, Any]:
    """Return a body with its lists as lists, so that two can be compared."""
    return {key: list(value) if isinstance(value, tuple) else value for key, value in body.items()}
