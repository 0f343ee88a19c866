"""The facts that a visit file says: how a file that somebody wrote by hand comes into the record.

Rules
-----
1. Every value goes in as it was written; what comes out again (`steadyhead.visit.from_facts`) is the same visit.
2. Each reading, each declined check and each action is a fact of its own, in the order of the file.
3. A gauge and a meter are instruments; the visit names them.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.visit.fact_kinds import GAUGE_KIND, METER_KIND, OPEN, STATES, SYSTEM_TABLES
from steadyhead.visit.facts import Fact
from steadyhead.visit.pen import Pen
from steadyhead.visit.tables import plain


def facts_of_tables(tables: Mapping[str, Any], pen: Pen) -> tuple[Fact, ...]:
    """Return the facts that the tables of a sound visit file say, the visit's own first.

    Parameters
    ----------
    tables
        The tables as the file has them, such as `tomllib` returns.
    pen
        Who writes the facts.
    """
    told = plain(tables)
    visit, system = pen.new_id(""), pen.new_id("")
    site = [pen.fact("site", told["site"])] if told.get("site") else []
    where = {"site": site[0].id} if site else {}
    instruments = _instruments(told.get("instruments", {}), pen)
    body = {
        "system": system,
        **where,
        **{key: told[key] for key in ("complaint", "former") if told.get(key)},
        **({"have": told["instruments"]["have"]} if "have" in told.get("instruments", {}) else {}),
        **({"instruments": [fact.id for fact in instruments]} if instruments else {}),
        "state": STATES[1] if told.get("closed", {}).get("fault") else OPEN,
    }
    name = told.get("site", {}).get("name")
    plates = {table.name: told[table.name] for table in SYSTEM_TABLES if told.get(table.name)}
    first = (
        pen.fact("visit", body, id_=visit, visit=visit),
        pen.fact("system", {**({"name": name} if name else {}), **where, **plates}, id_=system),
    )
    return (*first, *site, *instruments, *_rows(told, visit, pen))


def _instruments(table: Mapping[str, Any], pen: Pen) -> list[Fact]:
    kinds = (("gauge", GAUGE_KIND), ("meter", METER_KIND))
    return [pen.fact("instrument", {"kind": kind, **table[name]}) for name, kind in kinds if table.get(name)]


def _rows(told: Mapping[str, Any], visit: str, pen: Pen) -> list[Fact]:
    readings = [pen.fact("reading", row, visit=visit) for row in told.get("reading", [])]
    ids = [fact.id for fact in readings]
    found = [*readings, *(pen.fact("declined", row, visit=visit) for row in told.get("declined", []))]
    for row in told.get("action", []):
        after = ids[: row.get("after_reading", len(ids))]
        found.append(pen.fact("action", {"remedy": row["remedy"], "after": after}, visit=visit))
    if told.get("closed"):
        found.append(pen.fact("finding", told["closed"], visit=visit))
    return found
