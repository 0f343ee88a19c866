"""A straight line through points that are uncertain in both directions, by generalised least squares.

Rules
-----
1. Each point has its own standard uncertainty in x and in y; the two, and different points, are independent.
2. The sum that is made least is ``sum (y - a - b x)^2 / (u(y)^2 + b^2 u(x)^2)``: the distances of the points from the
   line, each in its own uncertainty.
3. It is reached by steps of Gauss and Newton, from the weighted line that takes x for exact, until a step is lost in
   the last digits. Fifty steps that do not get there are an error, never an answer.
4. The uncertainties are those that the technical specification prints, of the last step's straightened sum. How far
   the sum is bent there, which would make them a little larger where points scatter much, is left out as it is there.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, sqrt
from typing import NamedTuple

from steadyhead.errors import FitError
from steadyhead.messages import message
from steadyhead.sensorcheck.lines import Fit, Line, weighted_least_squares

_MOST_STEPS = 50
_LOST = 1e-14  #: a step this small beside the constant is lost in rounding


class _Step(NamedTuple):
    """One step: the changes of the two constants, and the sums that give their uncertainty."""

    intercept: float
    slope: float
    total: float
    middle: float
    spread: float


def generalised_least_squares(
    x: Sequence[float], y: Sequence[float], u_x: Sequence[float], u_y: Sequence[float]
) -> Fit:
    """Return the line through points that are uncertain in x and in y.

    Parameters
    ----------
    x, y
        The points, two or more.
    u_x, u_y
        Standard uncertainty of each; `u_x` may be zero, `u_y` may not.

    Raises
    ------
    FitError
        ``line-needs-two-places``, ``fit-lengths-differ``, ``fit-uncertainty-not-positive``, or ``fit-does-not-settle``.

    Notes
    -----
    Valid where the uncertainties are small beside the distance of the points from each other.

    Examples
    --------
    >>> fit = generalised_least_squares([0.0, 1.0, 2.0], [1.0, 3.0, 5.0], [0.1] * 3, [0.1] * 3)
    >>> fit.intercept, fit.slope
    (1.0, 2.0)

    References
    ----------
    ISO/TS 28037:2010, clause 7 (from memory; its example in 7.4 was seen republished).
    """
    if not len(x) == len(y) == len(u_x) == len(u_y):
        raise FitError(message("fit-lengths-differ", got=tuple(str(len(each)) for each in (x, y, u_x, u_y))))
    for each in u_x:
        if not each >= 0.0:
            raise FitError(message("fit-uncertainty-not-positive", got=float(each)))
    line: Line = weighted_least_squares(x, y, u_y)
    for _ in range(_MOST_STEPS):
        step = _step(list(zip(x, y, u_x, u_y, strict=True)), line)
        line = Line(intercept=line.intercept + step.intercept, slope=line.slope + step.slope)
        if _is_lost(step, line):
            return _settled(list(zip(x, y, u_x, u_y, strict=True)), line, step)
    raise FitError(message("fit-does-not-settle", steps=_MOST_STEPS))


Four = tuple[float, float, float, float]


def _step(points: Sequence[Four], line: Line) -> _Step:
    weights = [1.0 / (uy * uy + (line.slope * ux) ** 2) for _, _, ux, uy in points]
    feet = [
        (px * uy * uy + line.slope * ux * ux * (py - line.intercept)) * weight
        for (px, py, ux, uy), weight in zip(points, weights, strict=True)
    ]
    left = [py - line.at(px) for px, py, _, _ in points]
    total = fsum(weights)
    middle = fsum(w * foot for w, foot in zip(weights, feet, strict=True)) / total
    off = fsum(w * each for w, each in zip(weights, left, strict=True)) / total
    spread = fsum(w * (foot - middle) ** 2 for w, foot in zip(weights, feet, strict=True))
    product = fsum(w * (foot - middle) * (each - off) for w, foot, each in zip(weights, feet, left, strict=True))
    slope = product / spread
    return _Step(off - slope * middle, slope, total, middle, spread)


def _is_lost(step: _Step, line: Line) -> bool:
    scale = max(abs(line.intercept), abs(line.slope * step.middle))
    return abs(step.slope) <= _LOST * abs(line.slope) and abs(step.intercept) <= 10 * _LOST * scale


def _settled(points: Sequence[Four], line: Line, step: _Step) -> Fit:
    squares = fsum(
        (py - line.at(px)) ** 2 / (uy * uy + (line.slope * ux) ** 2) for px, py, ux, uy in points
    )
    degrees = len(points) - 2
    return Fit(
        intercept=line.intercept, slope=line.slope, squares=squares, degrees=degrees,
        u_intercept=sqrt(1.0 / step.total + step.middle**2 / step.spread), u_slope=sqrt(1.0 / step.spread),
        covariance=-step.middle / step.spread, residual_sd=sqrt(squares / degrees) if degrees else None,
    )  # fmt: skip
