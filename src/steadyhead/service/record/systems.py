"""Use cases: what is known of a system and its site; a key that is left out keeps its value."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.errors import Problem, VisitFileError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.changing import Change, changed
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.whole import entity, said
from steadyhead.visit.fact_kinds import SYSTEM_TABLES
from steadyhead.visit.from_facts import USUAL_PLATE
from steadyhead.visit.keys import SITE
from steadyhead.visit.tables import known_only, read_tables
from steadyhead.visit.walk import spelled

Row = Mapping[str, Any]


def set_system(
    given: Given, system: str, tables: Mapping[str, Row], *, name: str | None = None, token: str | None = None
) -> None:
    """Keep what is known of a system: its plate, cable, controller, place and labels.

    Parameters
    ----------
    given
        Store, ids, clock.
    system
        The system.
    tables
        Tables of a visit file, in part; a key that is empty becomes unknown.
    name
        What it is called; None leaves that as it is.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such system.
    VisitFileError
        Something cannot be read; `problems` says which key and why.
    """
    with given.writing() as work:
        named = {} if name is None else {"name": " ".join(name.split())}

        def change(body: Row) -> dict[str, Any]:
            rows = {table: said({**_table(body.get(table)), **row}) for table, row in tables.items()}
            return said({**body, **rows, **named})

        after = change(entity(work, system).body)
        refuse_tables({table: row for table, row in _tables_of(after).items() if row})
        keep_changed(given, work, system, change, token)


def set_labels(given: Given, system: str, labels: Mapping[str, str], *, token: str | None = None) -> None:
    """Keep what this panel and this plug call each point; an empty one is unknown.

    Raises
    ------
    NotFoundError
        There is no such system.
    VisitFileError
        There is no such point.
    """
    set_system(given, system, {"labels": labels}, token=token)


def set_site(given: Given, system: str, site: Row, *, token: str | None = None) -> str:
    """Keep where a system stands, and return the site's id.

    Raises
    ------
    NotFoundError
        There is no such system.
    VisitFileError
        Something cannot be read.
    """
    with given.writing() as work:
        now = entity(work, system)
        known = now.body.get("site")
        before = entity(work, str(known)).body if known else {}
        refuse_tables({"site": known_only(said({**before, **site}), SITE)})
        if known:
            keep_changed(given, work, str(known), lambda body: said({**body, **site}), token)
            return str(known)
        place = slot(work, given.ids, now.history, token)
        if place.already is not None:
            return str(now.body.get("site", place.already.about))
        new = given.pen(work).fact("site", said(site), after=place.id)
        work.add([new])
        keep_changed(given, work, system, lambda body: {**body, "site": new.id}, token)
        return new.id


def keep_changed(given: Given, work: UnitOfWork, about: str, change: Change, token: str | None) -> None:
    """Keep a change of an entity; the same form again changes nothing."""
    now = entity(work, about)
    place = slot(work, given.ids, now.history, token)
    if place.already is None:
        work.add(changed(now, change, given.pen(work), place))
        work.commit()


def _table(value: object) -> Row:
    return value if isinstance(value, Mapping) else {}


def _tables_of(body: Row) -> dict[str, Row]:
    return {table.name: known_only(_table(body.get(table.name)), table) for table in SYSTEM_TABLES}


def refuse_tables(tables: Mapping[str, Row]) -> None:
    """Pass over tables that can be read back.

    Raises
    ------
    VisitFileError
        Something in them cannot.
    """
    _, found = read_tables({**tables, "sensor": {**USUAL_PLATE, **tables.get("sensor", {})}})
    if found:
        problems = tuple(Problem(why, spelled(path), None) for path, why in found)
        raise VisitFileError(message("entry-refused", problems=len(problems)), problems)
