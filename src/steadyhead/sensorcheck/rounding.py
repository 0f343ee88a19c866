"""How many digits an uncertainty is worth, and how a result is rounded to match it.

Rules
-----
1. An uncertainty is told to `digits` significant digits, one or two; its result to the same decimal place.
2. The numerical tolerance of an uncertainty is half a unit of the last of these digits.
3. What lies half-way is rounded to the even digit, as decimals, not as floats: 2.675 is not a little below itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from steadyhead.errors import SensorCheckError
from steadyhead.messages import message


@dataclass(frozen=True, slots=True, kw_only=True)
class Reported:
    """A result and its uncertainty, rounded to the same place; `decimals` below zero stands before the point."""

    value: float
    uncertainty: float
    decimals: int


def rounded(figure: float, digits: int = 2) -> float:
    """Return a figure rounded to significant digits.

    >>> rounded(31.66), rounded(0.0749), rounded(0.0)
    (32.0, 0.075, 0.0)
    """
    return _to(figure, _decimals(figure, digits)) if figure else 0.0


def reported(value: float, uncertainty: float, digits: int = 2) -> Reported:
    """Return a result and its uncertainty as they are told.

    Parameters
    ----------
    value, uncertainty
        The result and its uncertainty, in one unit; the uncertainty above zero.
    digits
        Significant digits of the uncertainty.

    Raises
    ------
    SensorCheckError
        ``uncertainty-not-above-zero``: there is nothing to round by.

    Examples
    --------
    >>> reported(10.05762, 0.0274)
    Reported(value=10.058, uncertainty=0.027, decimals=3)

    References
    ----------
    JCGM 100:2008, 7.2.6 (from memory).
    """
    decimals = _decimals(uncertainty, digits)
    return Reported(value=_to(value, decimals), uncertainty=_to(uncertainty, decimals), decimals=decimals)


def numerical_tolerance(uncertainty: float, digits: int = 2) -> float:
    """Return half a unit of the last digit that an uncertainty is told to: ``u = c 10^l``, ``delta = 10^l / 2``.

    Raises
    ------
    SensorCheckError
        ``uncertainty-not-above-zero``.

    Examples
    --------
    >>> numerical_tolerance(0.00035), numerical_tolerance(32.0, digits=1)
    (5e-06, 5.0)

    References
    ----------
    JCGM 101:2008, 7.9.2 (from memory).
    """
    return 0.5 * 10.0 ** -_decimals(uncertainty, digits)


def _decimals(uncertainty: float, digits: int) -> int:
    """Return how many decimals the last significant digit has, after rounding: 9.96 to two digits is 10."""
    size = abs(uncertainty)
    if not 0.0 < size < math.inf:
        raise SensorCheckError(message("uncertainty-not-above-zero", got=uncertainty))
    return digits - 1 - int(f"{size:.{digits - 1}e}".partition("e")[2])


def _to(figure: float, decimals: int) -> float:
    return float(round(Decimal(repr(float(figure))), decimals)) + 0.0
