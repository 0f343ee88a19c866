"""Use cases: the sensors on the van; list them, put one on the list, put it right, take it off.

Rules
-----
1. How many are left: what somebody counted last, less those fitted since. A count names the fitted ones that it knew,
   so that two devices which each fit one come to the same number, in whichever order they meet.
2. What was erased with a customer is no longer taken off the count: then somebody counts again.
3. A line with a name will do; everything else may be unknown. What cannot be read is refused with its key.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from steadyhead.errors import NotFoundError, Problem, RecordError, VisitFileError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.service.record.systems import keep_changed
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.whole import entity, said, targets_among
from steadyhead.visit.fact_kinds import FITTED_KIND, STOCK_KIND
from steadyhead.visit.heads import Entity, entities_of
from steadyhead.visit.stock import StockSensor, read_stock
from steadyhead.visit.stock_keys import STOCK_TABLES
from steadyhead.visit.walk import spelled

Row = Mapping[str, Any]
TABLES = tuple(table.name for table in STOCK_TABLES)
MOST = 500  #: kinds of sensors on one van


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSeen:
    """A kind of sensor on the van as it is known.

    Parameters
    ----------
    id
        Its entity.
    body
        Its keys, as they were typed.
    sensor
        The same as values; None where this version cannot read it, and then `problems` says why.
    left
        How many are left; None where nobody counted.
    conflicts
        The keys on which two devices disagree.
    withdrawn
        Whether it was taken off the list.
    """

    id: str
    body: Row = field(default_factory=dict)
    sensor: StockSensor | None = None
    problems: tuple[Problem, ...] = ()
    left: int | None = None
    conflicts: tuple[str, ...] = ()
    withdrawn: bool = False

    @property
    def name(self) -> str:
        """What the van calls it."""
        return str(self.body.get("name", ""))


def add_stock(given: Given, body: Row, *, token: str | None = None) -> str:
    """Put a kind of sensor on the list, and return its id.

    Parameters
    ----------
    given
        Store, ids, clock.
    body
        ``name``, ``count``, ``note``, and the tables ``sensor``, ``build``, ``pins``.
    token
        Id of the fact that this makes; the same one again adds nothing.

    Raises
    ------
    RecordError
        ``van-name-missing`` or ``van-count-wrong``.
    VisitFileError
        Something cannot be read; `problems` says which key and why.
    """
    told = _told(body)
    _refuse_unread(told)
    with given.writing() as work:
        place = slot(work, given.ids, () if token is None else work.facts(about=token), token)
        if place.already is not None:
            return place.already.about
        work.add([given.pen(work).fact(STOCK_KIND, told, id_=place.id)])
        work.commit()
        return place.id


def set_stock(given: Given, stock: str, body: Row, *, token: str | None = None) -> None:
    """Put a line of the list right; a key that is left out keeps its value, an empty one becomes unknown.

    Raises
    ------
    NotFoundError
        There is no such line.
    RecordError, VisitFileError
        As `add_stock`.
    """
    with given.writing() as work:
        now = line_of(work, stock)
        before = _left(now, _fitted(work))
        count = body.get("count", before)
        counted = [each.about for each in _fitted(work) if each.body.get("stock") == stock] if count != before else None

        def change(old: Row) -> dict[str, Any]:
            tables = {name: {**_table(old, name), **_table(body, name)} for name in TABLES}
            own = {key: value for key, value in body.items() if key not in TABLES and key != "count"}
            recounted = {} if counted is None else {"count": count, "counted": counted}
            return _told({**old, **own, **tables, **recounted})

        _refuse_unread(change(now.body))
        keep_changed(given, work, stock, change, token)


def withdraw_stock(given: Given, stock: str, *, back: bool = False, token: str | None = None) -> None:
    """Take a line off the list, or put it back; what was fitted stays on record.

    Raises
    ------
    NotFoundError
        There is no such line.
    """
    with given.writing() as work:
        line_of(work, stock)
        keep_changed(given, work, stock, lambda old: said({**old, "withdrawn": None if back else True}), token)


def stock_on_van(given: Given) -> tuple[StockSeen, ...]:
    """Return what is on the list, by name."""
    with given.reading() as work:
        cards = work.entities(STOCK_KIND, limit=MOST)
        gone = work.purged(card.about for card in cards)
        fitted = _fitted(work)
        every = [_seen(entity(work, card.about), fitted) for card in cards if card.about not in gone]
    return tuple(each for each in every if not each.withdrawn)


def stock_page(given: Given, stock: str) -> StockSeen:
    """Return one line of the list.

    Raises
    ------
    NotFoundError
        There is no such line.
    """
    with given.reading() as work:
        return _seen(line_of(work, stock), _fitted(work))


def line_of(work: UnitOfWork, stock: str) -> Entity:
    """Return one line of the list as it stands.

    Raises
    ------
    NotFoundError
        There is no such line.
    """
    found = entity(work, stock)
    if found.kind != STOCK_KIND:
        raise NotFoundError(message("van-not-stock", got=stock))
    return found


def _fitted(work: UnitOfWork) -> tuple[Entity, ...]:
    """Return everything that was fitted from the van and not taken out again."""
    facts = work.facts(kind=FITTED_KIND)
    gone = targets_among(work, facts)
    every = entities_of(fact for fact in facts if not gone & {fact.id, fact.about, fact.visit})
    return tuple(each for each in every if not each.body.get("withdrawn"))


def _left(stock: Entity, fitted: Iterable[Entity]) -> int | None:
    count, counted = stock.body.get("count"), stock.body.get("counted", ())
    if not isinstance(count, int):
        return None
    since = [each for each in fitted if each.body.get("stock") == stock.about and each.about not in counted]
    return max(0, count - len(since))


def _seen(stock: Entity, fitted: Iterable[Entity]) -> StockSeen:
    sensor, problems = read_stock(stock.body)
    return StockSeen(
        id=stock.about, body=stock.body, sensor=sensor, left=_left(stock, fitted), conflicts=tuple(stock.conflicts),
        problems=tuple(Problem(why, spelled(path), None) for path, why in problems),
        withdrawn=bool(stock.body.get("withdrawn")),
    )  # fmt: skip


def _table(body: Row, name: str) -> Row:
    found = body.get(name)
    return found if isinstance(found, Mapping) else {}


def _told(body: Row) -> dict[str, Any]:
    """Return a body without what says nothing.

    Raises
    ------
    RecordError
        It has no name, or a count that is none.
    """
    name = " ".join(str(body.get("name") or "").split())
    if not name:
        raise RecordError(message("van-name-missing"))
    count = body.get("count")
    if count is not None and (isinstance(count, bool) or not isinstance(count, int) or count < 0):
        raise RecordError(message("van-count-wrong", got=str(count)[:20]))
    tables = {table: said(_table(body, table)) for table in TABLES}
    return said({**body, **tables, "name": name, "count": count})


def _refuse_unread(body: Row) -> None:
    _, found = read_stock(body)
    if found:
        problems = tuple(Problem(why, spelled(path), None) for path, why in found)
        raise VisitFileError(message("entry-refused", problems=len(problems)), problems)
