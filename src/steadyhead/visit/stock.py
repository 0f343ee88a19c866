"""A kind of sensor on the van as a value, read from the body of its fact.

Rules
-----
1. None means that nobody noted it: unknown is normal.
2. What cannot be read is told with its key; nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from steadyhead.messages import Message
from steadyhead.visit.build import pressure_unit_of
from steadyhead.visit.layout import Layout, Path
from steadyhead.visit.record import Sensor
from steadyhead.visit.rules_of_system import volts_over_two_wires
from steadyhead.visit.stock_keys import BUILD, PINS, STOCK, STOCK_LANGUAGE, STOCK_TABLES
from steadyhead.visit.tables import Kept, known_only, plain
from steadyhead.visit.toml_text import TomlText
from steadyhead.visit.walk import TooMany, walk

Problems = tuple[tuple[Path, Message], ...]

_NOWHERE = Layout({}, {}, (), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSensor:
    """A kind of sensor on the van.

    Parameters
    ----------
    sensor
        Its plate.
    name
        What it is called.
    thread, plug
        Its thread and plug, words of `steadyhead.visit.stock_keys`.
    adapters
        Ports that it goes into by an adapter on the van.
    approval
        Standards by which it is approved for drinking water; ``("none",)`` where it has no approval.
    stands_pa
        Pressure that it stands without harm [Pa].
    pins
        Pin or colour of ``supply``, ``signal``, ``common``.
    pressure_unit
        Unit in which its range is printed.
    """

    sensor: Sensor
    name: str = ""
    thread: str | None = None
    plug: str | None = None
    adapters: tuple[str, ...] = ()
    approval: tuple[str, ...] | None = None
    stands_pa: float | None = None
    pins: Mapping[str, str] = field(default_factory=dict)
    pressure_unit: str = field(default="psi", compare=False)


def read_stock(body: Mapping[str, Any]) -> tuple[StockSensor | None, Problems]:
    """Return the sensor that a body says, or None and everything that is wrong with it; newer keys are passed over.

    Examples
    --------
    >>> found, _ = read_stock({"sensor": {"signal": "4..20 mA", "range": "0..10 bar"}, "build": {"thread": "G 1/4"}})
    >>> found.thread, found.sensor.range.high
    ('G 1/4', 1000000.0)
    >>> read_stock({"sensor": {"signal": "4..20 mA", "range": "ten bar"}})[1][0][0]
    ('sensor', 'range')
    """
    values: dict[str, Any] = {"schema": 1, STOCK.name: plain(known_only(body, STOCK))}
    values |= {table.name: plain(known_only(_table(body.get(table.name)), table)) for table in STOCK_TABLES}
    text = TomlText("", values, _NOWHERE, (), frozenset())
    findings = Kept(text)
    try:
        walked = walk(text, findings, STOCK_LANGUAGE)
        for path, told in volts_over_two_wires(walked):
            findings.add(path, told)
    except TooMany:
        return None, tuple(findings.told)
    if findings.told:
        return None, tuple(findings.told)
    tables = walked.tables
    plate = {key: value for key, value in tables["sensor"].items() if key != "wires"}
    build = {key.attribute: tables["build"][key.name] for key in BUILD.keys if key.name in tables["build"]}
    unit = pressure_unit_of(values["sensor"]["range"], absolute=plate.get("reference") == "absolute")
    pins = {key.name: tables["pins"][key.name] for key in PINS.keys if key.name in tables["pins"]}
    found = StockSensor(
        sensor=Sensor(**plate), name=str(tables["stock"].get("name", "")), pins=pins, pressure_unit=unit, **build
    )
    return found, ()


def _table(value: object) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}
