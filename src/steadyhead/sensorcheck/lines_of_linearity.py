"""The lines that linearity is told against without any statistics: terminal-based, and independent.

Rules
-----
1. The terminal-based line joins the lowest and the highest place; where one place was taken several times, its mean.
2. The independent line makes the greatest deviation as small as it can be. It is parallel to an edge of the points'
   convex hull and half-way between that edge and the farthest point, and is found so: exactly, in fractions.
3. At the independent line three points at least deviate by the same greatest amount, on one side and the other in turn.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from steadyhead.errors import FitError
from steadyhead.messages import message
from steadyhead.sensorcheck.lines import Line, Numbers

Place = tuple[Fraction, Fraction]


def terminal_line(x: Numbers, y: Numbers) -> Line:
    """Return the line through the lowest and the highest place.

    Raises
    ------
    FitError
        ``line-needs-two-places``, or ``fit-lengths-differ``.

    Examples
    --------
    >>> terminal_line([0.0, 1.0, 2.0], [0.0, 0.7, 1.0])
    Line(intercept=0.0, slope=0.5)

    References
    ----------
    IEC 61298-2:2008, terminal-based linearity (from memory).
    """
    places = _places(x, y)
    low, high = min(places)[0], max(places)[0]
    y_low, y_high = _mean_at(places, low), _mean_at(places, high)
    slope = (y_high - y_low) / (high - low)
    return Line(intercept=float(y_low - slope * low), slope=float(slope))


def independent_line(x: Numbers, y: Numbers) -> Line:
    """Return the line whose greatest deviation from the points is least.

    Raises
    ------
    FitError
        ``line-needs-two-places``, or ``fit-lengths-differ``.

    Examples
    --------
    >>> independent_line([0.0, 1.0, 2.0], [0.0, 1.0, 0.0])
    Line(intercept=0.5, slope=0.0)

    References
    ----------
    IEC 61298-2:2008, independent linearity (from memory). The best line is parallel to an edge of the hull: Chebyshev's
    theorem of alternation.
    """
    places = _places(x, y)
    best: tuple[Fraction, Fraction, Fraction] | None = None
    for slope in _slopes_of_edges(sorted(set(places))):
        heights = [b - slope * a for a, b in places]
        low, high = min(heights), max(heights)
        if best is None or high - low < best[0]:
            best = (high - low, slope, (high + low) / 2)
    assert best is not None  # noqa: S101 - two different places have a hull with an edge that is not upright
    return Line(intercept=float(best[2]), slope=float(best[1]))


def _places(x: Numbers, y: Numbers) -> list[Place]:
    if len(x) != len(y):
        raise FitError(message("fit-lengths-differ", got=(str(len(x)), str(len(y)))))
    places = list(zip(_exact(x), _exact(y), strict=True))
    if len({a for a, _ in places}) < 2:
        raise FitError(message("line-needs-two-places"))
    return places


def _exact(values: Numbers) -> list[Fraction]:
    return [Fraction(each) for each in values]


def _mean_at(places: list[Place], x: Fraction) -> Fraction:
    here = [b for a, b in places if a == x]
    return sum(here, Fraction(0)) / len(here)


def _slopes_of_edges(places: list[Place]) -> Iterator[Fraction]:
    """Yield the slope of every edge of the convex hull of sorted places that is not upright."""
    for chain in (_chain(places), _chain(places[::-1])):
        for (x0, y0), (x1, y1) in pairwise(chain):
            if x0 != x1:
                yield (y1 - y0) / (x1 - x0)


def _chain(places: list[Place]) -> list[Place]:
    """Return one side of the hull, turning left all the way."""
    chain: list[Place] = []
    for place in places:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], place) <= 0:
            chain.pop()
        chain.append(place)
    return chain


def _turn(a: Place, b: Place, c: Place) -> Fraction:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
