"""Use case: what every point should read now, were nothing wrong, and what the signal should be over the whole range.

Rules
-----
1. A band is as wide as gauge, sensor, sensor power and meter together allow (`steadyhead.diagnosis.expected`).
2. The table of pressure against signal is the plate's straight line, without tolerance.
3. Without a pressure there are no bands, and the table stands alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from steadyhead import __version__
from steadyhead.diagnosis.answer import Band
from steadyhead.diagnosis.doubt import BOUND_IN_SD
from steadyhead.diagnosis.expected import band, table
from steadyhead.diagnosis.observing import Pressure, Question, gauge_pressure
from steadyhead.diagnosis.system import System
from steadyhead.quantities import parse
from steadyhead.service.answer_json import band_json
from steadyhead.visit.record import Visit

STEPS = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One row of the table: part of range, pressure [Pa], signal [V or A], volts over the input [V], display [Pa]."""

    part: float
    pressure_pa: float
    signal: float
    input_v: float | None
    display_pa: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Expectation:
    """What a healthy system shows: at `pressure_pa`, where that is known, and over the range."""

    pressure_pa: float | None
    points: Mapping[str, Band]
    display: Band | None
    steps: tuple[Step, ...]
    signal_unit: str


def expect(visit: Visit, pressure: str | None = None) -> Expectation:
    """Return what a healthy system would show.

    Parameters
    ----------
    visit
        The system; its last gauge reading is the pressure, unless one is given.
    pressure
        A gauge pressure with its unit, such as ``48 psi``.

    Raises
    ------
    QuantityError
        `pressure` is none.
    """
    system = System(visit)
    at = _given(system, pressure) if pressure is not None else _read(system)
    return Expectation(
        pressure_pa=None if at is None else at.pa,
        points={} if at is None else table(system, at),
        display=None if at is None else band(system, Question("displayed-pressure"), at),
        steps=steps(system),
        signal_unit=system.unit,
    )


def _given(system: System, text: str) -> Pressure:
    pa = parse(text, "pressure")
    return Pressure(pa, system.gauge_error(pa) / BOUND_IN_SD, "gauge")


def _read(system: System) -> Pressure | None:
    read = [r for r in system.visit.readings if r.measure == "gauge-pressure"]
    at = gauge_pressure(system, read[-1]) if read else None
    return at if at is not None and at.known == "gauge" else None


def steps(system: System) -> tuple[Step, ...]:
    """Return the plate's straight line at every tenth of the range."""
    return tuple(_step(system, k / STEPS) for k in range(STEPS + 1))


def _step(system: System, part: float) -> Step:
    signal = system.low + part * (system.high - system.low)
    ohm = system.visit.controller.input_resistance_ohm if system.unit == "A" else None
    scaled = system.scaled
    return Step(
        part=part,
        pressure_pa=system.range.low + part * system.range.width,
        signal=signal,
        input_v=None if ohm is None else signal * ohm,
        display_pa=None if scaled is None else scaled.low + part * scaled.width,
    )


def expectation_json(expected: Expectation, pressure_unit: str) -> dict[str, Any]:
    """Return what is expected as plain JSON values, in the units that instruments show."""
    one = parse(f"1 {pressure_unit}", "pressure")
    milli = 1e3 if expected.signal_unit == "A" else 1.0
    return {
        "schema": 1,
        "engine": __version__,
        "pressure": _quantity(expected.pressure_pa, one, pressure_unit),
        "expected": {point: band_json(found) for point, found in expected.points.items()},
        "display": _display(expected.display, one, pressure_unit),
        "units": {"pressure": pressure_unit, "signal": "mA" if expected.signal_unit == "A" else "V"},
        "table": [_step_json(step, one, milli) for step in expected.steps],
    }


def _quantity(value: float | None, one: float, unit: str) -> dict[str, Any] | None:
    return None if value is None else {"value": value / one, "unit": unit}


def _display(found: Band | None, one: float, unit: str) -> dict[str, Any] | None:
    return None if found is None else {"low": found.low / one, "high": found.high / one, "unit": unit}


def _step_json(step: Step, one: float, milli: float) -> dict[str, Any]:
    return {
        "percent": 100.0 * step.part,
        "pressure": step.pressure_pa / one,
        "signal": step.signal * milli,
        "volts_at_input": step.input_v,
        "display": None if step.display_pa is None else step.display_pa / one,
    }
