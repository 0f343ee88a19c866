"""Use cases: what comes back by itself, listed by its day; one of it made, put off, done.

Rules
-----
1. A day is a day on the site's wall, such as ``2026-05-05``, and has not passed when it is said.
2. What hangs on how a visit stands (a night's test, a watch) is one thing a visit: said again, it gets another day.
3. What is done stays in the record, and is listed no more.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from steadyhead.errors import NotFoundError, RecordError, UnknownWordError
from steadyhead.messages import message
from steadyhead.service.ports import PAGE, UnitOfWork
from steadyhead.service.record.changing import changed
from steadyhead.service.record.demo import demo_id
from steadyhead.service.record.given import Given, today_of
from steadyhead.service.record.tokens import Slot, slot
from steadyhead.service.record.whole import facts_of_visit, said, told
from steadyhead.visit.fact_kinds import FOLLOW_UPS, FOLLOWED
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.heads import Entity
from steadyhead.visit.kinds import LONGEST_TEXT
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.pen import Pen
from steadyhead.visit.pending import FOLLOW_UP, WHILE, Pending

Row = Mapping[str, Any]
#: What is due within so many days is told with what is due today [d].
SOON = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Waits:
    """One thing that is waited for, with the system's name, and how many days are left (below zero: overdue)."""

    pending: Pending
    name: str
    days: int
    demo: bool = False

    @property
    def overdue(self) -> bool:
        """Whether its day has passed."""
        return self.days < 0

    @property
    def soon(self) -> bool:
        """Whether it is due within `SOON` days."""
        return self.days <= SOON


def day_after(given: Given, days: int) -> str:
    """Return the day so many days from today, as a body says it."""
    return (today_of(given) + timedelta(days=days)).isoformat()


def what_waits(given: Given, visit: str | None = None, most: int = PAGE) -> tuple[Waits, ...]:
    """Return what comes back by itself, what is due first first, `most` at most; of one visit, or of all of them.

    What was erased is not among them.
    """
    today = today_of(given)
    with given.reading() as work:
        every = work.pending(visit=visit, limit=most)
        gone = work.purged([*(each.visit for each in every), *(each.system for each in every if each.system)])
        left = [each for each in every if not {each.visit, each.system} & gone]
        names = work.names({each.system for each in left if each.system})
        demo = demo_id(work)
    return tuple(_waits(each, names.get(each.system or "", ""), today, demo) for each in left)


def _waits(each: Pending, name: str, today: date, demo: str) -> Waits:
    return Waits(pending=each, name=name, days=days_left(each.due, today), demo=each.visit == demo)


def days_left(due: str, today: date) -> int:
    """Return how many days are left; a day that cannot be read is today.

    >>> days_left("2026-05-04", date(2026, 5, 6)), days_left("soon", date(2026, 5, 6))
    (-2, 0)
    """
    try:
        return (date.fromisoformat(due) - today).days
    except ValueError:
        return 0


def add_follow_up(given: Given, visit: str, row: Row, *, token: str | None = None) -> str:
    """Keep something that comes back by itself, and return its id.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    row
        ``kind``, ``due``, ``what`` and other keys of the fact's body.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit.
    InputError
        ``word-unknown``, ``follow-up-day``, ``follow-up-past`` or ``text-too-long``.
    """
    body = checked(given, row)
    with given.writing() as work:
        now = told(work, visit)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return place.already.about
        new = made(now, body, given.pen(work), place)
        work.add(new)
        work.commit()
        return new[0].about


def checked(given: Given, row: Row) -> dict[str, Any]:
    """Return the body of a follow-up, refused where its kind or its day will not do."""
    body = said({key: " ".join(value.split()) if isinstance(value, str) else value for key, value in row.items()})
    kind = str(body.get("kind", ""))
    if kind not in FOLLOW_UPS:
        allowed, nearest = nearest_first(kind, FOLLOW_UPS)
        raise UnknownWordError(message("word-unknown", got=shown(kind), must_be=allowed, nearest=nearest))
    for text in (str(body.get("what", "")), str(body.get("ring", ""))):
        if len(text) > LONGEST_TEXT:
            raise RecordError(message("text-too-long", got=text[:40], length=len(text), most=LONGEST_TEXT))
    check_day(str(body.get("due", "")), today_of(given))
    return body


def check_day(text: str, today: date) -> None:
    """Let pass a day that has not passed.

    Raises
    ------
    RecordError
        It is none, or has.
    """
    try:
        due = date.fromisoformat(text)
    except ValueError as error:
        raise RecordError(message("follow-up-day", got=shown(text), must_be=today.isoformat())) from error
    if due < today:
        raise RecordError(message("follow-up-past", got=text, must_be=today.isoformat()))


def made(now: ToldVisit, body: Row, pen: Pen, place: Slot) -> list[Fact]:
    """Return the facts of a follow-up: a new one, or the one of its kind that the visit has with another body."""
    kind = str(body["kind"])
    earlier = [each for each in of_visit(now) if each.body.get("kind") == kind] if kind in WHILE else []
    if not earlier:
        return [pen.fact(FOLLOW_UP, body, id_=place.id, visit=now.id, extra=place.extra)]
    return changed(earlier[0], lambda _: dict(body), pen, place)


def of_visit(now: ToldVisit) -> Sequence[Entity]:
    """Return the follow-ups of a visit, in order."""
    return [e for e in now.entities.values() if e.kind == FOLLOW_UP and e.first.visit == now.id and not e.purged]


def change_follow_up(given: Given, visit: str, about: str, changes: Row, *, token: str | None = None) -> None:
    """Keep other values of a follow-up's keys: another day, or how it ended.

    Raises
    ------
    NotFoundError
        There is no such visit, or no such follow-up in it.
    InputError
        The day or the word will not do.
    """
    with given.writing() as work:
        now = told(work, visit)
        found = _of(now, about)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return
        if "due" in changes:
            check_day(str(changes["due"]), today_of(given))
        ended = changes.get("ended")
        if ended is not None and ended not in FOLLOWED:
            raise UnknownWordError(message("word-unknown", got=shown(str(ended)), must_be=FOLLOWED, nearest=()))
        work.add(changed(found, lambda body: said({**body, **changes}), given.pen(work), place))
        work.commit()


def follow_up_of(work: UnitOfWork, visit: str, about: str) -> Entity:
    """Return one follow-up of a visit.

    Raises
    ------
    NotFoundError
        There is no such visit, or no such follow-up in it.
    """
    return _of(told(work, visit), about)


def _of(now: ToldVisit, about: str) -> Entity:
    found = next((each for each in of_visit(now) if each.about == about), None)
    if found is None:
        raise NotFoundError(message("follow-up-not-here", got=about))
    return found
