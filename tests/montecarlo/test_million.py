"""Many trials: published results to their digits, and the same figures as the portable run."""

from __future__ import annotations

import math

import numpy as np
import pytest

from steadyhead import montecarlo
from steadyhead.errors import RangeOfValidityError, SensorCheckError
from steadyhead.sensorcheck import propagating
from steadyhead.sensorcheck.inputs import Input, Kind, exactly, normal
from steadyhead.sensorcheck.measurand import Correlation, Measurand
from steadyhead.sensorcheck.propagated import Propagated
from tests.sensorcheck import published_models as models
from tests.sensorcheck.published_models import about, bounded, result, student
from tests.sensorcheck.test_monte_carlo import CLOSED, FAR, PUBLISHED, figures, near

_RUNS: dict[str, Propagated] = {}
IN_COLUMNS = [each for each in PUBLISHED if each[0] != "NPL log"]  # its logarithm takes one figure at a time


def run_of(name: str, asked: Measurand) -> Propagated:
    """Return a run of a published example, drawn once for all its figures."""
    if name not in _RUNS:
        _RUNS[name] = montecarlo.propagate(asked, trials=300_000)
    return _RUNS[name]


@pytest.mark.parametrize(
    ("name", "asked", "figure", "printed", "half"), IN_COLUMNS, ids=[f"{each[0]}-{each[2]}" for each in IN_COLUMNS]
)
def test_published_results_to_their_digits(
    name: str, asked: Measurand, figure: str, printed: float, half: float
) -> None:
    """JCGM 101, clause 9; NIST TN 1900 (seen as in `published_models`): half a digit, and the run's own uncertainty.

    The publishers' own runs were of about as many trials, so twice the spread of one is allowed.
    """
    run = run_of(name, asked)
    found, known = (figures(each)[figure] for each in (run.found, run.known))
    assert found == pytest.approx(printed, abs=half + FAR * known)
    assert known < 0.03 * run.found.u


def test_a_logarithm_in_columns() -> None:
    """NPL DEM-ES-011, table 9.2 (republished): mean -0.665, u 0.606, shortest -1.895 to 0.095 (ln 0.105 and ln 1.1)."""
    asked = result(lambda of: np.log(of["x"]), bounded("x", 0.6, 0.5))
    run = montecarlo.propagate(asked)
    near(run, "mean", -0.665, 0.0005)
    near(run, "u", 0.606, 0.0005)
    near(run, "shortest-low", -1.895, 0.001)
    near(run, "shortest-high", 0.095, 0.001)


def test_the_gauge_block_of_the_supplement() -> None:
    """JCGM 101, 9.5, table 11 (from memory): 838 nm, u 36 nm, 745 to 932 nm at 99 %."""
    run = montecarlo.propagate(models.gauge_block(), coverage=0.99)
    assert round(run.found.estimate) == 838
    assert round(run.found.u) == 36
    near(run, "low", 745.0, 0.5)
    near(run, "high", 932.0, 0.5)


@pytest.mark.parametrize("kind", [*CLOSED, "uncertain"])
def test_both_homes_draw_the_same_kinds(kind: Kind) -> None:
    """Closed forms; for uncertain limits the portable run."""
    one = Input(name="x", estimate=7.0, spread=2.0, dimension="number", kind=kind, shape=0.5, dof=10)
    asked = result(lambda of: of["x"], one)
    run = montecarlo.propagate(asked, trials=200_000)
    if kind in CLOSED:
        near(run, "u", 2.0 * CLOSED[kind][0])
        near(run, "high", 7.0 + 2.0 * CLOSED[kind][1])
    other = propagating.propagate(asked, trials=20_000)
    near(other, "u", run.found.u)
    near(other, "high", run.found.symmetric.high)


@pytest.mark.parametrize("dof", [math.inf, 5.0])
def test_correlated_inputs_are_drawn_together(dof: float) -> None:
    """Inputs that are the same but for their unit: their difference is nothing."""
    pair = Correlation(first="a", second="b", coefficient=1.0)
    inputs = (student("a", 0.0, 1.0, dof), student("b", 0.0, 1.0, dof))
    run = montecarlo.propagate(result(lambda of: of["a"] - of["b"], *inputs, correlations=(pair,)), trials=10_000)
    assert run.found.u == pytest.approx(0.0, abs=1e-12)


def test_the_same_seed_gives_the_same_figures() -> None:
    """Definition of a seed."""
    first, again = (montecarlo.propagate(models.mass(), trials=10_000, seed=3) for _ in range(2))
    assert first.found == again.found
    assert montecarlo.propagate(models.mass(), trials=10_000, seed=4).found != first.found


def test_trials_are_rounded_up_to_whole_batches() -> None:
    """Counting: 20 batches."""
    assert montecarlo.propagate(models.mass(), trials=1001).trials == 1020


def test_a_model_that_takes_nothing_is_the_same_in_every_trial() -> None:
    """A constant has no spread."""
    run = montecarlo.propagate(result(lambda _: 3.0, normal(about("x"), 0.0, 1.0)), trials=1000)
    assert (run.found.estimate, run.found.u) == (3.0, 0.0)


def test_what_cannot_be_drawn_is_refused() -> None:
    """Too few trials, no coverage, no answer."""
    with pytest.raises(SensorCheckError, match=r"^too-few-trials"):
        montecarlo.propagate(models.mass(), trials=10)
    with pytest.raises(RangeOfValidityError):
        montecarlo.propagate(models.mass(), coverage=0.0)
    by_nothing = result(lambda of: of["y"] / of["x"], exactly(about("x"), 0.0), normal(about("y"), 1.0, 1.0))
    with pytest.raises(SensorCheckError, match=r"^model-has-no-answer"):
        montecarlo.propagate(by_nothing)
