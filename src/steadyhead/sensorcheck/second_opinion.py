"""A judged check once more, by drawing: whether the linear figure is good enough, and what would be decided.

Rules
-----
1. Each level's error is drawn by whichever Monte Carlo run this home has, portable or by the million.
2. By drawing an error passes where its whole interval lies within tolerance, and fails where it lies beyond altogether;
   of simple acceptance the mean alone counts, and the interval's half-width for its ratio.
3. The interval is that of the rule: its coverage, stretched by its guard; of a specific risk the one that leaves out as
   much on either side as the risk allows.
4. A sensor that failed because it sticks, up and down apart by more than it may err, stays failed: drawing its mean
   error says nothing of that.
5. One level after the other, so that whoever waits sees them come.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from steadyhead.messages import Message, message
from steadyhead.sensorcheck.conformity import Outcome, Rule
from steadyhead.sensorcheck.judging import JudgedLevel, Judgement
from steadyhead.sensorcheck.measurand import Measurand
from steadyhead.sensorcheck.propagated import Interval, Propagated
from steadyhead.sensorcheck.validating import Validation, validate

#: A Monte Carlo run of a home: the measurand, and the coverage that is asked for.
Draw = Callable[[Measurand, float], Propagated]


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondOpinion:
    """What drawing says of one level.

    Parameters
    ----------
    level
        The level as it was judged.
    run
        The Monte Carlo run.
    validation
        Whether the linear interval is good enough.
    outcome
        What is decided by the drawn interval.
    said
        Whether that is another decision.
    """

    level: JudgedLevel
    run: Propagated
    validation: Validation
    outcome: Outcome
    said: Message


def second_opinions(judgement: Judgement, draw: Draw, *, digits: int = 1) -> Iterator[SecondOpinion]:
    """Yield what drawing says of each level of a judged check.

    Parameters
    ----------
    judgement
        The check as it was judged.
    draw
        This home's Monte Carlo run: ``lambda asked, coverage: propagate(asked, coverage=coverage)``.
    digits
        Significant digits that the uncertainty is told to, 1 or 2.

    Raises
    ------
    SensorCheckError
        As the run that draws.

    References
    ----------
    JCGM 101:2008, clause 8; JCGM 106:2012, 7.4 and 8.3 (from memory).
    """
    for level in judgement.levels:
        rule, budget = level.decision.rule, level.point.budget
        run = draw(budget.measurand, coverage_of(rule))
        sticks = level.decision.because.id == "decision-sticks"
        outcome: Outcome = "fail" if sticks else decided_by(run, rule, judgement.tolerance.value)
        same = outcome == level.decision.outcome
        yield SecondOpinion(
            level=level,
            run=run,
            validation=validate(budget, run, digits=digits),
            outcome=outcome,
            said=message("second-opinion-same") if same else _OTHERWISE[outcome],
        )


_OTHERWISE: dict[Outcome, Message] = {
    "pass": message("second-opinion-pass"),
    "fail": message("second-opinion-fail"),
    "cannot-tell": message("second-opinion-cannot-tell"),
}


def coverage_of(rule: Rule) -> float:
    """Return the coverage of the interval that a rule looks at; of a specific risk the one with both tails of it.

    >>> coverage_of(Rule()), round(coverage_of(Rule(kind="specific-risk", level=0.95)), 9)
    (0.95, 0.9)
    """
    return 2.0 * rule.level - 1.0 if rule.kind == "specific-risk" else rule.coverage


def decided_by(run: Propagated, rule: Rule, tolerance: float) -> Outcome:
    """Return what a rule decides by a drawn interval.

    Parameters
    ----------
    run
        The run, of the coverage `coverage_of` the rule.
    rule
        The rule.
    tolerance
        Greatest error allowed, to one side, in the unit of the run.
    """
    middle, ends = run.found.estimate, run.found.symmetric
    if rule.kind == "simple":
        if (ends.high - ends.low) / 2.0 * rule.least_tur > tolerance:
            return "cannot-tell"
        ends = Interval(low=middle, high=middle)
    elif rule.kind == "guard-band":
        ends = Interval(
            low=middle - rule.guard * (middle - ends.low), high=middle + rule.guard * (ends.high - middle)
        )
    if -tolerance <= ends.low and ends.high <= tolerance:
        return "pass"
    return "fail" if ends.low > tolerance or ends.high < -tolerance else "cannot-tell"
