"""A sensor check for programs: the plan, what came out, and the new setting, as JSON of schema 1.

Rules
-----
1. The keys are a contract: `sensor_check_1.json` beside this module is their JSON Schema, and the manual tells them.
2. Every figure has its SI value with its unit, and its text in the unit in use.
3. Every message has its id, its values and its sentence.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from steadyhead import __version__
from steadyhead.messages import Message
from steadyhead.quantities import spell_range
from steadyhead.sensorcheck.adjusting import Adjustment
from steadyhead.sensorcheck.budget import Budget
from steadyhead.sensorcheck.characteristics import Characteristics
from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.errors import PointError
from steadyhead.sensorcheck.judging import JudgedLevel
from steadyhead.sensorcheck.points import Step
from steadyhead.sensorcheck.run import CheckRun
from steadyhead.sensorcheck.second_opinion import SecondOpinion
from steadyhead.service.answer_json import message_json
from steadyhead.service.sensorcheck.figures_told import Trail, finite, si_unit
from steadyhead.service.sensorcheck.looking import Drift, Looked
from steadyhead.service.sensorcheck.planning import Planned
from steadyhead.words import Speaker

SCHEMA = 1
Json = dict[str, Any]


def planned_json(run: CheckRun, found: Planned, speaker: Speaker) -> Json:
    """Return a plan."""
    made = found.plan
    return {
        **_head("plan", run, speaker),
        "first": message_json(found.first, speaker),
        "purpose": made.purpose.id,
        "pressure_from": made.pressure_from,
        "tolerance": found.tolerance_pa,
        "highest": made.highest_pa,
        "limited_by": made.limited_by,
        "minutes": made.minutes,
        "left": found.left,
        "levels": [
            {
                "pressure": each.reference_pa, "convicts_beyond": finite(each.convicts_beyond),
                "clears_within": each.clears_within if each.clears_within > 0.0 else None,
                "expanded": each.expanded.value,
            }
            for each in found.decidable
        ],
        "steps": [_step(each, speaker) for each in made.steps],
        "cautions": _messages(made.cautions, speaker),
        "notes": _messages(found.notes, speaker),
    }  # fmt: skip


def looked_json(
    found: Looked,
    speaker: Speaker,
    *,
    trace: bool = False,
    drift: Drift | None = None,
    opinions: Sequence[SecondOpinion] = (),
) -> Json:
    """Return everything that a run says; with `trace` how each figure came about, too, and what drawing says of it."""
    trail = Trail(speaker, wanted=trace)
    answer = {
        **_head("show", found.run, speaker),
        "outcome": found.judged.outcome,
        "rule": rule_json(found.rule),
        "tolerance": trail.json(found.judged.tolerance),
        "lines": _messages(found.lines, speaker),
        "characteristics": _characteristics(found, trail),
        "levels": [_level(each, trail, speaker) for each in found.judged.levels],
        "points": [_point(each, trail) for each in found.found.points],
        "adjust": _adjustment(found.adjusted, trail, speaker),
        "notes": _messages(found.notes, speaker),
    }
    if drift is not None:
        answer["drift"] = {
            "days": list(drift.days), "zero_per_year": trail.json(drift.zero), "span_per_year": trail.json(drift.span),
        }  # fmt: skip
    if opinions:
        answer["monte_carlo"] = [_opinion(each, speaker) for each in opinions]
    return {**answer, "trace": trail.steps()} if trace else answer


def _opinion(opinion: SecondOpinion, speaker: Speaker) -> Json:
    found, known, validation = opinion.run.found, opinion.run.known, opinion.validation
    return {
        "pressure": opinion.level.level.pressure.value,
        "trials": opinion.run.trials, "seed": opinion.run.seed, "coverage": opinion.run.coverage,
        "error": found.estimate, "error_known_to": known.estimate,
        "standard_uncertainty": found.u, "standard_uncertainty_known_to": known.u,
        "symmetric": [found.symmetric.low, found.symmetric.high],
        "symmetric_known_to": [known.symmetric.low, known.symmetric.high],
        "shortest": [found.shortest.low, found.shortest.high],
        "linear": [validation.linear.low, validation.linear.high],
        "linear_agrees": validation.verdict,
        "outcome": opinion.outcome,
        "said": message_json(opinion.said, speaker),
    }  # fmt: skip


def adjusted_json(found: Looked, speaker: Speaker, *, trace: bool = False) -> Json:
    """Return the new setting alone; with `trace` how it came about, too."""
    trail = Trail(speaker, wanted=trace)
    answer = {**_head("adjust", found.run, speaker), "adjust": _adjustment(found.adjusted, trail, speaker)}
    return {**answer, "trace": trail.steps()} if trace else answer


def rule_json(rule: Rule) -> Json:
    """Return a decision rule."""
    return {
        "kind": rule.kind, "coverage": rule.coverage, "guard": rule.guard, "level": rule.level,
        "least_tur": rule.least_tur,
    }  # fmt: skip


def _head(kind: str, run: CheckRun, speaker: Speaker) -> Json:
    sensor = run.sensor
    unit = "mA" if sensor.signal.kind == "current" else "V"
    return {
        "schema": SCHEMA,
        "engine": __version__,
        "kind": kind,
        "sensor": {
            "serial": run.serial,
            "signal": spell_range(sensor.signal.low, sensor.signal.high, unit, digits=6),
            "signal_kind": sensor.signal.kind,
            "range": spell_range(sensor.range.low, sensor.range.high, speaker.pressure_unit, digits=6),
            "reference": sensor.reference,
            "accuracy": sensor.accuracy,
        },
        "stage": run.stage,
        "read_as": run.read_as,
        "day": run.began,
        "pressure_unit": speaker.pressure_unit,
    }


def _messages(messages: Sequence[Message], speaker: Speaker) -> list[Json]:
    return [message_json(each, speaker) for each in messages]


def _step(step: Step, speaker: Speaker) -> Json:
    return {
        "number": step.number, "cycle": step.cycle, "direction": step.direction, "pressure": step.pressure_pa,
        "way": message_json(step.way, speaker), "cautions": _messages(step.cautions, speaker),
    }  # fmt: skip


def _characteristics(looked: Looked, trail: Trail) -> Json:
    found: Characteristics = looked.found
    lines = found.linearity
    figures = {
        "zero_error": found.zero,
        "span_error": found.sensor_span,
        "non_linearity_terminal": None if lines is None else lines.terminal,
        "non_linearity_least_squares": None if lines is None else lines.least_squares,
        "non_linearity_independent": None if lines is None else lines.independent,
        "hysteresis": found.hysteresis,
        "repeatability": found.repeatability,
        "greatest_error": found.most,
        "least_error": found.least,
    }
    series = looked.series
    in_pressure = {
        "zero_deviation": series.zero_deviation,
        "hysteresis_of_series": series.hysteresis,
        "repeatability_of_series": series.repeatability,
    }
    return {
        **{
            name: None if each is None else {**_of(trail, each), "of_span": trail.json(found.of_span(each))}
            for name, each in figures.items()
        },
        **{name: trail.json(each) for name, each in in_pressure.items()},
    }


def _of(trail: Trail, figure: Any) -> Json:  # noqa: ANN401 - a figure that is there
    return trail.json(figure) or {}


def _level(each: JudgedLevel, trail: Trail, speaker: Speaker) -> Json:
    budget, decision = each.point.budget, each.decision
    expanded = budget.expanded(decision.rule.coverage)
    return {
        "pressure": trail.json(each.level.pressure),
        "error": trail.json(each.level.both),
        "up": trail.json(each.level.up),
        "down": trail.json(each.level.down),
        "of_span": trail.json(each.point.of_span),
        "expanded": trail.json(expanded.figure),
        "k": expanded.k,
        "dof": finite(expanded.dof),
        "probability": trail.json(decision.probability),
        "tur": finite(decision.tur.value),
        "outcome": decision.outcome,
        "because": message_json(decision.because, speaker),
        "settle": _messages(each.settle, speaker),
        "budget": _budget(budget, speaker),
    }


def _budget(budget: Budget, speaker: Speaker) -> list[Json]:
    return [
        {
            "input": row.input.name,
            "called": speaker.name("input", row.input.name),
            "estimate": row.input.estimate,
            "unit": si_unit(row.input.dimension),
            "distribution": row.input.kind,
            "standard_uncertainty": row.input.standard_uncertainty,
            "dof": finite(row.input.dof),
            "sensitivity": row.sensitivity,
            "contribution": row.contribution,
            "share": row.share,
        }
        for row in budget.rows
    ]


def _point(each: PointError, trail: Trail) -> Json:
    return {
        "number": each.number, "cycle": each.cycle, "direction": each.direction, "pressure": trail.json(each.true),
        "told": trail.json(each.told), "error": trail.json(each.error), "of_span": trail.json(each.of_span),
        "in_signal": trail.json(each.in_signal),
    }  # fmt: skip


def _adjustment(found: Adjustment, trail: Trail, speaker: Speaker) -> Json:
    return {
        "was": {"low": found.was.low, "high": found.was.high},
        "low": trail.json(found.low),
        "high": trail.json(found.high),
        "worst_before": found.worst_before,
        "worst_after": found.worst_after,
        "residuals": [
            {"pressure": trail.json(each.pressure), "before": trail.json(each.before), "after": trail.json(each.after)}
            for each in found.residuals
        ],
        "refused": _messages(found.refused, speaker),
        "notes": _messages(found.notes, speaker),
    }
