"""Use cases: what on the van will do in a visit, and that one of them was fitted there.

Rules
-----
1. A sensor that was fitted keeps its own copy of its plate: what the van's line says later does not change it.
2. That it was fitted is told together with the repair, `replace-sensor`, and the system's new plate: all or nothing.
3. The system takes its plate over, with the input as it now stands: a conversion resistor is a milliamps input of that
   resistance, and the fault limits stand in milliamps. So what is read from then on is judged by the new sensor.
4. Where its signal has another unit, the readings before could no longer be read: then the plate is taken over when
   the visit is over, by `take_over`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from steadyhead.errors import NotFoundError, UnknownWordError
from steadyhead.messages import message
from steadyhead.quantities import spell, spell_ohms
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.changing import changed
from steadyhead.service.record.given import Given
from steadyhead.service.record.repairs import details_of
from steadyhead.service.record.systems import refuse_tables
from steadyhead.service.record.tokens import Slot, slot
from steadyhead.service.record.van import StockSeen, line_of, stock_on_van
from steadyhead.service.record.whole import entity, facts_of_visit, said, told
from steadyhead.setup.scaling import Settings
from steadyhead.setup.signal_match import Way
from steadyhead.setup.van import Match, matched, place_of
from steadyhead.visit.exact import exact_range
from steadyhead.visit.fact_kinds import FITTED_KIND, LASTS
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.heads import Entity, as_stood, entity_of
from steadyhead.visit.measures import points_of_system
from steadyhead.visit.nearest import shown
from steadyhead.visit.pen import Pen
from steadyhead.visit.record import Signal, Visit
from steadyhead.visit.stock import read_stock

Row = Mapping[str, Any]
REMEDY = "replace-sensor"


@dataclass(frozen=True, slots=True, kw_only=True)
class OnVan:
    """A line of the van's list, and what it comes to in a system."""

    stock: StockSeen
    match: Match


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A sensor from the van that was fitted in a visit; `taken_over` is whether the system has its plate."""

    id: str
    stock: str
    name: str
    serial: str = ""
    lasts: str = ""
    sensor: Row = field(default_factory=dict)
    at: str = ""
    taken_over: bool = False


def what_will_do_in(given: Given, visit: Visit) -> tuple[OnVan, ...]:
    """Return what is on the van against a visit's system, the best first; what is used up comes after all else."""
    found = [
        OnVan(stock=each, match=matched(visit, each.sensor))
        for each in stock_on_van(given)
        if each.sensor is not None
    ]
    return tuple(sorted(found, key=lambda one: (one.stock.left == 0, *place_of(one.match), one.stock.id)))


def parts_of_visit(given: Given, visit: str) -> tuple[Fitted, ...]:
    """Return the sensors from the van that were fitted in a visit.

    Raises
    ------
    NotFoundError
        There is no such visit.
    """
    with given.reading() as work:
        now = told(work, visit)
    system = now.entities.get(str(now.entities[visit].body.get("system")))
    plate = {} if system is None else system.body.get("sensor", {})
    return tuple(_fitted_seen(each, plate) for each in _fitted_of(now.entities.values(), visit))


def _fitted_of(entities: Any, visit: str) -> list[Entity]:  # noqa: ANN401 - the values of a mapping
    own = [each for each in entities if each.kind == FITTED_KIND and each.first.visit == visit]
    return [each for each in own if not each.purged and not each.body.get("withdrawn")]


def _fitted_seen(each: Entity, plate: Row) -> Fitted:
    body = each.body
    sensor = body.get("sensor", {})
    return Fitted(
        id=each.about, stock=str(body.get("stock", "")), name=str(body.get("name", "")),
        serial=str(body.get("serial", "")), lasts=str(body.get("lasts", "")), sensor=sensor, at=each.first.at,
        taken_over=dict(plate) == dict(sensor),
    )  # fmt: skip


def fit_from_van(
    given: Given,
    visit: str,
    stock: str,
    *,
    serial: str = "",
    lasts: str = LASTS[1],
    entered: bool = False,
    token: str | None = None,
) -> str:
    """Keep that a sensor from the van was fitted, with the repair; return its id.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    stock
        The line of the van's list.
    serial
        Its serial number, where somebody read it.
    lasts
        ``permanent`` or ``temporary``.
    entered
        Whether the settings that belong to it were entered in the controller.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit, or no such line.
    UnknownWordError
        ``lasts`` is none of both.
    """
    if lasts not in LASTS:
        raise UnknownWordError(message("word-unknown", got=shown(lasts), must_be=LASTS, nearest=()))
    with given.writing() as work:
        now = told(work, visit)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return place.already.about
        line = line_of(work, stock)
        own, _ = read_stock(line.body)
        if own is None:
            raise NotFoundError(message("van-not-stock", got=stock))
        body: dict[str, Any] = {"stock": stock, "name": own.name, "serial": " ".join(serial.split()), "lasts": lasts}
        body |= {"sensor": dict(line.body["sensor"]), "after": list(now.readings)}
        new = _fitted_facts(given.pen(work), now, body, place)
        work.add(new)
        if _same_unit(now.visit.sensor.signal, own.sensor.signal):
            _take_over(given, work, visit, place.id, entered=entered)
        work.commit()
    return place.id


def _fitted_facts(pen: Pen, now: ToldVisit, body: Row, place: Slot) -> list[Fact]:
    """Return the fact of what was fitted, and that of the repair, each naming what had been seen before."""
    system = now.entities.get(str(now.entities[now.id].body.get("system")))
    details = details_of({}, [{"part": body["name"], "serial": body["serial"]}])
    seen = {"remedy": REMEDY, "after": list(now.readings), **details}
    repair = pen.fact("action", seen, visit=now.id, after=place.id)
    whole = {**body, "repair": repair.id, "system_as": [] if system is None else list(system.replaces)}
    return [pen.fact(FITTED_KIND, said(whole), id_=place.id, visit=now.id, extra=place.extra), repair]


def _same_unit(one: Signal, other: Signal) -> bool:
    return (one.kind == "current") == (other.kind == "current")


def take_out(given: Given, visit: str, fitted: str, *, token: str | None = None) -> None:
    """Keep that a sensor was not fitted after all: it is on the van again, its repair goes, the system is as before.

    Raises
    ------
    NotFoundError
        Nothing of this visit has that id.
    """
    with given.writing() as work:
        part = _of_visit(entity(work, fitted), visit)
        place = slot(work, given.ids, part.history, token)
        if place.already is not None:
            return
        pen = given.pen(work)
        new = changed(part, _gone, pen, place)
        repair = work.facts(about=str(part.body.get("repair", "")))
        new += changed(entity(work, repair[0].about), _gone, pen, _next(given, new)) if repair else []
        system = entity(work, str(told(work, visit).entities[visit].body.get("system")))
        stood = as_stood(system.history, part.body.get("system_as", ()))
        if stood and system.body.get("sensor") == part.body.get("sensor"):
            before = entity_of(stood).body
            new += changed(system, lambda body: _restored(body, before), pen, _next(given, new))
        work.add(new)
        work.commit()


def _gone(body: Row) -> dict[str, Any]:
    return {**body, "withdrawn": True}


def _next(given: Given, new: Sequence[Fact]) -> Slot:
    return Slot(given.ids.new(new[-1].id))


def _restored(body: Row, before: Row) -> dict[str, Any]:
    """Return a system's body with the tables that a new sensor changes as they were before."""
    return said({**body, **{name: before.get(name) for name in _CHANGES}})


def take_over(given: Given, visit: str, fitted: str, *, entered: bool = False, token: str | None = None) -> None:
    """Let the system have the plate of a sensor that was fitted, and its input as it now stands.

    Raises
    ------
    NotFoundError
        Nothing of this visit has that id.
    VisitFileError
        The system's tables could not be read any more.
    """
    with given.writing() as work:
        _take_over(given, work, visit, fitted, entered=entered, token=token)
        work.commit()


def _take_over(
    given: Given, work: UnitOfWork, visit: str, fitted: str, *, entered: bool, token: str | None = None
) -> None:
    part = _of_visit(entity(work, fitted), visit)
    now = told(work, visit)
    system = entity(work, str(now.entities[visit].body.get("system")))
    stock, _ = read_stock(_known_of(work, part))
    if stock is None:
        raise NotFoundError(message("van-not-stock", got=fitted))
    place = slot(work, given.ids, system.history, token)
    if place.already is not None:
        return
    change = _Change(now.visit, matched(now.visit, stock), part.body.get("sensor", {}), entered)
    refuse_tables({name: row for name, row in change(system.body).items() if name in _TABLES})
    work.add(changed(system, change, given.pen(work), place))


def _known_of(work: UnitOfWork, part: Entity) -> Row:
    """Return what is known of a sensor that was fitted: its own plate, and thread, plug and pins of the van's line."""
    own = {"sensor": part.body.get("sensor", {})}
    try:
        return {**line_of(work, str(part.body.get("stock", ""))).body, **own}
    except NotFoundError:
        return own


def _of_visit(part: Entity, visit: str) -> Entity:
    if part.kind != FITTED_KIND or part.first.visit != visit:
        raise NotFoundError(message("entity-unknown", got=part.about))
    return part


_CHANGES = ("sensor", "controller", "fitting", "labels")
_TABLES = (*_CHANGES, "cable", "place")


@dataclass(frozen=True, slots=True)
class _Change:
    """Makes the body of a system that has a new sensor of the one before."""

    visit: Visit
    match: Match
    plate: Row
    entered: bool

    def __call__(self, body: Row) -> dict[str, Any]:
        """Return the body: plate, input, labels, plug."""
        controller = {**_row(body, "controller"), **self._input()}
        labels = {key: text for key, text in {**_row(body, "labels"), **self._pins()}.items() if key in self._points()}
        plug = {} if self.match.stock.plug in {None, "lead"} else {"plug": self.match.stock.plug}
        changed = {
            "sensor": dict(self.plate), "controller": said(controller), "labels": said(labels),
            "fitting": said({**_row(body, "fitting"), **plug}),
        }  # fmt: skip
        return said({**body, **changed})

    def _points(self) -> set[str]:
        return set(points_of_system(self.match.stock.sensor.signal.wires, shield=self.visit.cable.shield))

    def _pins(self) -> dict[str, str]:
        """Return what the plug's contacts are now called, where that is noted; with another plug, else nothing."""
        kept = self.match.stock.plug == self.visit.fitting.plug
        pins = {f"sensor.{row.core}": row.pin or "" for row in self.match.pins if row.pin is not None}
        return {key: pin for key, pin in pins.items() if pin or not kept}

    def _input(self) -> dict[str, Any]:
        """Return the keys of the controller that are other than before; None for what nobody knows now."""
        made, way = self.match.settings, self.match.way
        if made is None:
            return {"scaled": None}
        found: dict[str, Any] = {"scaled": _range_text(made, self.plate) if self.entered else None}
        if way.resistor_ohm is not None:
            amps = replace(made, low_fault=_over(made.low_fault, way.across_ohm),
                           high_fault=_over(made.high_fault, way.across_ohm))  # fmt: skip
            return {**found, **_fault_texts(amps, "mA"), "reference": None,
                    "input_resistance": spell_ohms(way.across_ohm or way.resistor_ohm, digits=4)}  # fmt: skip
        if way.id == "setting":
            return {**found, **_fault_texts(made, _unit_of(way)), "input_resistance": None, "reference": None}
        if not self.entered:
            return {} if self._scale_is_right(made) else found
        return {**found, **_fault_texts(made, _unit_of(way))}

    def _scale_is_right(self, made: Settings) -> bool:
        scaled = self.visit.controller.scaled
        return scaled is not None and (scaled.low, scaled.high) == (made.range.low, made.range.high)


def _row(body: Row, name: str) -> Row:
    found = body.get(name)
    return found if isinstance(found, Mapping) else {}


def _over(volts: float | None, across: float | None) -> float | None:
    return None if volts is None or across is None else volts / across


def _unit_of(way: Way) -> str:
    return "mA" if way.kind == "current" else "V"


def _fault_texts(made: Settings, unit: str) -> dict[str, str | None]:
    limits = {"low_fault": made.low_fault, "high_fault": made.high_fault}
    return {key: None if value is None else spell(value, unit, digits=4) for key, value in limits.items()}


def _range_text(made: Settings, plate: Row) -> str:
    """Return the range that was entered, in the words of the plate where it is the plate's own."""
    stock, _ = read_stock({"sensor": plate})
    own = None if stock is None else stock.sensor.range
    if own is not None and (own.low, own.high) == (made.range.low, made.range.high):
        return str(plate["range"])
    return exact_range(made.range.low, made.range.high, "pressure")
