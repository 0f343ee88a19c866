"""How many standard uncertainties cover so much: the normal distribution and Student's t, for any degrees of freedom.

Rules
-----
1. Degrees of freedom are any figure from 1 up, infinity included: an effective one is seldom whole.
2. Student's t comes from the incomplete beta function, by its continued fraction; where the degrees of freedom pass
   `MANY`, from an expansion about the normal distribution. Both hold 1e-11 of the probability.
3. Tails are worked out as tails: 1e-9 of probability is not what is left of 1.
"""

from __future__ import annotations

import math
from statistics import NormalDist

from steadyhead.published.source import Source, Validity

SOURCE = Source(
    cite="NIST Digital Library of Mathematical Functions",
    locator="8.17.22 (continued fraction of the incomplete beta function), 5.11.13 (ratio of gamma functions)",
    seen="memory",
)
#: The expansion that is used above `MANY` degrees of freedom.
SOURCE_MANY = Source(
    cite="Abramowitz and Stegun, Handbook of Mathematical Functions, 1964", locator="26.7.5", seen="memory"
)
DEGREES_OF_FREEDOM = Validity(quantity="degrees-of-freedom", low=1.0, high=math.inf, unit="")
#: No factor covers nothing, and none covers all.
COVERAGE = Validity(quantity="coverage", low=1e-12, high=1.0 - 1e-12, unit="")
MANY = 1e6  #: degrees of freedom from which the expansion is more exact than the continued fraction
_NORMAL = NormalDist()
_TINY = 1e-300
_STEPS = 10_000  #: of the continued fraction; it needs some sqrt(MANY)


def normal_cdf(z: float) -> float:
    """Return the probability that a standard normal figure lies below `z`.

    >>> round(normal_cdf(1.96), 4)
    0.975
    """
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def normal_quantile(probability: float) -> float:
    """Return the figure below which a standard normal one lies with this probability, between 0 and 1.

    Raises
    ------
    RangeOfValidityError
        The probability is not between 0 and 1.

    Examples
    --------
    >>> round(normal_quantile(0.975), 4)
    1.96
    """
    COVERAGE.require(probability)
    return _NORMAL.inv_cdf(probability)


def student_cdf(t: float, dof: float) -> float:
    """Return the probability that Student's t lies below `t`.

    ``F(t) = 1 - I_x(nu/2, 1/2) / 2``, ``x = nu / (nu + t^2)``, for t above zero; the rest by symmetry.

    Parameters
    ----------
    t
        Any figure.
    dof
        Degrees of freedom, from 1 to infinity.

    Raises
    ------
    RangeOfValidityError
        Fewer than one degree of freedom.

    Examples
    --------
    >>> round(student_cdf(12.706, 1), 5), student_cdf(0.0, 7.5)
    (0.975, 0.5)

    References
    ----------
    NIST Digital Library of Mathematical Functions, 8.17.22.
    """
    DEGREES_OF_FREEDOM.require(dof)
    tail = _upper_tail(abs(t), dof)
    return tail if t < 0 else 1.0 - tail


def student_quantile(probability: float, dof: float) -> float:
    """Return the figure below which Student's t lies with this probability.

    Raises
    ------
    RangeOfValidityError
        The probability is not between 0 and 1, or there is fewer than one degree of freedom.

    Examples
    --------
    >>> round(student_quantile(0.995, 16), 2)
    2.92
    """
    COVERAGE.require(probability)
    DEGREES_OF_FREEDOM.require(dof)
    if probability == 0.5:
        return 0.0
    tail = min(probability, 1.0 - probability)
    t = _root_of_tail(tail, dof)
    return -t if probability < 0.5 else t


def coverage_factor(coverage: float, dof: float = math.inf) -> float:
    """Return k: an interval of plus and minus k standard uncertainties covers the value with this probability.

    ``k = t_p(nu)``, the quantile of Student's t at ``(1 + p) / 2``.

    Parameters
    ----------
    coverage
        Between 0 and 1; 0.95 and 0.9545 are usual.
    dof
        Effective degrees of freedom of the standard uncertainty, from 1 to infinity.

    Raises
    ------
    RangeOfValidityError
        The coverage is not between 0 and 1, or there is fewer than one degree of freedom.

    Examples
    --------
    >>> round(coverage_factor(0.9545), 2), round(coverage_factor(0.9545, 10), 2)
    (2.0, 2.28)

    References
    ----------
    JCGM 100:2008, G.3.2 and table G.2.
    """
    COVERAGE.require(coverage)
    return -student_quantile((1.0 - coverage) / 2.0, dof)


def _root_of_tail(tail: float, dof: float) -> float:
    """Return t above zero beyond which `tail` lies, by halving a bracket that Newton's steps may shorten."""
    low, high = 0.0, max(1.0, -_NORMAL.inv_cdf(tail))
    while _upper_tail(high, dof) > tail:
        low, high = high, 2.0 * high
    t = 0.5 * (low + high)
    for _ in range(200):
        off = _upper_tail(t, dof) - tail
        low, high = (t, high) if off > 0 else (low, t)
        better = t + off / _density(t, dof)
        step = (better if low < better < high else 0.5 * (low + high)) - t
        t += step
        if abs(step) <= 4e-16 * t:
            break
    return t


def _upper_tail(t: float, dof: float) -> float:
    """Return the probability above `t`, which is not below zero."""
    if math.isinf(dof):
        return 0.5 * math.erfc(t / math.sqrt(2.0))
    if dof > MANY:
        return 0.5 * math.erfc(_as_normal(t, dof) / math.sqrt(2.0))
    square = t * t
    return 0.5 * _incomplete_beta(dof / (dof + square), square / (dof + square), dof / 2.0)


def _as_normal(t: float, dof: float) -> float:
    """Return the normal figure with the same tail: A&S 26.7.5 turned round, exact to the square of 1/nu."""
    first = (t**3 + t) / 4.0
    second = (13.0 * t**5 + 8.0 * t**3 + 3.0 * t) / 96.0
    return t - first / dof + second / dof**2


def _density(t: float, dof: float) -> float:
    """Return the probability density of Student's t."""
    if math.isinf(dof):
        return _NORMAL.pdf(t)
    ratio = _gamma_ratio(dof / 2.0) / math.sqrt(dof * math.pi)
    return ratio * math.exp(-0.5 * (dof + 1.0) * math.log1p(t * t / dof))


def _gamma_ratio(a: float) -> float:
    """Return gamma(a + 1/2) / gamma(a); by its series where the logarithms of both would lose digits."""
    if a < 40.0:
        return math.exp(math.lgamma(a + 0.5) - math.lgamma(a))
    inverse = 1.0 / a
    return math.sqrt(a) * math.exp(-inverse / 8.0 + inverse**3 / 192.0 - inverse**5 / 640.0 + inverse**7 / 843.0)


def _incomplete_beta(x: float, rest: float, a: float) -> float:
    """Return I_x(a, 1/2), with ``rest = 1 - x`` handed in, so that neither loses its digits."""
    if x == 0.0 or rest == 0.0:
        return x
    front = math.exp(a * _log_of(x, rest)) * math.sqrt(rest) * _gamma_ratio(a) / math.sqrt(math.pi)
    if x < (a + 1.0) / (a + 2.5):
        return front * _fraction(x, a, 0.5) / a
    return 1.0 - front * _fraction(rest, 0.5, a) / 0.5


def _log_of(x: float, rest: float) -> float:
    return math.log1p(-rest) if rest < 0.5 else math.log(x)


def _fraction(x: float, a: float, b: float) -> float:
    """Return the continued fraction of the incomplete beta function, by Lentz's method."""
    c, d = 1.0, 1.0 / _away(1.0 - (a + b) * x / (a + 1.0))
    value = d
    for m in range(1, _STEPS):
        even = m * (b - m) * x / ((a + 2 * m - 1.0) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1.0))
        change = 1.0
        for term in (even, odd):
            d = 1.0 / _away(1.0 + term * d)
            c = _away(1.0 + term / c)
            change = c * d
            value *= change
        if abs(change - 1.0) < 1e-16:
            break
    return value


def _away(figure: float) -> float:
    """Return a figure, never nothing."""
    return figure if abs(figure) > _TINY else _TINY
