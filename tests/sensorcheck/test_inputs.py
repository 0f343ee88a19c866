"""Inputs and measurands: what they take, and what they refuse."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.errors import SensorCheckError
from steadyhead.sensorcheck.budget import budget_of
from steadyhead.sensorcheck.inputs import KINDS, About, Input, Kind, certified, exactly, normal, repeated, within
from steadyhead.sensorcheck.measurand import Correlation, Measurand
from steadyhead.sensorcheck.rounding import numerical_tolerance, reported, rounded
from steadyhead.sensorcheck.simultaneous import read_together
from tests.sensorcheck.published_models import about, bounded, result


#: ``half-width / u`` of the bounded kinds: JCGM 100:2008, 4.3.7 and 4.3.9 (from memory); the trapezoid's ends are both.
@pytest.mark.parametrize(
    ("kind", "shape", "ratio"),
    [
        ("rectangular", 0.0, math.sqrt(3)), ("triangular", 0.0, math.sqrt(6)), ("arcsine", 0.0, math.sqrt(2)),
        ("trapezoidal", 0.0, math.sqrt(6)), ("trapezoidal", 1.0, math.sqrt(3)), ("uncertain", 0.0, math.sqrt(3)),
        ("uncertain", 1.0, 1.5),
    ],
)  # fmt: skip
def test_the_standard_uncertainty_of_limits(kind: Kind, shape: float, ratio: float) -> None:
    """JCGM 100:2008, 4.3.7 and 4.3.9; JCGM 101:2008, 6.4 (from memory)."""
    assert bounded("x", 0.0, 1.0, kind, shape=shape).standard_uncertainty == pytest.approx(1.0 / ratio, rel=1e-14)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_tells_its_formula_and_its_source(kind: Kind) -> None:
    """Traceability: what the figure's formula names is among its inputs, but where it was given as it is."""
    one = Input(name="x", estimate=0.0, spread=1.0, dimension="number", kind=kind, shape=0.5, dof=5)
    assert one.uncertainty_figure.source.locator
    assert one.figure.standard_uncertainty == one.standard_uncertainty


def test_a_certificate_is_divided_by_its_own_factor() -> None:
    """JCGM 100:2008, 4.3.3: U = 6 at k = 3 is u = 2."""
    one = certified(about("x"), 1.0, 6.0, 3.0)
    assert one.standard_uncertainty == 2.0
    assert [(each.name, each.value) for each in one.uncertainty_figure.inputs] == [
        ("expanded-uncertainty", 6.0),
        ("coverage-factor", 3.0),
    ]


@given(st.lists(st.floats(-100, 100), min_size=2, max_size=9))
def test_the_mean_of_readings(readings: list[float]) -> None:
    """The sums written out; the figure of its uncertainty divides as its formula says."""
    one = repeated(about("x"), readings)
    count = len(readings)
    mean = sum(readings) / count
    squares = sum((each - mean) ** 2 for each in readings)
    assert one.estimate == pytest.approx(mean, abs=1e-9)
    assert one.standard_uncertainty == pytest.approx(math.sqrt(squares / count / (count - 1)), abs=1e-9)
    assert one.dof == count - 1
    deviation, number = one.uncertainty_figure.inputs
    assert one.uncertainty_figure.value == pytest.approx(deviation.value / math.sqrt(number.value), rel=1e-12)


@pytest.mark.parametrize(
    ("make", "id_"),
    [
        (lambda: normal(about("x"), math.nan, 1.0), "input-not-finite"),
        (lambda: normal(about("x"), 1.0, -1.0), "input-not-finite"),
        (lambda: normal(about("x"), 1.0, math.inf), "input-not-finite"),
        (lambda: normal(about("x"), 1.0, 1.0, 0.5), "input-without-freedom"),
        (lambda: normal(about("x"), 1.0, 1.0, math.nan), "input-without-freedom"),
        (lambda: within(about("x"), 1.0, 1.0, "trapezoidal", shape=1.5), "input-shape-impossible"),
        (lambda: certified(about("x"), 1.0, 1.0, 0.0), "input-factor-impossible"),
        (lambda: repeated(about("x"), [1.0]), "input-needs-readings"),
        (lambda: read_together((about("x"), about("y")), ((1.0, 2.0), (1.0,))), "readings-not-together"),
        (lambda: result(lambda of: of["x"], exactly(about("x"), 1), exactly(about("x"), 2)), "input-twice"),
        (lambda: _paired("x", "z", 0.5), "correlation-of-nothing"),
        (lambda: _paired("x", "y", 1.5), "correlation-impossible"),
        (lambda: _paired("x", "x", 0.5), "correlation-impossible"),
        (lambda: budget_of(_paired("x", "y", 0.5), second_order=True), "second-order-correlated"),
        (lambda: budget_of(result(lambda of: 1 / of["x"], exactly(about("x"), 0.0))), "model-has-no-answer"),
        (lambda: rounded(math.inf), "uncertainty-not-above-zero"),
        (lambda: reported(1.0, 0.0), "uncertainty-not-above-zero"),
    ],
)
def test_what_cannot_be_is_refused(make: object, id_: str) -> None:
    """The message that names it."""
    assert callable(make)
    with pytest.raises(SensorCheckError, match=rf"^{id_} "):
        make()


def _paired(first: str, second: str, coefficient: float) -> Measurand:
    pair = Correlation(first=first, second=second, coefficient=coefficient)
    inputs = (normal(about("x"), 0, 1), normal(about("y"), 0, 1))
    return result(lambda of: of["x"] + of["y"], *inputs, correlations=(pair,))


@pytest.mark.parametrize(
    ("value", "uncertainty", "digits", "told"),
    [
        (10.05762, 0.0274, 2, (10.058, 0.027)), (50_000_838.2, 31.66, 2, (50_000_838.0, 32.0)),
        (1.0, 0.0996, 2, (1.0, 0.10)), (1234.5, 96.0, 1, (1200.0, 100.0)), (-0.25, 0.02, 1, (-0.25, 0.02)),
    ],
)  # fmt: skip
def test_a_result_is_told_to_the_place_of_its_uncertainty(
    value: float, uncertainty: float, digits: int, told: tuple[float, float]
) -> None:
    """JCGM 100:2008, 7.2.6 (its 10.05762 ohm and 27 mohm, from memory); rounding by hand."""
    found = reported(value, uncertainty, digits)
    assert (found.value, found.uncertainty) == told


def test_a_figure_below_zero_is_rounded_by_its_size() -> None:
    """By hand."""
    assert rounded(-31.66) == -32.0
    assert math.copysign(1.0, rounded(-0.0)) == 1.0


#: JCGM 101:2008, 7.9.2, examples (from memory): 0.00035 g to two digits, 2 K to one.
@pytest.mark.parametrize(("u", "digits", "delta"), [(0.00035, 2, 0.000005), (2.0, 1, 0.5), (0.35, 1, 0.05)])
def test_the_numerical_tolerance(u: float, digits: int, delta: float) -> None:
    """JCGM 101:2008, 7.9.2, and by hand."""
    assert numerical_tolerance(u, digits) == pytest.approx(delta, rel=1e-12)


def test_a_name_is_enough() -> None:
    """Defaults: nobody said where it comes from, and the figure says that it was assumed."""
    assert normal(About(name="x", dimension="number"), 1.0, 0.1).figure.whence == "assumed"
