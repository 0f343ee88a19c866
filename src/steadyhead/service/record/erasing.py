"""Use case: take away what was said of a site, a system, a visit or one thing of it, for ever.

Rules
-----
1. The purge names the entity, and what hangs on it as far as this device knows: a site's systems, a system's visits.
   A purge of a visit covers every fact of that visit, also those that arrive later from another device.
2. What another device knows of a purged site and this one does not (a visit that was never synced) has to be erased
   again once it has arrived.
3. Instruments and the names of people are no customer's data; they stay, but for the facts that are emptied.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given

PORTION = 200


def erase(given: Given, about: str) -> tuple[str, ...]:
    """Erase an entity with all that hangs on it; return what the purge names.

    Raises
    ------
    NotFoundError
        There is no such entity.
    """
    with given.writing() as work:
        facts = work.facts(about=about) or ((fact,) if (fact := work.fact(about)) is not None else ())
        if not facts:
            raise NotFoundError(message("entity-unknown", got=about))
        named = tuple(dict.fromkeys((about, *_hanging(work, about, facts[0].kind))))
        work.add([given.pen(work).fact("purge", {"of": list(named)}, after=facts[-1].id)])
        work.commit()
        return named


def _hanging(work: UnitOfWork, about: str, kind: str) -> Iterator[str]:
    """Yield what hangs on a site or a system."""
    systems = [about] if kind == "system" else list(_systems(work, about)) if kind == "site" else []
    for system in systems:
        yield system
        yield from _visits(work, system)
    shows = {*systems, about}
    yield from (fact.about for fact in work.facts(kind="photo") if fact.body.get("of") in shows)


def _systems(work: UnitOfWork, site: str) -> Iterator[str]:
    before = ""
    while page := work.system_cards(site=site, before=before, limit=PORTION):
        yield from (card.system for card in page)
        before = page[-1].last


def _visits(work: UnitOfWork, system: str) -> Iterator[str]:
    before = ""
    while page := work.visit_cards(system=system, before=before, limit=PORTION):
        yield from (card.visit for card in page)
        before = page[-1].last
