"""What would settle a check that cannot tell: a better reference, more readings, or a point elsewhere.

Rules
-----
1. The combined uncertainty that would just do is known from the rule and from how far the error is from its tolerance;
   the error itself is supposed to stay.
2. Each remedy is told only where it would do alone. Where none would, the two that count most are named.
3. An error that stands on its tolerance is settled by no uncertainty; that is told instead.
"""

from __future__ import annotations

import math

from steadyhead.messages import Message, message
from steadyhead.sensorcheck.budget import Budget
from steadyhead.sensorcheck.conformity import Decision, Known, Rule
from steadyhead.sensorcheck.coverage import coverage_factor, student_quantile

#: More readings of one pressure than this nobody takes.
MOST_READINGS = 20
#: Nearer to its tolerance than this part of it an error is taken to stand on it.
ON_THE_LIMIT = 1e-3


def needed_uncertainty(error: float, tolerance: float, rule: Rule, known: Known) -> float:
    """Return the combined standard uncertainty at which the rule would just decide; 0 where none would.

    Parameters
    ----------
    error, tolerance
        In one unit; the tolerance to one side.
    rule
        How it is decided.
    known
        How well the error is known now: its degrees of freedom are supposed to stay.

    Notes
    -----
    Of a specific risk the nearer limit of the tolerance alone is looked at, which asks for a little too little where
    the uncertainty is as wide as the tolerance.
    """
    margin = abs(tolerance - abs(error))
    k = coverage_factor(rule.coverage, known.dof)
    if rule.kind == "simple":
        return tolerance / (rule.least_tur * k) if rule.least_tur else math.inf
    if margin < ON_THE_LIMIT * tolerance:
        return 0.0
    factor = rule.guard * k if rule.kind == "guard-band" else student_quantile(rule.level, known.dof)
    return margin / factor if factor else math.inf


def what_would_settle(budget: Budget, decision: Decision) -> tuple[Message, ...]:
    """Return what would turn ``cannot-tell`` into an answer; nothing where there is one.

    Parameters
    ----------
    budget
        The error with its uncertainty.
    decision
        What was decided of it.
    """
    if decision.outcome != "cannot-tell":
        return ()
    known, rule = Known.of(budget), decision.rule
    needed = needed_uncertainty(budget.value, decision.tolerance.value, rule, known)
    if needed == 0.0:
        return (message("settle-on-the-limit", error=budget.value, tolerance=decision.tolerance.value),)
    found = [*_better_reference(budget, rule, needed), *_more_readings(budget, needed)]
    return tuple(found) or (_what_counts(budget),)


def _better_reference(budget: Budget, rule: Rule, needed: float) -> tuple[Message, ...]:
    rest = _variance(budget, without="reference")
    if not rest < needed * needed:
        return ()
    best = math.sqrt(needed * needed - rest)
    if best >= math.sqrt(max(budget.combined**2 - rest, 0.0)):
        return ()
    k = coverage_factor(rule.coverage)
    return (message("settle-better-reference", expanded=k * best, k=k, coverage=rule.coverage),)


def _more_readings(budget: Budget, needed: float) -> tuple[Message, ...]:
    for row in budget.rows:
        if row.input.name == "scatter" and row.contribution:
            figures = {each.name: each.value for each in row.input.of}
            rest = budget.combined**2 - row.contribution**2
            if rest < needed * needed:
                count = math.ceil((row.sensitivity * figures["standard-deviation"]) ** 2 / (needed * needed - rest))
                if figures["count"] < count <= MOST_READINGS:
                    return (message("settle-more-readings", count=count, now=int(figures["count"])),)
    return ()


def _what_counts(budget: Budget) -> Message:
    """Return the two inputs that count most, for whoever can do something about both."""
    names = [row.input.name for row in sorted(budget.rows, key=lambda row: -row.share) if row.share > 0.0]
    if len(names) < 2:
        return message("settle-what-counts-alone", largest=names[0])
    return message("settle-what-counts", largest=names[0], second=names[1])


def _variance(budget: Budget, *, without: str) -> float:
    """Return the variance that is left when one part were known exactly."""
    return math.fsum(row.share for row in budget.rows if row.input.part != without) * budget.combined**2
