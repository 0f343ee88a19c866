"""What is worked out of a sensor check for its page: its plan, the next point, what can be decided, what was decided.

Rules
-----
1. What cannot be worked out is told, with what would help; nothing stands in its place.
2. The rule is the guard band: it convicts nobody whom the gauge could have wronged.
3. What is worked out is kept for each state of the check (`steadyhead.web.thoughts`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from steadyhead.errors import InputError
from steadyhead.messages import Message
from steadyhead.quantities import UNITS
from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.decidable import Decidable, decidable
from steadyhead.sensorcheck.from_facts import ToldCheck
from steadyhead.sensorcheck.judging import Judgement, judge, tolerance_of
from steadyhead.sensorcheck.points import Plan, Step, plan
from steadyhead.sensorcheck.progress import next_step

RULE = Rule()


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckThought:
    """What was worked out for one state of a check.

    Parameters
    ----------
    plan
        What is to be taken; None where nothing can be planned.
    step
        What is taken next; None where all was taken.
    decidable
        What can be decided at each level of the plan.
    judged
        What the points say; None before the first, and where it cannot be told.
    known_within
        Expanded uncertainty of the error of each point's level [Pa], by the point's entity.
    problems
        Why something could not be worked out.
    """

    plan: Plan | None
    step: Step | None
    decidable: tuple[Decidable, ...] = ()
    judged: Judgement | None = None
    known_within: Mapping[str, float] = field(default_factory=dict)
    problems: tuple[Message, ...] = ()


def pascal(unit: str) -> float:
    """Return how many pascal a unit of pressure is.

    >>> pascal("bar")
    100000.0
    """
    return next(each.factor for each in UNITS if each.symbol == unit and each.dimension == "pressure")


def thought(told: ToldCheck) -> CheckThought:
    """Return what can be worked out of a check."""
    problems: list[Message] = []
    planned = _planned(told, problems)
    foretold = _foretold(told, planned, problems)
    judged = _judged(told, problems)
    return CheckThought(
        plan=planned, step=None if planned is None else next_step(planned, told.run.points), decidable=foretold,
        judged=judged, known_within={} if judged is None else _known(told, judged),
        problems=tuple({str(each): each for each in problems}.values()),
    )  # fmt: skip


def _planned(told: ToldCheck, problems: list[Message]) -> Plan | None:
    run = told.run
    try:
        return plan(
            run.sensor, told.allowed, told.purpose, pressure_from=run.pressure_from, conditions=run.conditions,
            unit_pa=pascal(told.pressure_unit),
        )  # fmt: skip
    except InputError as error:
        problems.append(error.message)
        return None


def _foretold(told: ToldCheck, planned: Plan | None, problems: list[Message]) -> tuple[Decidable, ...]:
    levels = (told.run.sensor.range.middle,) if planned is None else planned.levels
    try:
        return decidable(told.run, levels, tolerance_of(told.run)[0], RULE)
    except InputError as error:
        problems.append(error.message)
        return ()


def _judged(told: ToldCheck, problems: list[Message]) -> Judgement | None:
    if not told.points:
        return None
    try:
        return judge(told.run, RULE)
    except InputError as error:
        problems.append(error.message)
        return None


def _known(told: ToldCheck, judged: Judgement) -> dict[str, float]:
    return {
        told.points[point.number - 1]: level.point.budget.expanded(RULE.coverage).figure.value
        for level in judged.levels
        for point in level.level.points
    }
