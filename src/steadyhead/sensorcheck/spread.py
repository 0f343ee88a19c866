"""Mean and standard deviation of readings, summed exactly so that a large offset costs no digit.

Rules
-----
1. Sums are fractions; one rounding, at the end.
2. A standard deviation is that of the sample (divided by one less than there are); of one reading there is none.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import sqrt

from steadyhead.errors import FitError
from steadyhead.messages import message

Numbers = Sequence[float] | Sequence[Fraction]


def mean(values: Numbers) -> float:
    """Return the mean, ``sum(x) / n``.

    Raises
    ------
    FitError
        ``no-readings``.

    Examples
    --------
    >>> mean([10000001.0, 10000003.0, 10000002.0])
    10000002.0
    """
    return float(_mean(values))


def standard_deviation(values: Numbers) -> float | None:
    """Return the sample's standard deviation, ``sqrt(sum (x - mean)^2 / (n - 1))``; None of a single reading.

    Raises
    ------
    FitError
        ``no-readings``.

    Examples
    --------
    >>> standard_deviation([10000001.0, 10000003.0, 10000002.0])
    1.0

    References
    ----------
    JCGM 100:2008, 4.2.2, equation (4) (from memory).
    """
    middle = _mean(values)
    if len(values) < 2:
        return None
    return sqrt(sum(((Fraction(each) - middle) ** 2 for each in values), Fraction(0)) / (len(values) - 1))


def _mean(values: Numbers) -> Fraction:
    if not values:
        raise FitError(message("no-readings"))
    return sum((Fraction(each) for each in values), Fraction(0)) / len(values)
