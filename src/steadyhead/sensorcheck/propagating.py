"""Monte Carlo anywhere: a result's distribution from its inputs' distributions, in plain Python.

Rules
-----
1. The standard library's own generator, from a seed: the same seed gives the same figures on every machine.
2. A run is short here (some 10 us for a trial and an input), so it says how well its own figures are known; the long
   runs stand in `steadyhead.montecarlo`, behind the same interface.
3. `propagating` goes on, slice by slice, until the figures are known to stated digits; whoever waits sees its progress.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from random import Random

from steadyhead.errors import SensorCheckError
from steadyhead.messages import message
from steadyhead.sensorcheck.coverage import COVERAGE
from steadyhead.sensorcheck.drawing import Group, plan
from steadyhead.sensorcheck.inputs import Input, Kind
from steadyhead.sensorcheck.measurand import Measurand
from steadyhead.sensorcheck.propagated import (
    BATCHES,
    Interval,
    Propagated,
    Summary,
    covered,
    own_uncertainty,
    require_trials,
)
from steadyhead.sensorcheck.rounding import numerical_tolerance

SLICE = 10_000  #: trials of one batch of a run that goes on until it is good enough
MOST_TRIALS = 1_000_000


def propagate(measurand: Measurand, *, trials: int = 20_000, seed: int = 1, coverage: float = 0.95) -> Propagated:
    """Return a result's distribution by a Monte Carlo run of stated length.

    Parameters
    ----------
    measurand
        The model with its inputs.
    trials
        How many, 1000 at least.
    seed
        Of the generator.
    coverage
        Probability of the coverage intervals.

    Raises
    ------
    SensorCheckError
        ``too-few-trials``, ``model-has-no-answer``, ``correlated-shape-unknown`` or ``correlations-impossible``.
    RangeOfValidityError
        The coverage is not between 0 and 1.

    Examples
    --------
    >>> from steadyhead.sensorcheck.inputs import About, normal
    >>> from steadyhead.sensorcheck.measurand import Measurand
    >>> parts = tuple(normal(About(name=name, dimension="number"), 0.0, 1.0) for name in "abcd")
    >>> total = Measurand(name="total", dimension="number", formula="a + b + c + d",
    ...     model=lambda of: of["a"] + of["b"] + of["c"] + of["d"], inputs=parts)
    >>> run = propagate(total, trials=10_000)
    >>> abs(run.found.u - 2.0) < 3 * run.known.u
    True

    References
    ----------
    JCGM 101:2008, clause 7 (from memory).
    """
    require_trials(trials)
    COVERAGE.require(coverage)
    draw = _drawer(measurand, Random(seed))  # noqa: S311 - draws trials, keeps no secret
    answers = [draw() for _ in range(trials)]
    size = trials // BATCHES
    batches = [summary(answers[n * size : (n + 1) * size], coverage) for n in range(BATCHES)]
    return Propagated(
        measurand=measurand,
        coverage=coverage,
        trials=trials,
        seed=seed,
        found=summary(answers, coverage),
        known=own_uncertainty(batches),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far a run is: trials so far, and how many times too loose its loosest figure still is."""

    trials: int
    too_loose: float


def propagating(
    measurand: Measurand, *, digits: int = 2, seed: int = 1, coverage: float = 0.95, most: int = MOST_TRIALS
) -> Generator[Progress, None, Propagated]:
    """Go on drawing until every figure is known to `digits` digits of the uncertainty, or `most` trials are drawn.

    Yields
    ------
    Progress
        After each slice of 10 000 trials.

    Returns
    -------
    Propagated
        As `propagate`; `Propagated.known` tells whether it became as good as was asked.

    Raises
    ------
    SensorCheckError
        As `propagate`.

    References
    ----------
    JCGM 101:2008, 7.9 (from memory): twice the standard deviation of the averages is within the numerical tolerance.
    """
    require_trials(most)
    COVERAGE.require(coverage)
    draw = _drawer(measurand, Random(seed))  # noqa: S311 - draws trials, keeps no secret
    answers: list[float] = []
    batches: list[Summary] = []
    while True:
        batch = [draw() for _ in range(min(SLICE, most))]
        answers += batch
        batches.append(summary(batch, coverage))
        loose = math.inf
        if len(batches) > 1:
            tolerance = numerical_tolerance(_deviation(answers), digits)
            loose = max(2.0 * each / tolerance for each in own_uncertainty(batches).figures)
        yield Progress(trials=len(answers), too_loose=loose)
        if len(batches) > 1 and (loose <= 1.0 or len(answers) + SLICE > most):
            break
    return Propagated(
        measurand=measurand,
        coverage=coverage,
        trials=len(answers),
        seed=seed,
        found=summary(answers, coverage),
        known=own_uncertainty(batches),
    )


# ------------------------------------------------------------ figures of trials


def summary(answers: Sequence[float], coverage: float) -> Summary:
    """Return the figures of trials.

    References
    ----------
    JCGM 101:2008, 7.6 and 7.7 (from memory).
    """
    ordered = sorted(answers)
    spans = covered(len(ordered), coverage)
    below = (len(ordered) - spans) // 2
    narrowest = min(range(len(ordered) - spans), key=lambda n: ordered[n + spans] - ordered[n])
    return Summary(
        estimate=math.fsum(ordered) / len(ordered),
        u=_deviation(ordered),
        symmetric=Interval(low=ordered[below], high=ordered[below + spans]),
        shortest=Interval(low=ordered[narrowest], high=ordered[narrowest + spans]),
    )


def _deviation(answers: Sequence[float]) -> float:
    mean = math.fsum(answers) / len(answers)
    return math.sqrt(math.fsum((each - mean) ** 2 for each in answers) / (len(answers) - 1))


# ------------------------------------------------------------ drawing


def _drawer(measurand: Measurand, random: Random) -> Callable[[], float]:
    """Return what draws one trial after the other."""
    drawn = plan(measurand)
    alone = [(one.name, _sampler(one, random)) for one in drawn.alone]
    groups = [_group_sampler(group, random) for group in drawn.groups]
    inputs = dict(drawn.fixed)
    model = measurand.model

    def draw() -> float:
        for name, sample in alone:
            inputs[name] = sample()
        for group in groups:
            inputs.update(group())
        try:
            answer = float(model(inputs))
        except ZeroDivisionError:
            answer = math.nan
        if not math.isfinite(answer):
            raise SensorCheckError(message("model-has-no-answer", result=measurand.name, formula=measurand.formula))
        return answer

    return draw


def _sampler(one: Input, random: Random) -> Callable[[], float]:
    """Return what draws an input that goes with no other."""
    return _SAMPLERS[one.kind](one, random)


def _normal(one: Input, random: Random) -> Callable[[], float]:
    return lambda: random.gauss(one.estimate, one.spread)


def _rectangular(one: Input, random: Random) -> Callable[[], float]:
    low, width, uniform = one.estimate - one.spread, 2.0 * one.spread, random.random
    return lambda: low + width * uniform()


def _triangular(one: Input, random: Random) -> Callable[[], float]:
    low, width, uniform = one.estimate - one.spread, one.spread, random.random
    return lambda: low + width * (uniform() + uniform())


def _arcsine(one: Input, random: Random) -> Callable[[], float]:
    return lambda: one.estimate + one.spread * math.sin(2.0 * math.pi * random.random())


def _trapezoidal(one: Input, random: Random) -> Callable[[], float]:
    low, wide, narrow = one.estimate - one.spread, one.spread * (1.0 + one.shape), one.spread * (1.0 - one.shape)
    return lambda: low + wide * random.random() + narrow * random.random()


def _uncertain(one: Input, random: Random) -> Callable[[], float]:
    """Limits that are themselves rectangular, alike about the middle: JCGM 101, 6.4.3.4."""
    loose = one.shape * one.spread
    return lambda: (
        one.estimate + (one.spread + loose * (2.0 * random.random() - 1.0)) * (2.0 * random.random() - 1.0)
    )


def _student(one: Input, random: Random) -> Callable[[], float]:
    if math.isinf(one.dof):
        return _normal(one, random)
    return lambda: one.estimate + one.spread * random.gauss(0.0, 1.0) / _root_of_chi(one.dof, random)


_SAMPLERS: dict[Kind, Callable[[Input, Random], Callable[[], float]]] = {
    "normal": _normal,
    "rectangular": _rectangular,
    "triangular": _triangular,
    "arcsine": _arcsine,
    "trapezoidal": _trapezoidal,
    "uncertain": _uncertain,
    "t": _student,
}


def _root_of_chi(dof: float, random: Random) -> float:
    """Return the square root of a drawn chi-squared over its degrees of freedom."""
    return math.sqrt(random.gammavariate(dof / 2.0, 2.0) / dof)


def _group_sampler(group: Group, random: Random) -> Callable[[], dict[str, float]]:
    dof = group.inputs[0].dof if group.inputs[0].kind == "t" else math.inf

    def draw() -> dict[str, float]:
        plain = [random.gauss(0.0, 1.0) for _ in group.inputs]
        stretch = 1.0 if math.isinf(dof) else 1.0 / _root_of_chi(dof, random)
        return {
            one.name: one.estimate
            + one.spread * stretch * math.fsum(part * each for part, each in zip(row, plain, strict=False))
            for one, row in zip(group.inputs, group.root, strict=True)
        }

    return draw
