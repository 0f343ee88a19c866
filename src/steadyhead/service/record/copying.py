"""Use case: what is unknown of a system is copied from a similar one; what is known stays, the history tells whence.

Rules
-----
1. What two systems of one kind share is copied: the sensor's plate, how it is fitted, the cable, the controller, the
   place, the labels. Never the name, the site, who depends on the water, the way in, a serial number, readings, photos.
2. Only what is unknown here is filled. What two devices disagree on is neither unknown here nor known there.
3. All of it is one fact, which names its source: putting that change back takes all of it out again.
4. What would not be read back together with what is known here (a scale that the signal forbids) is refused as a whole.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.errors import RecordError
from steadyhead.messages import message
from steadyhead.service.record.changing import changed
from steadyhead.service.record.given import Given
from steadyhead.service.record.system_changes import COPIED_FROM
from steadyhead.service.record.systems import refuse_tables
from steadyhead.service.record.tokens import Slot, slot
from steadyhead.service.record.whole import entity, said
from steadyhead.visit.fact_kinds import SYSTEM_TABLES
from steadyhead.visit.heads import Entity
from steadyhead.visit.tables import known_only

Row = Mapping[str, Any]
#: Keys of those tables that belong to one piece alone.
NEVER = frozenset(("serial",))


def would_copy(given: Given, system: str, source: str) -> dict[str, dict[str, Any]]:
    """Return what copying would fill, table by table.

    Raises
    ------
    NotFoundError
        There is no such system.
    """
    with given.reading() as work:
        return _lacking(entity(work, system), entity(work, source))


def copy_system(given: Given, system: str, source: str, *, token: str | None = None) -> int:
    """Fill what is unknown of a system from another one, and return how many keys were filled.

    Parameters
    ----------
    given
        Store, ids, clock.
    system
        The system that is filled.
    source
        The one that is like it.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such system.
    RecordError
        The other one knows nothing that is unknown here.
    VisitFileError
        Something of it cannot stand beside what is known here.
    """
    with given.writing() as work:
        now = entity(work, system)
        place = slot(work, given.ids, now.history, token)
        if place.already is not None:
            return 0
        filled = _lacking(now, entity(work, source))
        if not filled:
            raise RecordError(message("copy-nothing"))

        def change(body: Row) -> dict[str, Any]:
            return said({**body, **{table: {**row, **_table(body, table)} for table, row in filled.items()}})

        after = change(now.body)
        tables = {table.name: known_only(_table(after, table.name), table) for table in SYSTEM_TABLES}
        refuse_tables({name: row for name, row in tables.items() if row})
        where = Slot(place.id, {**place.extra, COPIED_FROM: source})
        work.add(changed(now, change, given.pen(work), where))
        work.commit()
        return sum(map(len, filled.values()))


def _lacking(here: Entity, there: Entity) -> dict[str, dict[str, Any]]:
    """Return what is known there and unknown here, table by table."""
    found = {}
    for table in (each.name for each in SYSTEM_TABLES):
        known = _table(here.body, table)
        row = {
            key: value
            for key, value in _table(there.body, table).items()
            if key not in known and key not in NEVER and f"{table}.{key}" not in here.conflicts
        }
        if row and here.about != there.about:
            found[table] = row
    return found


def _table(body: Row, name: str) -> Row:
    found = body.get(name)
    return found if isinstance(found, Mapping) else {}
