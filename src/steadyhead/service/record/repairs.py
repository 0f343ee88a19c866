"""Use cases: a repair with all that is said of it, corrected with its history; and that the fault came back after it.

Rules
-----
1. A repair is its remedy; where it was, which parts it took and who said yes to it may be said at once, later or never.
2. A part is told by what it is, its serial number and the serial number of the one that it replaced; any of them may be
   unknown, and a part of which nothing is said is none.
3. Where the fault came back, the repair stays in the record and proves nothing any more: the search goes on.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from steadyhead.errors import NotFoundError, RecordError
from steadyhead.messages import message
from steadyhead.service.record.changing import changed
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.views import Beside
from steadyhead.service.record.whole import facts_of_visit, refuse_unread, said, told
from steadyhead.visit.fact_kinds import PART
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.heads import Entity
from steadyhead.visit.kinds import LONGEST_TEXT

Row = Mapping[str, Any]
PART_KEYS = tuple(key.name for key in PART)
TEXTS = ("place", "done", "authorised", "quoted")
#: Parts of one repair: what a form can send with all that is said of them.
MOST_PARTS = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairSeen:
    """A repair as it stands, and what was said of it before; `conflict` where two devices disagree on it."""

    id: str
    body: Row
    at: str
    author: str
    history: Sequence[Beside] = ()
    conflict: Row = field(default_factory=dict)


def details_of(texts: Row, parts: Sequence[Row], *, tugged: bool = False) -> dict[str, Any]:
    """Return what is said of a repair, as its fact's body has it; what says nothing is left out.

    Parameters
    ----------
    texts
        Of `TEXTS`.
    parts
        Each with `PART_KEYS`.
    tugged
        Whether every wire that was landed again was tugged and marked.

    Raises
    ------
    RecordError
        ``text-too-long``, ``repair-many-parts``.

    Examples
    --------
    >>> details_of({"place": "plug", "done": " "}, [{"part": "plug", "serial": ""}, {"part": ""}], tugged=True)
    {'place': 'plug', 'parts': [{'part': 'plug'}], 'tugged': True}
    """
    plain = {key: _line(texts.get(key, "")) for key in TEXTS}
    told_of = [said({key: _line(part.get(key, "")) for key in PART_KEYS}) for part in parts]
    fitted = [part for part in told_of if part]
    if len(fitted) > MOST_PARTS:
        raise RecordError(message("repair-many-parts", got=len(fitted), most=MOST_PARTS))
    return said({**plain, "parts": fitted, **({"tugged": True} if tugged else {})})


def _line(text: object) -> str:
    line = " ".join(str(text).split())
    if len(line) > LONGEST_TEXT:
        raise RecordError(message("text-too-long", got=line[:40], length=len(line), most=LONGEST_TEXT))
    return line


def repair_page(given: Given, visit: str, repair: str) -> RepairSeen:
    """Return a repair as it stands.

    Raises
    ------
    NotFoundError
        There is no such visit, or no such repair in it.
    """
    with given.reading() as work:
        found = _repair(told(work, visit), repair)
    heads = {fact.id for fact in found.heads}
    earlier = [fact for fact in found.history if fact.id not in heads]
    return RepairSeen(
        id=repair,
        body={**found.head.body, **found.body},
        at=found.first.at,
        author=found.first.author,
        history=tuple(Beside(id=f.id, body=f.body, at=f.at, author=f.author) for f in earlier),
        conflict=found.conflicts,
    )


def correct_repair(given: Given, visit: str, repair: str, details: Row, *, token: str | None = None) -> None:
    """Keep other details of a repair instead of those that it has; its remedy and its place among the readings stay.

    Flags that `details` does not name stay too: that it came back, that it was taken out.

    Raises
    ------
    NotFoundError
        There is no such visit, or no such repair in it.
    """
    with given.writing() as work:
        now = told(work, visit)
        found = _repair(now, repair)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return
        own = {*TEXTS, "parts", "tugged"}
        new = changed(found, lambda body: {**_but(body, own), **details}, given.pen(work), place)
        refuse_unread(work, visit, new)
        work.add(new)
        work.commit()


def _but(body: Row, keys: set[str]) -> dict[str, Any]:
    return {key: value for key, value in body.items() if key not in keys}


def _repair(now: ToldVisit, repair: str) -> Entity:
    found = now.entities.get(repair)
    if found is None or found.kind != "action" or found.first.visit != now.id or found.purged:
        raise NotFoundError(message("repair-not-here", got=repair))
    return found
