"""Before a point is taken: what this gauge, this meter and these conditions could decide at all.

Rules
-----
1. At each planned pressure a perfect sensor is imagined, and its budget worked out by the very model that judges the
   real one (`steadyhead.sensorcheck.error_model`).
2. "With this gauge you can convict only beyond x": the least error that the rule would fail. "Clear only within y": the
   greatest that it would pass; none, where y is not above zero.
3. What nobody has seen yet, scatter and hysteresis, is left out unless it is told: the real check can only be worse.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from steadyhead.figures import Figure
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.at_sensor import correction_at, height_correction_pa, range_ends
from steadyhead.sensorcheck.budget import Budget
from steadyhead.sensorcheck.conformity import Decision, Known, Rule, limits_of
from steadyhead.sensorcheck.error_inputs import Scatter
from steadyhead.sensorcheck.error_model import Met, error_at
from steadyhead.sensorcheck.output import nominal_supply_v
from steadyhead.sensorcheck.run import CheckRun
from steadyhead.sensorcheck.settling import needed_uncertainty


@dataclass(frozen=True, slots=True, kw_only=True)
class Decidable:
    """What can be decided at one planned pressure.

    Parameters
    ----------
    reference_pa
        What the reference will show there [Pa].
    convicts_beyond
        Least error that would fail [Pa], to either side; infinite where nothing would.
    clears_within
        Greatest error that would pass [Pa]; not above zero where nothing would.
    expanded
        Expanded uncertainty of the error there [Pa], with its descent.
    said
        The same for a person.
    cautions
        What was assumed.
    """

    reference_pa: float
    convicts_beyond: float
    clears_within: float
    expanded: Figure
    said: Message
    cautions: tuple[Message, ...]


def decidable(
    run: CheckRun, pressures_pa: Sequence[float], tolerance: Figure, rule: Rule, expected: Scatter | None = None
) -> tuple[Decidable, ...]:
    """Return what can be decided at each planned pressure.

    Parameters
    ----------
    run
        The check as planned; its points are not looked at.
    pressures_pa
        What the reference will show [Pa].
    tolerance
        Greatest error allowed, to one side [Pa].
    rule
        How it will be decided.
    expected
        What scatter and hysteresis is expected, from an earlier check; None: left out.

    Raises
    ------
    SensorCheckError
        As `steadyhead.sensorcheck.error_model.error_at`.

    References
    ----------
    JCGM 106:2012, clause 8 (from memory).
    """
    return tuple(_at(run, pressure_pa, tolerance, rule, expected) for pressure_pa in pressures_pa)


def _at(run: CheckRun, pressure_pa: float, tolerance: Figure, rule: Rule, expected: Scatter | None) -> Decidable:
    point = error_at(run, imagined(run, pressure_pa), expected)
    limits = limits_of(rule, Known.of(point.budget), tolerance.value)
    figures = {"pressure": pressure_pa, "tolerance": tolerance.value, "convicts": limits.reject}
    if math.isinf(limits.reject):
        said = message("decidable-nothing", **figures)
    elif limits.accept > 0.0:
        said = message("decidable-both", clears=limits.accept, **figures)
    else:
        said = message("decidable-convicts-only", **figures)
    return Decidable(
        reference_pa=pressure_pa,
        convicts_beyond=limits.reject,
        clears_within=limits.accept,
        expanded=point.budget.expanded(rule.coverage).figure,
        said=said,
        cautions=tuple(each for each in point.cautions if expected is not None or each.id != "repeatability-unknown"),
    )


def imagined(run: CheckRun, reference_pa: float) -> Met:
    """Return what a perfect sensor would give at a reading of the reference [Pa]."""
    certificate = run.reference.certificate
    true = reference_pa + correction_at(certificate, reference_pa) + height_correction_pa(run.conditions, reference_pa)
    low, high = range_ends(run)
    share = (true - low.value) / (high.value - low.value)
    signal = run.sensor.signal
    output = signal.low + share * (signal.high - signal.low)
    supply = nominal_supply_v(run.sensor) if signal.kind == "ratiometric" else None
    shown = run.sensor.range.low + share * run.sensor.range.width
    return Met(reference_pa=reference_pa, signal=output, supply_v=supply, shown_pa=shown)


def settle_elsewhere(run: CheckRun, budget: Budget, decision: Decision, others_pa: Sequence[float]) -> Message | None:
    """Return at which other pressure the same error could be decided, or None; it scatters and lags there as here.

    Parameters
    ----------
    run
        The check.
    budget, decision
        The error that could not be decided, and the decision.
    others_pa
        Readings of the reference that can be had [Pa].
    """
    if decision.outcome != "cannot-tell":
        return None
    needed = needed_uncertainty(budget.value, decision.tolerance.value, decision.rule, Known.of(budget))
    own = [row.contribution for row in budget.rows if row.input.name in {"scatter", "hysteresis"}]
    found = [(math.hypot(error_at(run, imagined(run, other)).budget.combined, *own), other) for other in others_pa]
    best, where = min(found, default=(math.inf, 0.0))
    return message("settle-elsewhere", pressure=where) if best <= needed else None
