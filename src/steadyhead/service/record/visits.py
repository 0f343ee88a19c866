"""Use cases: begin a visit, say what was said, end it.

Rules
-----
1. A visit begins with what three taps give: a complaint, and the kind of signal and its range, or neither. A plate that
   nobody read is assumed to be the commonest (`steadyhead.visit.from_facts.USUAL_PLATE`) until somebody reads it.
2. A visit that ends names the facts of the system that held then, so that a later part does not change what it found.
3. A visit begins with the instruments that are on the van, and may say otherwise.
4. A visit may end proved, night pending, watching, left temporary, made safe, declined; and be opened again: then
   nothing is said of an ending any more.
5. What the system's visit before left open goes along (`steadyhead.service.record.left_open`), and counts until
   somebody says that it does not.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.changing import changed
from steadyhead.service.record.given import Given
from steadyhead.service.record.instruments import taken_along
from steadyhead.service.record.left_open import former_of
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.whole import entity, facts_of_visit, refuse_unread, said, told
from steadyhead.visit.fact_kinds import OPEN, STATES
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import ToldVisit
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.pen import Pen

Row = Mapping[str, Any]
#: What else is written where a visit changes, given the visit as it stands, who writes, and the last id so far.
Also = Callable[[ToldVisit, Pen, str], list[Fact]]


def start_visit(
    given: Given,
    complaint: Row,
    *,
    system: str | None = None,
    sensor: Row | None = None,
    name: str = "",
    tapped: str = "",
    token: str | None = None,
) -> str:
    """Begin a visit, and return its id.

    Parameters
    ----------
    given
        Store, ids, clock.
    complaint
        The keys of ``[complaint]``; may be empty.
    system
        A known system; None for a new one.
    sensor
        The keys of ``[sensor]`` of a new system; empty or None where nobody read the plate.
    name
        What a new system is called.
    tapped
        What was tapped to begin it, as the page had it; a complaint that says just that is nobody's words.
    token
        Id of the visit's first fact; the same one again begins nothing new.

    Raises
    ------
    NotFoundError
        There is no such system.
    VisitFileError
        Complaint or plate cannot be read.
    """
    with given.writing() as work:
        place = slot(work, given.ids, () if token is None else work.facts(visit=token), token)
        if place.already is not None:
            return place.already.about
        pen = given.pen(work)
        first = [] if system is not None else [_new_system(pen, place.id, sensor or {}, name)]
        about = system if system is not None else first[0].id
        where = {} if system is None else _where(work, system)
        body = {"system": about, **where, **_along(work), "complaint": said(complaint), "state": OPEN}
        body |= said({"tapped": tapped, "former": former_of(given, work, system) if system is not None else {}})
        visit = pen.fact("visit", body, id_=place.id, visit=place.id, extra=place.extra)
        work.add([*first, visit])
        refuse_unread(work, place.id, [*first, visit])
        work.commit()
        return place.id


def _new_system(pen: Pen, after: str, sensor: Row, name: str) -> Fact:
    return pen.fact("system", said({"name": " ".join(name.split()), "sensor": said(sensor)}), after=after)


def _along(work: UnitOfWork) -> dict[str, Any]:
    """Return what the van brings: the gauge and the meter, and what else is at hand."""
    van = taken_along(work)
    have = {} if van.have is None else {"have": list(van.have)}
    return {**({"instruments": list(van.instruments)} if van.instruments else {}), **have}


def _where(work: UnitOfWork, system: str) -> dict[str, str]:
    site = entity(work, system).body.get("site")
    return {"site": str(site)} if site else {}


def set_complaint(given: Given, visit: str, complaint: Row, *, token: str | None = None) -> None:
    """Keep what was said before a screw was turned.

    Raises
    ------
    NotFoundError
        There is no such visit.
    VisitFileError
        It cannot be read.
    """
    _change(given, visit, {"complaint": said(complaint)}, token)


def count_former(given: Given, visit: str, *, counts: bool, token: str | None = None) -> None:
    """Keep whether what the visit before left open counts in this one; where nothing is, nothing changes.

    Raises
    ------
    NotFoundError
        There is no such visit.
    """
    with given.reading() as work:
        former = told(work, visit).entities[visit].body.get("former")
    if isinstance(former, Mapping):
        kept = {key: value for key, value in former.items() if key != "counts"}
        _change(given, visit, {"former": kept if counts else {**kept, "counts": False}}, token)


def set_instruments(
    given: Given, visit: str, instruments: tuple[str, ...], have: tuple[str, ...] | None, *, token: str | None = None
) -> None:
    """Keep which gauge and meter are used, and what else is at hand; None for `have` means that nobody said.

    Raises
    ------
    NotFoundError
        There is no such visit.
    VisitFileError
        There is no such instrument's word.
    """
    _change(given, visit, {"instruments": list(instruments), "have": None if have is None else list(have)}, token)


def end_visit(
    given: Given,
    visit: str,
    state: str,
    *,
    finding: Row | None = None,
    ending: Row | None = None,
    also: Also | None = None,
    token: str | None = None,
) -> None:
    """Keep how a visit ended, or that it is open again.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    state
        One of `steadyhead.visit.fact_kinds.STATES`.
    finding
        The keys of ``[closed]``: what was at fault, whether that was proved; None leaves what was found before.
    ending
        What is said of how it ended: keys of `steadyhead.visit.fact_kinds.ENDING`.
    also
        Makes what is written with it, in the same unit of work.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit.
    UnknownWordError
        There is no such state.
    VisitFileError
        The finding cannot be read.
    """
    if state not in STATES:
        allowed, nearest = nearest_first(state, STATES)
        raise UnknownWordError(message("word-unknown", got=shown(state), must_be=allowed, nearest=nearest))
    found = {} if state == OPEN else finding

    def beside(now: ToldVisit, pen: Pen, after: str) -> list[Fact]:
        new = _finding(now, found, pen, after)
        return [*new, *(also(now, pen, new[-1].id if new else after) if also else ())]

    _change(given, visit, {"state": state, "ending": dict(ending) if ending else None}, token, beside)


def _change(given: Given, visit: str, changes: Row, token: str | None, also: Also | None = None) -> None:
    """Keep other values of keys of the visit itself, None for a key that goes, and with them what else is written."""
    with given.writing() as work:
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return
        now = told(work, visit)
        pen = given.pen(work)

        def change(body: Row) -> dict[str, Any]:
            after = {**body, **changes}
            after["system_as"] = _as_it_stands(now) if after.get("state", OPEN) != OPEN else None
            return {key: value for key, value in after.items() if value is not None}

        new = changed(now.entities[visit], change, pen, place)
        new += also(now, pen, new[-1].id) if also else ()
        refuse_unread(work, visit, new)
        work.add(new)
        work.commit()


def _as_it_stands(now: ToldVisit) -> list[str] | None:
    system = now.entities.get(str(now.entities[now.id].body.get("system")))
    return None if system is None else list(system.replaces)


def _finding(now: ToldVisit, finding: Row | None, pen: Pen, after: str) -> list[Fact]:
    """Return the finding as a fact, in the place of earlier ones; empty where nothing is to be said."""
    earlier = [each for each in now.entities.values() if each.kind == "finding" and each.first.visit == now.id]
    if finding is None or (not finding and not earlier):
        return []
    about = earlier[0].about if earlier else None
    replaced = tuple(id_ for each in earlier[:1] for id_ in each.replaces)
    new = [pen.fact("finding", dict(finding), about=about, visit=now.id, supersedes=replaced, after=after)]
    # Two devices that both ended the visit left two findings: the new one speaks for both.
    others = [
        pen.fact("finding", dict(finding), about=other.about, visit=now.id, supersedes=other.replaces, after=after)
        for other in earlier[1:]
    ]
    return [*new, *others]
