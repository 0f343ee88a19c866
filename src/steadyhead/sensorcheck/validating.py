"""Is the linear figure good enough? The interval of the GUM against that of a Monte Carlo run.

Rules
-----
1. Both intervals must agree at both ends within the numerical tolerance: half a unit of the last digit that the
   uncertainty is told to.
2. A Monte Carlo run that is itself not known to a fifth of that cannot judge, and asks for more trials.
3. Where they differ the Monte Carlo interval is the one to use, and that is told with both.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from steadyhead.messages import Message, message
from steadyhead.sensorcheck.budget import Budget
from steadyhead.sensorcheck.propagated import Interval, Propagated
from steadyhead.sensorcheck.rounding import numerical_tolerance

Verdict = Literal["agrees", "differs", "cannot-tell"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Validation:
    """Whether the linear interval is good enough.

    Parameters
    ----------
    verdict
        ``agrees``, ``differs`` or ``cannot-tell``: too few trials.
    low, high
        How far the ends of both intervals are apart.
    tolerance
        How far they may be.
    linear, drawn
        Both intervals.
    said
        The same for a person.
    """

    verdict: Verdict
    low: float
    high: float
    tolerance: float
    linear: Interval
    drawn: Interval
    said: Message


def validate(
    budget: Budget, run: Propagated, *, digits: int = 2, interval: Literal["symmetric", "shortest"] = "symmetric"
) -> Validation:
    """Say whether the linear interval of a budget agrees with a Monte Carlo run of the same measurand.

    Parameters
    ----------
    budget
        The linear figure.
    run
        The Monte Carlo run, for the coverage that matters.
    digits
        Significant digits that the uncertainty is told to.
    interval
        Which of the run's intervals is compared.

    Notes
    -----
    A run whose ends are apart by more than tolerance and thrice their own uncertainty differs, however short it was.

    References
    ----------
    JCGM 101:2008, 8.1 and 8.2 (from memory).
    """
    expanded = budget.expanded(run.coverage).expanded
    linear = Interval(low=budget.value - expanded, high=budget.value + expanded)
    drawn: Interval = getattr(run.found, interval)
    known: Interval = getattr(run.known, interval)
    tolerance = numerical_tolerance(run.found.u, digits)
    apart = Interval(low=abs(linear.low - drawn.low), high=abs(linear.high - drawn.high))
    ends = ((apart.low, known.low), (apart.high, known.high))
    figures = {"low": linear.low, "high": linear.high, "drawn_low": drawn.low, "drawn_high": drawn.high}
    verdict: Verdict = "agrees"
    if any(off > tolerance + 3.0 * own for off, own in ends):
        verdict, said = "differs", message("linear-not-good-enough", **figures)
    elif any(own > tolerance / 5.0 for _, own in ends):
        verdict, said = "cannot-tell", message("linear-needs-trials", trials=run.trials, **figures)
    elif any(off > tolerance for off, _ in ends):
        verdict, said = "differs", message("linear-not-good-enough", **figures)
    else:
        said = message("linear-good-enough", **figures)
    return Validation(
        verdict=verdict,
        low=apart.low,
        high=apart.high,
        tolerance=tolerance,
        linear=linear,
        drawn=drawn,
        said=said,
    )
