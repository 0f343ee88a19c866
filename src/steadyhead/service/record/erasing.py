"""Use case: take away what was said of a site, a system, a visit or one thing of it, for ever.

Rules
-----
1. The purge names the entity, and what hangs on it as far as this device knows: a site's systems, a system's visits
   and sensor checks.
   A purge of a visit covers every fact of that visit, also those that arrive later from another device.
2. What another device knows of a purged site and this one does not (a visit that was never synced) has to be erased
   again once it has arrived.
3. A sensor check that stands alone is its own visit, so that its purge covers points that arrive later. One that
   belongs to a visit takes the points along that this device knows.
4. Instruments and the names of people are no customer's data; they stay, but for the facts that are emptied.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.service.record.whole import entity
from steadyhead.visit.fact_kinds import CHECK_KIND, POINT_KIND

PORTION = 200
MOST_CHECKS = 100_000  #: of one system: all of them


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


def erase_customer(given: Given, system: str) -> tuple[str, ...]:
    """Erase a system with all that hangs on it, and its site where no other system stands there.

    Raises
    ------
    NotFoundError
        There is no such system.
    """
    with given.reading() as work:
        site = entity(work, system).body.get("site")
        beside = [] if site is None else [card.system for card in work.system_cards(site=str(site))]
        gone = work.purged(beside)
    alone = site is not None and not {each for each in beside if each not in gone} - {system}
    return erase(given, str(site)) if alone else erase(given, system)


def _hanging(work: UnitOfWork, about: str, kind: str) -> Iterator[str]:
    """Yield what hangs on a site or a system."""
    systems = [about] if kind == "system" else list(_systems(work, about)) if kind == "site" else []
    for system in systems:
        yield system
        yield from _visits(work, system)
        yield from _checks(work, system)
    yield from _points(work, about) if kind == CHECK_KIND else ()
    shows = {*systems, about}
    yield from (fact.about for fact in work.facts(kind="photo") if fact.body.get("of") in shows)


def _checks(work: UnitOfWork, system: str) -> Iterator[str]:
    for card in work.entities(CHECK_KIND, text=system, limit=MOST_CHECKS):
        if any(fact.body.get("system") == system for fact in work.facts(about=card.about)):
            yield card.about
            yield from _points(work, card.about)


def _points(work: UnitOfWork, check: str) -> Iterator[str]:
    """Yield the points of a check; of one that stands alone its own id covers them all."""
    visit = next((fact.visit for fact in work.facts(about=check)), None)
    if visit is not None and visit != check:
        points = work.facts(visit=visit, kind=POINT_KIND)
        yield from dict.fromkeys(fact.about for fact in points if fact.body.get("check") == check)


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
