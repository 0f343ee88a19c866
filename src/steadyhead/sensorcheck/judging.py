"""A whole check judged: the mean error at each level with its uncertainty, a decision by one rule, and what would help.

Rules
-----
1. What is judged at a level is its mean error, up and down alike (`steadyhead.sensorcheck.errors.Level.both`).
2. How badly the sensor repeats is one standard deviation for the whole run: that of readings about the mean of their
   level and direction, pooled, with as many degrees of freedom as there are readings more than means.
3. One failed level fails the check; only all of them together pass it.
4. A plate that tells no accuracy is judged by `SENSOR_ACCURACY`, which is told.
5. A sensor that differs up and down by more than twice its tolerance fails, whatever its mean and whatever gauge: no
   error of the reference brings both ways within it. The difference must stand out of what readings scatter.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from steadyhead.diagnosis.system import SENSOR_ACCURACY
from steadyhead.figures import Figure
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.conformity import (
    Decision,
    Known,
    Outcome,
    Rule,
    decide,
    limits_of,
    together,
    tolerance_figure,
)
from steadyhead.sensorcheck.decidable import settle_elsewhere
from steadyhead.sensorcheck.error_inputs import Scatter
from steadyhead.sensorcheck.error_model import ErrorAtPoint, Met, error_at
from steadyhead.sensorcheck.errors import Level, levels_of, point_errors, span_figure
from steadyhead.sensorcheck.run import CheckRun, Point
from steadyhead.sensorcheck.settling import what_would_settle
from steadyhead.sensorcheck.spread import mean


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedLevel:
    """One level of a check.

    Parameters
    ----------
    level
        Its points.
    point
        Its mean error with the budget.
    decision
        What was decided of it.
    settle
        What would settle it, where it cannot be told.
    """

    level: Level
    point: ErrorAtPoint
    decision: Decision
    settle: tuple[Message, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """A check as it was decided: its levels, the outcome of them together, the tolerance, and what was assumed."""

    levels: tuple[JudgedLevel, ...]
    outcome: Outcome
    tolerance: Figure
    cautions: tuple[Message, ...]


def judge(run: CheckRun, rule: Rule) -> Judgement:
    """Judge a check by a rule.

    Parameters
    ----------
    run
        The check with its points.
    rule
        How it is decided.

    Raises
    ------
    FitError
        ``no-usable-point``: not one point is usable.
    SensorCheckError
        ``reference-accuracy-unknown`` or ``reference-off-scale``.

    References
    ----------
    JCGM 100:2008, 4.2.4 (from memory); JCGM 106:2012, clause 8 (from memory).
    """
    levels = levels_of(point_errors(run), span_figure(run).value)
    tolerance, assumed = tolerance_of(run)
    deviation, dof = pooled(levels)
    points = [error_at(run, met_at(run, level), _scatter(level, deviation, dof)) for level in levels]
    readings = [_reference(run, level) for level in levels]
    judged = tuple(
        _judged(run, level, point, (tolerance, rule), readings) for level, point in zip(levels, points, strict=True)
    )
    cautions = {str(said): said for point in points for said in point.cautions}.values()
    return Judgement(
        levels=judged,
        outcome=together([each.decision.outcome for each in judged]),
        tolerance=tolerance,
        cautions=(*assumed, *cautions),
    )


def _judged(
    run: CheckRun, level: Level, point: ErrorAtPoint, by: tuple[Figure, Rule], readings: Sequence[float]
) -> JudgedLevel:
    decision = _unless_it_sticks(decide(point.budget, *by), level, point)
    elsewhere = settle_elsewhere(run, point.budget, decision, readings)
    settle = what_would_settle(point.budget, decision) + (() if elsewhere is None else (elsewhere,))
    return JudgedLevel(level=level, point=point, decision=decision, settle=settle)


#: Inputs that differ from reading to reading; all others are the same going up and coming down.
_OF_ONE_READING = frozenset(
    ("reference-resolution", "signal-correction", "signal-resolution", "supply-correction", "display-resolution")
)


def _unless_it_sticks(decision: Decision, level: Level, point: ErrorAtPoint) -> Decision:
    """Return the decision, or a failure where up and down are too far apart for any gauge to be at fault."""
    if decision.outcome == "fail" or level.up is None or level.down is None:
        return decision
    half = abs(level.down.value - level.up.value) / 2.0
    rows = [row for row in point.budget.rows if row.input.name in _OF_ONE_READING]
    scatter = [2.0 * row.contribution for row in point.budget.rows if row.input.name == "scatter"]
    known = Known(u=math.hypot(*(math.sqrt(2.0) * row.contribution for row in rows), *scatter) / 2.0)
    if half <= limits_of(decision.rule, known, decision.tolerance.value).reject:
        return decision
    because = message("decision-sticks", difference=2.0 * half, tolerance=decision.tolerance.value)
    return replace(decision, outcome="fail", because=because)


def tolerance_of(run: CheckRun) -> tuple[Figure, tuple[Message, ...]]:
    """Return the greatest error that the sensor's plate allows [Pa], and what was assumed for it."""
    accuracy, span_pa = run.sensor.accuracy, run.sensor.range.width
    if accuracy is not None:
        return tolerance_figure(accuracy, span_pa), ()
    return tolerance_figure(SENSOR_ACCURACY, span_pa), (message("tolerance-assumed", accuracy=SENSOR_ACCURACY),)


def pooled(levels: Sequence[Level]) -> tuple[float, float]:
    """Return the pooled standard deviation of one reading [Pa], and its degrees of freedom; 0 of none where none are.

    ``s^2 = sum (error - mean of its group)^2 / sum (readings of the group - 1)``, a group for each level and direction.

    References
    ----------
    JCGM 100:2008, 4.2.4 and H.5.2.2 (from memory).
    """
    squares, dof = [], 0
    for group in (level.towards(direction) for level in levels for direction in ("up", "down")):
        if len(group) > 1:
            middle = mean([one.error.value for one in group])
            squares += [(one.error.value - middle) ** 2 for one in group]
            dof += len(group) - 1
    return (math.sqrt(math.fsum(squares) / dof), float(dof)) if dof else (0.0, 0.0)


def _scatter(level: Level, deviation_pa: float, dof: float) -> Scatter:
    counts = [len(level.towards("up")), len(level.towards("down"))]
    both = level.up is not None and level.down is not None
    return Scatter(
        deviation_pa=deviation_pa,
        dof=dof,
        count=4.0 / math.fsum(1.0 / count for count in counts) if both else float(sum(counts)),
        hysteresis_pa=level.down.value - level.up.value if level.up and level.down else 0.0,
    )


def met_at(run: CheckRun, level: Level) -> Met:
    """Return what was read at a level: means of both directions alike, so that its error is the level's own."""
    signal, supply = _mean(run, level, lambda one: one.signal), _mean(run, level, lambda one: one.supply_v)
    if run.sensor.signal.kind == "ratiometric" and supply:
        ratio = _mean(run, level, lambda one: None if one.signal is None else one.signal / (one.supply_v or math.nan))
        signal = None if ratio is None else ratio * supply
    return Met(
        reference_pa=_reference(run, level),
        signal=signal,
        supply_v=supply,
        shown_pa=_mean(run, level, lambda one: one.shown_pa),
    )


def _reference(run: CheckRun, level: Level) -> float:
    found = _mean(run, level, lambda one: one.reference_pa)
    return math.nan if found is None else found


def _mean(run: CheckRun, level: Level, of: Callable[[Point], float | None]) -> float | None:
    """Return the mean of the means up and down; None where a point lacks the reading."""
    means = []
    for group in (level.towards("up"), level.towards("down")):
        read = [of(run.points[one.number - 1]) for one in group]
        if None in read:
            return None
        if read:
            means.append(mean([each for each in read if each is not None]))
    return mean(means)
