"""The screens of a sensor check: the plan, five lines, everything behind them, the new setting.

Rules
-----
1. What a house call needs comes first and is five lines; all else is asked for.
2. A page is a list of lines, none longer than `wide`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import floor, isinf, log10

from steadyhead.cli.page import columns, paragraph
from steadyhead.figures import Figure
from steadyhead.messages import Message
from steadyhead.sensorcheck.judging import JudgedLevel
from steadyhead.sensorcheck.points import Step
from steadyhead.service.sensorcheck.looking import Drift, Looked
from steadyhead.service.sensorcheck.planning import Planned, pascal
from steadyhead.service.sensorcheck.rule_said import rule_said
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

MANY = 1000  #: degrees of freedom that need not be told


def plan_screen(found: Planned, speaker: Speaker, wide: int) -> list[str]:
    """Return the plan: what can be decided at all, what to heed, the points."""
    made = found.plan
    head = speaker.tell("checked-plan-head", count=len(made.steps), minutes=made.minutes)
    return [
        *paragraph(speaker.say(found.first), wide), "", *paragraph(sentence(head), wide),
        *_listed(made.cautions, speaker, wide), "", speaker.tell("checked-plan-steps"), *_steps(found, speaker),
        *_still_left(found, speaker, wide), *_besides(found.notes, speaker, wide),
    ]  # fmt: skip


def _still_left(found: Planned, speaker: Speaker, wide: int) -> list[str]:
    """Return how many points are left, where some were taken."""
    if found.left == len(found.plan.steps):
        return []
    return ["", *paragraph(speaker.tell("checked-plan-left", left=found.left), wide)]


def _steps(found: Planned, speaker: Speaker) -> list[str]:
    scale = Scale.of(found.tolerance_pa, speaker)
    beyond = {each.reference_pa: each for each in found.decidable}
    never = speaker.tell("checked-never")

    def row(step: Step) -> tuple[str, ...]:
        here = beyond.get(step.pressure_pa)
        convicts = None if here is None else here.convicts_beyond
        clears = None if here is None else here.clears_within
        return (
            str(step.number), str(step.cycle), speaker.name("direction", step.direction),
            scale.coarse(step.pressure_pa), never if convicts is None or isinf(convicts) else scale(convicts),
            never if clears is None or clears <= 0.0 else scale(clears),
        )  # fmt: skip

    heads = _heads(speaker, "point", "cycle", "way", "gauge", "convicts", "clears")
    return table([row(step) for step in found.plan.steps], heads)


def more_lines(speaker: Speaker, wide: int) -> list[str]:
    """Return how to see more than five lines."""
    return ["", *paragraph(speaker.tell("checked-more"), wide)]


def lines_screen(found: Looked, speaker: Speaker, wide: int) -> list[str]:
    """Return the five lines of a house call."""
    return [line for each in found.lines for line in paragraph(speaker.say(each), wide, "", "  ")]


def full_screen(found: Looked, speaker: Speaker, wide: int) -> list[str]:
    """Return everything behind the five lines: levels, characteristics, rule, budget, notes."""
    worst = max(found.judged.levels, key=lambda each: abs(each.decision.error.value))
    return [
        *lines_screen(found, speaker, wide),
        "", speaker.tell("checked-levels"), *_levels(found, speaker),
        "", speaker.tell("checked-characteristics"), *_characteristics(found, speaker, wide),
        "", *paragraph(speaker.say(rule_said(found.rule, found.judged.tolerance.value)), wide),
        "", *_budget(worst, speaker, wide), *_besides(found.notes, speaker, wide),
    ]  # fmt: skip


def _levels(found: Looked, speaker: Speaker) -> list[str]:
    scale = Scale.of(found.judged.tolerance.value, speaker)

    def row(each: JudgedLevel) -> tuple[str, ...]:
        level, expanded = each.level, each.point.budget.expanded(found.rule.coverage).expanded
        apart = "-" if level.up is None or level.down is None else scale(level.down.value - level.up.value)
        return (
            scale.coarse(level.pressure.value), scale(level.both.value), scale(expanded), apart,
            speaker.name("outcome", each.decision.outcome),
        )  # fmt: skip

    heads = _heads(speaker, "pressure", "error", "known", "updown", "outcome")
    return table([row(each) for each in found.judged.levels], heads)


def _characteristics(found: Looked, speaker: Speaker, wide: int) -> list[str]:
    own, lines, series = found.found, found.found.linearity, found.series
    straight = () if lines is None else (lines.terminal, lines.least_squares, lines.independent)
    figures = (own.zero, own.sensor_span, *straight, own.hysteresis, own.repeatability, own.most, own.least,
               series.zero_deviation, series.hysteresis, series.repeatability)  # fmt: skip
    scale = Scale.of(found.judged.tolerance.value, speaker)

    def row(each: Figure) -> tuple[str, str, str]:
        part = f"{100 * each.value / own.span.value:.2f} %"
        return speaker.name("figure", each.name)[: wide - 30], scale(each.value), part

    return table([row(each) for each in figures if each is not None], ("", *_heads(speaker, "value", "of-span")))


def _budget(worst: JudgedLevel, speaker: Speaker, wide: int) -> Iterator[str]:
    budget = worst.point.budget
    expanded = budget.expanded(worst.decision.rule.coverage)
    at, k = worst.level.pressure.value, f"{expanded.k:.2f}"
    if expanded.dof > MANY:
        head = speaker.tell("checked-budget-without-end", expanded=expanded.expanded, at=at, k=k)
    else:
        head = speaker.tell("checked-budget", expanded=expanded.expanded, at=at, k=k, dof=int(expanded.dof))
    yield from paragraph(head, wide)
    scale = Scale.of(expanded.expanded, speaker)
    rows = [
        (speaker.name("input", each.input.name), scale(abs(each.contribution)), f"{100 * each.share:.0f} %")
        for each in sorted(budget.rows, key=lambda each: -each.share)
        if each.share
    ]
    yield from table(rows, _heads(speaker, "input", "adds", "share"))


def adjust_screen(found: Looked, speaker: Speaker, wide: int) -> list[str]:
    """Return the new setting with what is left after it, or why there is none."""
    adjusted = found.adjusted
    was_low, was_high = adjusted.was.low, adjusted.was.high
    if adjusted.refused or adjusted.low is None or adjusted.high is None:
        head = speaker.tell("checked-adjust-not", was_low=was_low, was_high=was_high)
        refused = _listed(adjusted.refused, speaker, wide)
        return [*paragraph(head, wide), *refused, *_left(found, speaker, wide)]
    low, high = adjusted.low.value, adjusted.high.value
    told = speaker.tell("checked-adjust-set", low=low, high=high, was_low=was_low, was_high=was_high)
    return [*paragraph(told, wide), *_left(found, speaker, wide), *_besides(adjusted.notes, speaker, wide)]


def _left(found: Looked, speaker: Speaker, wide: int) -> list[str]:
    adjusted, scale = found.adjusted, Scale.of(found.judged.tolerance.value, speaker)
    if adjusted.worst_after is None:
        return []
    rows = [
        (scale.coarse(each.pressure.value), scale(each.before.value), scale(each.after.value))
        for each in adjusted.residuals
    ]
    told = speaker.tell("checked-adjust-left", before=adjusted.worst_before, after=adjusted.worst_after)
    return [*paragraph(told, wide), "", *table(rows, _heads(speaker, "pressure", "found", "after"))]


def drift_screen(found: Drift, speaker: Speaker, wide: int) -> list[str]:
    """Return how the sensor drifted over its checks."""
    if found.zero is None:
        return []
    days, zero, u = ", ".join(found.days), found.zero.value, found.zero.standard_uncertainty
    if u is None:
        return paragraph(speaker.tell("checked-drift", zero=zero, days=days), wide)
    return paragraph(speaker.tell("checked-drift-known", zero=zero, known=2.0 * u, days=days), wide)


def trace_screen(steps: Iterable[dict[str, object]], speaker: Speaker, wide: int) -> list[str]:
    """Return how each figure came about: its number, its name and value, its formula with its inputs, its source."""
    return ["", speaker.tell("checked-trace"), *(line for each in steps for line in _step(each, speaker, wide))]


def _step(step: dict[str, object], speaker: Speaker, wide: int) -> Iterator[str]:
    number = f"{step['number']:>4}"
    yield from paragraph(f"{step['name']} = {step['text']}", wide, f"{number}  ")
    inputs, source = step["inputs"], step["source"]
    assert isinstance(inputs, list)  # noqa: S101 - the JSON's own shape
    assert isinstance(source, dict)  # noqa: S101
    if step["formula"]:
        told = speaker.tell("checked-trace-formula", formula=str(step["formula"]))
        yield from paragraph(f"{told}  [{', '.join(map(str, inputs))}]", wide, " " * 6)
    else:
        yield from paragraph(speaker.tell("checked-trace-given", whence=str(step["whence"])), wide, " " * 6)
    if source["cite"] != "arithmetic":
        cite, locator, seen = (str(source[key]) for key in ("cite", "locator", "seen"))
        yield from paragraph(
            speaker.tell("checked-trace-source", cite=cite, locator=locator, seen=seen), wide, " " * 6
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How the pressures of a column are written: one unit, and so many digits after its decimal sign."""

    unit: str
    decimals: int

    @classmethod
    def of(cls, size_pa: float, speaker: Speaker) -> Scale:
        """Return a scale on which a pressure of this size has three figures."""
        unit = speaker.pressure_unit
        return cls(unit=unit, decimals=max(0, 2 - floor(log10(size_pa / pascal(unit)) + 1e-9)))

    def __call__(self, value_pa: float) -> str:
        """Return a pressure; one that rounds to nothing has no sign."""
        text = f"{value_pa / pascal(self.unit):.{self.decimals}f}"
        return f"{text.removeprefix('-') if not text.strip('-0.') else text} {self.unit}"

    def coarse(self, value_pa: float) -> str:
        """Return a pressure with one digit less: where on the range it is."""
        return replace(self, decimals=max(0, self.decimals - 1))(value_pa)


def _heads(speaker: Speaker, *ids: str) -> tuple[str, ...]:
    return tuple(speaker.name("column", each) for each in ids)


def table(rows: Sequence[tuple[str, ...]], heads: tuple[str, ...]) -> list[str]:
    """Return a table of a screen, a little to the right."""
    return ["  " + line for line in columns(rows, heads)]


def _listed(messages: Iterable[Message], speaker: Speaker, wide: int) -> list[str]:
    return [line for each in messages for line in paragraph(speaker.say(each), wide, "  - ", "    ")]


def _besides(notes: Iterable[Message], speaker: Speaker, wide: int) -> list[str]:
    found = _listed(notes, speaker, wide)
    return ["", speaker.tell("checked-notes"), *found] if found else []
