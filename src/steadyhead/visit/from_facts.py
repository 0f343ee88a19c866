"""A visit as the engine takes it, made of the facts of the record, with the way back from each reading to its facts.

Rules
-----
1. Readings stand in the order of the first facts of their entities. What was taken out or purged is left out.
2. An action stands after the last of the readings that it names as seen before it. One after which the fault came back
   has mended nothing: it stays in the record, and the engine does not count it as a repair. What else is said of a
   repair (parts, who said yes) may disagree without putting it aside.
3. A visit that has ended is read with the system as it stood at its end; an open one with the system as it is.
4. A key on which two heads disagree is unknown until somebody settles it, and is told in `clashes`. A reading on which
   two heads disagree is no evidence until then.
5. What this version cannot read (a newer word, a value that another key forbids) is set aside, told in `set_aside` with
   its fact and its key, and the rest is used. Nothing is guessed.
6. Readings from before another sensor was fitted are also told by the system as it stood then (`Visit.before`).
7. A row that names another loop than `MAIN_LOOP` is no evidence on this one: it is set aside, and kept as it came.
8. Signal and range are needed. Where nobody read them a usual plate is assumed, and told in `assumed`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from steadyhead.errors import RecordError
from steadyhead.messages import Message, message
from steadyhead.visit.fact_kinds import FITTED_KIND, GAUGE_KIND, METER_KIND, OPEN, SYSTEM_TABLES
from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import Entity, as_stood, entities_of, entity_of
from steadyhead.visit.keys import (
    ACTION,
    CLOSED,
    COMPLAINT,
    DECLINED,
    FORMER,
    GAUGE,
    METER,
    READING,
    SITE,
    Table,
)
from steadyhead.visit.layout import Path
from steadyhead.visit.record import Before, Visit
from steadyhead.visit.tables import known_only, plain, read_tables
from steadyhead.visit.union import covers
from steadyhead.visit.walk import spelled

#: The commonest plate (common practice): what is assumed until somebody reads it.
USUAL_PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}
#: The key that says which loop of a system a row is of; one without it is of the main loop.
LOOP, MAIN_LOOP = "loop", "main"
#: Keys that take a row out: it was not so after all; of a repair, the fault came back after it.
_UNDONE = ("withdrawn", "came_back")
_TOLD_OF_ACTION = frozenset(("remedy", "after", *_UNDONE))
ROWS: dict[str, Table] = {"reading": READING, "declined": DECLINED, "action": ACTION}


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """A key on which two heads of an entity disagree, with what each says, in the order of the heads."""

    about: str
    kind: str
    key: str
    values: tuple[Any, ...]
    heads: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside:
    """Something that this version cannot use: its fact (None where several made it), its key, and why."""

    fact: str | None
    key: str
    why: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldVisit:
    """A visit made of facts.

    Parameters
    ----------
    id
        The visit's ULID.
    visit
        The visit as the engine takes it.
    tables
        The same as a visit file spells it.
    readings, declined, actions
        The entities behind the rows: ``readings[0]`` is reading 1.
    entities
        Every entity that the facts speak of, by its ULID.
    clashes, set_aside
        What could not be used, and why.
    assumed
        Keys that nobody read: ``sensor.signal``, ``sensor.range``.
    """

    id: str
    visit: Visit
    tables: Mapping[str, Any]
    readings: tuple[str, ...]
    declined: tuple[str, ...]
    actions: tuple[str, ...]
    entities: Mapping[str, Entity]
    clashes: tuple[Clash, ...]
    set_aside: tuple[SetAside, ...]
    assumed: tuple[str, ...]

    def number_of(self, reading: str) -> int | None:
        """Return the number of a reading, counted from 1; None where it is no evidence."""
        return self.readings.index(reading) + 1 if reading in self.readings else None


def visit_of_facts(facts: Iterable[Fact], visit: str, purged: frozenset[str] = frozenset()) -> ToldVisit:
    """Return the visit that facts tell.

    Parameters
    ----------
    facts
        The facts of the visit, and those of its site, its system and its instruments.
    visit
        The visit's ULID.
    purged
        What purges name, as far as it touches these facts.

    Raises
    ------
    RecordError
        ``visit-unknown``: none of the facts is about this visit.
    """
    every = tuple(facts)
    gone = frozenset(fact.id for fact in every if covers(purged, fact))
    entities = {entity.about: entity for entity in entities_of(every, gone)}
    if visit not in entities:
        raise RecordError(message("visit-unknown", got=visit))
    found = _Draft(entities, visit, gone).told()
    return _with_what_was_before(found, entities, gone)


def _with_what_was_before(now: ToldVisit, entities: Mapping[str, Entity], gone: frozenset[str]) -> ToldVisit:
    """Return a visit with what it was before another sensor was fitted whose plate the system has now, if one was."""
    fitted = [e for e in entities.values() if e.kind == FITTED_KIND and e.first.visit == now.id and not e.purged]
    over = [e for e in fitted if not e.body.get("withdrawn") and e.body.get("sensor") == now.tables.get("sensor")]
    if not over or not _list(over[0].body.get("system_as")):
        return now
    first = over[0]
    stood = _Draft(entities, now.id, gone, [str(id_) for id_ in _list(first.body["system_as"])]).told()
    last = max((now.number_of(str(about)) or 0 for about in _list(first.body.get("after"))), default=0)
    return replace(now, visit=replace(now.visit, before=Before(visit=stood.visit, readings=last)))


class _Draft:
    """The tables while they are made: what cannot be read goes out until the rest can."""

    def __init__(
        self, entities: Mapping[str, Entity], visit: str, gone: frozenset[str], stood: Sequence[str] = ()
    ) -> None:
        self.id = visit
        self.entities = dict(entities)
        self.body = entities[visit].body
        self._as_it_stood(gone, stood)
        self.tables = self._single_tables()
        self.assumed: list[str] = []
        self.set_aside: list[SetAside] = []
        self.rows = {kind: self._rows_of(kind) for kind in ROWS}

    def told(self) -> ToldVisit:
        """Return the visit once nothing in its tables is wrong."""
        self._plate()
        tables = self._all_tables()
        made, problems = read_tables(tables)
        while made is None:
            self._put_aside(dict(reversed(problems)))
            tables = self._all_tables()
            made, problems = read_tables(tables)
        readings, declined, actions = (tuple(e.about for e, _ in self.rows[kind]) for kind in ROWS)
        return ToldVisit(
            id=self.id, visit=made, tables=tables, readings=readings, declined=declined, actions=actions,
            entities=self.entities, clashes=tuple(self._clashes()), set_aside=tuple(self.set_aside),
            assumed=tuple(dict.fromkeys(self.assumed)),
        )  # fmt: skip

    # -------------------------------------------------------- from entities to tables

    def _as_it_stood(self, gone: frozenset[str], at: Sequence[str]) -> None:
        """Put the system back to what it was at the visit's end, or when the facts `at` held."""
        ids = at or [str(id_) for id_ in _list(self.body.get("system_as"))]
        system = self.entities.get(str(self.body.get("system")))
        if system is None or (not at and self.body.get("state", OPEN) == OPEN):
            return
        stood = as_stood(system.history, ids)
        if stood:
            self.entities[system.about] = entity_of(stood, gone)

    def _system(self) -> Mapping[str, Any]:
        return self._body_of(self.body.get("system"))

    def _body_of(self, about: object) -> Mapping[str, Any]:
        entity = self.entities.get(str(about))
        return {} if entity is None else entity.body

    def _single_tables(self) -> dict[str, dict[str, Any]]:
        system = self._system()
        found = {
            "site": known_only(self._body_of(self.body.get("site") or system.get("site")), SITE),
            **{table.name: known_only(_table(system.get(table.name)), table) for table in SYSTEM_TABLES},
            "instruments": self._instruments(),
            "complaint": known_only(_table(self.body.get("complaint")), COMPLAINT),
            "former": known_only(_table(self.body.get("former")), FORMER),
            "closed": self._closed(),
        }
        return {name: plain(table) for name, table in found.items()}

    def _instruments(self) -> dict[str, Any]:
        """Return the first gauge and the first meter that the visit names, or that a reading was taken with."""
        used = [str(id_) for id_ in _list(self.body.get("instruments"))]
        used += [entity.head.instrument for entity in self._of("reading") if entity.head.instrument]
        bodies = [self._body_of(id_) for id_ in dict.fromkeys(used)]
        found: dict[str, Any] = {}
        for kind, table in ((GAUGE_KIND, GAUGE), (METER_KIND, METER)):
            specs = [known_only(body, table) for body in bodies if body.get("kind") == kind]
            if any(specs):
                found[table.name] = next(spec for spec in specs if spec)
        have = self.body.get("have")
        return found if have is None else {**found, "have": have}

    def _closed(self) -> dict[str, Any]:
        """Return what was found at fault, where all findings agree."""
        found = [known_only(entity.body, CLOSED) for entity in self._of("finding") if not entity.conflicts]
        return found[0] if found and all(each == found[0] for each in found) else {}

    def _of(self, kind: str) -> list[Entity]:
        return [e for e in self.entities.values() if e.kind == kind and e.first.visit == self.id and not e.purged]

    def _rows_of(self, kind: str) -> list[tuple[Entity, dict[str, Any]]]:
        sound = [e for e in self._of(kind) if not _unsettled(e) and not any(e.body.get(key) for key in _UNDONE)]
        for each in sound:
            if _loop(each) != MAIN_LOOP:
                why = message("loop-another", got=_loop(each), must_be=MAIN_LOOP)
                self.set_aside.append(SetAside(fact=each.head.id, key=LOOP, why=why))
        return [(e, plain(known_only(e.body, ROWS[kind]))) for e in sound if _loop(e) == MAIN_LOOP]

    def _plate(self) -> None:
        """Assume a usual plate for what nobody read."""
        for key, usual in USUAL_PLATE.items():
            if key not in self.tables["sensor"]:
                self.tables["sensor"][key] = usual
                self.assumed.append(f"sensor.{key}")

    def _all_tables(self) -> dict[str, Any]:
        numbers = {entity.about: number for number, (entity, _) in enumerate(self.rows["reading"], start=1)}
        rows = {kind: [row for _, row in self.rows[kind]] for kind in ("reading", "declined")}
        actions = [{**row, "after_reading": self._after(entity, numbers)} for entity, row in self.rows["action"]]
        single = {name: table for name, table in self.tables.items() if table}
        return {**single, **rows, "action": actions}

    def _after(self, action: Entity, numbers: Mapping[str, int]) -> int:
        seen = action.body.get("after")
        if seen is None:
            seen = [entity.about for entity, _ in self.rows["reading"] if entity.first.id < action.first.id]
        return max((numbers.get(str(about), 0) for about in _list(seen)), default=0)

    # -------------------------------------------------------- what cannot be used

    def _put_aside(self, problems: Mapping[Path, Message]) -> None:
        """Take out of the tables what the problems name, and note it."""
        rows = {path[:2]: (path, why) for path, why in problems.items() if path[0] in ROWS and len(path) > 1}
        for (kind, index), (path, why) in sorted(rows.items(), reverse=True):
            entity, _ = self.rows[str(kind)].pop(int(index))
            self.set_aside.append(SetAside(fact=entity.head.id, key=_key(path), why=why))
        for path, why in problems.items():
            if path[:2] not in rows:
                self._drop(path, why)
        self._plate()

    def _drop(self, path: Path, why: Message) -> None:
        """Take a key, or its whole table, out."""
        name = str(path[0])
        table = self.tables.get(name, {})
        key = str(path[1]) if len(path) > 1 else ""
        if key in table:
            del table[key]
        else:
            self.tables[name] = {}
        self.set_aside.append(SetAside(fact=self._source(name), key=_key(path), why=why))

    def _source(self, table: str) -> str | None:
        """Return the fact from which a table came, where it was one."""
        sources = {
            **{each.name: self.body.get("system") for each in SYSTEM_TABLES},
            "site": self.body.get("site") or self._system().get("site"),
            "closed": next((entity.about for entity in self._of("finding")), None),
        }
        entity = self.entities.get(str(sources.get(table, self.id)))
        return entity.head.id if entity is not None and len(entity.heads) == 1 else None

    def _clashes(self) -> Iterable[Clash]:
        for entity in self.entities.values():
            for key, values in entity.conflicts.items():
                yield Clash(about=entity.about, kind=entity.kind, key=key, values=values, heads=entity.replaces)


def _unsettled(entity: Entity) -> bool:
    """Tell whether two heads disagree on what the engine reads of an entity."""
    if entity.kind != "action":
        return bool(entity.conflicts)
    return not _TOLD_OF_ACTION.isdisjoint(entity.conflicts)


def _loop(entity: Entity) -> str:
    return str(entity.body.get(LOOP) or MAIN_LOOP)


def _key(path: Path) -> str:
    """Return the key of a path, without the number of its row: that is a fact's place, not its name."""
    return spelled(tuple(part for part in path if not isinstance(part, int)))


def _table(value: object) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}


def _list(value: object) -> list[Any]:
    return list(value) if isinstance(value, (list, tuple)) else []
