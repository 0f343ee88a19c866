"""All figures of a sensor check, behind their door: each with the number under which its descent is told.

Rules
-----
1. The figures and their texts are those that programs get (`steadyhead.service.sensorcheck.as_json`); the page lays
   them out.
2. A click on a figure shows its formula, what it was made of, and who says so; each of those is such a figure again.
3. What comes from other checks (the drift, the change) has a trail of its own; its numbers begin with `OTHER`.
4. A budget's inputs stand the largest first, its sensitivities in SI units.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import isfinite
from typing import Any

from steadyhead.documents.made import WHENCE
from steadyhead.figures import ARITHMETIC, Figure
from steadyhead.messages import Message, message
from steadyhead.quantities import spell_figure
from steadyhead.sensorcheck.budget import Budget, Row
from steadyhead.sensorcheck.second_opinion import SecondOpinion
from steadyhead.service.sensorcheck.as_json import adjusted_json, looked_json
from steadyhead.service.sensorcheck.figures_told import Trail, figure_text, si_unit, value_text
from steadyhead.service.sensorcheck.looking import Drift, Looked
from steadyhead.service.sensorcheck.rule_said import rule_said
from steadyhead.web.views.check_thought import Beside
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

DIGITS = 3
WITHOUT_UNIT = ("1", "fraction")
OTHER = "o"


@dataclass(frozen=True, slots=True, kw_only=True)
class Traced:
    """One figure: what it is called, its text, its number in the trail, and a second text beside it."""

    name: str
    text: str
    number: str
    beside: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeView:
    """The error at one level as found, after the change, and the difference."""

    where: str
    before: str
    after: str
    change: Traced


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelView:
    """One level: pressure, error and how well it is known as figures, what was decided and why, its budget."""

    pressure: Traced
    figures: Sequence[Traced]
    outcome: str
    because: str
    settle: Sequence[str]
    budget: Sequence[Mapping[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class FiguresView:
    """Everything that is behind the door.

    Parameters
    ----------
    levels
        The levels with their budgets.
    figures
        The characteristics of the sensor.
    setting, setting_own, residuals, refused, setting_notes
        A new setting for the controller, the same in the drive's own unit where that is another one, what is left after
        it, why it must not be set, what goes with it.
    rule
        By which rule it was decided.
    drift, drift_says
        How the sensor drifted over its checks, or why that cannot be told.
    changes, changes_say
        How the errors changed since it was found, or why that cannot be told.
    drawn
        What a Monte Carlo run says of each level; empty where nobody asked.
    notes
        What was assumed or left out.
    """

    levels: Sequence[LevelView]
    figures: Sequence[Traced]
    setting: Sequence[Traced]
    setting_own: str
    residuals: Sequence[tuple[Traced, Traced, Traced]]
    refused: Sequence[str]
    setting_notes: Sequence[str]
    rule: str
    drift: Sequence[Traced]
    drift_says: Sequence[str]
    changes: Sequence[ChangeView]
    changes_say: str
    drawn: Sequence[tuple[str, str, str]]
    notes: Sequence[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """One figure with its descent: its formula or whence it was given, what it was made of, and who says so."""

    name: str
    text: str
    formula: str
    whence: str
    inputs: Sequence[Traced]
    source: str


def figures_view(looked: Looked, beside: Beside, speaker: Speaker, menu: str = "") -> FiguresView:
    """Return all figures of a run, with what stands beside them; `menu` is the unit that the drive is set in."""
    told = looked_json(looked, speaker, trace=True)
    called = {each["number"]: each["called"] for each in told["trace"]}
    setting = told["adjust"]
    return FiguresView(
        levels=[
            _level(each, judged.point.budget, called, speaker)
            for each, judged in zip(told["levels"], looked.judged.levels, strict=True)
        ],
        figures=list(_characteristics(told, called)),
        setting=[_traced(setting[end], called) for end in ("low", "high") if setting[end]],
        setting_own=_setting_in(looked, menu, speaker),
        residuals=[
            (_traced(each["pressure"], called), _traced(each["before"], called), _traced(each["after"], called))
            for each in setting["residuals"]
        ],
        refused=_texts(setting["refused"]),
        setting_notes=_texts(setting["notes"]),
        rule=speaker.say(rule_said(looked.rule, looked.judged.tolerance.value)),
        drift=list(_other(beside, beside.drift_figures(), speaker)),
        drift_says=list(_drift_says(beside.drift, speaker)),
        changes=list(_changes(beside, speaker)),
        changes_say=speaker.say(beside.changes) if isinstance(beside.changes, Message) else "",
        drawn=list(_drawn(beside.drawn, speaker)),
        notes=_texts(told["notes"]),
    )


def _setting_in(looked: Looked, menu: str, speaker: Speaker) -> str:
    """Return the new setting in the menu's own unit; empty where it is shown in that one, or where there is none."""
    if menu in {"", speaker.pressure_unit}:
        return ""
    setting = adjusted_json(looked, replace(speaker, pressure_unit=menu))["adjust"]
    return " … ".join(setting[end]["text"] for end in ("low", "high") if setting[end])


def step_view(looked: Looked, beside: Beside, number: str, speaker: Speaker) -> StepView | None:
    """Return one figure of a run with its descent, by its number; None where there is none."""
    other = number.startswith(OTHER)
    told = _trail(beside, speaker).steps() if other else looked_json(looked, speaker, trace=True)["trace"]
    steps = {f"{OTHER if other else ''}{each['number']}": each for each in told}
    found = steps.get(number)
    if found is None:
        return None
    inputs = [(each, told[each - 1]) for each in found["inputs"]]
    return StepView(
        name=sentence(found["called"]), text=found["text"], formula=_formula(found["formula"], speaker),
        whence=_whence(found["whence"], speaker),
        inputs=[Traced(name=sentence(each["called"]), text=each["text"], number=f"{OTHER if other else ''}{place}")
                for place, each in inputs],
        source="" if _is_plain(found) else _source(found["source"], speaker),
    )  # fmt: skip


def _formula(formula: str, speaker: Speaker) -> str:
    return speaker.tell("sensor-figure-formula-said", formula=formula) if formula else ""


def _is_plain(told: Mapping[str, Any]) -> bool:
    """Tell whether a figure was given by nobody but where it stands."""
    return bool(told["whence"]) and told["source"]["cite"] == ARITHMETIC.cite


def _whence(whence: str, speaker: Speaker) -> str:
    return speaker.say(WHENCE.get(whence) or message("paper-from", whence=whence)) if whence else ""


def _source(told: Mapping[str, str], speaker: Speaker) -> str:
    where = {"cite": told["cite"], "locator": told["locator"]}
    if told["seen"] == "republished":
        return speaker.tell("source-copied", via=told["via"], **where)
    return speaker.tell("source-read" if told["seen"] == "original" else "source-remembered", **where)


def _traced(told: Mapping[str, Any], called: Mapping[int, str], beside: str = "") -> Traced:
    number = told["trace"]
    return Traced(name=sentence(called[number]), text=told["text"], number=str(number), beside=beside)


def _level(told: Mapping[str, Any], budget: Budget, called: Mapping[int, str], speaker: Speaker) -> LevelView:
    names = ("error", "of_span", "up", "down", "expanded", "probability")
    k = speaker.tell("sensor-figure-k", k=spell_figure(told["k"]), dof=_count(told["dof"], speaker))
    return LevelView(
        pressure=_traced(told["pressure"], called),
        figures=[_traced(told[name], called, k if name == "expanded" else "") for name in names if told[name]],
        outcome=speaker.name("check-outcome", told["outcome"]),
        because=told["because"]["text"],
        settle=_texts(told["settle"]),
        budget=[_budget_row(row, speaker) for row in sorted(budget.rows, key=lambda row: -row.share)],
    )


def _budget_row(row: Row, speaker: Speaker) -> dict[str, str]:
    one = row.input
    return {
        "name": sentence(speaker.name("input", one.name)),
        "estimate": value_text(one.estimate, one.dimension, speaker, digits=5),
        "kind": speaker.name("distribution", one.kind),
        "u": value_text(one.standard_uncertainty, one.dimension, speaker, digits=DIGITS),
        "dof": _count(one.dof if isfinite(one.dof) else None, speaker),
        "sensitivity": f"{spell_figure(row.sensitivity, digits=DIGITS)} {_per(one.dimension)}",
        "adds": value_text(row.contribution, "pressure", speaker, digits=DIGITS),
        "share": f"{100.0 * row.share:.0f} %",
    }


def _per(dimension: str) -> str:
    """Return the unit of a sensitivity of a pressure.

    >>> _per("voltage"), _per("percent")
    ('Pa/V', 'Pa')
    """
    si = si_unit(dimension)
    return si_unit("pressure") if si in WITHOUT_UNIT else f"{si_unit('pressure')}/{si}"


def _count(dof: float | None, speaker: Speaker) -> str:
    return speaker.tell("sensor-figure-many") if dof is None else spell_figure(dof)


def _characteristics(told: Mapping[str, Any], called: Mapping[int, str]) -> Iterator[Traced]:
    for each in told["characteristics"].values():
        if each is not None:
            of_span = each.get("of_span")
            yield _traced(each, called, of_span["text"] if of_span else "")


def _trail(beside: Beside, speaker: Speaker) -> Trail:
    """Return the trail of what comes from other checks, its figures numbered in their order."""
    found = Trail(speaker, wanted=True)
    for figure in beside.figures():
        found.number(figure)
    return found


def _other(beside: Beside, figures: Iterable[Figure], speaker: Speaker) -> Iterator[Traced]:
    """Yield figures of what comes from other checks."""
    found = _trail(beside, speaker)
    for figure in figures:
        name = sentence(speaker.name("figure", figure.name))
        text = figure_text(figure, speaker, digits=DIGITS)
        yield Traced(name=name, text=text, number=f"{OTHER}{found.number(figure)}")


def _drift_says(found: Drift | Message | None, speaker: Speaker) -> Iterator[str]:
    if isinstance(found, Message):
        yield speaker.say(found)
    elif found is not None:
        yield speaker.tell("sensor-drift-days", count=len(found.days), first=found.days[0], last=found.days[-1])


def _changes(beside: Beside, speaker: Speaker) -> Iterator[ChangeView]:
    if not isinstance(beside.changes, tuple):
        return
    traced = _other(beside, (each.change for each in beside.changes), speaker)
    for each, change in zip(beside.changes, traced, strict=True):
        texts = (figure_text(figure, speaker, digits=DIGITS) for figure in (
            each.found.pressure, each.found.both, each.left.both,
        ))  # fmt: skip
        where, before, after = texts
        yield ChangeView(where=where, before=before, after=after, change=change)


def _drawn(found: Sequence[SecondOpinion] | Message | None, speaker: Speaker) -> Iterator[tuple[str, str, str]]:
    """Yield for each level its pressure, what was drawn beside the linear interval, and what is decided by it."""
    if isinstance(found, Message):
        yield "", speaker.say(found), ""
        return
    for each in found or ():
        drawn, linear = each.validation.drawn, each.validation.linear
        ends = {"low": drawn.low, "high": drawn.high, "linear_low": linear.low, "linear_high": linear.high}
        says = speaker.tell("sensor-drawn", trials=each.run.trials, **ends)
        verdict = speaker.name("drawn-verdict", each.validation.verdict)
        where = figure_text(each.level.level.pressure, speaker, digits=DIGITS)
        yield where, f"{says} {verdict}", speaker.say(each.said)


def _texts(told: Sequence[Mapping[str, Any]]) -> list[str]:
    return [str(each["text"]) for each in told]
