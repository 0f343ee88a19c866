"""Factors of coverage, against printed tables and closed forms."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.errors import RangeOfValidityError
from steadyhead.sensorcheck.coverage import (
    coverage_factor,
    normal_cdf,
    normal_quantile,
    student_cdf,
    student_quantile,
)

COVERAGES = (0.6827, 0.90, 0.95, 0.9545, 0.99, 0.9973)
#: JCGM 100:2008, table G.2 (NIST TN 1297, table B.1 is the same), from memory; the entries 1.84, 12.71, 1.81, 235.8,
#: 19.21, 5.51, 3.11 and 2.09 also republished in the tests of a public library. Degrees of freedom, then t for each.
TABLE_G2 = """
  1   1.84   6.31  12.71  13.97  63.66 235.80
  2   1.32   2.92   4.30   4.53   9.92  19.21
  3   1.20   2.35   3.18   3.31   5.84   9.22
  4   1.14   2.13   2.78   2.87   4.60   6.62
  5   1.11   2.02   2.57   2.65   4.03   5.51
  6   1.09   1.94   2.45   2.52   3.71   4.90
  7   1.08   1.89   2.36   2.43   3.50   4.53
  8   1.07   1.86   2.31   2.37   3.36   4.28
  9   1.06   1.83   2.26   2.32   3.25   4.09
 10   1.05   1.81   2.23   2.28   3.17   3.96
 11   1.05   1.80   2.20   2.25   3.11   3.85
 12   1.04   1.78   2.18   2.23   3.05   3.76
 13   1.04   1.77   2.16   2.21   3.01   3.69
 14   1.04   1.76   2.14   2.20   2.98   3.64
 15   1.03   1.75   2.13   2.18   2.95   3.59
 16   1.03   1.75   2.12   2.17   2.92   3.54
 17   1.03   1.74   2.11   2.16   2.90   3.51
 18   1.03   1.73   2.10   2.15   2.88   3.48
 19   1.03   1.73   2.09   2.14   2.86   3.45
 20   1.03   1.72   2.09   2.13   2.85   3.42
 25   1.02   1.71   2.06   2.11   2.79   3.33
 30   1.02   1.70   2.04   2.09   2.75   3.27
 40   1.01   1.68   2.02   2.06   2.70   3.20
 50   1.01   1.68   2.01   2.05   2.68   3.16
100   1.005  1.660  1.984  2.025  2.626  3.077
inf   1.000  1.645  1.960  2.000  2.576  3.000
"""
CELLS = [
    (float(dof), coverage, printed)
    for dof, *row in (line.split() for line in TABLE_G2.strip().splitlines())
    for coverage, printed in zip(COVERAGES, row, strict=True)
]


def half_a_digit(printed: str) -> float:
    """Return half a unit of the last printed digit."""
    return 0.5 * 10.0 ** -len(printed.partition(".")[2])


@pytest.mark.parametrize(("dof", "coverage", "printed"), CELLS, ids=str)
def test_the_printed_table_of_student_s_t(dof: float, coverage: float, printed: str) -> None:
    """JCGM 100:2008, table G.2, half a unit of the last digit.

    The table's 68.27 and 99.73 % are one and three standard deviations cut off: half a unit more of the fourth digit
    of the coverage moves 235.80 by 0.4.
    """
    of_coverage = 0.00005 * abs(coverage_factor(coverage + 1e-6, dof) - coverage_factor(coverage, dof)) / 1e-6
    allowed = half_a_digit(printed) + (of_coverage if coverage in {0.6827, 0.9545, 0.9973} else 0.0)
    assert coverage_factor(coverage, dof) == pytest.approx(float(printed), abs=allowed * (1 + 1e-9))


#: JCGM 106:2012, table 1 (from memory).
@pytest.mark.parametrize(
    ("probability", "printed"), [(0.80, "0.84"), (0.90, "1.28"), (0.95, "1.64"), (0.99, "2.33"), (0.999, "3.09")]
)
def test_the_printed_table_of_one_sided_conformance(probability: float, printed: str) -> None:
    """JCGM 106:2012, table 1; its 1.64 is 1.645 cut off."""
    assert normal_quantile(probability) == pytest.approx(float(printed), abs=0.005)


@given(st.floats(1e-9, 1 - 1e-9))
def test_one_degree_of_freedom_is_the_tangent(probability: float) -> None:
    """Closed form: Cauchy's distribution, ``t = tan(pi (p - 1/2))``."""
    tail = min(probability, 1 - probability)
    expected = math.copysign(1.0 / math.tan(math.pi * tail), probability - 0.5) if tail < 0.5 else 0.0
    assert student_quantile(probability, 1.0) == pytest.approx(expected, rel=1e-9, abs=1e-12)


@given(st.floats(1e-9, 1 - 1e-9))
def test_two_degrees_of_freedom_are_a_root(probability: float) -> None:
    """Closed form: ``t = (2 p - 1) / sqrt(2 p (1 - p))``."""
    expected = (2 * probability - 1) / math.sqrt(2 * probability * (1 - probability))
    assert student_quantile(probability, 2.0) == pytest.approx(expected, rel=1e-9, abs=1e-12)


@given(st.floats(-50, 50), st.sampled_from([4.0, 4]))
def test_four_degrees_of_freedom_have_a_closed_form(t: float, dof: float) -> None:
    """Closed form: ``F = 1/2 + s (12 - s^2) / 32`` with ``s = t / sqrt(1 + t^2 / 4)``."""
    s = t / math.sqrt(1 + t * t / 4)
    assert student_cdf(t, dof) == pytest.approx(0.5 + s * (12 - s * s) / 32, abs=1e-12)


@given(st.floats(1e-6, 1 - 1e-6), st.floats(1.0, 1e9))
def test_the_quantile_undoes_the_distribution(probability: float, dof: float) -> None:
    """Inverse functions."""
    assert student_cdf(student_quantile(probability, dof), dof) == pytest.approx(probability, rel=1e-10)


@given(st.floats(1e-6, 0.4999), st.floats(1.0, 1e8), st.floats(1.01, 10))
def test_more_degrees_of_freedom_make_the_tails_thinner(tail: float, dof: float, times: float) -> None:
    """Student's t is ordered by its degrees of freedom, the normal distribution its limit."""
    assert student_quantile(tail, dof) <= student_quantile(tail, dof * times) * (1 - 1e-12)
    assert student_quantile(tail, dof) <= normal_quantile(tail) * (1 - 1e-12)


@pytest.mark.parametrize("t", [0.3, 2.0, 5.0])
def test_the_expansion_takes_over_without_a_step(t: float) -> None:
    """At a million degrees of freedom both ways agree to what one more degree changes."""
    below, above = student_cdf(-t, 1e6), student_cdf(-t, 1e6 * (1 + 1e-9))
    assert above == pytest.approx(below, rel=1e-9)


def test_infinite_degrees_of_freedom_are_normal() -> None:
    """Definition."""
    assert student_cdf(1.3, math.inf) == normal_cdf(1.3)
    assert student_quantile(0.9, math.inf) == pytest.approx(normal_quantile(0.9), rel=1e-14)


@pytest.mark.parametrize("dof", [0.999, 0.0, -3.0, math.nan])
def test_fewer_than_one_degree_of_freedom_is_refused(dof: float) -> None:
    """The range of validity."""
    for ask in (coverage_factor, student_cdf, student_quantile):
        with pytest.raises(RangeOfValidityError, match=r"quantity='degrees-of-freedom'"):
            ask(0.95, dof)


@pytest.mark.parametrize("probability", [0.0, 1.0, -0.1, 1.1, math.nan])
def test_a_coverage_of_nothing_or_all_is_refused(probability: float) -> None:
    """The range of validity."""
    for ask in (coverage_factor, normal_quantile):
        with pytest.raises(RangeOfValidityError, match=r"quantity='coverage'"):
            ask(probability)
    with pytest.raises(RangeOfValidityError, match=r"quantity='coverage'"):
        student_quantile(probability, 5.0)
