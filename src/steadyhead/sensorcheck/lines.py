"""Straight lines through points: by least squares, plain or weighted, and what their uncertainty is.

Rules
-----
1. All sums are exact (fractions), and rounded once at the end: a large offset in the data costs no digit.
2. Plain least squares takes its uncertainty from the scatter of the points about the line; weighted least squares takes
   it from the uncertainties that it is given, and its chi-squared says whether they fit the scatter.
3. A line needs two different places. A scatter needs one point more than the line has constants; where there is none it
   is None, never zero.
4. A line may be asked backwards (`Line.x_at`), with an uncertainty (`Fit.u_x_at`).

Lines with uncertainty in both directions stand in `lines_in_both`; the terminal-based and the independent line, which
have no statistics, in `lines_of_linearity`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from steadyhead.errors import FitError
from steadyhead.messages import message

Numbers = Sequence[float] | Sequence[Fraction]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """The line ``y = intercept + slope x``."""

    intercept: float
    slope: float

    def at(self, x: float) -> float:
        """Return y at `x`.

        >>> Line(intercept=1.0, slope=2.0).at(3.0)
        7.0
        """
        return self.intercept + self.slope * x

    def x_at(self, y: float) -> float:
        """Return x where the line has `y`.

        Raises
        ------
        FitError
            ``line-is-level``: no x, or every x, has this y.

        Examples
        --------
        >>> Line(intercept=1.0, slope=2.0).x_at(7.0)
        3.0
        """
        if self.slope == 0.0:
            raise FitError(message("line-is-level"))
        return (y - self.intercept) / self.slope


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit(Line):
    """A line fitted to points, with its uncertainty.

    Parameters
    ----------
    u_intercept, u_slope
        Standard uncertainties of the two constants; None: two points leave no scatter to tell them from.
    covariance
        Of the two constants; None as above.
    residual_sd
        Standard deviation of the points about the line, ``sqrt(sum of squares / degrees)``; None where `degrees` is 0.
        With weights it is that of the weighted residuals, and 1 is what they should have.
    squares
        Sum of the (weighted) squared residuals; with weights it is chi-squared.
    degrees
        Degrees of freedom: points less constants.
    """

    u_intercept: float | None
    u_slope: float | None
    covariance: float | None
    residual_sd: float | None
    squares: float
    degrees: int

    def u_at(self, x: float) -> float | None:
        """Return the standard uncertainty of y at `x`, ``sqrt(u(a)^2 + x^2 u(b)^2 + 2 x cov)``.

        References
        ----------
        JCGM 100:2008, H.3.4, equation (H.14) (from memory).
        """
        if self.u_intercept is None or self.u_slope is None or self.covariance is None:
            return None
        squared = self.u_intercept**2 + (x * self.u_slope) ** 2 + 2.0 * x * self.covariance
        return sqrt(max(squared, 0.0))

    def u_x_at(self, y: float, u_y: float = 0.0) -> float | None:
        """Return the standard uncertainty of the x where the line has `y`, itself known to `u_y`.

        ``sqrt(u(y)^2 + u(a)^2 + x^2 u(b)^2 + 2 x cov) / |b|``: first order, for a y that had no part in the fit.

        Raises
        ------
        FitError
            ``line-is-level``.

        References
        ----------
        ISO/TS 28037:2010, 11.2 (from memory; its example in 6.3 was seen republished).
        """
        u_line = self.u_at(self.x_at(y))
        return None if u_line is None else sqrt(u_y**2 + u_line**2) / abs(self.slope)


@dataclass(frozen=True, slots=True)
class _Sums:
    """Exact weighted sums about the weighted middle of x."""

    weight: Fraction
    x: Fraction
    y: Fraction
    xx: Fraction
    xy: Fraction


def least_squares(x: Numbers, y: Numbers) -> Fit:
    """Return the line of least squares of `y` on `x`, every point counting alike.

    ``b = sum (x - x0)(y - y0) / sum (x - x0)^2``, ``a = y0 - b x0``, with the uncertainties
    ``u(b) = s / sqrt(sum (x - x0)^2)``, ``u(a) = s sqrt(1/n + x0^2 / sum (x - x0)^2)`` and s the residual deviation.

    Parameters
    ----------
    x, y
        As many of each, two or more.

    Raises
    ------
    FitError
        ``line-needs-two-places``, or ``fit-lengths-differ``.

    Examples
    --------
    >>> fit = least_squares([0.0, 1.0, 2.0, 3.0], [1.0, 3.0, 5.0, 8.0])
    >>> round(fit.slope, 6), round(fit.intercept, 6), fit.degrees
    (2.3, 0.8, 2)

    References
    ----------
    JCGM 100:2008, H.3.2, equations (H.13a) to (H.13f) (from memory; example H.3 was seen republished).
    """
    ones = [Fraction(1)] * len(x)
    sums = _sums(x, y, ones)
    slope = sums.xy / sums.xx
    intercept = sums.y - slope * sums.x
    squares = _squares(_exact(x), _exact(y), ones, intercept=intercept, slope=slope)
    degrees = len(x) - 2
    variance = squares / degrees if degrees else None
    return _fit(sums, intercept, slope, squares, degrees=degrees, variance=variance)


def weighted_least_squares(x: Numbers, y: Numbers, u_y: Sequence[float]) -> Fit:
    """Return the line of least squares where each `y` has its own standard uncertainty, and `x` none.

    Each point counts ``1 / u(y)^2``; ``u(b)^2 = 1 / sum w (x - x0)^2``, ``u(a)^2 = 1 / sum w + x0^2 u(b)^2``,
    ``cov = - x0 u(b)^2``.

    Raises
    ------
    FitError
        ``line-needs-two-places``, ``fit-lengths-differ``, or ``fit-uncertainty-not-positive``.

    Examples
    --------
    >>> fit = weighted_least_squares([1, 2, 3, 4, 5, 6], [3.3, 5.6, 7.1, 9.3, 10.7, 12.1], [0.5] * 6)
    >>> round(fit.intercept, 3), round(fit.slope, 3), round(fit.squares, 3)
    (1.867, 1.757, 1.665)

    References
    ----------
    ISO/TS 28037:2010, 6.2 and 6.3 (seen republished).
    """
    weights = weights_of(u_y)
    sums = _sums(x, y, weights)
    slope = sums.xy / sums.xx
    intercept = sums.y - slope * sums.x
    squares = _squares(_exact(x), _exact(y), weights, intercept=intercept, slope=slope)
    return _fit(sums, intercept, slope, squares, degrees=len(x) - 2, variance=Fraction(1))


def through_origin(x: Numbers, y: Numbers) -> Fit:
    """Return the line of least squares that has no intercept: ``b = sum x y / sum x^2``.

    Raises
    ------
    FitError
        ``line-needs-two-places``: every x is zero; or ``fit-lengths-differ``.

    Examples
    --------
    >>> through_origin([4, 5, 6], [3, 4, 4]).degrees
    2

    References
    ----------
    NIST StRD, linear regression, data sets NoInt1 and NoInt2: model y = B1 x + e (from memory).
    """
    _check_lengths(x, y)
    xs, ys = _exact(x), _exact(y)
    xx = sum((each * each for each in xs), Fraction(0))
    if not xx:
        raise FitError(message("line-needs-two-places"))
    slope = sum((a * b for a, b in zip(xs, ys, strict=True)), Fraction(0)) / xx
    squares = _squares(xs, ys, [Fraction(1)] * len(xs), intercept=Fraction(0), slope=slope)
    degrees = len(xs) - 1
    residual = sqrt(squares / degrees) if degrees else None
    return Fit(
        intercept=0.0, slope=float(slope), u_intercept=0.0, covariance=0.0, degrees=degrees, squares=float(squares),
        u_slope=None if residual is None else sqrt(squares / degrees / xx), residual_sd=residual,
    )  # fmt: skip


def weights_of(u_y: Sequence[float]) -> list[Fraction]:
    """Return how much each point counts, ``1 / u^2``.

    Raises
    ------
    FitError
        ``fit-uncertainty-not-positive``: one is zero, below zero, or no number.
    """
    for each in u_y:
        if not each > 0.0:
            raise FitError(message("fit-uncertainty-not-positive", got=float(each)))
    return [Fraction(1.0 / (each * each)) for each in u_y]


def _exact(values: Numbers) -> list[Fraction]:
    return [Fraction(each) for each in values]


def _check_lengths(*columns: Sequence[object]) -> None:
    if len({len(column) for column in columns}) > 1:
        raise FitError(message("fit-lengths-differ", got=tuple(str(len(column)) for column in columns)))


def _sums(x: Numbers, y: Numbers, weights: Sequence[Fraction]) -> _Sums:
    _check_lengths(x, y, weights)
    xs, ys = _exact(x), _exact(y)
    if len(set(xs)) < 2:
        raise FitError(message("line-needs-two-places"))
    total = sum(weights, Fraction(0))
    x0 = sum((w * a for w, a in zip(weights, xs, strict=True)), Fraction(0)) / total
    y0 = sum((w * b for w, b in zip(weights, ys, strict=True)), Fraction(0)) / total
    xx = sum((w * (a - x0) ** 2 for w, a in zip(weights, xs, strict=True)), Fraction(0))
    xy = sum((w * (a - x0) * (b - y0) for w, a, b in zip(weights, xs, ys, strict=True)), Fraction(0))
    return _Sums(total, x0, y0, xx, xy)


def _squares(
    x: Sequence[Fraction], y: Sequence[Fraction], weights: Sequence[Fraction], *, intercept: Fraction, slope: Fraction
) -> Fraction:
    left = ((w, b - intercept - slope * a) for w, a, b in zip(weights, x, y, strict=True))
    return sum((w * each * each for w, each in left), Fraction(0))


def _fit(
    sums: _Sums, intercept: Fraction, slope: Fraction, squares: Fraction, *, degrees: int, variance: Fraction | None
) -> Fit:
    """Return the fit; `variance` is that of a point of weight one, None where the scatter cannot tell it."""
    of_slope = None if variance is None else variance / sums.xx
    of_intercept = None if variance is None else variance * (1 / sums.weight + sums.x**2 / sums.xx)
    return Fit(
        intercept=float(intercept), slope=float(slope), squares=float(squares), degrees=degrees,
        u_intercept=None if of_intercept is None else sqrt(of_intercept),
        u_slope=None if of_slope is None else sqrt(of_slope),
        covariance=None if of_slope is None else float(-sums.x * of_slope),
        residual_sd=sqrt(squares / degrees) if degrees else None,
    )  # fmt: skip
