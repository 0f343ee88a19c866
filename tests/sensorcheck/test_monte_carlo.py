"""Monte Carlo in plain Python: published results within what a run says of itself, closed forms, and its refusals."""

from __future__ import annotations

import math
from collections.abc import Generator
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import umath

from steadyhead.errors import RangeOfValidityError, SensorCheckError
from steadyhead.sensorcheck.budget import budget_of
from steadyhead.sensorcheck.inputs import Input, Kind, exactly, normal
from steadyhead.sensorcheck.measurand import Correlation, Measurand
from steadyhead.sensorcheck.propagated import Propagated, Summary
from steadyhead.sensorcheck.propagating import Progress, propagate, propagating
from steadyhead.sensorcheck.validating import validate
from tests.sensorcheck import published_models as models
from tests.sensorcheck.published_models import about, bounded, by_coefficients, result, student

#: Nothing that a run says lies further from the truth than this many of its own uncertainties: one in a million.
FAR = 5.0


def near(run: Propagated, figure: str, expected: float, half_a_digit: float = 0.0) -> None:
    """Compare a figure of a run with what it should be, within what the run says of itself."""
    found, known = (figures(each)[figure] for each in (run.found, run.known))
    assert known > 0.0
    assert found == pytest.approx(expected, abs=half_a_digit + FAR * known)


def figures(summary: Summary) -> dict[str, float]:
    """Return the figures of a run by short names."""
    return dict(
        zip(("mean", "u", "low", "high", "shortest-low", "shortest-high"), summary.figures, strict=True)
    )  # fmt: skip


#: Standard deviation and 97.5 % quantile of each kind with a spread of 1, in closed form.
CLOSED: dict[Kind, tuple[float, float]] = {
    "normal": (1.0, 1.959963984540054),
    "rectangular": (1 / math.sqrt(3), 0.95),
    "triangular": (1 / math.sqrt(6), 1 - math.sqrt(2 * 0.025)),
    "arcsine": (1 / math.sqrt(2), math.sin(math.pi * 0.475)),
    "trapezoidal": (math.sqrt(1.25 / 6), 1 - math.sqrt(2 * 0.025 * 0.75)),
    "t": (math.sqrt(10 / 8), 2.2281388519649385),
}


@pytest.mark.parametrize("kind", CLOSED)
def test_each_kind_is_drawn_as_its_closed_form_says(kind: Kind) -> None:
    """Closed forms of standard deviation and quantile; half of the trapezoid is flat, t has 10 degrees of freedom."""
    one = Input(name="x", estimate=7.0, spread=2.0, dimension="number", kind=kind, shape=0.5, dof=10)
    run = propagate(result(lambda of: of["x"], one), trials=20_000)
    deviation, quantile = CLOSED[kind]
    near(run, "mean", 7.0)
    near(run, "u", 2.0 * deviation)
    near(run, "low", 7.0 - 2.0 * quantile)
    near(run, "high", 7.0 + 2.0 * quantile)


def test_a_given_uncertainty_of_few_degrees_of_freedom_is_drawn_as_student_s_t() -> None:
    """JCGM 101:2008, 6.4.9.7 (from memory); t of 5 degrees of freedom from its table."""
    run = propagate(result(lambda of: of["x"], normal(about("x"), 0.0, 1.0, 5)), trials=20_000)
    near(run, "high", 2.5705818366147395)


def test_uncertain_limits_are_drawn_with_their_standard_deviation() -> None:
    """JCGM 101, 6.4.3: ``u^2 = (b - a)^2 / 12 + d^2 / 9``, d in the limits' own unit (from memory)."""
    run = propagate(result(lambda of: of["x"], bounded("x", 1.0, 4.0, "uncertain", shape=0.75)), trials=20_000)
    near(run, "u", math.sqrt(8.0**2 / 12 + 3.0**2 / 9))
    assert run.found.u == pytest.approx(bounded("x", 1.0, 4.0, "uncertain", shape=0.75).standard_uncertainty, rel=0.02)


#: Example, figure, printed: JCGM 101 (from memory, 9.2 republished), NIST TN 1900 and NPL (republished).
PUBLISHED = [
    ("9.2.2", models.four("normal"), "u", 2.0, 0.05),
    ("9.2.2", models.four("normal"), "high", 3.92, 0.005),
    ("9.2.3", models.four("rectangular"), "high", 3.88, 0.005),
    ("9.2.4", models.four("rectangular", 10.0), "high", 17.0, 0.05),
    ("9.3", models.mass(), "mean", 1.2341, 0.00005),
    ("9.3", models.mass(), "u", 0.0754, 0.00005),
    ("9.3", models.mass(), "shortest-low", 1.0834, 0.00005),
    ("9.3", models.mass(), "shortest-high", 1.3825, 0.00005),
    ("9.4 x1=0", models.comparison_loss(0.0), "mean", 50e-6, 0.5e-6),
    ("9.4 x1=0", models.comparison_loss(0.0), "u", 50e-6, 0.5e-6),
    ("9.4 x1=0", models.comparison_loss(0.0), "shortest-high", 150e-6, 0.5e-6),
    ("9.4 x1=0.010", models.comparison_loss(0.010), "mean", 150e-6, 0.5e-6),
    ("9.4 x1=0.010", models.comparison_loss(0.010), "u", 112e-6, 0.5e-6),
    ("9.4 x1=0.010", models.comparison_loss(0.010), "shortest-high", 367e-6, 0.5e-6),
    ("9.4 x1=0.050", models.comparison_loss(0.050), "mean", 2550e-6, 0.5e-6),
    ("9.4 x1=0.050", models.comparison_loss(0.050), "u", 502e-6, 0.5e-6),
    ("9.4 x1=0.050", models.comparison_loss(0.050), "shortest-low", 1590e-6, 0.5e-6),
    ("9.4 x1=0.050", models.comparison_loss(0.050), "shortest-high", 3543e-6, 0.5e-6),
    ("9.4 x1=0 r=0.9", models.comparison_loss(0.0, 0.9), "u", 67e-6, 0.5e-6),
    ("9.4 x1=0 r=0.9", models.comparison_loss(0.0, 0.9), "shortest-high", 185e-6, 0.5e-6),
    ("9.4 x1=0.010 r=0.9", models.comparison_loss(0.010, 0.9), "u", 121e-6, 0.5e-6),
    ("9.4 x1=0.010 r=0.9", models.comparison_loss(0.010, 0.9), "shortest-high", 398e-6, 0.5e-6),
    ("9.4 x1=0.050 r=0.9", models.comparison_loss(0.050, 0.9), "u", 505e-6, 0.5e-6),
    ("E3", models.viscosity(), "mean", 5.82, 0.005),
    ("E3", models.viscosity(), "u", 1.11, 0.005),
    ("E3", models.viscosity(), "low", 4.05, 0.005),
    ("E3", models.viscosity(), "high", 8.39, 0.005),
    ("E11", models.attenuator(), "mean", 30.043, 0.0005),
    ("E11", models.attenuator(), "u", 0.0224, 0.00005),
    ("E11", models.attenuator(), "low", 30.006, 0.0005),
    ("E11", models.attenuator(), "high", 30.081, 0.0005),
    ("E13", models.expansion(math.sqrt(3.0)), "u", 1.74e-6, 0.005e-6),
    ("NPL log", result(lambda of: umath.log(of["x"]), bounded("x", 0.6, 0.5)), "mean", -0.665, 0.0005),
    ("NPL log", result(lambda of: umath.log(of["x"]), bounded("x", 0.6, 0.5)), "u", 0.606, 0.0005),
    ("NPL log", result(lambda of: umath.log(of["x"]), bounded("x", 0.6, 0.5)), "shortest-low", -1.895, 0.0005),
    ("NPL log", result(lambda of: umath.log(of["x"]), bounded("x", 0.6, 0.5)), "shortest-high", 0.095, 0.0005),
]
_RUNS: dict[str, Propagated] = {}


def run_of(name: str, asked: Measurand) -> Propagated:
    """Return a run of a published example, drawn once for all its figures."""
    if name not in _RUNS:
        _RUNS[name] = propagate(asked, trials=20_000, seed=7)
    return _RUNS[name]


@pytest.mark.parametrize(
    ("name", "asked", "figure", "printed", "half"), PUBLISHED, ids=[f"{each[0]}-{each[2]}" for each in PUBLISHED]
)
def test_published_results_lie_within_what_a_run_says_of_itself(
    name: str, asked: Measurand, figure: str, printed: float, half: float
) -> None:
    """JCGM 101, clause 9; NIST TN 1900; NPL DEM-ES-011: half a digit and five of the run's own uncertainties."""
    near(run_of(name, asked), figure, printed, half)


def test_the_gauge_block_has_the_supplement_s_interval() -> None:
    """JCGM 101, 9.5, table 11 (from memory): 838 nm, u 36 nm, 745 to 932 nm at 99 %."""
    run = propagate(models.gauge_block(), trials=20_000, coverage=0.99)
    near(run, "mean", 838.0, 0.5)
    near(run, "u", 36.0, 0.5)
    near(run, "low", 745.0, 0.5)
    near(run, "high", 932.0, 0.5)


def test_a_dominant_rectangle_has_a_smaller_interval() -> None:
    """EA-4/02, S9 (republished): expanded uncertainty 0.05 V where 2 u would be 0.06 V."""
    run = propagate(models.multimeter_100_v())
    assert round((run.found.symmetric.high - run.found.symmetric.low) / 2, 2) == 0.05
    assert round(2 * run.found.u, 2) == 0.06


def test_two_dominant_rectangles_have_a_smaller_interval() -> None:
    """EA-4/02, S10 and S11 (republished): 0.06 mm and 0.3 K, where 2 u would be 0.065 mm and 0.33 K."""
    caliper, calibrator = propagate(models.calliper()), propagate(models.block_calibrator())
    assert round((caliper.found.symmetric.high - caliper.found.symmetric.low) / 2 / 1000, 2) == 0.06
    assert round((calibrator.found.symmetric.high - calibrator.found.symmetric.low) / 2 / 1000, 1) == 0.3
    assert calibrator.found.symmetric.high < 1.9 * calibrator.found.u


@settings(max_examples=15)
@given(st.lists(st.tuples(st.floats(0.1, 10), st.floats(-5, 5)), min_size=2, max_size=4), st.integers(0, 10**6))
def test_of_a_linear_model_both_ways_agree(rows: list[tuple[float, float]], seed: int) -> None:
    """A sum of normal inputs is normal: the budget is exact."""
    asked = by_coefficients(*rows, (1.0, 1.0))
    budget, run = budget_of(asked), propagate(asked, trials=4000, seed=seed)
    near(run, "mean", budget.value)
    near(run, "u", budget.combined)
    near(run, "high", budget.value + budget.expanded(0.95).expanded)


@settings(max_examples=15)
@given(st.floats(-1, 1), st.integers(0, 10**6))
def test_a_sum_of_correlated_inputs_spreads_as_its_formula_says(coefficient: float, seed: int) -> None:
    """Closed form: ``u^2 = u1^2 + u2^2 + 2 r u1 u2``."""
    pair = Correlation(first="a", second="b", coefficient=coefficient)
    asked = result(
        lambda of: of["a"] + of["b"], normal(about("a"), 1.0, 3.0), normal(about("b"), 2.0, 4.0), correlations=(pair,)
    )
    run = propagate(asked, trials=4000, seed=seed)
    expected = math.sqrt(max(25.0 + 24.0 * coefficient, 0.0))
    assert run.found.u == pytest.approx(expected, abs=FAR * run.known.u + 1e-4)


def test_correlated_means_of_few_readings_are_drawn_as_one_student() -> None:
    """Inputs that are the same but for their unit: their difference is nothing, their sum twice one of them."""
    pair = Correlation(first="a", second="b", coefficient=1.0)
    inputs = (student("a", 0.0, 1.0, 5), student("b", 0.0, 1.0, 5))
    nothing = propagate(result(lambda of: of["a"] - of["b"], *inputs, correlations=(pair,)), trials=2000)
    assert nothing.found.u == pytest.approx(0.0, abs=1e-12)
    twice = propagate(result(lambda of: of["a"] + of["b"], *inputs, correlations=(pair,)), trials=20_000)
    near(twice, "high", 2 * 2.5705818366147395)  # t of 5 degrees of freedom, by its table


@pytest.mark.parametrize("signs", [(1, 1, 1), (1, -1, 1), (-1, 1, 1), (1, 1, -1)])
def test_three_correlated_inputs_spread_as_their_matrix_says(signs: tuple[int, int, int]) -> None:
    """Closed form: ``u^2 = sum_i sum_j s_i s_j u_i u_j r_ij``, with three different coefficients."""
    names, sizes = ("a", "b", "c"), (1.0, 2.0, 3.0)
    coefficients = {("a", "b"): 0.8, ("a", "c"): -0.3, ("b", "c"): 0.2}
    pairs = tuple(Correlation(first=a, second=b, coefficient=r) for (a, b), r in coefficients.items())
    inputs = [normal(about(name), 0.0, size) for name, size in zip(names, sizes, strict=True)]
    asked = result(
        lambda of: signs[0] * of["a"] + signs[1] * of["b"] + signs[2] * of["c"], *inputs, correlations=pairs
    )
    parts = {name: sign * size for name, sign, size in zip(names, signs, sizes, strict=True)}
    variance = sum(part * part for part in parts.values())
    variance += sum(2 * parts[a] * parts[b] * r for (a, b), r in coefficients.items())
    near(propagate(asked, trials=20_000), "u", math.sqrt(variance))
    assert budget_of(asked).combined == pytest.approx(math.sqrt(variance), rel=1e-12)


def test_the_same_seed_gives_the_same_figures_and_another_gives_others() -> None:
    """Definition of a seed."""
    first, again = (propagate(models.mass(), trials=2000, seed=3) for _ in range(2))
    assert first.found == again.found
    assert propagate(models.mass(), trials=2000, seed=4).found != first.found


def test_a_run_s_own_uncertainty_is_that_of_runs() -> None:
    """The scatter of 30 runs against what one says of itself: a factor of two, no more."""
    runs = [propagate(models.mass(), trials=2000, seed=seed) for seed in range(30)]
    for figure in ("mean", "u", "low", "high"):
        found = [figures(run.found)[figure] for run in runs]
        middle = math.fsum(found) / len(found)
        scatter = math.sqrt(math.fsum((each - middle) ** 2 for each in found) / (len(found) - 1))
        told = math.fsum(figures(run.known)[figure] for run in runs) / len(runs)
        assert 0.5 < told / scatter < 2.0, figure


def test_the_shortest_interval_is_never_wider() -> None:
    """Definition; of a skewed result it is narrower."""
    run = run_of("9.4 x1=0.010", models.comparison_loss(0.010))
    symmetric, shortest = run.found.symmetric, run.found.shortest
    assert shortest.high - shortest.low < 0.95 * (symmetric.high - symmetric.low)


def to_its_end(steps: Generator[Progress, None, Propagated]) -> tuple[list[Progress], Propagated]:
    """Return the progress of a run that goes on, and its outcome."""
    seen: list[Progress] = []
    while True:
        try:
            seen.append(next(steps))
        except StopIteration as end:
            return seen, end.value


def test_going_on_until_it_is_good_enough() -> None:
    """JCGM 101, 7.9: twice each figure's own uncertainty is within half a unit of the last digit."""
    seen, run = to_its_end(propagating(models.four("normal"), digits=1, seed=2))
    assert seen[-1].too_loose <= 1.0 < seen[0].too_loose
    assert run.trials == seen[-1].trials == 10_000 * len(seen)
    assert max(2 * each for each in run.known.figures) <= 0.5  # u = 2, to one digit


def test_going_on_ends_where_it_is_told_to() -> None:
    """No more trials than allowed, and the run says how well it is known."""
    steps = propagating(models.four("normal"), digits=2, seed=2, most=20_000)
    told = [each.trials for each in steps]
    assert told == [10_000, 20_000]


def test_the_figure_of_a_run_tells_how_it_came() -> None:
    """Traceability: formula, trials, seed, inputs."""
    run = run_of("9.3", models.mass())
    assert run.figure.value == run.found.estimate
    assert "20000 trials (seed 7)" in run.figure.formula
    assert [each.name for each in run.figure.inputs] == ["reference", "added", "air", "weight", "standard"]


# ------------------------------------------------------------ is the linear figure good enough


def test_a_linear_model_of_normal_inputs_is_good_enough() -> None:
    """JCGM 101, 8.2 and 9.2.2: the intervals agree."""
    asked = models.four("normal")
    found = validate(budget_of(asked), propagate(asked, trials=20_000), digits=1)
    assert found.verdict == "agrees"
    assert found.tolerance == 0.5
    assert found.said.id == "linear-good-enough"


def test_the_mass_of_the_supplement_is_not_linear_enough() -> None:
    """JCGM 101, 9.3 (from memory): the linear interval is too narrow by 0.045 and 0.043 mg, and not validated."""
    found = validate(budget_of(models.mass()), run_of("9.3", models.mass()), digits=1)
    assert found.verdict == "differs"
    assert found.tolerance == 0.005
    assert found.low == pytest.approx(0.045, abs=0.004)
    assert found.said.id == "linear-not-good-enough"
    assert found.said.values["drawn_low"] == found.drawn.low


def test_a_short_run_cannot_judge() -> None:
    """JCGM 101, 8.2: a run that is not known to a fifth of the tolerance asks for more trials."""
    asked = models.four("normal")
    found = validate(budget_of(asked), propagate(asked, trials=1000), digits=2)
    assert found.verdict == "cannot-tell"
    assert found.said.values["trials"] == 1000


def test_the_shortest_interval_may_be_the_one_that_is_compared() -> None:
    """JCGM 101, 8.1: of a skewed result the two are different intervals."""
    asked = models.comparison_loss(0.0)
    run = run_of("9.4 x1=0", asked)
    assert validate(budget_of(asked), run, interval="shortest").drawn == run.found.shortest


# ------------------------------------------------------------ refusals


def test_too_few_trials_are_refused() -> None:
    """The fewest that say anything."""
    with pytest.raises(SensorCheckError, match=r"^too-few-trials \(got=999"):
        propagate(models.mass(), trials=999)


def test_a_coverage_of_all_is_refused() -> None:
    """The range of validity."""
    with pytest.raises(RangeOfValidityError):
        propagate(models.mass(), coverage=1.0)


def test_a_model_without_an_answer_is_refused() -> None:
    """Division by nothing, and an answer that is not finite."""
    by_nothing = result(lambda of: 1.0 / of["x"], exactly(about("x"), 0.0))
    with pytest.raises(SensorCheckError, match=r"^model-has-no-answer"):
        propagate(by_nothing)
    infinite = result(lambda of: of["x"] * math.inf, normal(about("x"), 1.0, 0.1))
    with pytest.raises(SensorCheckError, match=r"^model-has-no-answer"):
        propagate(infinite)


def test_correlated_rectangles_are_refused() -> None:
    """A coefficient does not tell how two rectangles go together."""
    pair = Correlation(first="a", second="b", coefficient=0.5)
    asked = result(lambda of: of["a"] + of["b"], bounded("a", 0, 1), bounded("b", 0, 1), correlations=(pair,))
    with pytest.raises(SensorCheckError, match=r"^correlated-shape-unknown"):
        propagate(asked)
    mixed = replace(asked, inputs=(student("a", 0, 1, 5), student("b", 0, 1, 6)))
    with pytest.raises(SensorCheckError, match=r"^correlated-shape-unknown"):
        propagate(mixed)


def test_correlations_that_cannot_be_together_are_refused() -> None:
    """Three inputs cannot all be opposed to one another."""
    pairs = tuple(
        Correlation(first=one, second=other, coefficient=-0.9) for one, other in (("a", "b"), ("b", "c"), ("a", "c"))
    )
    inputs = [normal(about(name), 0.0, 1.0) for name in "abc"]
    asked = result(lambda of: of["a"] + of["b"] + of["c"], *inputs, correlations=pairs)
    with pytest.raises(SensorCheckError, match=r"^correlations-impossible"):
        propagate(asked)
    with pytest.raises(SensorCheckError, match=r"^correlations-impossible"):
        budget_of(asked)
