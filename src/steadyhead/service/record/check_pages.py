"""Use cases: a sensor check as a page shows it, what a new one begins with, the checks of a system or a serial number.

Rules
-----
1. A new check begins with what is known: the system's plate, the visit's gauge and meter, the site's height above the
   sea; and what the last check of the same system said of its gauge, its meter and the sensor's serial number. After a
   finished check of the same visit it is one after a change.
2. A list is read off the cards and then off the facts of those that fit: it never reads every point of the record.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from steadyhead.sensorcheck.from_facts import ToldCheck
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.beside import read_cautions
from steadyhead.service.record.checks import told_check
from steadyhead.service.record.given import Given
from steadyhead.service.record.whole import entity, key_of, told
from steadyhead.visit.check_keys import CHECK_METER, FINISHED, REFERENCE, STAGES, UNFINISHED
from steadyhead.visit.fact_kinds import CHECK_KIND
from steadyhead.visit.heads import Entity, entity_of
from steadyhead.visit.keys import GAUGE, METER, SENSOR
from steadyhead.visit.tables import known_only

Row = Mapping[str, Any]
MOST_LISTED = 500
AS_LEFT = STAGES[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLine:
    """One sensor check of a list: its name is its system's; `began` is UTC."""

    id: str
    name: str
    serial: str
    stage: str
    state: str
    began: str
    system: str | None
    visit: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PointSeen:
    """One point of a check, whether it counts or not; `number` is None where it does not.

    `history` holds the bodies that were corrected, the oldest first; `heads` what two devices say where they disagree.
    """

    id: str
    number: int | None
    body: Row
    at: str
    author: str
    history: tuple[Row, ...] = ()
    heads: tuple[Row, ...] = ()
    withdrawn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckSeen:
    """A sensor check as it stands.

    Parameters
    ----------
    told
        The check, with the way back to its facts.
    body
        Its keys and tables, as they were typed.
    name
        What its system is called, or empty.
    key
        Changes with every fact that is added or emptied, and with nothing else.
    at, saved, zone
        When it began and was last written, UTC, and the zone.
    points
        Every point, those that do not count too.
    people
        Who wrote any of it.
    cautions
        Ids of the cautions that were read in its visit, or in the check where it stands alone.
    """

    told: ToldCheck
    body: Row
    name: str
    key: str
    at: str
    saved: str
    zone: str
    points: tuple[PointSeen, ...]
    people: tuple[str, ...] = ()
    cautions: frozenset[str] = frozenset()
    clashes: Mapping[str, tuple[Any, ...]] = field(default_factory=dict)

    @property
    def id(self) -> str:
        """The check's ULID."""
        return self.told.id


def check_page(given: Given, check: str) -> CheckSeen:
    """Return a sensor check as it stands.

    Raises
    ------
    NotFoundError
        There is no such check, or it was erased.
    """
    with given.reading() as work:
        now = told_check(work, check)
        name = _name(work, now.system)
        read = read_cautions(work, now.visit or check)
    own = now.entities[check]
    facts = [fact for each in now.entities.values() for fact in each.history]
    return CheckSeen(
        told=now, body=own.body, name=name, key=key_of(facts), at=own.first.at,
        saved=max(facts, key=lambda fact: fact.id).at, zone=own.first.zone,
        points=tuple(_point(now, each) for each in now.entities.values() if each is not own and not each.purged),
        people=tuple(sorted({fact.author for fact in facts if fact.author})), clashes=own.conflicts,
        cautions=read,
    )  # fmt: skip


def _point(now: ToldCheck, point: Entity) -> PointSeen:
    heads = {fact.id for fact in point.heads}
    return PointSeen(
        id=point.about, number=now.points.index(point.about) + 1 if point.about in now.points else None,
        body=point.head.body if point.conflicts else point.body, at=point.first.at, author=point.first.author,
        history=tuple(fact.body for fact in point.history if fact.id not in heads),
        heads=tuple(fact.body for fact in point.heads) if point.conflicts else (),
        withdrawn=bool(point.body.get("withdrawn")),
    )  # fmt: skip


def checks_of(given: Given, *, system: str | None = None, serial: str | None = None) -> tuple[CheckLine, ...]:
    """Return the sensor checks of a system, or of a sensor's serial number, the last begun first.

    What was taken out or erased is not among them.
    """
    with given.reading() as work:
        every = [line for line, _ in _lines(work, system or serial or "")]
    return tuple(
        line for line in every if system in {None, line.system} and serial in {None, line.serial}
    )


def earlier_checks(given: Given, serial: str) -> tuple[ToldCheck, ...]:
    """Return the sensor checks of one serial number as their figures take them, the first begun first."""
    found = checks_of(given, serial=serial) if serial else ()
    with given.reading() as work:
        return tuple(told_check(work, line.id) for line in reversed(found))


def found_before(given: Given, told: ToldCheck) -> ToldCheck | None:
    """Return the check of the same sensor as it was found, the last before one after a change; None where none is.

    The same sensor is that of the same serial number, or, where neither has one, that of the same system.
    """
    if told.run.stage != AS_LEFT:
        return None
    serial, system = told.run.serial, told.system
    with given.reading() as work:
        for line, _ in _lines(work, serial or system or ""):
            same = line.serial == serial if serial else not line.serial and system in {line.system} - {None}
            if same and line.stage != AS_LEFT and line.id < told.id:
                return told_check(work, line.id)
    return None


def unfinished_checks(given: Given) -> tuple[CheckLine, ...]:
    """Return the sensor checks that were begun and not finished, the last begun first."""
    with given.reading() as work:
        return tuple(line for line, _ in _lines(work, UNFINISHED) if line.state == UNFINISHED)


def new_check(given: Given, *, system: str | None = None, visit: str | None = None) -> dict[str, Any]:
    """Return the body that a new check begins with: what is known already, as it was typed.

    Raises
    ------
    NotFoundError
        There is no such system or visit.
    """
    with given.reading() as work:
        tables: Mapping[str, Any] = {}
        site: object = None
        if visit is not None:
            tables = told(work, visit).tables
            site = tables.get("site", {}).get("altitude")
        body = {} if system is None else entity(work, system).body
        if site is None and body.get("site"):
            site = entity(work, str(body["site"])).body.get("altitude")
        earlier = [(line, own) for line, own in _lines(work, system) if line.system == system] if system else []
        last = earlier[0][1].body if earlier else {}
        found = [line for line, own in earlier if visit and line.visit == visit and line.state == FINISHED]
    instruments = tables.get("instruments", {})
    known = {
        "stage": AS_LEFT if found else None,
        "serial": last.get("serial"),
        SENSOR.name: known_only(_table(body.get(SENSOR.name)), SENSOR),
        REFERENCE.name: known_only(_table(instruments.get(GAUGE.name)), GAUGE) or _table(last.get(REFERENCE.name)),
        CHECK_METER.name: known_only(_table(instruments.get(METER.name)), METER) or _table(last.get(CHECK_METER.name)),
        "controller": {key: value for key, value in _table(body.get("controller")).items() if key == "scaled"},
        "conditions": {} if site is None else {"altitude": site},
        "allowed": _table(last.get("allowed")),
        "purpose": last.get("purpose"),
        "pressure_from": last.get("pressure_from"),
        "read_as": last.get("read_as"),
    }
    return {key: value for key, value in known.items() if value}


def _lines(work: UnitOfWork, text: str) -> Iterator[tuple[CheckLine, Entity]]:
    """Yield the checks of which something holds a text, the last begun first."""
    cards = work.entities(CHECK_KIND, text=text, limit=MOST_LISTED)
    names: dict[str | None, str] = {None: ""}
    for card in sorted(cards, key=lambda card: card.about, reverse=True):
        facts = work.facts(about=card.about)
        if work.purged({id_ for fact in facts for id_ in (fact.id, fact.about, fact.visit) if id_}):
            continue
        own = entity_of(facts)
        if own.body.get("withdrawn"):
            continue
        system = own.body.get("system")
        if system not in names:
            names[system] = _name(work, system)
        yield _line(own, names[system]), own


def _line(own: Entity, name: str) -> CheckLine:
    body = own.body
    return CheckLine(
        id=own.about, name=name, serial=str(body.get("serial", "")), stage=str(body.get("stage", "as-found")),
        state=str(body.get("state", UNFINISHED)), began=own.first.at, system=body.get("system"),
        visit=None if own.first.visit == own.about else own.first.visit,
    )  # fmt: skip


def _name(work: UnitOfWork, system: str | None) -> str:
    facts = work.facts(about=system) if system else ()
    names = [str(fact.body["name"]) for fact in facts if fact.body.get("name")]
    return names[-1] if names else ""


def _table(value: object) -> Row:
    return value if isinstance(value, Mapping) else {}
