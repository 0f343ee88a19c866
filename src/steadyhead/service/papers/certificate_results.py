"""The results of a certificate: errors with their uncertainty, what kind they are, both stages, every point.

Rules
-----
1. An uncertainty has two significant digits, and its result no digit beyond them (JCGM 100:2008, 7.2.6; from memory).
2. A decision leads down to the probability that it is right.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.documents.numbers import SI_BESIDE, in_unit
from steadyhead.documents.paper import Axis, Block, Column, Line, Mark, Paragraph, Plot, Shown, Table, Traced
from steadyhead.documents.plot import steps
from steadyhead.errors import SensorCheckError
from steadyhead.figures import Figure, given
from steadyhead.messages import message
from steadyhead.sensorcheck.comparing import Changed, compared
from steadyhead.sensorcheck.judging import JudgedLevel
from steadyhead.service.papers.checked import Checked
from steadyhead.service.papers.readings import places_for
from steadyhead.service.papers.system_facts import fewest

#: Digits of an uncertainty that are told.
TOLD = 2
MOST_PLACES = 4


def places_of(seen: Checked) -> int:
    """Return the digits after the decimal sign that every pressure has: two significant ones of the least U."""
    least = min(each.value for each in seen.expanded)
    return min(places_for(least, seen.pressure_unit, TOLD), MOST_PLACES)


def pressure_shown(
    figure: Figure, seen: Checked, *, bare: bool = False, signed: bool = False, places: int | None = None
) -> Shown:
    """Return a pressure of the check, with the digits that its uncertainty bears."""
    known = places_of(seen) if places is None else places
    return Shown(figure=figure, unit=seen.pressure_unit, places=known, bare=bare, signed=signed, beside=not bare)


def results(seen: Checked) -> Iterator[Block]:
    """Yield the results, level by level: the error with its uncertainty, and what was decided."""
    unit = seen.pressure_unit
    si = SI_BESIDE.get(unit)
    heads = [Column(head=message("paper-head-at", unit=unit), align="decimal", share=2)]
    heads += [Column(head=message("paper-head-unit", unit=si), align="decimal", share=2)] if si else []
    heads += [
        Column(head=message("paper-head-error", unit=unit), align="decimal", share=2),
        Column(head=message("paper-head-expanded", unit=unit), align="decimal", share=2),
        Column(head=message("paper-head-k"), align="decimal", share=2),
        Column(head=message("paper-head-of-span"), align="decimal", share=2),
        Column(head=message("paper-head-decision"), share=3),
    ]
    levels = zip(seen.looked.judged.levels, seen.expanded, strict=True)
    rows = tuple(_result(each, expanded, seen, si) for each, expanded in levels)
    yield Table(says=message("paper-results-table"), columns=tuple(heads), rows=rows)
    coverage = seen.looked.rule.coverage
    yield Paragraph(line=(message("paper-coverage", coverage=100.0 * coverage),), tone="soft")
    yield _plot(seen)


def _result(each: JudgedLevel, expanded: Figure, seen: Checked, si: str | None) -> tuple[Line, ...]:
    pressure, places = each.level.pressure, places_of(seen)
    cells: list[Line] = [(pressure_shown(pressure, seen, bare=True),)]
    if si:
        worth = max(0, places - 1 if seen.pressure_unit == "psi" else places - 2)
        cells.append((Shown(figure=pressure, unit=si, places=worth, bare=True),))
    cells.append((pressure_shown(each.decision.error, seen, bare=True, signed=True),))
    cells.append((pressure_shown(expanded, seen, bare=True),))
    cells.append((Shown(figure=expanded.inputs[0], unit="", places=2),))
    of_span = each.point.of_span
    cells.append((Shown(figure=of_span, unit="%", places=_percent_places(expanded, each), bare=True, signed=True),))
    decided = Traced(says=message("paper-decided", outcome=each.decision.outcome), figure=each.decision.probability)
    return (*cells, (decided,))


def _percent_places(expanded: Figure, each: JudgedLevel) -> int:
    """Return the digits of an error in percent of span that its uncertainty bears."""
    return min(places_for(expanded.value / each.point.span_pa, "%", TOLD), 3)


def _plot(seen: Checked) -> Plot:
    """Return the errors against pressure, and hatched what the plate allows."""
    unit, levels = seen.pressure_unit, seen.looked.judged.levels
    x = [in_unit(each.level.pressure.value, unit) for each in levels]
    allowed = in_unit(seen.looked.judged.tolerance.value, unit)
    errors = [
        (in_unit(point.true.value, unit), in_unit(point.error.value, unit), point.direction)
        for point in seen.looked.found.points
    ]
    left, right, across = steps(min(x), max(*x, min(x) + 1e-6))
    down, up, high = steps(min(-allowed, *(error for _, error, _ in errors)), max(allowed, *(e for _, e, _ in errors)))
    return Plot(
        says=message("paper-errors-plot"),
        x=Axis(says=message("paper-head-at", unit=unit), low=left, high=right, step=across),
        y=Axis(says=message("paper-head-error", unit=unit), low=down, high=up, step=high),
        line=tuple((x[k], in_unit(each.decision.error.value, unit)) for k, each in enumerate(levels)),
        band=((left, -allowed, allowed), (right, -allowed, allowed)),
        marks=tuple(Mark(x=at, y=error, shape="dot" if way == "up" else "ring") for at, error, way in errors),
    )  # fmt: skip


def kinds_of_error(seen: Checked) -> Table:
    """Return zero, span, linearity, hysteresis and repeatability by their published definitions."""
    found = seen.looked.found
    line = found.linearity
    figures = (
        found.zero, found.sensor_span, *((line.terminal, line.least_squares, line.independent) if line else ()),
        found.hysteresis, found.repeatability, found.most, found.least,
    )  # fmt: skip
    columns = (
        Column(head=message("paper-head-what"), share=4),
        Column(head=message("paper-head-error", unit=seen.pressure_unit), align="decimal", share=2),
        Column(head=message("paper-head-of-span"), align="decimal", share=2),
    )
    rows = tuple(
        (
            (message("paper-figure", figure=each.name),),
            (pressure_shown(each, seen, bare=True, signed=True),),
            (Shown(figure=found.of_span(each), unit="%", places=3, bare=True, signed=True),),
        )
        for each in figures
        if each is not None
    )
    return Table(says=message("paper-kinds-table"), columns=columns, rows=rows)


def stages(seen: Checked) -> Iterator[Block]:
    """Yield as-found beside as-left, where both are known."""
    if seen.other is None:
        yield Paragraph(line=(message("paper-one-stage", stage=seen.run.stage),))
        return
    left_is_mine = seen.run.stage == "as-left"
    found, left = (seen.other, seen.looked) if left_is_mine else (seen.looked, seen.other)
    try:
        changes = compared(found.found, left.found)
    except SensorCheckError as error:
        yield Paragraph(line=(error.message,))
        return
    columns = (
        Column(head=message("paper-head-at", unit=seen.pressure_unit), align="decimal", share=2),
        Column(head=message("paper-head-found"), align="decimal", share=2),
        Column(head=message("paper-head-left"), align="decimal", share=2),
        Column(head=message("paper-head-change"), align="decimal", share=2),
    )
    yield Table(
        says=message("paper-stages-table", unit=seen.pressure_unit), columns=columns,
        rows=tuple(_change(each, seen) for each in changes),
    )  # fmt: skip


def _change(each: Changed, seen: Checked) -> tuple[Line, ...]:
    errors = (each.found.both, each.left.both, each.change)
    return (
        (pressure_shown(each.found.pressure, seen, bare=True),),
        *((pressure_shown(one, seen, bare=True, signed=True),) for one in errors),
    )


def every_point(seen: Checked) -> Table:
    """Return every point, as it was taken."""
    current = seen.run.sensor.signal.kind == "current"
    signal = "mA" if current else "V"
    supplied = any(each.supply_v is not None for each in seen.run.points)
    columns = [
        Column(head=message("paper-head-number"), align="end"),
        Column(head=message("paper-head-way")),
        Column(head=message("paper-head-reference", unit=seen.pressure_unit), align="decimal", share=2),
        Column(head=message("paper-head-sensor", unit=signal), align="decimal", share=2),
    ]
    columns += [Column(head=message("paper-head-supply"), align="decimal", share=2)] if supplied else []
    columns.append(Column(head=message("paper-head-error", unit=seen.pressure_unit), align="decimal", share=2))
    rows = tuple(_point(number, seen, signal, supplied=supplied) for number in range(1, len(seen.run.points) + 1))
    return Table(says=message("paper-points-table"), columns=tuple(columns), rows=rows)


def _point(number: int, seen: Checked, signal: str, *, supplied: bool) -> tuple[Line, ...]:
    point = seen.run.points[number - 1]
    whence = f"reading {number}"
    read = given("reference-reading", point.reference_pa, "pressure", whence)
    cells: list[Line] = [
        (message("paper-number-of", number=number),),
        (message("paper-way", cycle=point.cycle, direction=point.direction),),
        (pressure_shown(read, seen, bare=True, places=_read_places(seen)),),
        _told(point.signal, point.shown_pa, signal, seen, whence),
    ]
    if supplied:
        volts = point.supply_v
        figure = None if volts is None else given("supply-read", volts, "voltage", whence)
        cells.append((Shown(figure=figure, unit="V", places=3, bare=True),) if figure else ())
    found = next((each.error for each in seen.looked.found.points if each.number == number), None)
    cells.append((pressure_shown(found, seen, bare=True, signed=True),) if found else (message("paper-left-out"),))
    return tuple(cells)


def _read_places(seen: Checked) -> int:
    """Return the digits with which the reference could be read; as many as the results have where nobody said."""
    step = seen.run.reference.resolution_pa
    return places_of(seen) if step is None else min(fewest(step, seen.pressure_unit), MOST_PLACES)


def _told(value: float | None, shown_pa: float | None, signal: str, seen: Checked, whence: str) -> Line:
    """Return what the sensor put out, or what the controller showed."""
    if value is not None:
        dimension = "current" if signal == "mA" else "voltage"
        return (Shown(figure=given("signal-read", value, dimension, whence), unit=signal, places=3, bare=True),)
    if shown_pa is not None:
        return (pressure_shown(given("shown", shown_pa, "pressure", whence), seen),)
    return ()
