"""Makes the record of a visit from the values of a file's tables, once nothing in them is wrong.

Rules
-----
1. Pressures are read and written in the unit in which the file spells the sensor's range; of an absolute unit it is
   the gauge pressure's (``bara`` is read as ``bar``).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.loop.vocabulary import ARRANGEMENTS
from steadyhead.quantities import parse_range_quantities
from steadyhead.visit.keys import (
    ACTION,
    CABLE,
    CLOSED,
    COMPLAINT,
    CONTROLLER,
    DECLINED,
    FITTING,
    FORMER,
    GAUGE,
    METER,
    PLACE,
    READING,
    SENSOR,
    SITE,
    Table,
)
from steadyhead.visit.record import (
    Action,
    Cable,
    Closed,
    Complaint,
    Controller,
    Declined,
    Figure,
    Fitting,
    Former,
    Gauge,
    Instruments,
    Place,
    Reading,
    Sensor,
    Site,
    Visit,
)
from steadyhead.visit.walk import Row, Walked

#: Gauge unit of the two absolute units that have a spelling of their own; the others end in `` abs``.
_GAUGE_UNITS = {"psia": "psi", "bara": "bar"}


def build(walked: Walked) -> Visit:
    """Return the visit that sound tables say."""
    tables = walked.tables
    readings = tuple(_reading(number, row) for number, row in enumerate(tables["reading"], start=1))
    absolute = tables["sensor"].get("reference") == "absolute"
    unit = pressure_unit_of(walked.raw["sensor"]["range"], absolute=absolute)
    return Visit(
        sensor=Sensor(**{name: value for name, value in _named(SENSOR, tables["sensor"]).items() if name != "wires"}),
        site=Site(**_named(SITE, tables["site"])),
        cable=Cable(**_named(CABLE, tables["cable"])),
        controller=Controller(**_named(CONTROLLER, tables["controller"])),
        fitting=Fitting(**_named(FITTING, tables["fitting"])),
        place=Place(**_named(PLACE, tables["place"])),
        instruments=_instruments(tables["instruments"]),
        labels=dict(tables["labels"]),
        complaint=Complaint(**_named(COMPLAINT, tables["complaint"])),
        former=Former(**_named(FORMER, tables["former"])),
        readings=readings,
        declined=tuple(Declined(**_named(DECLINED, row)) for row in tables["declined"]),
        actions=tuple(Action(**{"after_reading": len(readings), **_named(ACTION, row)}) for row in tables["action"]),
        closed=Closed(**_named(CLOSED, tables["closed"])),
        pressure_unit=unit,
        plate_unit=unit,
        dial_unit=unit_spelled(walked.raw, "instruments", "gauge", "range"),
        set_unit=unit_spelled(walked.raw, "controller", "scaled", absolute=absolute),
    )


def unit_spelled(raw: Mapping[str, Any], *path: str, absolute: bool = False) -> str:
    """Return the unit of gauge pressure in which tables spell a range that can be read; empty where they have none.

    >>> unit_spelled({"instruments": {"gauge": {"range": "0..160 psi"}}}, "instruments", "gauge", "range")
    'psi'
    """
    found: Any = raw
    for key in path:
        found = found.get(key) if isinstance(found, Mapping) else None
    return pressure_unit_of(found, absolute=absolute) if isinstance(found, str) else ""


def pressure_unit_of(range_: str, *, absolute: bool) -> str:
    """Return the unit of gauge pressure in which a range is spelled."""
    _, last = parse_range_quantities(range_, "absolute-pressure" if absolute else "pressure")
    return _GAUGE_UNITS.get(last.unit, last.unit.removesuffix(" abs"))


def _named(table: Table, row: Row) -> dict[str, Any]:
    """Return a row's values under their names in the record."""
    return {key.attribute: row[key.name] for key in table.keys if key.name in row}


def _instruments(row: Row) -> Instruments:
    gauge = Gauge(**_named(GAUGE, row["gauge"])) if "gauge" in row else None
    return Instruments(gauge=gauge, have=row.get("have"), **_named(METER, row.get("meter", {})))


def _reading(number: int, row: Row) -> Reading:
    values = _named(READING, row)
    arrangement = values.get("arrangement", "connected")
    if "value" not in values:
        values["value"] = Figure(values["from_pa"] - values["to_pa"], "Pa")
    return Reading(**{"number": number, "drive": ARRANGEMENTS[arrangement].drive, **values})
