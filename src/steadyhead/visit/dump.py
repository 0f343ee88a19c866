"""Writes a visit as a new file: what a program knows becomes a text that a technician can read and go on with.

Rules
-----
1. What is at its default is left out; what is written reads back identical.
2. A figure that a person wrote keeps the person's own text.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.loop.vocabulary import ARRANGEMENTS
from steadyhead.visit.keys import GAUGE, METER, SCHEMA, SENSOR, TABLES, Key, Table
from steadyhead.visit.kinds import quoted
from steadyhead.visit.kinds_of_quantity import PressureEnds, SignalSize
from steadyhead.visit.record import Reading, Signal, Visit

_ROWS = {"reading": "readings", "declined": "declined", "action": "actions"}


def dump_visit(visit: Visit) -> str:
    """Return the text of a visit file that reads back as `visit`.

    Examples
    --------
    >>> from steadyhead.visit.record import Interval, Sensor, Signal, Visit
    >>> sensor = Sensor(signal=Signal(kind="current", low=0.004, high=0.02, wires=2), range=Interval(0.0, 1e6))
    >>> print(dump_visit(Visit(sensor=sensor)), end="")
    schema = 1
    <BLANKLINE>
    [sensor]
    signal = "4..20 mA"
    range = "0..10 bar"
    """
    blocks = [f"schema = {SCHEMA}\n"]
    for table in TABLES:
        blocks += [f"{table.title}\n" + "".join(f"{line}\n" for line in lines) for lines in _blocks(visit, table)]
    return "\n".join(blocks)


def _blocks(visit: Visit, table: Table) -> Iterator[list[str]]:
    """Return the lines of each row of a table that has something to say."""
    if table.rows:
        yield from (list(_lines(visit, table, row)) for row in getattr(visit, _ROWS[table.name]))
        return
    special = {"labels": _label_lines, "instruments": _instrument_lines}.get(table.name)
    lines = list(special(visit) if special else _lines(visit, table, getattr(visit, table.name)))
    if lines:
        yield lines


def _label_lines(visit: Visit) -> Iterator[str]:
    return (f"{quoted(point)} = {quoted(label)}" for point, label in visit.labels.items())


def _instrument_lines(visit: Visit) -> Iterator[str]:
    gauge = visit.instruments.gauge
    if gauge is not None:
        yield f"gauge = {{ {', '.join(_lines(visit, GAUGE, gauge))} }}"
    meter = ", ".join(_lines(visit, METER, visit.instruments))
    if meter:
        yield f"meter = {{ {meter} }}"
    if visit.instruments.have is not None:
        yield f"have = [{', '.join(quoted(word) for word in visit.instruments.have)}]"


def _lines(visit: Visit, table: Table, row: object) -> Iterator[str]:
    """Return a line for each key whose value is not what holds without it."""
    for key in table.keys:
        if key.name == "wires" and table is SENSOR:
            yield from _wires(visit.sensor.signal)
            continue
        value = getattr(row, key.attribute)
        if not _goes_without_saying(table, key, value, row):
            yield f"{key.name} = {_written(visit, key, value)}"


def _wires(signal: Signal) -> Iterator[str]:
    if signal.kind == "current" and signal.wires == 3:
        yield 'wires = "three"'


def _goes_without_saying(table: Table, key: Key, value: object, row: object) -> bool:
    if isinstance(row, Reading) and key.name == "drive":
        return value == ARRANGEMENTS[row.arrangement].drive
    return value is None or (not key.required and value == _DEFAULTS.get((table.name, key.name), ()))


#: What holds without the key, where that is not None.
_DEFAULTS: dict[tuple[str, str], object] = {
    ("sensor", "reference"): "gauge",
    ("controller", "display"): "open",
    ("controller", "loop_power"): "drive",
    ("controller", "common_earthed"): True,
    ("reading", "arrangement"): "connected",
    ("reading", "whose"): "site",
    ("former", "counts"): True,
    ("closed", "proved"): False,
}


def _written(visit: Visit, key: Key, value: object) -> str:
    kind = key.kind
    if isinstance(kind, SignalSize) and isinstance(value, float):
        return kind.write_of(value, visit.sensor.signal.kind)
    if visit.sensor.reference == "absolute" and isinstance(kind, PressureEnds):
        return kind.write_absolute(value)
    return kind.write(value)
