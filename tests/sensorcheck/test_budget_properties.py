"""What every budget must obey, whatever its figures."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from steadyhead.figures import trail
from steadyhead.sensorcheck.budget import Budget, budget_of
from steadyhead.sensorcheck.inputs import Input, normal
from steadyhead.sensorcheck.measurand import Correlation, Measurand
from tests.sensorcheck.published_models import about, result

sizes = st.floats(0.01, 100.0)
signs = st.floats(-50.0, 50.0).filter(lambda x: abs(x) > 0.1)
dofs = st.one_of(st.just(math.inf), st.floats(1.0, 1000.0))
inputs = st.lists(st.tuples(signs, sizes, dofs), min_size=2, max_size=5)


def product(rows: list[tuple[float, float, float]], scale: float = 1.0, *pairs: Correlation) -> Measurand:
    """Return ``scale x0 / x1 + x2 + ...`` of inputs named by their number."""
    names = [f"x{n}" for n in range(len(rows))]
    made = [normal(about(name), estimate, u, dof) for name, (estimate, u, dof) in zip(names, rows, strict=True)]

    def model(of: Mapping[str, float]) -> float:
        answer = scale * of["x0"] / of["x1"]
        for name in names[2:]:
            answer = answer + scale * of[name]
        return answer

    return result(model, *made, correlations=pairs)


@given(inputs, st.floats(1e-6, 1e6))
def test_scaling_the_unit_scales_the_uncertainty(rows: list[tuple[float, float, float]], scale: float) -> None:
    """A unit is a factor: value and expanded uncertainty take it, degrees of freedom and shares do not."""
    plain, scaled = budget_of(product(rows)), budget_of(product(rows, scale))
    assert scaled.value == pytest.approx(scale * plain.value, rel=1e-9)
    assert scaled.expanded(0.95).expanded == pytest.approx(scale * plain.expanded(0.95).expanded, rel=1e-9)
    assert scaled.dof == pytest.approx(plain.dof, rel=1e-9)
    for one, other in zip(plain.rows, scaled.rows, strict=True):
        assert other.share == pytest.approx(one.share, abs=1e-9)


@given(inputs)
def test_shares_are_parts_of_one(rows: list[tuple[float, float, float]]) -> None:
    """Without correlation each is at least nothing, and all together are 1."""
    budget = budget_of(product(rows))
    assert math.fsum(row.share for row in budget.rows) == pytest.approx(1.0, rel=1e-12)
    assert min(row.share for row in budget.rows) >= 0.0
    assert math.fsum(row.contribution**2 for row in budget.rows) == pytest.approx(budget.combined**2, rel=1e-12)


@given(inputs, st.floats(-1.0, 1.0))
def test_shares_are_one_together_with_correlation_too(rows: list[tuple[float, float, float]], r: float) -> None:
    """The law of propagation: cross terms are shared by both."""
    budget = budget_of(product(rows, 1.0, Correlation(first="x0", second="x1", coefficient=r)))
    assume(budget.combined > 1e-6 * max(abs(row.contribution) for row in budget.rows))
    assert math.fsum(row.share for row in budget.rows) == pytest.approx(1.0, rel=1e-6)


@given(signs, sizes)
def test_a_perfectly_correlated_pair_cancels_in_a_ratio(estimate: float, relative: float) -> None:
    """Closed form: ``(u/y)^2 = a^2 + b^2 - 2 a b`` of relative uncertainties alike is nothing."""
    relative /= 1000.0
    rows = [(estimate, abs(estimate) * relative, math.inf), (2 * estimate, 2 * abs(estimate) * relative, math.inf)]
    budget = budget_of(product(rows, 1.0, Correlation(first="x0", second="x1", coefficient=1.0)))
    alone = budget_of(product(rows))
    assert alone.combined == pytest.approx(0.5 * relative * math.sqrt(2), rel=1e-9)
    assert budget.combined <= 1e-6 * alone.combined


@given(inputs)
def test_degrees_of_freedom_lie_between_the_least_and_the_sum(rows: list[tuple[float, float, float]]) -> None:
    """JCGM 100:2008, G.4.1: not more than the sum of all, and never fewer than the fewest."""
    budget = budget_of(product(rows))
    assert budget.dof >= min(dof for _, _, dof in rows)
    assert budget.dof <= math.fsum(dof for _, _, dof in rows) * (1 + 1e-9)


@given(inputs, st.floats(0.5, 0.99), st.floats(0.001, 0.009))
def test_more_coverage_is_wider(rows: list[tuple[float, float, float]], coverage: float, more: float) -> None:
    """An interval that covers more contains the one that covers less."""
    budget = budget_of(product(rows))
    assert budget.expanded(coverage + more).expanded > budget.expanded(coverage).expanded


@given(inputs)
def test_both_kinds_of_derivatives_agree(rows: list[tuple[float, float, float]]) -> None:
    """Exact derivatives against small steps."""
    exact = budget_of(product(rows))
    steps = budget_of(product(rows), derivatives="numerical")
    assert steps.combined == pytest.approx(exact.combined, rel=1e-3)


@given(inputs)
def test_second_order_adds_nothing_to_a_sum(rows: list[tuple[float, float, float]]) -> None:
    """A linear model has no terms of second order."""
    names = [f"x{n}" for n in range(len(rows))]
    made = [normal(about(name), estimate, u) for name, (estimate, u, _) in zip(names, rows, strict=True)]
    budget = budget_of(
        result(lambda of: sum((of[name] for name in names[1:]), of["x0"]), *made), second_order=True
    )  # fmt: skip
    assert budget.second_order == 0.0


@given(st.floats(-10, 10), st.floats(-10, 10), sizes, sizes)
def test_second_order_of_a_product_is_exact(x: float, y: float, u: float, v: float) -> None:
    """Closed form, independent factors: ``u^2 = y^2 u^2 + x^2 v^2 + u^2 v^2`` (Goodman 1960)."""
    asked = result(lambda of: of["x"] * of["y"], normal(about("x"), x, u), normal(about("y"), y, v))
    expected = math.sqrt((y * u) ** 2 + (x * v) ** 2 + (u * v) ** 2)
    assert budget_of(asked, second_order=True).combined == pytest.approx(expected, rel=1e-9)


@given(st.floats(-10, 10), sizes)
def test_second_order_of_a_square_is_exact_for_a_normal_input(x: float, u: float) -> None:
    """Closed form: the variance of ``x^2`` of a normal x is ``4 x^2 u^2 + 2 u^4``."""
    budget = budget_of(result(lambda of: of["x"] ** 2, normal(about("x"), x, u)), second_order=True)
    assert budget.combined == pytest.approx(math.sqrt(4 * x * x * u * u + 2 * u**4), rel=1e-9)


@given(inputs)
def test_a_budget_as_an_input_carries_on(rows: list[tuple[float, float, float]]) -> None:
    """In two steps or in one: the same uncertainty and, of independent inputs, the same degrees of freedom."""
    whole = product(rows)
    part = budget_of(whole).as_input("part")
    again = budget_of(result(lambda of: of["part"] + of["rest"], part, normal(about("rest"), 1.0, 0.0)))
    assert again.combined == pytest.approx(budget_of(whole).combined, rel=1e-12)
    assert again.dof == pytest.approx(budget_of(whole).dof, rel=1e-9)


@given(inputs)
def test_everything_can_be_traced_down_to_what_was_given(rows: list[tuple[float, float, float]]) -> None:
    """Each figure of the trail has inputs, or says whence it was given; the inputs' names are among them."""
    budget = budget_of(product(rows))
    found = [figure for _, figure in trail(budget.expanded(0.95).figure)]
    assert all(figure.inputs or figure.whence for figure in found)
    assert {row.input.name for row in budget.rows} <= {figure.name for figure in found}
    assert budget.figure.standard_uncertainty == budget.combined


def test_the_order_of_the_inputs_does_not_matter() -> None:
    """A sum."""
    rows = [(3.0, 0.1, 4.0), (5.0, 0.2, math.inf), (-2.0, 0.3, 9.0)]
    asked = product(rows)
    turned = replace(asked, inputs=asked.inputs[::-1])
    one, other = budget_of(asked), budget_of(turned)
    assert other.combined == pytest.approx(one.combined, rel=1e-14)
    assert other.dof == pytest.approx(one.dof, rel=1e-14)


def correlated(*inputs: Input, r: float) -> Budget:
    """Return the budget of a sum of two inputs."""
    pair = Correlation(first="a", second="b", coefficient=r)
    return budget_of(result(lambda of: of["a"] + of["b"], *inputs, correlations=(pair,)))


def test_correlated_inputs_count_as_one_with_the_least_degrees_of_freedom() -> None:
    """Two means of five readings that are the same: four degrees of freedom, not eight."""
    assert correlated(normal(about("a"), 0, 1, 4), normal(about("b"), 0, 1, 4), r=1.0).dof == pytest.approx(4.0)
    assert correlated(normal(about("a"), 0, 1, 4), normal(about("b"), 0, 1, 4), r=0.0).dof == pytest.approx(8.0)
    assert correlated(normal(about("a"), 0, 1, 4), normal(about("b"), 0, 1), r=0.5).dof == pytest.approx(4.0)


def test_what_nobody_doubts_has_no_uncertainty() -> None:
    """Nothing in, nothing out: infinite degrees of freedom, no share."""
    budget = budget_of(result(lambda of: 2 * of["a"], normal(about("a"), 3.0, 0.0)))
    assert (budget.value, budget.combined, budget.dof) == (6.0, 0.0, math.inf)
    assert [row.share for row in budget.rows] == [0.0]
    assert budget.expanded(0.95).expanded == 0.0
