"""A judged check once more by drawing: where the linear figure will do, and where it decides otherwise."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.inputs import normal
from steadyhead.sensorcheck.judging import judge
from steadyhead.sensorcheck.measurand import Measurand
from steadyhead.sensorcheck.propagated import Interval, Propagated, Summary
from steadyhead.sensorcheck.propagating import propagate
from steadyhead.sensorcheck.run import CheckRun, Point, Reference, SignalMeter
from steadyhead.sensorcheck.second_opinion import coverage_of, decided_by, second_opinions
from steadyhead.visit.record import Gauge, Tolerance
from steadyhead.visit.record import Interval as Range
from tests.sensorcheck.published_models import about, result
from tests.sensorcheck.runs import BAR
from tests.sensorcheck.test_judging import FINE, RULE, SENSOR, checked


def portable(asked: Measurand, coverage: float) -> Propagated:
    """Return this home's run."""
    return propagate(asked, trials=20_000, coverage=coverage)


def test_a_fine_gauge_s_decisions_stand() -> None:
    """Many small inputs: the linear interval is good enough, and the same is decided."""
    opinions = list(second_opinions(judge(checked(0.05, reference=FINE), RULE), portable))
    assert [each.said.id for each in opinions] == ["second-opinion-same"] * 5
    assert {each.validation.verdict for each in opinions} <= {"agrees", "cannot-tell"}
    assert {each.outcome for each in opinions} == {"pass"}


def test_a_gauge_by_its_class_alone_convicts_a_little_earlier_by_drawing() -> None:
    """By hand: limits of 0.3 bar are U = 0.339 bar linear, 0.285 bar drawn; 0.41 bar too much, 0.1 bar allowed."""
    gauge = Reference(gauge=Gauge(range=Range(0.0, 10 * BAR), accuracy=0.03), resolution_pa=0.0)
    exact = SignalMeter(signal=Tolerance(1e-9, 1e-9))
    point = Point(reference_pa=5 * BAR, signal=0.5 + 0.4 * 5.41, supply_v=5.0, direction="up")
    run = CheckRun(sensor=SENSOR, reference=gauge, meter=exact, points=(point,))
    judgement = judge(run, RULE)
    (found,) = second_opinions(judgement, portable)
    assert judgement.outcome == "cannot-tell"
    assert found.outcome == "fail"
    assert found.said.id == "second-opinion-fail"
    assert found.validation.verdict == "differs"


def test_a_sensor_that_sticks_stays_failed() -> None:
    """Up and down 0.6 bar apart, 0.1 bar allowed: its mean error is within tolerance, which proves nothing."""
    run = checked(-0.3, lag_bar=0.6)
    judgement = judge(run, RULE)
    assert {level.decision.because.id for level in judgement.levels} == {"decision-sticks"}
    assert {each.said.id for each in second_opinions(judgement, portable)} == {"second-opinion-same"}


def run_with(low: float, high: float, middle: float = 0.0) -> Propagated:
    """Return a run with these figures."""
    figures = Summary(
        estimate=middle, u=0.1, symmetric=Interval(low=low, high=high), shortest=Interval(low=low, high=high)
    )
    asked = result(lambda of: of["x"], normal(about("x"), 0.0, 0.1))
    return Propagated(measurand=asked, coverage=0.95, trials=1000, seed=1, found=figures, known=figures)


@pytest.mark.parametrize(
    ("rule", "run", "outcome"),
    [
        (RULE, run_with(-0.9, 0.9), "pass"),
        (RULE, run_with(-0.9, 1.1), "cannot-tell"),
        (RULE, run_with(-1.1, 0.9), "cannot-tell"),
        (RULE, run_with(1.01, 1.5, 1.2), "fail"),
        (RULE, run_with(-1.5, -1.01, -1.2), "fail"),
        (replace(RULE, guard=2.0), run_with(-0.6, 0.6), "cannot-tell"),
        (replace(RULE, guard=0.5), run_with(-1.9, 1.9), "pass"),
        (Rule(kind="specific-risk"), run_with(-0.9, 0.9), "pass"),
        (Rule(kind="simple"), run_with(-5.0, 5.0, 0.9), "pass"),
        (Rule(kind="simple"), run_with(-5.0, 5.0, 1.1), "fail"),
        (Rule(kind="simple", least_tur=4.0), run_with(-0.3, 0.3), "cannot-tell"),
        (Rule(kind="simple", least_tur=3.0), run_with(-0.3, 0.3), "pass"),
    ],
)
def test_each_rule_looks_at_its_interval(rule: Rule, run: Propagated, outcome: str) -> None:
    """By hand: a tolerance of 1."""
    assert decided_by(run, rule, 1.0) == outcome


def test_a_specific_risk_looks_at_both_of_its_tails() -> None:
    """5 % on either side is 90 % between."""
    assert coverage_of(Rule(kind="specific-risk", level=0.95)) == pytest.approx(0.90)
    assert math.isclose(coverage_of(Rule(coverage=0.99)), 0.99)
