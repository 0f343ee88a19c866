"""Decisions by a stated rule, and their risks, against published examples, closed forms and properties."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.errors import SensorCheckError
from steadyhead.figures import given as given_figure
from steadyhead.figures import trail
from steadyhead.sensorcheck.budget import Budget, budget_of
from steadyhead.sensorcheck.conformity import (
    Decision,
    Known,
    Rule,
    RuleKind,
    conformance_probability,
    decide,
    limits_of,
    together,
    tolerance_figure,
)
from steadyhead.sensorcheck.coverage import coverage_factor, normal_cdf, normal_quantile
from steadyhead.sensorcheck.global_risk import Between, Population, global_risks
from steadyhead.sensorcheck.inputs import normal
from steadyhead.sensorcheck.settling import needed_uncertainty, what_would_settle
from tests.sensorcheck.published_models import about, result

GUARD, RISK = Rule(), Rule(kind="specific-risk")
RULES = (GUARD, RISK, Rule(kind="simple"))
sizes = st.floats(0.01, 100.0)


def budget(error: float, u: float, dof: float = math.inf) -> Budget:
    """Return an error with its uncertainty."""
    return budget_of(result(lambda of: of["error"], normal(about("error"), error, u, dof)))


def decided(error: float, u: float, tolerance: float, rule: Rule) -> Decision:
    """Return what is decided of an error."""
    return decide(budget(error, u), given_figure("tolerance", tolerance, "number", "plate"), rule)


# ------------------------------------------------------------ published


@pytest.mark.parametrize(
    ("mean", "inside", "below", "above"),
    [
        (10.0, "0.98758", "0.00621", "0.00621"), (10.5, "0.89426", "0.00009", "0.10565"),
        (12.0, "0.00621", "0", "0.99379"),
    ],
)  # fmt: skip
def test_a_published_process_and_its_limits(mean: float, inside: str, below: str, above: str) -> None:
    """A national laboratory's course: N(mean, 0.4) between 9 and 11 (republished: its library's tests), every digit."""
    known = Known(u=0.4)
    assert round(conformance_probability(mean, known, 9.0, 11.0), 5) == float(inside)
    assert round(conformance_probability(mean, known, high=9.0), 5) == float(below)
    assert round(conformance_probability(mean, known, low=11.0), 5) == float(above)


def test_the_conformance_probability_of_the_guide() -> None:
    """JCGM 106:2012, clause 7, example (from memory): -5.47 V, u 0.05 V, to be below -5.40 V: z = 1.40, p = 0.92."""
    assert round(conformance_probability(-5.47, Known(u=0.05), high=-5.40), 2) == 0.92


#: JCGM 106:2012, table 1 (from memory).
@pytest.mark.parametrize(("z", "probability"), [(0.84, 0.80), (1.28, 0.90), (1.64, 0.95), (2.33, 0.99), (3.09, 0.999)])
def test_the_table_of_one_sided_conformance(z: float, probability: float) -> None:
    """JCGM 106:2012, table 1: z of the distance to the limit, in standard uncertainties."""
    digits = 3 if probability > 0.99 else 2
    assert round(conformance_probability(-z, Known(u=1.0), high=0.0), digits) == pytest.approx(probability, abs=0.0011)


#: Deaver, papers on guard bands, by his limits in process deviations and his ratio (republished: a library's tests).
@pytest.mark.parametrize(
    ("limit", "ratio", "band", "accept", "reject"),
    [(2.0, 4.0, 1.0, "0.008", "0.015"), (2.0, 2.0, 0.91, "0.008", "0.066")],
)
def test_published_false_accepts_and_rejects(limit: float, ratio: float, band: float, accept: str, reject: str) -> None:
    """Deaver: process N(0, 1), measurement 1 over the ratio, acceptance at a part of the limit, every digit.

    The band of 0.91 is itself rounded: his 0.066 is held to a unit of its last digit.
    """
    found = global_risks(
        Population(deviation=1.0), 1.0 / ratio,
        Between(low=-limit, high=limit), Between(low=-band * limit, high=band * limit),
    )  # fmt: skip
    assert found.false_accept == pytest.approx(float(accept), abs=0.5 * 10.0 ** -len(accept.partition(".")[2]))
    digits = 0.5 if band == 1.0 else 1.0
    assert found.false_reject == pytest.approx(float(reject), abs=digits * 10.0 ** -len(reject.partition(".")[2]))


def test_the_guard_band_at_a_published_ratio() -> None:
    """NCSLI RP-10, test method at a ratio of 2.5 (republished): accept within 0.600 of the tolerance."""
    k = coverage_factor(0.95)
    limits = limits_of(GUARD, Known(u=1.0 / 2.5 / k), 1.0)
    assert round(limits.accept, 3) == 0.600
    assert limits.reject == pytest.approx(1.4, rel=1e-12)


# ------------------------------------------------------------ closed forms and another way


@given(st.floats(-3, 3), st.floats(0.05, 3), st.floats(0.1, 4))
def test_the_probability_is_that_of_the_normal_distribution(error: float, u: float, tolerance: float) -> None:
    """Closed form."""
    expected = normal_cdf((tolerance - error) / u) - normal_cdf((-tolerance - error) / u)
    assert conformance_probability(error, Known(u=u), -tolerance, tolerance) == pytest.approx(expected, abs=1e-12)


def test_few_degrees_of_freedom_make_it_less_sure() -> None:
    """Cauchy's distribution, one degree of freedom: ``1/2 + atan(z) / pi``."""
    expected = 0.5 + math.atan(2.0) / math.pi
    assert conformance_probability(-2.0, Known(u=1.0, dof=1.0), high=0.0) == pytest.approx(expected, rel=1e-12)


def test_what_is_known_exactly_is_sure() -> None:
    """Nothing is uncertain."""
    assert conformance_probability(1.0, Known(u=0.0), -1.0, 1.0) == 1.0
    assert conformance_probability(1.1, Known(u=0.0), -1.0, 1.0) == 0.0


def test_the_risks_are_counted_by_drawing() -> None:
    """Monte Carlo of the pair, written out: 200 000 sensors, a mean beside the middle, one guard band."""
    source, count, accept, reject = random.Random(5), 200_000, 0, 0  # noqa: S311 - draws cases
    for _ in range(count):
        true = source.gauss(0.3, 0.8)
        passed = abs(true + source.gauss(0.0, 0.3)) <= 0.9
        accept += passed and abs(true) > 1.0
        reject += not passed and abs(true) <= 1.0
    found = global_risks(Population(mean=0.3, deviation=0.8), 0.3, Between(low=-1, high=1), Between(low=-0.9, high=0.9))
    for drawn, worked_out in ((accept / count, found.false_accept), (reject / count, found.false_reject)):
        assert worked_out == pytest.approx(drawn, abs=5 * math.sqrt(drawn / count))


def test_a_tolerance_with_one_side_has_its_risks_in_closed_form() -> None:
    """At the process mean, orthant probability: ``1/4 - asin(r) / 2 pi``, r of true and measured error."""
    r = 1.0 / math.sqrt(1.0 + 0.5**2)
    expected = 0.25 - math.asin(r) / (2 * math.pi)
    found = global_risks(Population(deviation=1.0), 0.5, Between(high=0.0))
    assert found.false_accept == pytest.approx(expected, rel=1e-9)
    assert found.false_reject == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(("deviation", "u"), [(0.0, 1.0), (1.0, 0.0), (math.nan, 1.0)])
def test_a_risk_without_spread_is_refused(deviation: float, u: float) -> None:
    """Both must be above zero."""
    with pytest.raises(SensorCheckError, match=r"^risk-needs-spread"):
        global_risks(Population(deviation=deviation), u, Between(low=-1, high=1))


# ------------------------------------------------------------ the rules


@pytest.mark.parametrize(
    ("error", "outcome"),
    [(0.0, "pass"), (-0.79, "pass"), (0.81, "cannot-tell"), (-1.19, "cannot-tell"), (1.21, "fail")],
)
def test_a_guard_band_on_both_sides(error: float, outcome: str) -> None:
    """By hand: T = 1, U = 0.2 at 95 %: passes within 0.8, fails beyond 1.2."""
    found = decided(error, 0.2 / coverage_factor(0.95), 1.0, GUARD)
    assert found.outcome == outcome
    assert found.limits.accept == pytest.approx(0.8)
    assert found.limits.reject == pytest.approx(1.2)
    assert found.tur.value == pytest.approx(5.0)


@pytest.mark.parametrize(("error", "outcome"), [(0.99, "pass"), (1.01, "fail"), (-1.01, "fail")])
def test_simple_acceptance(error: float, outcome: str) -> None:
    """By hand: the tolerance alone."""
    assert decided(error, 0.5, 1.0, Rule(kind="simple")).outcome == outcome


@pytest.mark.parametrize("error", [0.0, 5.0])
def test_simple_acceptance_asks_for_its_ratio(error: float) -> None:
    """By hand: T = 1, U = 0.5, a ratio of 2 where 4 is asked for."""
    found = decided(error, 0.5 / coverage_factor(0.95), 1.0, Rule(kind="simple", least_tur=4.0))
    assert (found.outcome, found.because.id) == ("cannot-tell", "decision-too-uncertain")


@given(st.floats(-3, 3), st.floats(0.01, 2), st.floats(0.55, 0.99))
def test_a_specific_risk_is_what_its_probability_says(error: float, u: float, level: float) -> None:
    """Definition: pass at the level or above, fail at its rest or below."""
    found = decided(error, u, 1.0, Rule(kind="specific-risk", level=level))
    p = found.probability.value
    if abs(p - level) > 1e-9 and abs(p - 1 + level) > 1e-9:
        assert found.outcome == ("pass" if p > level else "fail" if p < 1 - level else "cannot-tell")


def test_a_specific_risk_far_from_the_other_limit_is_one_sided() -> None:
    """Closed form: ``T - z u`` and ``T + z u``."""
    z = normal_quantile(0.95)
    limits = limits_of(RISK, Known(u=0.01), 1.0)
    assert limits.accept == pytest.approx(1 - 0.01 * z, rel=1e-9)
    assert limits.reject == pytest.approx(1 + 0.01 * z, rel=1e-9)


@given(st.floats(-3, 3), st.floats(0.01, 2), st.sampled_from(RULES))
def test_the_sign_of_an_error_does_not_matter(error: float, u: float, rule: Rule) -> None:
    """Symmetry."""
    assert decided(error, u, 1.0, rule).outcome == decided(-error, u, 1.0, rule).outcome


@given(st.floats(0, 3), st.floats(0.01, 2), st.floats(1.0, 5.0), st.sampled_from(RULES))
def test_a_better_instrument_never_turns_a_decision_round(error: float, u: float, worse: float, rule: Rule) -> None:
    """Of one error a smaller uncertainty only decides what could not be told."""
    good, bad = decided(error, u, 1.0, rule).outcome, decided(error, u * worse, 1.0, rule).outcome
    assert bad in {good, "cannot-tell"}


@given(st.floats(-3, 3), st.floats(0.01, 2), st.floats(1e-4, 1e6), st.sampled_from(RULES))
def test_the_unit_does_not_matter(error: float, u: float, unit: float, rule: Rule) -> None:
    """A factor for all three."""
    one, other = decided(error, u, 1.0, rule), decided(error * unit, u * unit, unit, rule)
    assert other.probability.value == pytest.approx(one.probability.value, abs=1e-9)
    assert other.limits.reject == pytest.approx(one.limits.reject * unit, rel=1e-9)


@pytest.mark.parametrize("kind", ["simple", "guard-band", "specific-risk"])
def test_a_decision_can_be_traced(kind: RuleKind) -> None:
    """Error, tolerance, probability and ratio lead down to what was given; the rule names its clause."""
    found = decided(0.3, 0.1, 1.0, Rule(kind=kind))
    assert "JCGM 106" in found.rule.source.cite
    for figure in (found.probability, found.tur):
        assert {"tolerance", "error"} <= {each.name for _, each in trail(figure)}


@pytest.mark.parametrize(
    "make",
    [lambda: Rule(coverage=1.0), lambda: Rule(coverage=0.5), lambda: Rule(level=math.nan), lambda: Rule(guard=-0.1),
     lambda: Rule(least_tur=math.inf)],
)  # fmt: skip
def test_a_rule_that_cannot_be_is_refused(make: object) -> None:
    """Its part is named."""
    assert callable(make)
    with pytest.raises(SensorCheckError, match=r"^rule-impossible \(part="):
        make()


@pytest.mark.parametrize("tolerance", [0.0, -1.0, math.nan, math.inf])
def test_a_tolerance_that_is_none_is_refused(tolerance: float) -> None:
    """It must be above zero and finite."""
    with pytest.raises(SensorCheckError, match=r"^tolerance-not-above-zero"):
        decided(0.1, 0.1, tolerance, GUARD)


@given(st.lists(st.sampled_from(("pass", "fail", "cannot-tell")), max_size=6))
def test_a_check_is_as_good_as_its_worst_point(outcomes: list[str]) -> None:
    """One failed point fails it; only all of them together pass it; of none nothing is told."""
    found = together(outcomes)  # type: ignore[arg-type]
    assert (found == "fail") == ("fail" in outcomes)
    assert (found == "pass") == (bool(outcomes) and set(outcomes) == {"pass"})


def test_the_tolerance_of_a_plate() -> None:
    """By hand: 1 % of 690 kPa."""
    assert tolerance_figure(0.01, 690e3).value == pytest.approx(6900.0, rel=1e-12)


# ------------------------------------------------------------ what would settle it


@given(st.floats(0, 3), st.floats(0.01, 2), st.sampled_from((GUARD, RISK)))
def test_what_is_needed_would_do_and_a_little_more_would_not(error: float, u: float, rule: Rule) -> None:
    """The decision itself, at the uncertainty that is told to be needed."""
    needed = needed_uncertainty(error, 1.0, rule, Known(u=u))
    if 0.0 < needed < 0.2:  # the other limit is far away
        assert decided(error, needed * 0.999, 1.0, rule).outcome != "cannot-tell"
        assert decided(error, needed * 1.001, 1.0, rule).outcome == "cannot-tell"


@pytest.mark.parametrize(("error", "id_"), [(1.0, "settle-on-the-limit"), (1.002, "settle-what-counts-alone")])
def test_an_error_on_its_tolerance_is_settled_by_nothing(error: float, id_: str) -> None:
    """Whatever the uncertainty, the margin is nothing; on it is what is nearer than a thousandth of the tolerance."""
    found = decided(10 * error, 1.0, 10.0, GUARD)
    (said,) = what_would_settle(budget(10 * error, 1.0), found)
    assert said.id == id_


def test_simple_acceptance_needs_what_its_ratio_asks_for() -> None:
    """By hand: T = 8, a ratio of 4: U = 2, whatever the error."""
    rule = Rule(kind="simple", least_tur=4.0)
    assert needed_uncertainty(3.0, 8.0, rule, Known(u=5.0)) == pytest.approx(2.0 / coverage_factor(0.95))
    assert needed_uncertainty(3.0, 8.0, Rule(kind="simple"), Known(u=5.0)) == math.inf


def test_what_is_decided_needs_nothing() -> None:
    """Nothing to say."""
    assert what_would_settle(budget(0.0, 0.1), decided(0.0, 0.1, 1.0, GUARD)) == ()
