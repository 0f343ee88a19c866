"""What every line must obey, whatever the points."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.sensorcheck.lines import least_squares
from steadyhead.sensorcheck.lines_of_linearity import independent_line, terminal_line

FEW = settings(max_examples=60, deadline=None)
WHOLE = st.integers(-1000, 1000)
POINTS = st.lists(st.tuples(WHOLE, WHOLE), min_size=2, max_size=12).filter(lambda each: len({x for x, _ in each}) > 1)
Points = list[tuple[int, int]]


def split(points: Points) -> tuple[list[Fraction], list[Fraction]]:
    """Return places and values as exact numbers."""
    return [Fraction(x) for x, _ in points], [Fraction(y) for _, y in points]


def greatest(points: Points, intercept: float, slope: float) -> float:
    """Return the greatest deviation of the points from a line."""
    return max(abs(y - intercept - slope * x) for x, y in points)


@FEW
@given(POINTS)
def test_no_line_through_any_three_points_alternates_wider_than_the_independent_one(points: Points) -> None:
    """Chebyshev's theorem (de la Vallée Poussin): the least greatest deviation is the largest over all triples.

    Of three points it is half the distance of the middle one from the line through the outer two; two points have none.
    """
    line = independent_line(*split(points))
    of_triples = [Fraction(0)]
    for (x0, y0), (x1, y1), (x2, y2) in combinations(sorted(points), 3):
        if x0 < x2:
            across = Fraction(y2 - y0, x2 - x0) * (x1 - x0) + y0
            of_triples.append(abs(y1 - across) / 2)
    upright = [Fraction(abs(y0 - y1), 2) for (x0, y0), (x1, y1) in combinations(points, 2) if x0 == x1]
    assert abs(greatest(points, line.intercept, line.slope) - float(max([*of_triples, *upright]))) < 1e-8


@FEW
@given(POINTS)
def test_the_independent_line_is_never_worse_than_the_others(points: Points) -> None:
    """A property: it makes the greatest deviation least, so no other line has a smaller one."""
    x, y = split(points)
    best = independent_line(x, y)
    for other in (terminal_line(x, y), least_squares(x, y)):
        mine = greatest(points, best.intercept, best.slope)
        assert mine <= greatest(points, other.intercept, other.slope) + 1e-8


@FEW
@given(POINTS, st.randoms(use_true_random=False))
def test_the_order_of_points_does_not_matter(points: Points, random: object) -> None:
    """A property: sums and hulls know no order; exact sums not even in their last digit."""
    shuffled = list(points)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    for make in (least_squares, terminal_line, independent_line):
        assert make(*split(points)) == make(*split(shuffled))


@FEW
@given(st.integers(-9, 9), st.integers(-9, 9), st.sets(WHOLE, min_size=2, max_size=9))
def test_points_on_a_line_give_that_line(intercept: int, slope: int, places: set[int]) -> None:
    """A closed form: no deviation is less than none."""
    x = [Fraction(each) for each in sorted(places)]
    y = [intercept + slope * each for each in x]
    for make in (least_squares, terminal_line, independent_line):
        line = make(x, y)
        assert (line.intercept, line.slope) == (intercept, slope)


@FEW
@given(POINTS)
def test_the_residuals_of_least_squares_cancel(points: Points) -> None:
    """The normal equations: residuals sum to zero, alone and times x."""
    fit = least_squares(*split(points))
    left = [y - fit.at(x) for x, y in points]
    assert abs(sum(left)) < 1e-6
    assert abs(sum(each * x for each, (x, _) in zip(left, points, strict=True))) < 1e-3
