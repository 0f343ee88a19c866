"""Use cases: keep a reading, correct it, take it out; keep that a check cannot be done, and that a repair was made.

Rules
-----
1. Every reading is read back before it is kept: what the engine cannot use is refused with its key, and changes none.
2. The same form sent twice keeps one. Sent again with another value it is a correction, unless the reading has had that
   value already.
3. Readings of one visit stand in the order in which they came to this device.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from steadyhead.diagnosis.answer import NextCheck
from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.guide.entries import Entry, entry
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.changing import changed
from steadyhead.service.record.doubts import Doubtful, doubt
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import Slot, slot
from steadyhead.service.record.whole import facts_of_visit, refuse_unread, said, told
from steadyhead.visit.facts import Fact
from steadyhead.visit.measures import MEASURE
from steadyhead.visit.record import Visit

Row = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Kept:
    """A reading that was kept: its entity, and its number in the visit (None where it is no evidence)."""

    id: str
    number: int | None


@dataclass(frozen=True, slots=True)
class Cannot:
    """What was typed says that the check cannot be done, and perhaps why; nothing was kept yet."""

    why: str


def add_reading(
    given: Given,
    visit: str,
    body: Row,
    *,
    token: str | None = None,
    instrument: str | None = None,
    check: NextCheck | None = None,
    confirmed: bool = False,
) -> Kept | Doubtful | Cannot:
    """Keep a reading, or return what must be asked first.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    body
        The keys of ``[[reading]]``; the value as a person types it.
    token
        Id of the fact that this makes.
    instrument
        The instrument that it was read with.
    check
        The check that it answers, so that a likely slip can be told.
    confirmed
        Whether the person has said that it is so.

    Raises
    ------
    NotFoundError
        There is no such visit.
    InputError
        What was typed is no value of this measure; a `VisitFileError` names each key that is wrong.
    """
    typed = _typed(given, visit, said(body))
    if isinstance(typed, (Cannot, Doubtful)):
        return typed
    now, row = typed
    asked = None if confirmed else doubt(now, row, check)
    return asked if asked is not None else _keep(given, visit, row, token, instrument)


def _typed(given: Given, visit: str, row: dict[str, Any]) -> tuple[Visit, dict[str, Any]] | Cannot:
    """Return the visit as it stands, and the row with its value in the file's spelling."""
    with given.reading() as work:
        now = told(work, visit).visit
    text, measure = row.get("value"), str(row.get("measure", ""))
    if not isinstance(text, str) or measure not in MEASURE:
        return now, row
    found: Entry = entry(text, measure, now)
    return Cannot(found.text) if found.kind == "cannot" else (now, {**row, "value": found.text})


def _keep(given: Given, visit: str, row: Row, token: str | None, instrument: str | None) -> Kept:
    with given.writing() as work:
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return _again(given, work, visit, place, row)
        fact = given.pen(work).fact(
            "reading", row, id_=place.id, visit=visit, instrument=instrument, extra=place.extra
        )
        return _added(work, visit, [fact])


def _again(given: Given, work: UnitOfWork, visit: str, place: Slot, row: Row) -> Kept:
    """Return what a form has kept already; where it says something new now, keep that as a correction."""
    assert place.already is not None  # noqa: S101 - told by the caller
    now = told(work, visit)
    reading = now.entities[place.already.about]
    if any(dict(row) == dict(fact.body) for fact in reading.history):
        return Kept(reading.about, now.number_of(reading.about))
    newest = max(fact.id for entity in now.entities.values() for fact in entity.history)
    new = changed(reading, lambda _: dict(row), given.pen(work), Slot(given.ids.new(newest)))
    return _added(work, visit, new)


def _added(work: UnitOfWork, visit: str, new: Sequence[Fact]) -> Kept:
    after = refuse_unread(work, visit, new)
    work.add(new)
    work.commit()
    return Kept(new[0].about, after.number_of(new[0].about))


def correct_reading(
    given: Given, visit: str, reading: str, changes: Row | None, *, token: str | None = None
) -> Kept:
    """Keep other values of a reading's keys; None takes the reading out. What it said before stays in its history.

    Raises
    ------
    NotFoundError
        There is no such visit, or no such reading in it.
    InputError
        The new value is refused.
    """
    with given.writing() as work:
        now = told(work, visit)
        entity = now.entities.get(reading)
        if entity is None or entity.kind != "reading" or entity.first.visit != visit:
            raise NotFoundError(message("reading-not-here", got=reading))
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return Kept(reading, now.number_of(reading))
        new = changed(entity, lambda body: _corrected(now.visit, body, changes), given.pen(work), place)
        return _added(work, visit, new)


def _corrected(visit: Visit, before: Row, changes: Row | None) -> dict[str, Any]:
    """Return the body of a correction: the keys as they were, and what changes."""
    body = {key: value for key, value in before.items() if key != "withdrawn"}
    if changes is None:
        return {**body, "withdrawn": True}
    after = {**body, **changes}
    text, measure = after.get("value"), str(after.get("measure", ""))
    if isinstance(text, str) and measure in MEASURE:
        after["value"] = entry(text, measure, visit).text
    return said(after)


def decline_checks(given: Given, visit: str, rows: Sequence[Row], *, token: str | None = None) -> None:
    """Keep that checks cannot be done here.

    Raises
    ------
    NotFoundError
        There is no such visit.
    VisitFileError
        A row cannot be read.
    """
    _keep_rows(given, visit, "declined", rows, token)


def record_action(
    given: Given, visit: str, remedy: str, details: Row | None = None, *, token: str | None = None
) -> None:
    """Keep that a repair was made, after the readings so far; a pair ``x+y`` is two repairs.

    `details` are other keys of the fact's body (where, which parts, who said yes); they stand with the first.

    Raises
    ------
    NotFoundError
        There is no such visit.
    VisitFileError
        There is no such remedy.
    """
    first, *others = [{"remedy": part} for part in remedy.split("+")]
    _keep_rows(given, visit, "action", [{**first, **(details or {})}, *others], token)


def _keep_rows(given: Given, visit: str, kind: str, rows: Sequence[Row], token: str | None) -> None:
    with given.writing() as work:
        now = told(work, visit)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None or not rows:
            return
        pen = given.pen(work)
        seen = {"after": list(now.readings)} if kind == "action" else {}
        new = [pen.fact(kind, {**rows[0], **seen}, id_=place.id, visit=visit, extra=place.extra)]
        new += [pen.fact(kind, {**row, **seen}, visit=visit, after=place.id) for row in rows[1:]]
        refuse_unread(work, visit, new)
        work.add(new)
        work.commit()
