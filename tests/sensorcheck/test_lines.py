"""Straight lines against published fits, to every digit that is printed."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import sqrt, ulp

import pytest

from steadyhead.errors import FitError
from steadyhead.sensorcheck.lines import Fit, Line, least_squares, through_origin, weighted_least_squares
from steadyhead.sensorcheck.lines_in_both import generalised_least_squares
from steadyhead.sensorcheck.lines_of_linearity import independent_line, terminal_line
from steadyhead.sensorcheck.spread import mean, standard_deviation
from tests.sensorcheck.published_data import (
    H3_B,
    H3_T,
    KESSEL_P,
    KESSEL_X,
    LIBERZON_DOWN,
    LIBERZON_IN,
    LIBERZON_UP,
    NORRIS,
    pairs,
)


def known(value: float | None) -> float:
    """Return a value that must be there."""
    assert value is not None
    return value


def constants(fit: Fit) -> tuple[float, float, float]:
    """Return u(a), u(b) and their covariance."""
    return known(fit.u_intercept), known(fit.u_slope), known(fit.covariance)


def certified(value: float | None, expected: str) -> None:
    """Assert that `value` is `expected` to its last printed digit: half of that digit off, and a float's own step."""
    assert value is not None
    mantissa, _, exponent = expected.partition("E")
    half_a_digit = Fraction(1, 2) * Fraction(10) ** (int(exponent or 0) - len(mantissa.partition(".")[2]))
    assert abs(Fraction(value) - Fraction(expected)) <= half_a_digit + Fraction(ulp(value))


NORRIS_Y, NORRIS_X = pairs(NORRIS)


@pytest.mark.parametrize(
    ("attribute", "expected"),
    [
        ("intercept", "-0.262323073774029"),
        ("slope", "1.00211681802045"),
        ("u_intercept", "0.232818234301152"),
        ("u_slope", "0.429796848199937E-03"),
        ("residual_sd", "0.884796396144373"),
        ("squares", "26.6173985294224"),
    ],
)
def test_norris_is_certified_to_the_last_digit(attribute: str, expected: str) -> None:
    """NIST StRD, linear regression, Norris: all 15 certified digits (republished)."""
    certified(getattr(least_squares(NORRIS_X, NORRIS_Y), attribute), expected)


def test_norris_has_34_degrees_of_freedom() -> None:
    """NIST StRD, linear regression, Norris (republished)."""
    assert least_squares(NORRIS_X, NORRIS_Y).degrees == 34


@pytest.mark.parametrize(
    ("attribute", "expected"),
    [("slope", 1.00211681802045), ("intercept", -0.262323073774029), ("u_slope", 0.429796848199937e-3)],
)
def test_norris_from_floats_loses_only_what_the_floats_lost(attribute: str, expected: float) -> None:
    """NIST StRD Norris: a decimal is a float to 1.1e-16 of itself; the line's sums enlarge that by some hundreds."""
    fit = least_squares([float(each) for each in NORRIS_X], [float(each) for each in NORRIS_Y])
    assert getattr(fit, attribute) == pytest.approx(expected, rel=2e-13)


@pytest.mark.parametrize(
    ("x", "y", "attribute", "expected"),
    [
        (range(60, 71), range(130, 141), "slope", "2.07438016528926"),
        (range(60, 71), range(130, 141), "u_slope", "0.165289256198347E-01"),
        (range(60, 71), range(130, 141), "residual_sd", "3.56753034006338"),
        (range(60, 71), range(130, 141), "squares", "127.272727272727"),
        ((4, 5, 6), (3, 4, 4), "slope", "0.727272727272727"),
        ((4, 5, 6), (3, 4, 4), "u_slope", "0.420827318078432E-01"),
        ((4, 5, 6), (3, 4, 4), "residual_sd", "0.369274472937998"),
        ((4, 5, 6), (3, 4, 4), "squares", "0.272727272727273"),
    ],
)
def test_a_line_through_the_origin_is_certified(x: range, y: range, attribute: str, expected: str) -> None:
    """NIST StRD, linear regression, NoInt1 (republished) and NoInt2 (from memory; exact: 8/11, 3/11)."""
    certified(getattr(through_origin(list(x), list(y)), attribute), expected)


@pytest.mark.parametrize(
    ("values", "middle", "deviation"),
    [
        (["10000001", "10000003", "10000002"], 10000002.0, 1.0),
        (["1.2", *["1.1", "1.3"] * 500], 1.2, 0.1),
        (["1000000.2", *["1000000.1", "1000000.3"] * 500], 1000000.2, 0.1),
        (["10000000.2", *["10000000.1", "10000000.3"] * 500], 10000000.2, 0.1),
    ],
    ids=["NumAcc1", "NumAcc2", "NumAcc3", "NumAcc4"],
)
def test_a_mean_and_a_deviation_far_from_zero_are_exact(values: list[str], middle: float, deviation: float) -> None:
    """NIST StRD, univariate, NumAcc1 to NumAcc4: exact certified values (republished; data of 2 and 4 from memory)."""
    exact = [Fraction(each) for each in values]
    assert (mean(exact), standard_deviation(exact)) == (middle, deviation)


def test_from_floats_a_large_offset_costs_what_floats_cost() -> None:
    """NIST StRD NumAcc3: near a million a float is 1.2e-10 apart, so a deviation of 0.1 is known to 1e-9 of itself."""
    values = [1000000.2, *[1000000.1, 1000000.3] * 500]
    assert standard_deviation(values) == pytest.approx(0.1, rel=1e-9)


def test_repeated_readings_have_the_printed_mean_and_deviation() -> None:
    """Liberzon's course notebooks, 20 readings at 10.000 kPa (original): mean 10.1115, SD 0.1382, u(mean) 0.0309."""
    text = "10.02 10.20 10.26 10.20 10.22 10.13 9.97 10.12 10.09 9.9"
    text += " 10.05 10.17 10.42 10.21 10.23 10.11 9.98 10.10 10.04 9.81"
    readings = [float(each) for each in text.split()]
    deviation = standard_deviation(readings)
    assert deviation is not None
    assert (round(mean(readings), 4), round(deviation, 4)) == (10.1115, 0.1382)
    assert round(deviation / sqrt(20), 4) == 0.0309


def test_the_thermometer_of_the_guide() -> None:
    """JCGM 100:2008, H.3.3 and H.3.4 (republished): y1, y2, their deviations, r, s, and the correction at 30 °C."""
    fit = least_squares([each - 20.0 for each in H3_T], H3_B)
    u_a, u_b, cov = constants(fit)
    assert (round(fit.intercept, 4), round(u_a, 4)) == (-0.1712, 0.0029)
    assert (round(fit.slope, 5), round(u_b, 5)) == (0.00218, 0.00067)
    assert round(cov / u_a / u_b, 3) == -0.930
    assert round(known(fit.residual_sd), 4) == 0.0035
    assert (round(fit.at(10.0), 4), round(known(fit.u_at(10.0)), 4), fit.degrees) == (-0.1494, 0.0041, 9)


WEIGHTED = weighted_least_squares([1, 2, 3, 4, 5, 6], [3.3, 5.6, 7.1, 9.3, 10.7, 12.1], [0.5] * 6)


def test_the_weighted_line_of_the_technical_specification() -> None:
    """ISO/TS 28037:2010, 6.3 (republished): a, b, u(a), u(b), cov and chi-squared as printed."""
    u_a, u_b, cov = constants(WEIGHTED)
    assert (round(WEIGHTED.intercept, 3), round(u_a, 3)) == (1.867, 0.465)
    assert (round(WEIGHTED.slope, 3), round(u_b, 3)) == (1.757, 0.120)
    assert (round(cov, 3), round(WEIGHTED.squares, 3), WEIGHTED.degrees) == (-0.050, 1.665, 4)


def test_the_weighted_line_backwards() -> None:
    """ISO/TS 28037:2010, 11.2 on the example of 6.3 (republished): y 10.5, u 0.5 gives x 4.913, u 0.322."""
    assert (round(WEIGHTED.x_at(10.5), 3), round(known(WEIGHTED.u_x_at(10.5, 0.5)), 3)) == (4.913, 0.322)


BOTH = generalised_least_squares(
    [1.2, 1.9, 2.9, 4.0, 4.7, 5.9], [3.4, 4.4, 7.2, 8.5, 10.8, 13.5], [0.2] * 6, [0.2, 0.2, 0.2, 0.4, 0.4, 0.4]
)


def test_the_line_that_is_uncertain_in_both_directions() -> None:
    """ISO/TS 28037:2010, 7.4 (republished): a, b, u(a), u(b), cov and chi-squared as printed.

    A general library that settles all its points at once has the same line (b 2.15966) and uncertainties 0.8 % larger
    (0.4804, 0.1362): it also counts how far the second derivatives of the sum are off. The specification does not.
    """
    u_a, u_b, cov = constants(BOTH)
    assert (round(BOTH.intercept, 4), round(u_a, 4)) == (0.5788, 0.4764)
    assert (round(BOTH.slope, 5), round(u_b, 4)) == (2.15966, 0.1355)
    assert (round(cov, 4), round(BOTH.squares, 3)) == (-0.0577, 2.743)


def test_without_uncertainty_in_x_the_general_line_is_the_weighted_one() -> None:
    """A property: generalised least squares with u(x) = 0 is weighted least squares, to rounding."""
    x, y, u_y = [0.0, 1.0, 2.5, 4.0], [1.0, 2.9, 6.2, 8.7], [0.1, 0.2, 0.1, 0.3]
    general, weighted = generalised_least_squares(x, y, [0.0] * 4, u_y), weighted_least_squares(x, y, u_y)
    for attribute in ("intercept", "slope", "u_intercept", "u_slope", "covariance", "squares"):
        assert getattr(general, attribute) == pytest.approx(getattr(weighted, attribute), rel=1e-12)


def test_the_general_line_is_where_the_sum_is_least() -> None:
    """A property: the defining sum, evaluated beside the line, is nowhere smaller."""
    x, y = [1.2, 1.9, 2.9, 4.0, 4.7, 5.9], [3.4, 4.4, 7.2, 8.5, 10.8, 13.5]
    u_x, u_y = [0.2] * 6, [0.2, 0.2, 0.2, 0.4, 0.4, 0.4]

    def total(a: float, b: float) -> float:
        four = zip(x, y, u_x, u_y, strict=True)
        return sum((py - a - b * px) ** 2 / (uy * uy + (b * ux) ** 2) for px, py, ux, uy in four)

    least = total(BOTH.intercept, BOTH.slope)
    assert all(total(BOTH.intercept + da, BOTH.slope + db) > least for da in (-1e-4, 1e-4) for db in (-1e-4, 0, 1e-4))


def test_the_slope_of_a_published_pressure_sensor() -> None:
    """Kessel, Kacker, Sommer (2012), table 7 (republished): the line through both ends, 9.79912, and the deviations."""
    line = terminal_line(KESSEL_X, KESSEL_P)
    assert (round(line.slope, 5), line.intercept) == (9.79912, 0.0)
    deviations = [round(p - line.at(x), 4) for p, x in zip(KESSEL_P, KESSEL_X, strict=True)]
    assert deviations == [0.0, 0.0020, 0.0020, 0.0029, 0.0039, 0.0039, 0.0039, 0.0039, 0.0029, 0.0020, 0.0]


@pytest.mark.parametrize(
    ("line", "slope", "intercept", "percent"),
    [
        (terminal_line(KESSEL_X, KESSEL_P), 9.799118, 0.0, 0.0196),
        (least_squares(KESSEL_X, KESSEL_P), 9.799336, 0.002272, 0.0136),
        (independent_line(KESSEL_X, KESSEL_P), 9.799118, 0.001960, 0.0098),
    ],
    ids=["terminal-based", "least-squares", "independent"],
)
def test_the_three_linearities_of_a_published_sensor(
    line: Line, slope: float, intercept: float, percent: float
) -> None:
    """Data as above; lines and deviations by a linear-programming solver and by numpy's polynomial fit."""
    assert (round(line.slope, 6), round(line.intercept, 6)) == (slope, intercept)
    greatest = max(abs(p - line.at(x)) for p, x in zip(KESSEL_P, KESSEL_X, strict=True))
    assert round(100.0 * greatest / 20.0, 4) == percent


@pytest.mark.parametrize(
    ("readings", "times", "slope", "intercept"),
    [
        (LIBERZON_UP + LIBERZON_DOWN, 2, 1.0823, -0.8470),
        (LIBERZON_UP, 1, 1.0824, -1.0255),
        (LIBERZON_DOWN, 1, 1.0823, -0.6686),
    ],
    ids=["both", "up", "down"],
)
def test_the_lines_of_a_published_up_and_down_run(
    readings: tuple[float, ...], times: int, slope: float, intercept: float
) -> None:
    """Liberzon's course notebooks (original): the fitted lines as printed there."""
    fit = least_squares(LIBERZON_IN * times, readings)
    assert (round(fit.slope, 4), round(fit.intercept, 4)) == (slope, intercept)


def test_two_points_give_a_line_and_no_scatter() -> None:
    """A closed form: two points leave no degree of freedom, so nothing can be said of the scatter."""
    fit = least_squares([0.0, 4.0], [1.0, 3.0])
    assert (fit.slope, fit.intercept, fit.degrees) == (0.5, 1.0, 0)
    assert (fit.residual_sd, fit.u_slope, fit.u_at(2.0), fit.u_x_at(2.0)) == (None, None, None, None)


@pytest.mark.parametrize("make", [least_squares, terminal_line, independent_line])
def test_one_place_is_refused(make: Callable[[list[float], list[float]], Line]) -> None:
    """No line is told by readings at one place, however many."""
    with pytest.raises(FitError, match="line-needs-two-places"):
        make([2.0, 2.0, 2.0], [1.0, 1.1, 1.2])
    with pytest.raises(FitError, match="fit-lengths-differ"):
        make([2.0, 3.0], [1.0, 1.1, 1.2])


def test_what_gives_no_weight_is_refused() -> None:
    """An uncertainty of zero would weigh without end; one below zero, or no number, means nothing."""
    for bad in (0.0, -1.0, float("nan")):
        with pytest.raises(FitError, match="fit-uncertainty-not-positive"):
            weighted_least_squares([0.0, 1.0], [0.0, 1.0], [1.0, bad])
    with pytest.raises(FitError, match="fit-uncertainty-not-positive"):
        generalised_least_squares([0.0, 1.0], [0.0, 1.0], [-0.1, 0.1], [0.1, 0.1])


def test_a_level_line_tells_no_place() -> None:
    """A closed form: y does not depend on x."""
    with pytest.raises(FitError, match="line-is-level"):
        Line(intercept=1.0, slope=0.0).x_at(1.0)


def test_everything_at_zero_gives_no_line_through_the_origin() -> None:
    """A closed form: sum x^2 is zero."""
    with pytest.raises(FitError, match="line-needs-two-places"):
        through_origin([0.0, 0.0], [1.0, 2.0])
