"""A sensor check as its figures take it, made of the facts of the record; with the way back from each point.

Rules
-----
1. Points stand in the order of the first facts of their entities. What was taken out or purged is left out.
2. A check has its own copy of the plate: what it was judged by does not change with a later part.
3. A key on which two heads disagree is unknown until somebody settles it, and is told in `clashes`. A point on which
   two heads disagree does not count until then.
4. What this version cannot read is set aside, told in `set_aside` with its fact and its key, and the rest is used.
5. Signal and range are needed. Where they cannot be read a usual plate is assumed, and told in `assumed`.
6. A point that has neither a signal nor a display's figure says nothing of the sensor, and is set aside. So is a slip
   of the unit (`steadyhead.sensorcheck.plausible`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from steadyhead.errors import RecordError
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.instruments import meter_of, reference_of
from steadyhead.sensorcheck.plausible import slips
from steadyhead.sensorcheck.points import Allowed, PurposeId
from steadyhead.sensorcheck.run import Certificate, CheckRun, Conditions, Point, Reference, SignalMeter
from steadyhead.visit.build import unit_spelled
from steadyhead.visit.check_keys import (
    ALLOWED,
    CHECK,
    CHECK_INNER,
    CHECK_METER,
    CONDITIONS,
    POINT,
    REFERENCE,
    UNFINISHED,
)
from steadyhead.visit.fact_kinds import CHECK_KIND, POINT_KIND
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import USUAL_PLATE, Clash, SetAside
from steadyhead.visit.heads import Entity, entities_of
from steadyhead.visit.keys import CONTROLLER, SENSOR, Table
from steadyhead.visit.kinds import Known
from steadyhead.visit.record import Interval, Sensor
from steadyhead.visit.rows import read_row
from steadyhead.visit.tables import known_only, plain, read_tables
from steadyhead.visit.union import covers

Values = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldCheck:
    """A sensor check made of facts.

    Parameters
    ----------
    id
        The check's ULID.
    run
        The check as its figures take it.
    pressure_unit
        Unit in which its pressures are shown: the plate's, unless a reader has chosen another.
    plate_unit
        Unit in which its sensor's range is spelled.
    dial_unit, set_unit
        Units in which the reference's scale and the drive's range setting are spelled; empty where nobody said either.
    system, visit
        What it belongs to; None for a visit where it stands alone.
    state
        One of `steadyhead.visit.check_keys.CHECK_STATES`.
    purpose
        How thorough it is to be: one of `steadyhead.visit.check_keys.PURPOSES`.
    allowed
        What the place allows.
    scaled
        The controller's range setting as found [Pa]; None: nobody looked.
    points
        The entities behind the points: ``points[0]`` is ``run.points[0]``.
    entities
        The check and every point of it, those that do not count too, by ULID.
    clashes, set_aside
        What could not be used, and why.
    assumed
        Keys that nobody read: ``sensor.signal``, ``sensor.range``.
    """

    id: str
    run: CheckRun
    pressure_unit: str
    plate_unit: str
    dial_unit: str
    set_unit: str
    system: str | None
    visit: str | None
    state: str
    purpose: PurposeId
    allowed: Allowed
    scaled: Interval | None
    points: tuple[str, ...]
    entities: Mapping[str, Entity]
    clashes: tuple[Clash, ...]
    set_aside: tuple[SetAside, ...]
    assumed: tuple[str, ...]


def check_of_facts(facts: Iterable[Fact], check: str, purged: frozenset[str] = frozenset()) -> ToldCheck:
    """Return the sensor check that facts tell.

    Parameters
    ----------
    facts
        The facts about the check and its points; others are passed over.
    check
        The check's ULID.
    purged
        What purges name, as far as it touches these facts.

    Raises
    ------
    RecordError
        ``check-unknown``: none of the facts is about this check.
    """
    every = tuple(facts)
    gone = frozenset(fact.id for fact in every if covers(purged, fact))
    entities = {entity.about: entity for entity in entities_of(every, gone)}
    own = entities.get(check)
    if own is None or own.kind != CHECK_KIND:
        raise RecordError(message("check-unknown", got=check))
    mine = {id_: each for id_, each in entities.items() if id_ == check or _is_point_of(each, check)}
    return _Draft(own, mine).told()


def _is_point_of(entity: Entity, check: str) -> bool:
    return entity.kind == POINT_KIND and any(fact.body.get("check") == check for fact in entity.history)


class _Draft:
    """A check while it is made: what cannot be read is noted on the way."""

    def __init__(self, own: Entity, entities: Mapping[str, Entity]) -> None:
        self.own = own
        self.entities = entities
        self.set_aside: list[SetAside] = []
        self.assumed: list[str] = []

    def told(self) -> ToldCheck:
        """Return the check."""
        body, own = self.own.body, self.own
        sensor, unit = self._sensor()
        known = Known(sensor.signal.kind, sensor.reference == "absolute", {})
        check = self._read(own, body, CHECK, known)
        reference = self._reference(known)
        points = list(self._points(sensor, reference.scale, known))
        run = CheckRun(
            sensor=sensor, serial=check.get("serial", ""), reference=reference, meter=self._meter(known),
            conditions=Conditions(**self._table(CONDITIONS, known)), points=tuple(point for _, point in points),
            stage=check.get("stage", "as-found"), pressure_from=check.get("pressure_from", "system"),
            read_as=check.get("read_as", "signal"), began=own.first.at,
        )  # fmt: skip
        system, scaled = body.get("system"), self._table(CONTROLLER, known).get("scaled")
        return ToldCheck(
            id=own.about, run=run, pressure_unit=unit, plate_unit=unit,
            dial_unit=unit_spelled(body, REFERENCE.name, "range") if reference.gauge.range else "",
            set_unit=unit_spelled(body, CONTROLLER.name, "scaled", absolute=known.absolute) if scaled else "",
            system=system if isinstance(system, str) else None,
            visit=None if own.first.visit == own.about else own.first.visit, state=body.get("state", UNFINISHED),
            purpose=check.get("purpose", "full"), scaled=scaled,
            allowed=Allowed(gauge=run.reference.gauge.range, **self._table(ALLOWED, known)),
            points=tuple(id_ for id_, _ in points),
            entities=self.entities, clashes=tuple(self._clashes()), set_aside=tuple(self.set_aside),
            assumed=tuple(self.assumed),
        )  # fmt: skip

    # -------------------------------------------------------- the check's own tables

    def _sensor(self) -> tuple[Sensor, str]:
        """Return the plate, by the visit file's own rules, and its unit of pressure."""
        raw = self.own.body.get(SENSOR.name)
        row = plain(known_only(raw if isinstance(raw, Mapping) else {}, SENSOR))
        visit, problems = read_tables({SENSOR.name: self._with_plate(row)})
        while visit is None:
            for path, why in problems:
                self._note(self.own, ".".join(map(str, path)), why)
            wrong = {str(path[1]) for path, _ in problems if len(path) > 1}
            row = {key: value for key, value in row.items() if wrong and key not in wrong}
            visit, problems = read_tables({SENSOR.name: self._with_plate(row)})
        self.assumed = [f"sensor.{key}" for key in USUAL_PLATE if key not in row]
        return visit.sensor, visit.pressure_unit

    @staticmethod
    def _with_plate(row: Values) -> Values:
        return {**{key: usual for key, usual in USUAL_PLATE.items() if key not in row}, **row}

    def _table(self, table: Table, known: Known) -> Values:
        return self._read(self.own, self.own.body.get(table.name, {}), table, known)

    def _reference(self, known: Known) -> Reference:
        row = self._table(REFERENCE, known)
        certificate = self._certificate(REFERENCE, row.pop("certificate", None))
        return reference_of(row, certificate)

    def _meter(self, known: Known) -> SignalMeter:
        row = self._table(CHECK_METER, known)
        certificate = self._certificate(CHECK_METER, row.pop("certificate", None))
        return meter_of(row, certificate, current=known.signal_kind == "current")

    def _certificate(self, table: Table, told: Values | None) -> Certificate | None:
        """Return an instrument's certificate; one whose corrections do not fit its readings is set aside."""
        if told is None:
            return None
        found = Certificate(**told)
        if len(found.correction) != max(len(found.at), 1):
            why = message("corrections-do-not-fit", got=len(found.correction), must_be=max(len(found.at), 1))
            self._note(self.own, f"{table.name}.certificate", why)
            return None
        return found

    # -------------------------------------------------------- the points

    def _points(self, sensor: Sensor, scale: Interval | None, known: Known) -> Iterator[tuple[str, Point]]:
        """Yield what counts: each point with its entity, in the order in which they were taken."""
        for entity in self.entities.values():
            if entity is self.own or entity.purged or entity.conflicts or entity.body.get("withdrawn"):
                continue
            before = len(self.set_aside)
            row = self._read(entity, entity.body, POINT, known)
            for key, why in slips(sensor, row, scale):
                self._note(entity, f"{POINT.name}.{key}", why)
            if len(self.set_aside) == before and row.get("signal") is None and row.get("shown_pa") is None:
                self._note(entity, POINT.name, message("check-point-says-nothing"))
            if len(self.set_aside) == before:
                yield entity.about, Point(**row, at=entity.first.at, id=entity.about)

    # -------------------------------------------------------- what cannot be used

    def _read(self, entity: Entity, raw: object, table: Table, known: Known) -> Values:
        found = read_row(raw, table, known, CHECK_INNER)
        for path, why in found.problems:
            self._note(entity, ".".join(map(str, path)), why)
        return found.values

    def _note(self, entity: Entity, key: str, why: Message) -> None:
        fact = entity.head.id if len(entity.heads) == 1 else None
        self.set_aside.append(SetAside(fact=fact, key=key, why=why))

    def _clashes(self) -> Iterator[Clash]:
        for entity in self.entities.values():
            for key, values in entity.conflicts.items():
                yield Clash(about=entity.about, kind=entity.kind, key=key, values=values, heads=entity.replaces)
