"""Use cases that list what the program knows: faults, checks, published tables, each as JSON values."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.diagnosis.cautions import drive_state
from steadyhead.diagnosis.checks import METER
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.inspections import INSPECTIONS
from steadyhead.diagnosis.observing import Question
from steadyhead.errors import UnknownWordError
from steadyhead.loop.faults import FAULTS, Fault
from steadyhead.loop.vocabulary import ARRANGEMENTS, Arrangement
from steadyhead.messages import message
from steadyhead.published.catalogue import TABLES
from steadyhead.published.source import Source, Table
from steadyhead.words import Speaker


def faults_json(speaker: Speaker, estimates: Estimates = SHIPPED) -> list[dict[str, Any]]:
    """Return every fault of the loop, family by family, the commonest family first."""
    calls = estimates.families
    families = sorted({fault.family for fault in FAULTS}, key=lambda family: (-calls[family], family))
    return [_fault(fault, speaker, calls) for family in families for fault in FAULTS if fault.family == family]


def _fault(fault: Fault, speaker: Speaker, calls: Mapping[str, float]) -> dict[str, Any]:
    return {
        "fault": fault.id,
        "name": speaker.name("fault", fault.id),
        "looks": speaker.name("look", fault.id),
        "remedy": fault.remedy,
        "remedy_name": speaker.name("remedy", fault.remedy),
        "family": fault.family,
        "family_name": speaker.name("family", fault.family),
        "family_per_100_calls": calls[fault.family],
        "wires": list(fault.wires),
    }


def checks_json(speaker: Speaker, estimates: Estimates = SHIPPED) -> list[dict[str, Any]]:
    """Return every way of checking the loop: hook-ups, then what is read with the covers on, then looks."""
    ways = [_way(way, speaker, estimates) for way in ARRANGEMENTS.values() if not way.water_side]
    free = [_free(measure, spent, speaker) for measure, spent in estimates.readings.items() if measure != METER]
    return [*ways, *free, *(_look(item, speaker, estimates) for item in INSPECTIONS)]


def _way(way: Arrangement, speaker: Speaker, estimates: Estimates) -> dict[str, Any]:
    drive = drive_state(Question("volts", way.id))
    minutes = estimates.arrangements[way.id] + estimates.readings[METER]
    return _row("arrangement", way.id, speaker.name("arrangement", way.id), (minutes, drive, list(way.needs)))


def _free(measure: str, spent: float, speaker: Speaker) -> dict[str, Any]:
    needs = ["gauge"] if measure == "gauge-pressure" else []
    return _row("measure", measure, speaker.name("measure", measure), (spent, "auto", needs))


def _look(item: str, speaker: Speaker, estimates: Estimates) -> dict[str, Any]:
    drive = drive_state(Question("inspection", item=item))
    return _row("item", item, speaker.name("item", item), (estimates.inspections[item], drive, []))


def _row(kind: str, id_: str, name: str, rest: tuple[float, str, list[str]]) -> dict[str, Any]:
    minutes, drive, needs = rest
    return {"kind": kind, "id": id_, "name": name, "minutes": minutes, "drive": drive, "needs_one_of": needs}


def tables_json() -> list[dict[str, Any]]:
    """Return every published table, without its rows."""
    return [{"table": table.id, "title": table.title, "rows": len(table.rows)} for table in TABLES]


def table_named(name: str) -> Table:
    """Return a published table.

    Raises
    ------
    UnknownWordError
        ``table-name-unknown``.
    """
    found = next((table for table in TABLES if table.id == name), None)
    if found is None:
        raise UnknownWordError(message("table-name-unknown", got=name, must_be=tuple(table.id for table in TABLES)))
    return found


def table_json(table: Table) -> dict[str, Any]:
    """Return a published table whole, with its sources and what it may be asked."""
    return {
        "table": table.id,
        "title": table.title,
        "columns": list(table.columns),
        "rows": [list(row) for row in table.rows],
        "note": table.note,
        "valid": [
            {"quantity": valid.quantity, "low": valid.low, "high": valid.high, "unit": valid.unit}
            for valid in table.valid
        ],
        "sources": [source_json(source) for source in table.sources],
    }


def source_json(source: Source) -> dict[str, Any]:
    """Return where a number is printed."""
    return {"cite": source.cite, "locator": source.locator, "seen": source.seen, "via": source.via}
