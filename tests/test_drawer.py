"""Which Monte Carlo run a home has."""

from __future__ import annotations

import pytest

from steadyhead.bootstrap import drawer
from steadyhead.sensorcheck.inputs import normal
from tests.sensorcheck.published_models import about, result


def test_a_home_without_compiled_libraries_draws_portably() -> None:
    """The portable run's own number of trials, and the coverage that was asked for."""
    run = drawer(frozenset())(result(lambda of: of["x"], normal(about("x"), 1.0, 0.1)), 0.9)
    assert (run.trials, run.coverage) == (20_000, 0.9)


@pytest.mark.laptop
def test_a_laptop_draws_a_million() -> None:
    """The large run's own number of trials."""
    run = drawer(frozenset({"montecarlo"}))(result(lambda of: of["x"], normal(about("x"), 1.0, 0.1)), 0.9)
    assert (run.trials, run.coverage) == (1_000_000, 0.9)
