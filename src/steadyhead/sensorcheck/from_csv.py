r"""Points of a sensor check from a table of comma-separated values, as a spreadsheet or a logger writes it.

Rules
-----
1. The first line names the columns, with their units: ``reference [psi], signal [V], supply [V], direction, cycle``.
   A column without a unit has it in each cell. A unit is never guessed, and never told twice.
2. Cells are parted by semicolons or tabs where the first line has them, else by commas. Where semicolons or tabs part
   the cells, a comma within a number is its decimal sign; a table that has both signs is refused.
3. A direction that is not given is worked out from the pressure before; a cycle from where the way turns up again.
4. A byte-order mark, either kind of line end, blank lines and cells in quotes are all the same.
5. The table is read whole or not at all: every problem is told, with its line and its column.

Columns
-------
``reference`` (needed), ``signal``, ``supply``, ``shown``, ``direction``, ``cycle``; ``remark`` is passed over.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from steadyhead.errors import CheckFileError, InputError, Problem
from steadyhead.messages import Message, message
from steadyhead.quantities import parse_quantity
from steadyhead.sensorcheck.plausible import slips
from steadyhead.sensorcheck.run import Direction, Point
from steadyhead.visit.check_keys import POINT
from steadyhead.visit.kinds import Known
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.record import Interval, Sensor
from steadyhead.visit.rows import read_row
from steadyhead.visit.toml_text import decode

MOST_PROBLEMS = 500
REMARK = "remark"
COLUMNS: tuple[str, ...] = ("reference", "signal", "supply", "shown", "direction", "cycle", REMARK)
_QUANTITIES = frozenset(("reference", "signal", "supply", "shown"))
_HEAD = re.compile(r"\s*(?P<name>[^\[(]*?)\s*(?:[\[(]\s*(?P<unit>[^\])]*?)\s*[\])])?\s*")
_NUMBER = re.compile(r"\s*[-+\u2212]?[\d.,' ]*\d[\d.,' ]*(?:[eE][-+]?\d+)?\s*")
#: A pressure that moved by less than this part of the span stands where it stood.
STANDS = 0.002

Value = str | int
PointRow = Mapping[str, Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvPoints:
    """Points of a table.

    Parameters
    ----------
    points
        What they say.
    rows
        The same as the rows of a check file spell them.
    """

    points: tuple[Point, ...]
    rows: tuple[PointRow, ...]


class _Column(NamedTuple):
    """One column: which, where (from 1), and its unit, empty where the cells have it."""

    name: str
    place: int
    unit: str


class _Line(NamedTuple):
    """One line of the table: its number in the file, and its cells."""

    number: int
    cells: list[str]


@dataclass(slots=True)
class _Told:
    """The problems, in the order in which they were found."""

    problems: list[Problem] = field(default_factory=list)

    def add(self, told: Message, line: int, column: _Column | None = None) -> None:
        """Note one problem."""
        key = "" if column is None else f"column {column.place} ({column.name})"
        self.problems.append(Problem(told, key, line))


def points_from_csv(
    data: str | bytes, sensor: Sensor, name: str = "points.csv", *, scale: Interval | None = None
) -> CsvPoints:
    r"""Return the points that a table says.

    Parameters
    ----------
    data
        The table.
    sensor
        The sensor that was checked: it says what kind of signal the table has.
    name
        What the table is called in messages.
    scale
        Scale of a gauge without a certificate; None where nobody said it.

    Raises
    ------
    FileUnreadableError
        Larger than 1 MiB, or no UTF-8 text.
    CheckFileError
        `problems` holds everything that is wrong, with line and column.

    Examples
    --------
    >>> from steadyhead.visit.record import Interval, Signal
    >>> loop = Sensor(signal=Signal(kind="current", low=0.004, high=0.02, wires=2), range=Interval(0.0, 16e5))
    >>> found = points_from_csv("reference [bar];signal [mA]\n0;4,01\n8,02;12,04\n", loop)
    >>> [(each.reference_pa, each.signal, each.direction) for each in found.points]
    [(0.0, 0.00401, 'up'), (802000.0, 0.01204, 'up')]
    """
    plain = decode(data if isinstance(data, bytes) else data.encode("utf-8", "surrogatepass"), name)
    told = _Told()
    head, lines, parted_by = _lines(plain.removeprefix("\ufeff"), told)
    columns = _columns(head, sensor, told) if head is not None else ()
    rows = _rows(columns, lines, parted_by, told) if columns else []
    points = _points([(number, row) for number, row in rows if row], (sensor, scale), columns, told)
    if not told.problems and not points:
        told.add(message("csv-empty"), 1)
    if told.problems:
        problems = sorted(told.problems[:MOST_PROBLEMS], key=lambda each: each.line or 0)
        raise CheckFileError(message("check-file-refused", file=name, problems=len(problems)), tuple(problems))
    worked_out = _with_ways(points, sensor)
    return CsvPoints(
        points=tuple(worked_out),
        rows=tuple(
            {**row, "direction": point.direction, "cycle": point.cycle}
            for (_, row), point in zip(points, worked_out, strict=True)
        ),
    )


# ------------------------------------------------------------ the text, cut into lines and cells


def _lines(text: str, told: _Told) -> tuple[_Line | None, list[_Line], str]:
    """Return the first line, the others, and what parts the cells."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    parted_by = ";" if ";" in first else "\t" if "\t" in first else ","
    reader = csv.reader(text.splitlines(keepends=True), delimiter=parted_by, skipinitialspace=True, strict=True)
    found: list[_Line] = []
    try:
        found.extend(
            _Line(reader.line_num, [cell.strip() for cell in cells])
            for cells in reader
            if any(cell.strip() for cell in cells)
        )
    except csv.Error:
        told.add(message("csv-quotes"), reader.line_num)
    if not found:
        return None, [], parted_by
    return found[0], found[1:], parted_by


def _columns(head: _Line, sensor: Sensor, told: _Told) -> tuple[_Column, ...]:
    """Return the columns, or none where one of them cannot be used."""
    before = len(told.problems)
    columns = tuple(_Column(*_head(cell, place)) for place, cell in enumerate(head.cells, start=1))
    for column in columns:
        for problem in _wrong_with(column, columns, sensor):
            told.add(problem, head.number, column)
    if "reference" not in {each.name for each in columns}:
        told.add(message("csv-column-missing", column="reference", must_be="reference [psi]"), head.number)
    if not {"signal", "shown"} & {each.name for each in columns}:
        told.add(message("csv-column-missing", column="signal", must_be="signal [V], signal [mA] or shown [psi]"),
                 head.number)  # fmt: skip
    return columns if len(told.problems) == before else ()


def _head(cell: str, place: int) -> tuple[str, int, str]:
    match = _HEAD.fullmatch(cell)
    if match is None:
        return cell, place, ""
    return match["name"].casefold(), place, match["unit"] or ""


def _wrong_with(column: _Column, columns: Sequence[_Column], sensor: Sensor) -> Iterator[Message]:
    if column.name not in COLUMNS:
        words, nearest = nearest_first(column.name, COLUMNS)
        yield message("csv-column-unknown", got=shown(column.name), must_be=words, nearest=nearest)
    elif any(other.name == column.name and other.place < column.place for other in columns):
        yield message("csv-column-twice", got=column.name)
    elif column.unit and column.name in _QUANTITIES:
        try:
            parse_quantity(f"1 {column.unit}", _dimension(column.name, sensor))
        except InputError as error:
            yield error.message
    elif column.unit:
        yield message("csv-column-without-unit", got=shown(column.unit))


def _dimension(name: str, sensor: Sensor) -> str:
    if name == "supply":
        return "voltage"
    if name == "signal":
        return "current" if sensor.signal.kind == "current" else "voltage"
    return "pressure"


# ------------------------------------------------------------ cells to texts of a check file


def _rows(
    columns: Sequence[_Column], lines: Sequence[_Line], parted_by: str, told: _Told
) -> list[tuple[int, dict[str, Value]]]:
    """Return each line's number and its cells as a check file spells them; an empty row where a line is broken."""
    comma = parted_by != ","
    if comma:
        _refuse_both_signs(columns, lines, told)
    found = []
    for line in lines:
        if len(line.cells) > len(columns):
            told.add(message("csv-too-many-cells", got=len(line.cells), must_be=len(columns)), line.number)
            found.append((line.number, dict[str, Value]()))
            continue
        cells = zip(columns, line.cells, strict=False)
        row = {
            column.name: _spelled(cell, column, line.number, told, comma=comma)
            for column, cell in cells
            if cell and column.name != REMARK
        }
        found.append((line.number, row))
    return found


def _refuse_both_signs(columns: Sequence[_Column], lines: Sequence[_Line], told: _Told) -> None:
    """Note the first number with a point and the first with a comma, where a table has both."""
    met: dict[str, tuple[int, _Column]] = {}
    for line in lines:
        for column, cell in zip(columns, line.cells, strict=False):
            if column.name in _QUANTITIES:
                for sign in {".", ","} & set(cell):
                    met.setdefault(sign, (line.number, column))
    if len(met) > 1:
        number, column = max(met.values())
        told.add(message("csv-both-signs"), number, column)


def _spelled(cell: str, column: _Column, number: int, told: _Told, *, comma: bool) -> Value:
    """Return a cell as a check file spells it."""
    if column.name == "cycle":
        return int(cell) if cell.isdecimal() else cell
    if column.name not in _QUANTITIES:
        return cell.casefold()
    plain = cell.replace(",", ".") if comma and cell.count(",") == 1 and "." not in cell else cell
    if not column.unit:
        return plain
    if not _NUMBER.fullmatch(cell):
        told.add(message("csv-unit-twice", got=shown(cell), unit=column.unit), number, column)
        return f"0 {column.unit}"
    return f"{plain.strip()} {column.unit}"


# ------------------------------------------------------------ texts to points


def _points(
    rows: Sequence[tuple[int, dict[str, Value]]],
    plates: tuple[Sensor, Interval | None],
    columns: Sequence[_Column],
    told: _Told,
) -> list[tuple[Point, PointRow]]:
    """Return the points, each with its row; a direction that is not given stands as ``up`` until it is worked out."""
    sensor, scale = plates
    known = Known(sensor.signal.kind, sensor.reference == "absolute", {})
    places = {column.name: column for column in columns}
    found: list[tuple[Point, PointRow]] = []
    for number, row in rows:
        read = read_row({"direction": "up", **row}, POINT, known)
        for path, why in read.problems:
            told.add(why, number, places.get(str(path[-1])))
        if read.problems:
            continue
        slipped = list(slips(sensor, read.values, scale))
        for key, why in slipped:
            told.add(why, number, places.get(key))
        if slipped:
            continue
        if read.values.get("signal") is None and read.values.get("shown_pa") is None:
            told.add(message("check-point-says-nothing"), number)
            continue
        found.append((Point(**read.values), row))
    return found


def _with_ways(points: Sequence[tuple[Point, PointRow]], sensor: Sensor) -> list[Point]:
    """Return the points with every direction and cycle: as given, or worked out."""
    stands = STANDS * sensor.range.width
    found: list[Point] = []
    for index, (point, row) in enumerate(points):
        before = found[-1] if found else None
        direction = point.direction if "direction" in row else _way(points, index, before, stands)
        turned = before is not None and before.direction == "down" and direction == "up"
        cycle = point.cycle if "cycle" in row else (before.cycle if before else 1) + int(turned)
        found.append(replace(point, cycle=cycle, direction=direction))
    return found


def _way(points: Sequence[tuple[Point, PointRow]], index: int, before: Point | None, stands: float) -> Direction:
    """Return whether the pressure rose or fell to a point; one that stood goes the way of the one before it."""
    here = points[index][0].reference_pa
    if before is not None:
        moved = here - before.reference_pa
        return before.direction if abs(moved) <= stands else "up" if moved > 0 else "down"
    after = next((each.reference_pa for each, _ in points[index + 1 :] if abs(each.reference_pa - here) > stands), here)
    return "down" if after < here else "up"
