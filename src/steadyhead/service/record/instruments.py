"""Use cases: the gauges and meters that figures are taken with, when each is due, which of them are on the van.

Rules
-----
1. A gauge's grade and a meter's accuracy are evidence: every band, every check and every paper is worked out with those
   of the instruments that the visit names.
2. What is on the van is this device's own setting; a visit that begins takes it, and may say otherwise.
3. An instrument that is out of use stays in the record for the visits that used it; a new visit does not take it.
4. A day that has passed is told and forbids nothing: whoever calibrates it decides what it is still good for.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Literal

from steadyhead.errors import NotFoundError, RecordError
from steadyhead.loop.vocabulary import INSTRUMENTS
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given, today_of
from steadyhead.service.record.systems import keep_changed, refuse_tables
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.whole import entity, said
from steadyhead.visit.fact_kinds import GAUGE_KIND, METER_KIND
from steadyhead.visit.ids import is_ulid
from steadyhead.visit.keys import GAUGE, METER, Table
from steadyhead.visit.nearest import shown
from steadyhead.visit.tables import known_only

Row = Mapping[str, Any]
#: The kinds that have an accuracy of their own, and the keys that say it.
TABLES: Mapping[str, Table] = {GAUGE_KIND: GAUGE, METER_KIND: METER}
TEXTS = ("name", "serial", "certificate", "due")
ON_THE_VAN = "instruments"
#: Days before a calibration is due from which that is told.
SOON = 30

Due = Literal["", "good", "soon", "past"]


@dataclass(frozen=True, slots=True, kw_only=True)
class InstrumentSeen:
    """One instrument: its keys, whether its calibration is due, whether a new visit takes it."""

    id: str
    kind: str
    body: Row = field(default_factory=dict)
    due: Due = ""
    on_van: bool = False
    withdrawn: bool = False

    @property
    def name(self) -> str:
        """What it is called; empty where nobody named it."""
        return str(self.body.get("name", ""))


@dataclass(frozen=True, slots=True)
class OnVan:
    """What a new visit takes: the gauge and the meter, and what else is at hand; None where nobody said."""

    instruments: tuple[str, ...] = ()
    have: tuple[str, ...] | None = None


def add_instrument(given: Given, kind: str, spec: Row, *, name: str = "", token: str | None = None) -> str:
    """Keep a gauge, a meter or another instrument, and return its id.

    Raises
    ------
    VisitFileError
        Something of its accuracy cannot be read.
    RecordError
        ``day-unreadable``: the day on which it is due is none.
    """
    _refuse(kind, spec)
    with given.writing() as work:
        place = slot(work, given.ids, () if token is None else work.facts(about=token), token)
        if place.already is not None:
            return place.already.about
        body = said({"name": " ".join(name.split()), "kind": kind, **spec})
        work.add([given.pen(work).fact("instrument", body, id_=place.id)])
        work.commit()
        return place.id


def set_instrument(given: Given, instrument: str, spec: Row, *, token: str | None = None) -> None:
    """Keep other values of an instrument's keys; an empty one becomes unknown, a key that is left out stays.

    Raises
    ------
    NotFoundError
        There is no such instrument.
    VisitFileError, RecordError
        As in `add_instrument`.
    """
    with given.writing() as work:
        kind = str(_instrument(work, instrument).get("kind", ""))
        _refuse(kind, spec)
        keep_changed(given, work, instrument, lambda body: said({**body, **spec}), token)


def instruments(given: Given) -> tuple[InstrumentSeen, ...]:
    """Return the instruments that are known: those on the van first, those out of use last."""
    with given.reading() as work:
        cards = work.entities("instrument")
        gone = work.purged(card.about for card in cards)
        van = _on_van(work)
        seen = [_seen(given, work, card.about, van) for card in cards if card.about not in gone]
    return tuple(sorted(seen, key=lambda each: (each.withdrawn, not each.on_van, each.kind, each.name, each.id)))


def instrument_page(given: Given, instrument: str) -> InstrumentSeen:
    """Return one instrument.

    Raises
    ------
    NotFoundError
        There is no such instrument.
    """
    with given.reading() as work:
        return _seen(given, work, instrument, _on_van(work))


def on_van(given: Given) -> OnVan:
    """Return what a new visit takes."""
    with given.reading() as work:
        return taken_along(work)


def taken_along(work: UnitOfWork) -> OnVan:
    """Return what a visit that begins now takes: what is on the van and neither erased nor out of use."""
    van = _on_van(work)
    gone = work.purged(van.instruments)
    kept = [id_ for id_ in van.instruments if id_ not in gone and not _body(work, id_).get("withdrawn")]
    return OnVan(tuple(kept), van.have)


def put_on_van(given: Given, instruments: Iterable[str], have: Iterable[str] | None) -> None:
    """Keep what a new visit takes.

    Raises
    ------
    RecordError
        ``word-unknown``: something at hand is no instrument's word.
    """
    words = None if have is None else tuple(have)
    for word in words or ():
        if word not in INSTRUMENTS:
            raise RecordError(message("word-unknown", got=shown(word), must_be=INSTRUMENTS, nearest=()))
    with given.writing() as work:
        kept = {"instruments": [id_ for id_ in instruments if is_ulid(id_)], "have": words}
        work.set_setting(ON_THE_VAN, json.dumps(kept))
        work.commit()


def due(day: str, today: date) -> Due:
    """Return how a calibration stands on a day: good, due within `SOON` days, or past; empty where nobody said.

    >>> due("2026-11-01", date(2026, 11, 28)), due("2026-12-24", date(2026, 11, 28)), due("", date(2026, 11, 28))
    ('past', 'soon', '')
    """
    if not day:
        return ""
    left = (date.fromisoformat(day) - today).days
    return "past" if left < 0 else "soon" if left <= SOON else "good"


def _on_van(work: UnitOfWork) -> OnVan:
    kept = json.loads(work.setting(ON_THE_VAN) or "{}")
    have = kept.get("have")
    return OnVan(tuple(map(str, kept.get("instruments", ()))), None if have is None else tuple(map(str, have)))


def _body(work: UnitOfWork, instrument: str) -> Row:
    return entity(work, instrument).body if work.facts(about=instrument) else {"withdrawn": True}


def _instrument(work: UnitOfWork, instrument: str) -> Row:
    found = entity(work, instrument)
    if found.kind != "instrument":
        raise NotFoundError(message("visit-unknown", got=instrument))
    return found.body


def _seen(given: Given, work: UnitOfWork, id_: str, van: OnVan) -> InstrumentSeen:
    body = _instrument(work, id_)
    return InstrumentSeen(
        id=id_, kind=str(body.get("kind", "")), body=body, due=_due(str(body.get("due", "")), today_of(given)),
        on_van=id_ in van.instruments, withdrawn=bool(body.get("withdrawn")),
    )  # fmt: skip


def _due(day: str, today: date) -> Due:
    """Return how a calibration stands; a day that a newer version wrote otherwise tells nothing."""
    try:
        return due(day, today)
    except ValueError:
        return ""


def _refuse(kind: str, spec: Row) -> None:
    """Pass over an instrument whose accuracy and day can be read."""
    table = TABLES.get(kind)
    if table is not None:
        refuse_tables({"instruments": {table.name: known_only(said(spec), table)}})
    day = str(spec.get("due") or "")
    if day:
        try:
            date.fromisoformat(day)
        except ValueError as error:
            raise RecordError(message("day-unreadable", got=shown(day), must_be="a day such as 2027-03-14")) from error
