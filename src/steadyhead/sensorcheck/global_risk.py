"""How often a rule is wrong over many sensors: the risk to who uses them, and to who made them.

Rules
-----
1. True errors of a population are normal about a mean; what a check finds is normal about the true error.
2. False accept: the true error is outside tolerance, and the check passes it. False reject: the reverse. Both are
   probabilities of the pair, before anything is measured.
3. Limits may be infinite: a tolerance with one side is a tolerance.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from steadyhead.errors import SensorCheckError
from steadyhead.messages import message
from steadyhead.sensorcheck.coverage import normal_cdf

_REACH = 12.0  #: standard deviations beyond which nothing is left
_STEPS = 1000  #: of Simpson's rule in each piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Population:
    """True errors over many sensors: mean and standard deviation, in the unit of the tolerance."""

    mean: float = 0.0
    deviation: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """Two limits; infinite where there is none."""

    low: float = -math.inf
    high: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Risks:
    """Probability of a false accept (the user's risk) and of a false reject (the maker's)."""

    false_accept: float
    false_reject: float


def global_risks(population: Population, u: float, tolerance: Between, acceptance: Between | None = None) -> Risks:
    """Return how often a check passes what is outside tolerance, and fails what is within.

    ``R_C = int_{x outside T} g(x) P(accepted | x) dx``, ``R_P = int_{x in T} g(x) (1 - P(accepted | x)) dx``.

    Parameters
    ----------
    population
        The true errors.
    u
        Standard uncertainty of the check, above zero.
    tolerance
        What is right.
    acceptance
        What is passed; None: the tolerance itself.

    Raises
    ------
    SensorCheckError
        ``risk-needs-spread``: a standard deviation or an uncertainty that is not above zero.

    Examples
    --------
    >>> risks = global_risks(Population(deviation=1.0), 0.25, Between(low=-2.0, high=2.0))
    >>> round(risks.false_accept, 3), round(risks.false_reject, 3)
    (0.008, 0.015)

    References
    ----------
    JCGM 106:2012, 9.5.2, equations (17) to (20) (from memory).
    """
    if not (population.deviation > 0.0 and u > 0.0):
        raise SensorCheckError(message("risk-needs-spread", deviation=population.deviation, got=u))
    passed = tolerance if acceptance is None else acceptance

    def accepted(x: float) -> float:
        return normal_cdf((passed.high - x) / u) - normal_cdf((passed.low - x) / u)

    def density(x: float) -> float:
        z = (x - population.mean) / population.deviation
        return math.exp(-0.5 * z * z) / (population.deviation * math.sqrt(2.0 * math.pi))

    reach = _REACH * population.deviation
    ends = (population.mean - reach, population.mean + reach)
    marks = (tolerance.low, tolerance.high, passed.low, passed.high)
    inner = {one + k * u for one in marks if math.isfinite(one) for k in (-6.0, 0.0, 6.0)}
    places = sorted({*ends, *(min(max(one, ends[0]), ends[1]) for one in inner)})
    accept = reject = 0.0
    for low, high in pairwise(places):
        right = tolerance.low <= 0.5 * (low + high) <= tolerance.high
        reject += _simpson(lambda x: density(x) * (1.0 - accepted(x)), low, high) if right else 0.0
        accept += 0.0 if right else _simpson(lambda x: density(x) * accepted(x), low, high)
    return Risks(false_accept=accept, false_reject=reject)


def _simpson(function: Callable[[float], float], low: float, high: float) -> float:
    """Return an integral by Simpson's rule."""
    step = (high - low) / _STEPS
    inside = math.fsum((4.0 if n % 2 else 2.0) * function(low + n * step) for n in range(1, _STEPS))
    return step / 3.0 * (function(low) + inside + function(high))
