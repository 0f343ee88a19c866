"""What is worked out of a sensor check for its pages: what to take and what it could decide, what came out, the drift.

Rules
-----
1. Everything is worked out by the use cases of a sensor check (`steadyhead.service.sensorcheck`); nothing here.
2. What cannot be worked out is told, with what would help; nothing stands in its place.
3. It is kept for each state of the check (`steadyhead.web.thoughts`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from steadyhead.errors import InputError
from steadyhead.figures import Figure
from steadyhead.messages import Message
from steadyhead.sensorcheck.characteristics import characteristics
from steadyhead.sensorcheck.comparing import Changed, compared
from steadyhead.sensorcheck.conformity import Rule, RuleKind
from steadyhead.sensorcheck.from_facts import ToldCheck
from steadyhead.sensorcheck.points import Step
from steadyhead.sensorcheck.progress import next_step
from steadyhead.sensorcheck.propagated import Trials
from steadyhead.sensorcheck.propagating import propagate
from steadyhead.sensorcheck.run import CheckRun
from steadyhead.sensorcheck.second_opinion import SecondOpinion, second_opinions
from steadyhead.service.sensorcheck.looking import Drift, Looked, drift, look
from steadyhead.service.sensorcheck.planning import Planned, planned


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckThought:
    """What was worked out for one state of a check.

    Parameters
    ----------
    planned
        What is to be taken, and what it could decide; None where nothing can be planned.
    step
        What is taken next; None where all was taken.
    looked
        What the points say; None before the first, and where it cannot be told.
    known_within
        Expanded uncertainty of the error of each point's level [Pa], by the point's entity.
    problems
        Why something could not be worked out.
    """

    planned: Planned | None
    step: Step | None
    looked: Looked | None
    known_within: Mapping[str, float] = field(default_factory=dict)
    problems: tuple[Message, ...] = ()


def thought(told: ToldCheck) -> CheckThought:
    """Return what can be worked out of a check."""
    problems: list[Message] = []
    ahead = _planned(told, problems)
    looked = _looked(told, problems) if told.points else None
    said_first = () if ahead is None else (ahead.first,)
    return CheckThought(
        planned=ahead, step=None if ahead is None else next_step(ahead.plan, told.run.points), looked=looked,
        known_within={} if looked is None else _known(told, looked),
        problems=tuple(each for each in problems if each not in said_first),
    )  # fmt: skip


def _planned(told: ToldCheck, problems: list[Message]) -> Planned | None:
    try:
        return planned(told.run, told.allowed, told.purpose, unit=told.pressure_unit)
    except InputError as error:
        problems.append(error.message)
        return None


def _looked(told: ToldCheck, problems: list[Message]) -> Looked | None:
    try:
        return look(told.run, scaled=told.scaled)
    except InputError as error:
        problems.append(error.message)
        return None


def _known(told: ToldCheck, looked: Looked) -> dict[str, float]:
    return {
        told.points[point.number - 1]: level.point.budget.expanded(looked.rule.coverage).expanded
        for level in looked.judged.levels
        for point in level.level.points
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What stands beside the figures of one check, each a message where it cannot be told, None where nobody asks.

    `drift` is from check to check, `changes` from as found to after a change, `drawn` what a Monte Carlo run says.
    """

    drift: Drift | Message | None = None
    changes: tuple[Changed, ...] | Message | None = None
    drawn: tuple[SecondOpinion, ...] | Message | None = None

    def drift_figures(self) -> tuple[Figure, ...]:
        """Return the drift of zero and span, as far as it can be told."""
        found = (self.drift.zero, self.drift.span) if isinstance(self.drift, Drift) else ()
        return tuple(each for each in found if each is not None)

    def figures(self) -> Iterator[Figure]:
        """Yield its figures."""
        yield from self.drift_figures()
        if isinstance(self.changes, tuple):
            yield from (each.change for each in self.changes)


def changes_of(found: CheckRun | None, left: CheckRun) -> tuple[Changed, ...] | Message | None:
    """Return how the errors changed from as found to after a change, or why that cannot be told."""
    if found is None:
        return None
    try:
        return compared(characteristics(found), characteristics(left))
    except InputError as error:
        return error.message


def drawn_for(told: ToldCheck, kind: RuleKind) -> tuple[Trials, ...] | Message:
    """Return a portable Monte Carlo run of each level, or why there is none: figures alone, for another process."""
    looked = look_by(told, kind, keep_low=False)
    if isinstance(looked, Message):
        return looked
    try:
        opinions = tuple(second_opinions(looked.judged, lambda asked, coverage: propagate(asked, coverage=coverage)))
    except InputError as error:
        return error.message
    return tuple(each.run.bare for each in opinions)


def drawn_of(looked: Looked, drawn: tuple[Trials, ...] | Message) -> tuple[SecondOpinion, ...] | Message:
    """Return what the runs of `drawn_for` say of each level of the same check."""
    if isinstance(drawn, Message):
        return drawn
    runs = iter(drawn)
    return tuple(second_opinions(looked.judged, lambda asked, _: next(runs).of(asked)))


def look_by(told: ToldCheck, kind: RuleKind, *, keep_low: bool) -> Looked | Message:
    """Return what a check says by another rule, or why that cannot be told."""
    try:
        return look(told.run, Rule(kind=kind), scaled=told.scaled, keep_low=keep_low)
    except InputError as error:
        return error.message


def drift_of(runs: Sequence[CheckRun], serial: str) -> Drift | Message | None:
    """Return how a sensor drifted over its checks, why that cannot be told, or None where nobody asks: one check."""
    if not serial or len(runs) < 2:
        return None
    try:
        return drift([run for run in runs if run.points], serial)
    except InputError as error:
        return error.message
