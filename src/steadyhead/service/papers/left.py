"""Pieces on how a visit was left: why one came, what was mended with its parts, how it ended, what comes back.

Rules
-----
1. Only a person's own words stand in quotation marks: what was tapped is told as what was seen.
2. Of a repair the customer's paper tells the parts; the others tell where, who said yes, at what, and whether it held.
3. Of an ending stands what was said of it, whatever paper it is: who declined what, what is off, what is to be noted.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from steadyhead.documents.paper import Block, Bullets, Line
from steadyhead.messages import Message, message
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.record.views import Beside
from steadyhead.visit.fact_kinds import FOLLOW_UPS, MENDED_AT, NOTES, OFF
from steadyhead.visit.remedies import REMEDIES


def called_for(seen: Occasion, quote: str = "paper-called") -> Line:
    """Return why one was called; nothing where nobody said it and nothing was tapped that tells."""
    text = seen.visit.complaint.text or ""
    if not text:
        return ()
    if text == seen.tapped:
        return (message("paper-seen", text=text),)
    return (message("paper-quote" if quote == "paper-quote" else "paper-called", text=text),)


def done_for_customer(seen: Occasion) -> tuple[Line, ...]:
    """Return what was done, with the parts that were fitted."""
    return tuple(
        (message("paper-done", remedy=action.remedy), *(_parts(repair.body) if repair else ()))
        for action, repair in zip(seen.visit.actions, _counted(seen), strict=True)
    )


def repair_lines(seen: Occasion) -> tuple[Line, ...]:
    """Return what was done, and after which reading, with all that is said of it; what did not hold comes last."""
    done = [
        (
            message("paper-done", remedy=action.remedy),
            message("paper-after", after=action.after_reading),
            *(_details(repair.body) if repair else ()),
        )
        for action, repair in zip(seen.visit.actions, _counted(seen), strict=True)
    ]
    return (*done, *(_undone(each) for each in seen.repairs if _is_undone(each)))


def _counted(seen: Occasion) -> list[Beside | None]:
    """Return the repairs behind the engine's, one each; None where a visit file knows no more of them."""
    counted = [each for each in seen.repairs if not _is_undone(each) and each.body.get("remedy")]
    if [each.body["remedy"] for each in counted] != [action.remedy for action in seen.visit.actions]:
        return [None] * len(seen.visit.actions)
    return list(counted)


def _is_undone(each: Beside) -> bool:
    return bool(each.body.get("came_back") or each.body.get("withdrawn"))


def _undone(each: Beside) -> Line:
    state = "withdrawn" if each.body.get("withdrawn") else "came_back"
    remedy = str(each.body.get("remedy", ""))
    head = message("paper-done", remedy=remedy) if remedy in REMEDIES else message("paper-as-written", text=remedy)
    return (head, *_details(each.body), message("paper-repair-undone", undone=state))


def _details(body: Mapping[str, Any]) -> Iterator[Message]:
    """Yield what is said of a repair."""
    place = str(body.get("place") or "")
    if place:
        yield message("paper-repair-at", where=place) if place in MENDED_AT else message("paper-why", text=place)
    if body.get("done"):
        yield message("paper-quote", text=str(body["done"]))
    yield from _parts(body)
    if body.get("tugged"):
        yield message("paper-repair-tugged")
    if body.get("authorised"):
        yield message("paper-repair-authorised", text=str(body["authorised"]))
    if body.get("quoted"):
        yield message("paper-repair-quoted", text=str(body["quoted"]))


def _parts(body: Mapping[str, Any]) -> Iterator[Message]:
    """Yield the parts that were fitted, with their serial numbers."""
    for part in body.get("parts") or ():
        name, serial, old = (str(part.get(key) or "") for key in ("part", "serial", "old"))
        if name:
            yield message("paper-repair-part", text=name)
        if serial:
            yield message("paper-repair-serial", text=serial)
        if old:
            yield message("paper-repair-old", text=old)


def ending_blocks(seen: Occasion, *, customer: bool = False) -> Iterator[Block]:
    """Yield what was said of how it ended, what the night told, and what comes back; nothing where nothing was.

    What is to be looked at next is not for the customer.
    """
    lines = [*_ending(seen.ending), *_night(seen, customer=customer), *_waits(seen)]
    if lines:
        yield Bullets(lines=tuple(lines))


def _ending(ending: Mapping[str, Any]) -> Iterator[Line]:
    off = tuple(str(each) for each in ending.get("off") or () if each in OFF)
    notes = tuple(str(each) for each in ending.get("notes") or () if each in NOTES)
    if off:
        yield (message("paper-ending-off", things=off), *((message("ending-locked"),) if ending.get("locked") else ()))
    if ending.get("by"):
        yield (message("paper-ending-by", text=str(ending["by"])),)
    if ending.get("offered"):
        yield (message("paper-ending-offered", text=str(ending["offered"])),)
    if ending.get("risk_told"):
        yield (message("ending-risk-told"),)
    if ending.get("told"):
        yield (message("paper-ending-told", text=str(ending["told"])),)
    if notes:
        yield (message("paper-ending-notes", notes=notes),)
    if ending.get("note"):
        yield (message("paper-quote", text=str(ending["note"])),)


def _night(seen: Occasion, *, customer: bool) -> Iterator[Line]:
    if seen.told is not None:
        yield tuple(each for each in seen.told.says if not (customer and each.id.endswith("-then")))


def _waits(seen: Occasion) -> Iterator[Line]:
    for each in seen.waits:
        kind, due, what = (str(each.get(key) or "") for key in ("kind", "due", "what"))
        if kind in FOLLOW_UPS:
            more = (message("paper-why", text=what),) if what else ()
            yield (message("paper-comes-back", follow_up=kind, due=due), *more)
