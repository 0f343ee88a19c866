"""Pass, fail, or cannot tell: a decision about an error and its tolerance, by a rule that is stated beforehand.

Rules
-----
1. A rule turns tolerance and uncertainty into two limits: what lies within the first passes, what lies beyond the
   second fails, and between them nobody can tell.
2. Simple acceptance: both limits are the tolerance. The risk is shared, and the uncertainty must be small enough
   (`least_tur`), or it cannot tell.
3. Guard band: ``w = guard U``; passes within ``T - w``, fails beyond ``T + w``.
4. Specific risk: passes where the probability that the sensor is within tolerance is at least `level`, fails where it
   is at most ``1 - level``.
5. The test uncertainty ratio is ``T / U``: tolerance over expanded uncertainty, both to one side.
6. Who cannot tell says what would settle it (`steadyhead.sensorcheck.settling`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from steadyhead.errors import SensorCheckError
from steadyhead.figures import Figure, given
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.budget import Budget
from steadyhead.sensorcheck.coverage import coverage_factor, student_cdf, student_quantile

Outcome = Literal["pass", "fail", "cannot-tell"]
RuleKind = Literal["simple", "guard-band", "specific-risk"]
JCGM_106 = "JCGM 106:2012, The role of measurement uncertainty in conformity assessment"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """How it is decided.

    Parameters
    ----------
    kind
        ``simple``, ``guard-band`` or ``specific-risk``.
    coverage
        Probability that the expanded uncertainty is told for.
    guard
        Guard band as a multiple of the expanded uncertainty.
    level
        Of a specific risk: the probability of being right that is asked for.
    least_tur
        Of simple acceptance: least test uncertainty ratio; below it nothing is decided. 0: any will do.

    Raises
    ------
    SensorCheckError
        ``rule-impossible``: a coverage or a level outside 0.5..1, or a guard or ratio below zero.
    """

    kind: RuleKind = "guard-band"
    coverage: float = 0.95
    guard: float = 1.0
    level: float = 0.95
    least_tur: float = 0.0

    def __post_init__(self) -> None:
        for name, value in (("coverage", self.coverage), ("level", self.level)):
            if not 0.5 < value < 1.0:
                raise SensorCheckError(message("rule-impossible", part=name, got=value, low=0.5, high=1.0))
        for name, value in (("guard", self.guard), ("least_tur", self.least_tur)):
            if not 0.0 <= value < math.inf:
                raise SensorCheckError(message("rule-impossible", part=name, got=value, low=0.0, high=math.inf))

    @property
    def source(self) -> Source:
        """Where the rule stands."""
        return Source(cite=JCGM_106, locator=_CLAUSES[self.kind], seen="memory")


_CLAUSES: dict[RuleKind, str] = {
    "simple": "8.2, decision rules based on simple acceptance",
    "guard-band": "8.3, decision rules based on guard bands",
    "specific-risk": "7.4 and 8.3, conformance probability with a two-sided tolerance interval",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """How well an error is known: its standard uncertainty [any unit], and the degrees of freedom of that."""

    u: float
    dof: float = math.inf

    @classmethod
    def of(cls, budget: Budget) -> Known:
        """Return how well a budget's result is known; degrees of freedom cut down to a whole number."""
        return cls(u=budget.combined, dof=budget.whole_dof)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a rule makes of a tolerance: passes within `accept`, fails beyond `reject`; below zero nothing passes."""

    accept: float
    reject: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """What was decided of one error.

    Parameters
    ----------
    outcome
        ``pass``, ``fail`` or ``cannot-tell``.
    rule
        By which rule.
    error, tolerance
        What was judged, with their descent; the tolerance to one side.
    limits
        Where the rule passes and fails.
    probability
        Probability that the true error is within tolerance.
    tur
        Test uncertainty ratio.
    because
        Why.
    """

    outcome: Outcome
    rule: Rule
    error: Figure
    tolerance: Figure
    limits: Limits
    probability: Figure
    tur: Figure
    because: Message


def conformance_probability(estimate: float, known: Known, low: float = -math.inf, high: float = math.inf) -> float:
    """Return the probability that a true value lies within limits.

    ``p = F((high - y) / u) - F((low - y) / u)``, F of Student's t with the degrees of freedom of u.

    Parameters
    ----------
    estimate
        The best estimate y.
    known
        Its standard uncertainty u, in the same unit.
    low, high
        The limits; infinite where there is none.

    Examples
    --------
    >>> round(conformance_probability(-5.47, Known(u=0.05), high=-5.40), 2)
    0.92

    References
    ----------
    JCGM 106:2012, 7.2 to 7.4.
    """
    if known.u == 0.0:
        return 1.0 if low <= estimate <= high else 0.0
    above, below = (_beyond((low - estimate) / known.u, known.dof), _beyond((estimate - high) / known.u, known.dof))
    return max(0.0, 1.0 - above - below)


def _beyond(z: float, dof: float) -> float:
    if math.isinf(z):
        return 0.0 if z < 0 else 1.0
    return student_cdf(z, dof)


def limits_of(rule: Rule, known: Known, tolerance: float) -> Limits:
    """Return within what a rule passes and beyond what it fails.

    Parameters
    ----------
    rule
        The rule.
    known
        How well the error is known.
    tolerance
        Greatest error allowed, to one side, in the same unit.

    Notes
    -----
    The limits of a specific risk are exact for both limits of the tolerance together; where not even an error of
    nothing would pass, `Limits.accept` is below zero.
    """
    return _LIMITS[rule.kind](rule, known, tolerance)


def _simple(rule: Rule, known: Known, tolerance: float) -> Limits:
    expanded = coverage_factor(rule.coverage, known.dof) * known.u
    if expanded * rule.least_tur > tolerance:
        return Limits(accept=-tolerance, reject=math.inf)
    return Limits(accept=tolerance, reject=tolerance)


def _guard_band(rule: Rule, known: Known, tolerance: float) -> Limits:
    guard = rule.guard * coverage_factor(rule.coverage, known.dof) * known.u
    return Limits(accept=tolerance - guard, reject=tolerance + guard)


def _specific_risk(rule: Rule, known: Known, tolerance: float) -> Limits:
    return Limits(
        accept=_error_with(rule.level, known, tolerance), reject=_error_with(1.0 - rule.level, known, tolerance)
    )


_LIMITS = {"simple": _simple, "guard-band": _guard_band, "specific-risk": _specific_risk}


def _error_with(probability: float, known: Known, tolerance: float) -> float:
    """Return the error that is within tolerance with this probability; below zero where even none has so much."""

    def over(error: float) -> float:
        return conformance_probability(error, known, -tolerance, tolerance) - probability

    if over(0.0) < 0.0:
        return -tolerance
    low, high = 0.0, tolerance + known.u * (1.0 + abs(student_quantile(probability, known.dof)))
    while over(high) > 0.0:
        high *= 2.0
    for _ in range(100):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if over(middle) > 0.0 else (low, middle)
    return high


def decide(budget: Budget, tolerance: Figure, rule: Rule) -> Decision:
    """Decide whether an error is within its tolerance.

    Parameters
    ----------
    budget
        The error with its uncertainty.
    tolerance
        Greatest error allowed, to one side, in the error's unit.
    rule
        How it is decided.

    Raises
    ------
    SensorCheckError
        ``tolerance-not-above-zero``: a tolerance that is not above zero.

    References
    ----------
    JCGM 106:2012, clauses 7 and 8 (from memory).
    """
    if not 0.0 < tolerance.value < math.inf:
        raise SensorCheckError(message("tolerance-not-above-zero", got=tolerance.value))
    known = Known.of(budget)
    limits = limits_of(rule, known, tolerance.value)
    outcome = _outcome(abs(budget.value), limits)
    expanded = budget.expanded(rule.coverage)
    probability = Figure(
        name="conformance-probability",
        value=conformance_probability(budget.value, known, -tolerance.value, tolerance.value),
        dimension="percent",
        formula="F((tolerance - error) / u) - F((-tolerance - error) / u)",
        inputs=(budget.figure, budget.combined_figure, tolerance),
        source=Source(cite=JCGM_106, locator="7.4", seen="memory"),
    )
    tur = Figure(
        name="test-uncertainty-ratio",
        value=tolerance.value / expanded.expanded if expanded.expanded else math.inf,
        dimension="number",
        formula="tolerance / expanded-uncertainty",
        inputs=(tolerance, expanded.figure),
        source=Source(cite="ANSI/NCSL Z540.3:2006", locator="3.11, test uncertainty ratio", seen="memory"),
    )
    because = _because(outcome, budget, tolerance, limits)
    return Decision(
        outcome=outcome,
        rule=rule,
        error=budget.figure,
        tolerance=tolerance,
        limits=limits,
        probability=probability,
        tur=tur,
        because=because,
    )


def _outcome(size: float, limits: Limits) -> Outcome:
    if size <= limits.accept:
        return "pass"
    return "fail" if size > limits.reject else "cannot-tell"


def _because(outcome: Outcome, budget: Budget, tolerance: Figure, limits: Limits) -> Message:
    figures = {"error": budget.value, "tolerance": tolerance.value}
    if outcome == "pass":
        return message("decision-pass", accept=limits.accept, **figures)
    if outcome == "fail":
        return message("decision-fail", reject=limits.reject, **figures)
    if math.isinf(limits.reject):
        return message("decision-too-uncertain", **figures)
    if limits.accept <= 0.0:
        return message("decision-cannot-clear", reject=limits.reject, **figures)
    return message("decision-cannot-tell", accept=limits.accept, reject=limits.reject, **figures)


def together(outcomes: Sequence[Outcome]) -> Outcome:
    """Return the outcome of a whole check: one failed point fails it, and only all of them pass it.

    >>> together(("pass", "cannot-tell")), together(("cannot-tell", "fail")), together(())
    ('cannot-tell', 'fail', 'cannot-tell')
    """
    if "fail" in outcomes:
        return "fail"
    return "pass" if outcomes and set(outcomes) == {"pass"} else "cannot-tell"


def tolerance_figure(accuracy: float, span_pa: float) -> Figure:
    """Return the greatest error that a plate's accuracy allows [Pa]: ``accuracy x span``."""
    return Figure(
        name="tolerance",
        value=accuracy * span_pa,
        dimension="pressure",
        formula="accuracy x span",
        inputs=(given("accuracy", accuracy, "percent", "plate"), given("span", span_pa, "pressure", "plate")),
    )
