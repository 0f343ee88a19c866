"""Use cases: begin a sensor check, say more of it, keep a point, correct or take out a point, finish, take it all out.

Rules
-----
1. Every change is read back before it is kept: what this version could not use is refused with its key.
2. The same form sent twice keeps one. Sent again with other figures it is a correction, unless the point has had those
   figures already.
3. A check that belongs to no visit is its own: `visit` of its facts is its id. So it goes out whole, and a purge of it
   covers points that arrive later.
4. A check has its own copy of the plate, of the gauge, of the meter: what it was judged by stays with it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from steadyhead.errors import NotFoundError, Problem, UnknownWordError, VisitFileError
from steadyhead.messages import message
from steadyhead.sensorcheck.from_facts import ToldCheck, check_of_facts
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.changing import Change, changed
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import Slot, slot
from steadyhead.service.record.whole import entity, facts_of_visit, said, targets_among
from steadyhead.visit.check_keys import CHECK_STATES, EVERY_TABLE, UNFINISHED
from steadyhead.visit.fact_kinds import CHECK_KIND, POINT_KIND
from steadyhead.visit.facts import Fact
from steadyhead.visit.nearest import nearest_first, shown

Row = Mapping[str, Any]
_TABLES = tuple(table.name for table in EVERY_TABLE)


def begin_check(
    given: Given, body: Row, *, system: str | None = None, visit: str | None = None, token: str | None = None
) -> str:
    """Begin a sensor check, and return its id.

    Parameters
    ----------
    given
        Store, ids, clock.
    body
        Keys and tables of a check; ``sensor`` needs its signal and its range.
    system
        The system whose sensor it is; None for a sensor on a bench.
    visit
        The visit that it belongs to; None where it stands alone.
    token
        Id of the check's first fact; the same one again begins nothing new.

    Raises
    ------
    NotFoundError
        There is no such visit or system.
    VisitFileError
        Something of it cannot be read; `problems` says which key and why.
    """
    with given.writing() as work:
        own = facts_of_visit(work, visit) if visit else () if token is None else work.facts(visit=token)
        if system is not None:
            entity(work, system)
        place = slot(work, given.ids, own, token)
        if place.already is not None:
            return place.already.about
        plain = {key: value for key, value in body.items() if key not in _TABLES}
        told = {**said(plain), **_tables_said(body), "state": UNFINISHED}
        told |= {} if system is None else {"system": system}
        new = given.pen(work).fact(CHECK_KIND, told, id_=place.id, visit=visit or place.id, extra=place.extra)
        _refuse_unread(check_of_facts([new], new.id), [new])
        work.add([new])
        work.commit()
        return new.id


def set_check(given: Given, check: str, changes: Row, *, token: str | None = None) -> None:
    """Keep more of a check, or other values; a key that is empty becomes unknown, a table's other keys stay.

    Raises
    ------
    NotFoundError
        There is no such check.
    VisitFileError
        Something cannot be read.
    """

    def change(body: Row) -> dict[str, Any]:
        after = {key: value for key, value in {**body, **changes}.items() if key not in _TABLES}
        return said({**after, **_tables_said({name: _joined(body, changes, name) for name in _TABLES})})

    _change(given, check, change, token)


def finish_check(given: Given, check: str, state: str, *, token: str | None = None) -> None:
    """Keep that a check is finished, or that points may come again.

    Raises
    ------
    NotFoundError
        There is no such check.
    UnknownWordError
        There is no such state.
    """
    if state not in CHECK_STATES:
        allowed, nearest = nearest_first(state, CHECK_STATES)
        raise UnknownWordError(message("word-unknown", got=shown(state), must_be=allowed, nearest=nearest))
    _change(given, check, lambda body: {**body, "state": state}, token)


def withdraw_check(given: Given, check: str, *, token: str | None = None) -> None:
    """Take a whole check out; what it said stays in its history.

    Raises
    ------
    NotFoundError
        There is no such check.
    """
    _change(given, check, lambda body: {**body, "withdrawn": True}, token)


def add_point(given: Given, check: str, row: Row, *, token: str | None = None) -> str:
    """Keep one point of a check, and return its id.

    Parameters
    ----------
    given
        Store, ids, clock.
    check
        The check.
    row
        The keys of `steadyhead.visit.check_keys.POINT`, texts with units.
    token
        Id of the fact that this makes.

    Raises
    ------
    NotFoundError
        There is no such check.
    VisitFileError
        It cannot be read; `problems` says which key and why.
    """
    with given.writing() as work:
        now = told_check(work, check)
        place = slot(work, given.ids, facts_of_check(work, check), token)
        if place.already is not None:
            return _again(given, work, now, place.already.about, row)
        return _points(given, work, now, [row], place)[0]


def add_points(given: Given, check: str, rows: Sequence[Row], *, token: str | None = None) -> tuple[str, ...]:
    """Keep several points of a check, all of them or none, and return their ids; the same token again adds nothing.

    Raises
    ------
    NotFoundError
        There is no such check.
    VisitFileError
        One of them cannot be read.
    """
    with given.writing() as work:
        now = told_check(work, check)
        place = slot(work, given.ids, facts_of_check(work, check), token)
        if place.already is not None or not rows:
            return ()
        return _points(given, work, now, rows, place)


def _points(given: Given, work: UnitOfWork, now: ToldCheck, rows: Sequence[Row], place: Slot) -> tuple[str, ...]:
    pen, visit = given.pen(work), now.entities[now.id].first.visit
    new: list[Fact] = []
    for row in rows:
        body = {**said(row), "check": now.id}
        own = None if new else place.id
        extra = {} if new else place.extra
        new.append(pen.fact(POINT_KIND, body, visit=visit, id_=own, after=new[-1].id if new else "", extra=extra))
    _added(work, now.id, new)
    return tuple(fact.about for fact in new)


def _again(given: Given, work: UnitOfWork, now: ToldCheck, point: str, row: Row) -> str:
    """Return the point that a form has kept already; where it says something new now, keep that as a correction."""
    one = now.entities[point]
    body = {**said(row), "check": now.id}
    if any(dict(fact.body) == body for fact in one.history):
        return point
    newest = max(fact.id for each in now.entities.values() for fact in each.history)
    _added(work, now.id, changed(one, lambda _: body, given.pen(work), Slot(given.ids.new(newest))))
    return point


def correct_point(given: Given, check: str, point: str, changes: Row | None, *, token: str | None = None) -> None:
    """Keep other values of a point's keys; None takes the point out. What it said before stays in its history.

    Raises
    ------
    NotFoundError
        There is no such check, or no such point in it.
    VisitFileError
        The new value cannot be read.
    """
    with given.writing() as work:
        now = told_check(work, check)
        one = now.entities.get(point)
        if one is None or one.kind != POINT_KIND:
            raise NotFoundError(message("check-point-not-here", got=point))
        place = slot(work, given.ids, facts_of_check(work, check), token)
        if place.already is not None:
            return

        def change(body: Row) -> dict[str, Any]:
            before = {key: value for key, value in body.items() if key != "withdrawn"}
            return {**before, "withdrawn": True} if changes is None else said({**before, **changes})

        _added(work, check, changed(one, change, given.pen(work), place))


# ---------------------------------------------------------------- what the above stands on


def facts_of_check(work: UnitOfWork, check: str) -> tuple[Fact, ...]:
    """Return the facts about a check and its points.

    Raises
    ------
    NotFoundError
        There is no such check.
    """
    own = work.facts(about=check)
    if not own or own[0].kind != CHECK_KIND:
        raise NotFoundError(message("check-unknown", got=check))
    points = work.facts(visit=own[0].visit, kind=POINT_KIND) if own[0].visit else ()
    return (*own, *(fact for fact in points if fact.about != check))


def told_check(work: UnitOfWork, check: str, *more: Fact) -> ToldCheck:
    """Return a check as it stands, or as it would stand with more facts.

    Raises
    ------
    NotFoundError
        There is no such check, or it was erased.
    """
    facts = facts_of_check(work, check)
    targets = targets_among(work, facts)
    if not targets.isdisjoint({check, facts[0].visit}):
        raise NotFoundError(message("entity-erased", got=check))
    return check_of_facts({fact.id: fact for fact in (*facts, *more)}.values(), check, targets)


def _change(given: Given, check: str, change: Change, token: str | None) -> None:
    with given.writing() as work:
        now = told_check(work, check)
        place = slot(work, given.ids, facts_of_check(work, check), token)
        if place.already is None:
            _added(work, check, changed(now.entities[check], change, given.pen(work), place))


def _added(work: UnitOfWork, check: str, new: Sequence[Fact]) -> None:
    _refuse_unread(told_check(work, check, *new), new)
    work.add(new)
    work.commit()


def _refuse_unread(after: ToldCheck, new: Sequence[Fact]) -> None:
    """Pass over a check of which all can be used.

    Raises
    ------
    VisitFileError
        A new fact would be set aside, or signal and range are not said.
    """
    ids = {fact.id for fact in new}
    problems = [Problem(each.why, each.key, None) for each in after.set_aside if each.fact in ids]
    if after.id in {fact.about for fact in new} and not problems:
        problems = [Problem(message("check-needs-plate", key=key), key, None) for key in after.assumed]
    if problems:
        raise VisitFileError(message("entry-refused", problems=len(problems)), tuple(problems))


def _joined(body: Row, changes: Row, name: str) -> Row:
    before, more = body.get(name), changes.get(name)
    return {**(before if isinstance(before, Mapping) else {}), **(more if isinstance(more, Mapping) else {})}


def _tables_said(body: Row) -> dict[str, Any]:
    """Return the tables of a body with the keys that say something, those of tables inside them too."""
    tables = {name: body[name] for name in _TABLES if isinstance(body.get(name), Mapping)}
    return {name: _said(table) for name, table in tables.items() if _said(table)}


def _said(table: Row) -> dict[str, Any]:
    return said({key: _said(value) if isinstance(value, Mapping) else value for key, value in table.items()})
