"""The reading card of one system: what a healthy loop shows at each pressure, at its terminals, for the panel's door.

Rules
-----
1. The signal is the plate's straight line; the band about it is what a healthy system may show with this gauge and this
   meter (`steadyhead.diagnosis.expected`).
2. Pressures are round figures over the sensor's range, and its two ends: at most `MOST_ROWS` rows fit a card of A6.
3. Of a visit's readings nothing stands on it: it holds as long as plate, cable and settings are as they are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, floor, log10

from steadyhead.diagnosis.answer import Band
from steadyhead.diagnosis.doubt import BOUND_IN_SD
from steadyhead.diagnosis.expected import band
from steadyhead.diagnosis.observing import Pressure, Question
from steadyhead.diagnosis.system import System
from steadyhead.documents.numbers import SI_BESIDE, in_unit
from steadyhead.documents.paper import (
    Axis,
    Block,
    Care,
    Column,
    Line,
    Paper,
    Paragraph,
    Particulars,
    Plot,
    Shown,
    Table,
)
from steadyhead.documents.plot import steps
from steadyhead.figures import Figure, given
from steadyhead.messages import Message, message
from steadyhead.quantities import parse
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.pieces import head_of, plate_rows
from steadyhead.service.papers.readings import band_figures, plate

MOST_ROWS = 13
KIND = "reading-card"
SIGNAL = Question("volts", "connected", "controller.signal", "controller.common")
LOOP = Question("milliamps", "meter-in-signal")
SUPPLY = Question("volts", "connected", "controller.supply", "controller.common")
LINE = "signal-low + (card-pressure - range-low) / (range-high - range-low) * (signal-high - signal-low)"
CAUTIONS = (message("local-codes-first"), message("paper-card-care"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One pressure of the card: what stands there, nominal and from where to where, and the volts over the input."""

    pressure: Figure
    signal: Figure
    low: Figure
    high: Figure
    input_v: Figure | None


def reading_card(seen: Occasion) -> Paper:
    """Return the reading card of a visit's system."""
    system = System(seen.visit)
    rows = [_row(system, pressure, seen) for pressure in round_pressures(system)]
    how = message("paper-card-milliamps") if system.unit == "A" else message("paper-card-volts")
    blocks: list[Block] = [
        Particulars(rows=(*plate_rows(seen), *_power(seen, system))),
        _table(seen, system, rows),
        Paragraph(line=(how,), tone="soft"),
        _plot(seen, system, rows),
        Care(lines=tuple((told,) for told in CAUTIONS)),
    ]
    if seen.assumed:
        blocks.insert(0, Paragraph(line=(message("paper-plate-assumed"),), tone="strong"))
    return replace(head_of(seen, KIND, message("paper-reading-card")), form="card", blocks=tuple(blocks))


def round_pressures(system: System) -> list[float]:
    """Return round pressures over the sensor's range, its ends included, rising, at most `MOST_ROWS` [Pa]."""
    one = parse(f"1 {system.visit.pressure_unit}", "pressure")
    low, high = system.range.low / one, system.range.high / one
    step = round_step((high - low) / (MOST_ROWS - 2))
    inner = [k * step for k in range(ceil(low / step), floor(high / step) + 1)]
    kept = [each for each in inner if each - low > 0.4 * step and high - each > 0.4 * step]
    return [value * one for value in (low, *kept, high)]


def round_step(least: float) -> float:
    """Return the smallest of 1, 2, 2.5, 5 times a power of ten that is no smaller.

    >>> round_step(10.0), round_step(0.23), round_step(23.0)
    (10.0, 0.25, 25.0)
    """
    power = 10.0 ** floor(log10(least) + 1e-12)
    return next(times * power for times in (1.0, 2.0, 2.5, 5.0, 10.0) if times * power >= least * (1 - 1e-9))


def _row(system: System, pa: float, seen: Occasion) -> Row:
    """Return what a healthy system shows at one pressure."""
    ends = plate(seen)
    pressure = given("card-pressure", pa, "pressure", "round")
    part = (pa - system.range.low) / system.range.width
    value = system.low + part * (system.high - system.low)
    dimension = "current" if system.unit == "A" else "voltage"
    signal = Figure(name="nominal-signal", value=value, dimension=dimension, formula=LINE, inputs=(pressure, *ends[:4]))
    low, high = band_figures(_band(system, pa), (pressure, *ends))
    return Row(pressure=pressure, signal=signal, low=low, high=high, input_v=_over_input(seen, signal))


def _band(system: System, pa: float) -> Band:
    at = Pressure(pa, system.gauge_error(pa) / BOUND_IN_SD, "gauge")
    return band(system, LOOP if system.unit == "A" else SIGNAL, at)


def _over_input(seen: Occasion, signal: Figure) -> Figure | None:
    """Return the volts over a current input, where its resistance is known."""
    ohm = seen.visit.controller.input_resistance_ohm
    if signal.dimension != "current" or ohm is None:
        return None
    load = seen.figures.setdefault("input", given("input-resistance", ohm, "resistance", "setting"))
    formula = "nominal-signal * input-resistance"
    return Figure(
        name="input-volts", value=signal.value * ohm, dimension="voltage", formula=formula, inputs=(signal, load)
    )


def _power(seen: Occasion, system: System) -> tuple[tuple[Message, Line], ...]:
    """Return what stands between the sensor-power terminal and common."""
    at = Pressure(system.range.middle, system.gauge_error(system.range.middle) / BOUND_IN_SD, "gauge")
    name = message("paper-supply-at") if system.wires == 3 else message("paper-supply-two-wires")
    low, high = band_figures(band(system, SUPPLY, at), plate(seen))
    return ((name, _from_to(low, high, "V", 1 if system.supply_v > 10 else 2)),)


def _from_to(low: Figure, high: Figure, unit: str, places: int, *, bare: bool = False) -> Line:
    first = Shown(figure=low, unit=unit, places=places, bare=True)
    return (first, message("paper-to"), Shown(figure=high, unit=unit, places=places, bare=bare))


def _table(seen: Occasion, system: System, rows: Sequence[Row]) -> Table:
    unit = seen.visit.pressure_unit
    si = SI_BESIDE.get(unit)
    heads = [Column(head=message("paper-head-pressure", unit=unit), align="decimal", share=2)]
    heads += [Column(head=message("paper-head-unit", unit=si), align="decimal", share=2)] if si else []
    heads.append(Column(head=_signal_head(system), align="decimal", share=2))
    heads.append(Column(head=message("paper-head-healthy"), align="end", share=3))
    over_input = rows[0].input_v is not None
    heads += [Column(head=message("paper-head-input"), align="decimal", share=2)] if over_input else []
    body = tuple(_cells(row, unit, si, system.unit) for row in rows)
    return Table(says=message("paper-card-table"), columns=tuple(heads), rows=body)


def _signal_head(system: System) -> Message:
    """Return what the signal's column is headed: between which terminals, or in which wire."""
    return message("paper-head-milliamps") if system.unit == "A" else message("paper-head-volts")


def _cells(row: Row, unit: str, si: str | None, signal_unit: str) -> tuple[Line, ...]:
    places = _places_of(row.pressure.value, unit)
    shown = "mA" if signal_unit == "A" else "V"
    cells: list[Line] = [(Shown(figure=row.pressure, unit=unit, places=places, bare=True),)]
    cells += [(Shown(figure=row.pressure, unit=si, places=0, bare=True),)] if si else []
    cells.append((Shown(figure=row.signal, unit=shown, places=2, bare=True),))
    cells.append(_from_to(row.low, row.high, shown, 2, bare=True))
    cells += [(Shown(figure=row.input_v, unit="V", places=2, bare=True),)] if row.input_v else []
    return tuple(cells)


def _places_of(pa: float, unit: str) -> int:
    """Return how many digits a round pressure needs after its decimal sign."""
    value = in_unit(pa, unit)
    return next((places for places in (0, 1, 2) if abs(value - round(value, places)) < 1e-6), 3)


def _plot(seen: Occasion, system: System, rows: Sequence[Row]) -> Plot:
    unit, shown = seen.visit.pressure_unit, "mA" if system.unit == "A" else "V"
    x = [in_unit(row.pressure.value, unit) for row in rows]
    lows, highs = (
        [in_unit(end.value, shown) for end in ends] for ends in ([r.low for r in rows], [r.high for r in rows])
    )
    left, right, across = steps(x[0], x[-1])
    down, up, high = steps(min(0.0, *lows), max(highs))
    return Plot(
        says=message("paper-card-plot"),
        x=Axis(says=message("paper-head-pressure", unit=unit), low=left, high=right, step=across),
        y=Axis(says=_signal_head(system), low=down, high=up, step=high),
        line=tuple((x[k], in_unit(row.signal.value, shown)) for k, row in enumerate(rows)),
        band=tuple(zip(x, lows, highs, strict=True)),
    )
