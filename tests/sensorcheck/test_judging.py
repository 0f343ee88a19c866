"""A whole check judged, what can be decided beforehand, and what would settle it."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.figures import trail
from steadyhead.sensorcheck.conformity import Known, Rule, decide
from steadyhead.sensorcheck.decidable import Decidable, decidable, imagined, settle_elsewhere
from steadyhead.sensorcheck.error_inputs import Scatter
from steadyhead.sensorcheck.error_model import Met, error_at
from steadyhead.sensorcheck.errors import levels_of, point_errors, span_figure
from steadyhead.sensorcheck.judging import Judgement, judge, met_at, pooled, tolerance_of
from steadyhead.sensorcheck.run import Certificate, CheckRun, Conditions, Point, Reference, SignalMeter
from steadyhead.sensorcheck.settling import what_would_settle
from steadyhead.visit.record import Gauge, Interval, Sensor, Signal, Tolerance
from steadyhead.words import Speaker
from steadyhead.words.figure_names import FIGURES
from tests.sensorcheck.runs import BAR, GAUGE, HOUSE, LEVEL, PSI, swept

SENSOR = Sensor(
    signal=Signal(kind="ratiometric", low=0.5, high=4.5, wires=3), range=Interval(0.0, 10 * BAR), accuracy=0.01
)
FINE = Reference(
    gauge=Gauge(range=Interval(0.0, 10 * BAR)), resolution_pa=0.002 * BAR,
    certificate=Certificate(expanded=0.01 * BAR, number="7", dated="2026-03-14"),
)  # fmt: skip
COARSE = Reference(gauge=Gauge(range=Interval(0.0, 16 * BAR), grade="1.6"), resolution_pa=0.1 * BAR)
METERED = SignalMeter(signal=Tolerance(0.002, 0.001, 0.001))
RULE = Rule()
LEVELS = (0.0, 2.5 * BAR, 5.0 * BAR, 7.5 * BAR, 10.0 * BAR)


def checked(
    error_bar: float, *, reference: Reference = FINE, cycles: int = 3, noise_bar: float = 0.002, lag_bar: float = 0.004
) -> CheckRun:
    """Return a check of a sensor that reads this much too high, with a little noise and a little lag."""
    source = random.Random(11)  # noqa: S311 - draws cases
    points = []
    for true, direction, cycle in swept(LEVELS, cycles):
        told = true / BAR + error_bar + source.gauss(0.0, noise_bar) + (lag_bar if direction == "down" else 0.0)
        supply = source.uniform(4.9, 5.1)
        points.append(
            Point(reference_pa=true, signal=(0.1 + 0.08 * told) * supply, supply_v=supply, direction=direction,
                  cycle=cycle)
        )  # fmt: skip
    return CheckRun(sensor=SENSOR, reference=reference, meter=METERED, points=tuple(points), conditions=LEVEL)


def ids(found: Judgement) -> set[str]:
    """Return what is said to settle it, over all levels."""
    return {said.id for level in found.levels for said in level.settle}


@pytest.mark.parametrize(("error_bar", "outcome"), [(0.0, "pass"), (0.05, "pass"), (0.2, "fail"), (0.1, "cannot-tell")])
def test_a_fine_gauge_decides(error_bar: float, outcome: str) -> None:
    """By hand: 1 % of 10 bar is 0.1 bar, the expanded uncertainty some 0.013 bar."""
    found = judge(checked(error_bar), RULE)
    assert found.outcome == outcome
    assert found.tolerance.value == pytest.approx(0.1 * BAR)
    assert found.cautions == ()
    assert len(found.levels) == len(LEVELS)


@pytest.mark.parametrize("error_bar", [0.0, 0.1, 0.3])
def test_a_coarse_gauge_cannot_tell_and_says_what_would(error_bar: float) -> None:
    """By hand: class 1.6 of 16 bar is 0.256 bar, two and a half times what is to be judged."""
    found = judge(checked(error_bar, reference=COARSE), RULE)
    assert found.outcome == "cannot-tell"
    assert ids(found) <= {"settle-better-reference", "settle-on-the-limit", "settle-what-counts"}
    assert max(level.decision.tur.value for level in found.levels) < 0.5


def test_a_level_s_error_is_the_one_of_its_points() -> None:
    """Two ways to the same mean: from the points' own errors, and from the means of what was read."""
    run = checked(0.03)
    for level in judge(run, RULE).levels:
        assert level.point.budget.value == pytest.approx(level.level.both.value, abs=1e-6)


@pytest.mark.parametrize("read_as", ["signal", "displayed-pressure"])
def test_the_means_of_a_level_give_its_error_for_every_kind_of_output(read_as: str) -> None:
    """The same, for a current and for a display; readings going up are more than those coming down."""
    rows = [(0.0, 0.01, "up"), (0.0, 0.02, "up"), (0.0, 0.06, "down"), (5.0, 5.1, "up"), (5.0, 5.0, "down")]
    loop = Sensor(signal=Signal(kind="current", low=0.004, high=0.020, wires=2), range=Interval(0.0, 10 * BAR))
    points = tuple(
        Point(reference_pa=true * BAR, signal=0.004 + 0.0016 * told, shown_pa=told * BAR, direction=way)  # type: ignore[arg-type]
        for true, told, way in rows
    )
    run = CheckRun(sensor=loop, reference=FINE, points=points, read_as=read_as, conditions=LEVEL)  # type: ignore[arg-type]
    for level in levels_of(point_errors(run), span_figure(run).value):
        assert error_at(run, met_at(run, level)).budget.value == pytest.approx(level.both.value, abs=1e-6)


def test_the_pooled_deviation_is_that_of_all_groups() -> None:
    """By hand: groups (0, 2), (1, 3, 5) and (9): squares 2 + 8 over 1 + 2 degrees of freedom."""
    told = [(0, 0, "up"), (0, 2, "up"), (5, 6, "down"), (5, 8, "down"), (5, 10, "down"), (9, 18, "up")]
    points = tuple(
        Point(reference_pa=true * BAR, shown_pa=shown * BAR, direction=way)  # type: ignore[arg-type]
        for true, shown, way in told
    )
    run = CheckRun(sensor=SENSOR, reference=FINE, points=points, read_as="displayed-pressure")
    deviation, dof = pooled(levels_of(point_errors(run), span_figure(run).value))
    assert dof == 3.0
    assert deviation / BAR == pytest.approx(math.sqrt(10.0 / 3.0), rel=1e-12)


def test_one_cycle_leaves_the_scatter_unknown_and_says_so() -> None:
    """No group has two readings."""
    found = judge(checked(0.0, cycles=1), RULE)
    assert [said.id for said in found.cautions] == ["repeatability-unknown"]
    assert not any(row.input.name == "scatter" for level in found.levels for row in level.point.budget.rows)


def test_more_cycles_know_the_mean_better() -> None:
    """``s / sqrt(n)``: the scatter's part falls, its degrees of freedom grow."""
    few, many = (judge(checked(0.0, cycles=cycles), RULE).levels[2] for cycles in (2, 8))
    scatter = [next(row for row in each.point.budget.rows if row.input.name == "scatter") for each in (few, many)]
    counts = [dict((one.name, one.value) for one in row.input.of)["count"] for row in scatter]  # noqa: C402 - a generator reads better
    assert counts == [4.0, 16.0]
    assert [row.input.dof for row in scatter] == [10.0, 70.0]


def test_a_plate_without_an_accuracy_is_judged_by_the_usual_one() -> None:
    """1.5 % of span, as the diagnosis assumes it; told."""
    run = replace(checked(0.0), sensor=replace(SENSOR, accuracy=None))
    found = judge(run, RULE)
    assert found.tolerance.value == pytest.approx(0.15 * BAR)
    assert [said.id for said in found.cautions] == ["tolerance-assumed"]
    assert tolerance_of(checked(0.0))[1] == ()


def test_every_figure_of_a_judgement_has_a_name() -> None:
    """A figure that a paper shows is said in words: all that stands in the trails of a check with every input."""
    run = checked(0.0)
    full = replace(
        run, sensor=replace(SENSOR, reference="sealed"), meter=replace(METERED, same_meter=False),
        conditions=Conditions(height_m=1.0, height_u_m=0.1, temperature_effect=1e-4, altitude_m=100.0),
    )  # fmt: skip
    for level in judge(full, RULE).levels:
        decision = level.decision
        expanded = level.point.budget.expanded().figure
        for root in (decision.probability, decision.tur, level.point.of_span, expanded):
            assert {each.name for _, each in trail(root)} - set(FIGURES) == set()


# ------------------------------------------------------------ what would settle it


@settings(max_examples=25)
@given(st.floats(0.12, 0.3), st.sampled_from((RULE, Rule(kind="specific-risk"))))
def test_the_better_gauge_that_is_asked_for_does_settle_it(error_bar: float, rule: Rule) -> None:
    """The check again with a gauge of just that uncertainty, and with one a little worse."""
    run = replace(checked(0.0, reference=COARSE), points=())
    met = Met(reference_pa=5 * BAR, signal=0.5 + 0.4 * (5.0 + error_bar), supply_v=5.0)
    tolerance = tolerance_of(run)[0]
    point = error_at(run, met)
    found = decide(point.budget, tolerance, rule)
    asked = [said for said in what_would_settle(point.budget, found) if said.id == "settle-better-reference"]
    for said in asked:
        expanded, k = said.values["expanded"], said.values["k"]
        assert isinstance(expanded, float)
        assert isinstance(k, float)
        for times, settled in ((0.999, True), (1.01, False)):
            certificate = Certificate(expanded=times * expanded, k=k)
            better = replace(run, reference=Reference(gauge=Gauge(), resolution_pa=0.0, certificate=certificate))
            outcome = decide(error_at(better, met).budget, tolerance, rule).outcome
            assert (outcome != "cannot-tell") == settled
    assert asked or error_bar < 0.13


def test_more_readings_are_asked_for_where_they_would_do() -> None:
    """By hand: s = 0.06 bar, two readings, the rest is small; and the check again with as many as were asked for."""
    run = replace(checked(0.0), points=())
    met = Met(reference_pa=5 * BAR, signal=0.5 + 0.4 * 5.06, supply_v=5.0)
    tolerance = tolerance_of(run)[0]

    def outcome(count: float) -> tuple[str, int | None]:
        point = error_at(run, met, Scatter(deviation_pa=0.06 * BAR, dof=30, count=count))
        found = decide(point.budget, tolerance, RULE)
        asked = [said for said in what_would_settle(point.budget, found) if said.id == "settle-more-readings"]
        number = asked[0].values["count"] if asked else None
        return found.outcome, number if isinstance(number, int) else None

    told, wanted = outcome(2)
    assert told == "cannot-tell"
    assert wanted is not None
    assert 2 < wanted <= 20
    assert outcome(wanted + 1)[0] == "pass"
    assert outcome(wanted - 2)[0] == "cannot-tell"


def test_a_point_elsewhere_is_named_where_the_gauge_is_better_there() -> None:
    """Grade B: 3 % in its lower quarter, 2 % in the middle half (ASME B40.100, from memory)."""
    run = CheckRun(sensor=replace(HOUSE, accuracy=0.001), reference=GAUGE, meter=METERED, conditions=LEVEL)
    low, middle = 10 * PSI, 60 * PSI
    tolerance = tolerance_of(run)[0]
    met = replace(imagined(run, low), signal=0.9 + 0.04 * 4.5)  # reads 4.5 psi too high
    point = error_at(run, met)
    found = decide(point.budget, tolerance, RULE)
    assert found.outcome == "cannot-tell"
    said = settle_elsewhere(run, point.budget, found, (low, middle))
    assert said is not None
    assert said.values["pressure"] == middle
    assert settle_elsewhere(run, point.budget, found, (low,)) is None
    assert settle_elsewhere(run, point.budget, replace(found, outcome="fail"), (middle,)) is None
    wild = error_at(run, met, Scatter(deviation_pa=5 * PSI, dof=9, count=1))
    assert settle_elsewhere(run, wild.budget, decide(wild.budget, tolerance, RULE), (low, middle)) is None


# ------------------------------------------------------------ beforehand


def test_with_this_gauge_you_can_convict_only_beyond() -> None:
    """By hand: class 1.6 of 16 bar, 0.1 bar steps: U = 1.96 sqrt((0.256^2 + 0.05^2) / 3) bar, and the tolerance."""
    run = CheckRun(sensor=SENSOR, reference=COARSE, meter=SignalMeter(signal=Tolerance(1e-9, 1e-9)))
    (found,) = decidable(run, (5 * BAR,), tolerance_of(run)[0], RULE)
    expanded = 1.959964 * math.sqrt((0.256**2 + 0.05**2) / 3.0)
    assert found.convicts_beyond / BAR == pytest.approx(0.1 + expanded, rel=1e-5)
    assert found.clears_within / BAR == pytest.approx(0.1 - expanded, rel=1e-5)
    assert found.said.id == "decidable-convicts-only"
    text = Speaker(pressure_unit="bar").say(found.said)
    assert text == "At 5 bar you can convict only beyond 0.395 bar; clear it you cannot."


@pytest.mark.parametrize(
    ("reference", "rule", "id_"),
    [
        (FINE, RULE, "decidable-both"), (COARSE, RULE, "decidable-convicts-only"),
        (COARSE, Rule(kind="simple", least_tur=1.0), "decidable-nothing"),
        (FINE, Rule(kind="simple"), "decidable-both"),
    ],
)  # fmt: skip
def test_what_can_be_decided_is_said(reference: Reference, rule: Rule, id_: str) -> None:
    """Both ways, one way, or not at all."""
    run = CheckRun(sensor=SENSOR, reference=reference, meter=METERED, conditions=LEVEL)
    for each in decidable(run, LEVELS, tolerance_of(run)[0], rule):
        assert each.said.id == id_
        assert Speaker(pressure_unit="psi").say(each.said)


@settings(max_examples=25)
@given(
    st.floats(0.5, 9.5), st.floats(-0.5, 0.5), st.sampled_from((FINE, COARSE)),
    st.sampled_from((RULE, Rule(kind="specific-risk"))),
)  # fmt: skip
def test_what_was_foretold_comes_true(bar: float, error_bar: float, reference: Reference, rule: Rule) -> None:
    """The decision of the real point, by the limits that were told beforehand.

    A real sensor's signal differs from a perfect one's, and so do the meter's counts behind it: 2 % of the limits.
    """
    run = CheckRun(sensor=SENSOR, reference=reference, meter=METERED, conditions=LEVEL)
    tolerance = tolerance_of(run)[0]
    (told,) = decidable(run, (bar * BAR,), tolerance, rule)
    real = error_at(run, Met(reference_pa=bar * BAR, signal=0.5 + 0.4 * (bar + error_bar), supply_v=5.0))
    outcome, size = decide(real.budget, tolerance, rule).outcome, abs(error_bar) * BAR
    if size > 1.02 * told.convicts_beyond:
        assert outcome == "fail"
    elif size < 0.98 * told.clears_within:
        assert outcome == "pass"
    elif 1.02 * max(told.clears_within, 0.0) < size < 0.98 * told.convicts_beyond:
        assert outcome == "cannot-tell"


def test_a_perfect_sensor_has_no_error() -> None:
    """Whatever the height, the air and the certificate."""
    certificate = Certificate(correction=(0.0, 0.05 * BAR), at=(0.0, 10 * BAR), expanded=0.01 * BAR)
    conditions = Conditions(height_m=3.0, altitude_m=800.0)
    for kind in ("gauge", "absolute", "sealed"):
        for read_as in ("signal", "displayed-pressure"):
            run = CheckRun(
                sensor=replace(SENSOR, reference=kind), reference=replace(FINE, certificate=certificate),
                conditions=conditions, meter=METERED, read_as=read_as,
            )  # fmt: skip
            assert error_at(run, imagined(run, 4.2 * BAR)).budget.value == pytest.approx(0.0, abs=1e-5)


def test_an_expected_scatter_widens_what_is_foretold() -> None:
    """More is uncertain; and without it nobody is told twice that it is unknown."""
    run = CheckRun(sensor=SENSOR, reference=FINE, meter=METERED, conditions=LEVEL)
    tolerance = tolerance_of(run)[0]

    def only(expected: Scatter | None) -> Decidable:
        return decidable(run, (5 * BAR,), tolerance, RULE, expected)[0]

    assert only(None).cautions == ()
    assert only(Scatter(deviation_pa=0.05 * BAR, dof=10, count=4)).convicts_beyond > 1.2 * only(None).convicts_beyond


def test_the_expanded_uncertainty_that_is_foretold_can_be_traced() -> None:
    """Its descent leads to the gauge's own certificate."""
    run = CheckRun(sensor=SENSOR, reference=FINE, meter=METERED, conditions=LEVEL)
    (found,) = decidable(run, (5 * BAR,), tolerance_of(run)[0], RULE)
    budget = error_at(run, imagined(run, 5 * BAR)).budget
    assert found.expanded.value == budget.expanded(RULE.coverage).expanded
    source = next(row.input.source for row in budget.rows if row.input.name == "reference-correction")
    assert (source.cite, source.locator) == ("certificate 7", "2026-03-14")
    assert Known.of(budget).u == budget.combined
