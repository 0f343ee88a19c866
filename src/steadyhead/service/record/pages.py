"""Use cases: a visit and a system as a page shows them, with what was corrected and what does not agree."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.reasons import Reasons
from steadyhead.service.record.demo import demo_id
from steadyhead.service.record.given import Given
from steadyhead.service.record.lists import visit_lines
from steadyhead.service.record.views import Beside, Earlier, RowSeen, SystemSeen, VisitSeen
from steadyhead.service.record.whole import entity, key_of, told
from steadyhead.service.why import why
from steadyhead.visit.fact_kinds import OPEN, SYSTEM_TABLES
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.heads import Entity
from steadyhead.words import Speaker

#: Kinds of facts that no answer hangs on.
BESIDE = frozenset(("photo", "note", "caution-seen", "first-minute", "temporary", "birth"))


def visit_page(given: Given, visit: str) -> VisitSeen:
    """Return a visit as it stands.

    Raises
    ------
    NotFoundError
        There is no such visit, or it was erased.
    """
    with given.reading() as work:
        now = told(work, visit)
        demo = demo_id(work)
    own = now.entities[visit]
    of_visit = [fact for each in now.entities.values() for fact in each.history if visit in {fact.visit, fact.about}]
    last = max(of_visit, key=lambda fact: fact.id)
    system = now.entities.get(str(own.body.get("system")))
    site = now.entities.get(str(own.body.get("site") or (system.body.get("site") if system else "")))
    return VisitSeen(
        id=visit,
        system_id=str(own.body.get("system", "")),
        site_id=None if site is None else site.about,
        name=_name(system, site),
        site="" if site is None else str(site.body.get("name", "")),
        state=str(own.body.get("state", OPEN)),
        visit=now.visit,
        key=key_of(fact for each in now.entities.values() for fact in each.history),
        depends=tuple(map(str, system.body.get("depends", ()))) if system else (),
        access=str(system.body.get("access", "")) if system else "",
        evidence=key_of(fact for each in now.entities.values() if each.kind not in BESIDE for fact in each.history),
        at=own.first.at,
        saved=last.at,
        zone=own.first.zone,
        assumed=now.assumed,
        rows=tuple(_row(now, each) for each in _of(now, "reading")),
        demo=visit == demo,
        clashes=now.clashes,
        set_aside=now.set_aside,
        tables=now.tables,
        photos=_beside(now, "photo"),
        notes=_beside(now, "note"),
        actions=_beside(now, "action"),
        declined=_beside(now, "declined"),
        temporary=_beside(now, "temporary"),
        follow_ups=_beside(now, "follow-up"),
        ending=_row_of(own.body.get("ending")),
        tapped=str(own.body.get("tapped", "")),
        instrument_names=_instruments(now),
        cautions=frozenset(str(each.body.get("caution")) for each in _of(now, "caution-seen")),
        instruments=tuple(map(str, own.body.get("instruments", ()))),
        people=tuple(sorted({fact.author for fact in of_visit if fact.author})),
        first_minute=next((str(each.body.get("state", "")) for each in _of(now, "first-minute")), ""),
    )


def _instruments(now: ToldVisit) -> dict[str, str]:
    """Return what the instruments are called that anything here was read with."""
    found = (each for each in now.entities.values() if each.kind == "instrument" and not each.purged)
    return {each.about: str(each.body.get("name") or each.body.get("kind") or "") for each in found}


def _row_of(value: object) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}


def _name(system: Entity | None, site: Entity | None) -> str:
    names = [str(each.body.get("name", "")) for each in (system, site) if each is not None]
    return next((name for name in names if name), "")


def _of(now: ToldVisit, kind: str) -> Iterable[Entity]:
    return (e for e in now.entities.values() if e.kind == kind and e.first.visit == now.id and not e.purged)


def _row(now: ToldVisit, reading: Entity) -> RowSeen:
    heads = {fact.id for fact in reading.heads}
    conflict = bool(reading.conflicts)
    return RowSeen(
        id=reading.about,
        number=now.number_of(reading.about),
        body=reading.head.body if conflict else reading.body,
        history=tuple(_earlier(fact) for fact in reading.history if fact.id not in heads),
        conflict=conflict,
        heads=tuple(_earlier(fact) for fact in reading.heads) if conflict else (),
        withdrawn=bool(reading.body.get("withdrawn")),
        at=reading.first.at,
        author=reading.first.author,
        instrument=reading.head.instrument,
    )


def _earlier(fact: Fact) -> Earlier:
    return Earlier(
        value=str(fact.body.get("value", "")), at=fact.at, author=fact.author, fact=fact.id,
        withdrawn=bool(fact.body.get("withdrawn")),
    )  # fmt: skip


def _beside(now: ToldVisit, kind: str) -> tuple[Beside, ...]:
    return tuple(
        Beside(id=each.about, body=each.body, at=each.first.at, author=each.first.author) for each in _of(now, kind)
    )


def system_page(given: Given, system: str) -> SystemSeen:
    """Return a system as it is known, with its visits and what was changed in it.

    Raises
    ------
    NotFoundError
        There is no such system, or it was erased.
    """
    with given.reading() as work:
        now = entity(work, system)
        site_id = now.body.get("site")
        site = entity(work, str(site_id)) if site_id else None
        cards = work.visit_cards(system=system)
        gone = work.purged(card.visit for card in cards)
        visits = visit_lines(work, (card for card in cards if card.visit not in gone), {system: _name(now, site)})
    tables: dict[str, Mapping[str, Any]] = {
        table.name: now.body[table.name] for table in SYSTEM_TABLES if isinstance(now.body.get(table.name), Mapping)
    }
    return SystemSeen(
        id=system, name=_name(now, site), tables=tables, visits=visits, site_id=None if site is None else site.about,
        site={} if site is None else site.body, clashes=now.conflicts,
        changes=tuple(Beside(id=f.id, body=f.body, at=f.at, author=f.author) for f in now.history),
    )  # fmt: skip


def why_page(
    given: Given, visit: str, suspect: str, speaker: Speaker, estimates: Estimates = SHIPPED
) -> Reasons:
    """Return how each reading of a visit moved one suspect.

    Raises
    ------
    NotFoundError
        There is no such visit.
    UnknownWordError
        There is no such suspect.
    """
    return why(visit_page(given, visit).visit, suspect, speaker, estimates)
