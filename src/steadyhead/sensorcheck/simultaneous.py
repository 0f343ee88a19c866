"""Inputs that were read together: means with their correlations; and how far two results of the same inputs agree.

Rules
-----
1. Readings of one moment share what happened at that moment (a supply that sags, a pressure that swings): the means
   have a correlation, worked out from the same readings.
2. Two results of the same inputs are correlated even where the inputs are not.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from steadyhead.errors import SensorCheckError
from steadyhead.messages import message
from steadyhead.sensorcheck.budget import Budget
from steadyhead.sensorcheck.inputs import About, Input, repeated
from steadyhead.sensorcheck.measurand import Correlation


def read_together(
    abouts: Sequence[About], readings: Sequence[Sequence[float]]
) -> tuple[tuple[Input, ...], tuple[Correlation, ...]]:
    """Return the means of quantities that were read at the same moments, and their correlations.

    ``r = sum (x - x_mean)(y - y_mean) / sqrt(sum (x - x_mean)^2 sum (y - y_mean)^2)``

    Parameters
    ----------
    abouts
        Each quantity's name and where it comes from.
    readings
        For each quantity its readings, in the order of the moments; shape (quantities, moments).

    Raises
    ------
    SensorCheckError
        ``input-needs-readings``: fewer than two moments; ``readings-not-together``: not as many of each.

    Examples
    --------
    >>> volts, supply = (About(name=name, dimension="voltage") for name in ("signal", "supply"))
    >>> inputs, (pair,) = read_together((volts, supply), ((2.5, 2.6, 2.55), (5.0, 5.2, 5.1)))
    >>> round(pair.coefficient, 9)
    1.0

    References
    ----------
    JCGM 100:2008, 5.2.3, equation (17), and 5.2.2, equation (14) (from memory).
    """
    counts = [len(each) for each in readings]
    if len(set(counts)) > 1 or len(counts) != len(abouts):
        raise SensorCheckError(message("readings-not-together", got=tuple(map(str, counts))))
    inputs = tuple(repeated(about, each) for about, each in zip(abouts, readings, strict=True))
    apart = [[reading - one.estimate for reading in each] for one, each in zip(inputs, readings, strict=True)]
    pairs = []
    for (i, first), (j, second) in combinations(enumerate(inputs), 2):
        sizes = math.sqrt(math.fsum(a * a for a in apart[i]) * math.fsum(b * b for b in apart[j]))
        both = math.fsum(a * b for a, b in zip(apart[i], apart[j], strict=True))
        coefficient = max(-1.0, min(1.0, both / sizes)) if sizes else 0.0
        pairs.append(Correlation(first=first.name, second=second.name, coefficient=coefficient))
    return inputs, tuple(pairs)


def correlation_of(one: Budget, other: Budget) -> float:
    """Return how far two results of the same inputs move together, from -1 to 1.

    ``r(y, z) = sum_i sum_j c_i d_j u_i u_j r_ij / (u(y) u(z))``

    Parameters
    ----------
    one, other
        Budgets whose inputs have the same names for the same things; what only one of them takes moves only that one.

    References
    ----------
    JCGM 100:2008, H.2.3, equation (H.9) (from memory).
    """
    if not (one.first_order and other.first_order):
        return 0.0
    shared = math.fsum(
        row.contribution * each.contribution * one.measurand.correlation(row.input.name, each.input.name)
        for row in one.rows
        for each in other.rows
    )
    return shared / (one.first_order * other.first_order)
