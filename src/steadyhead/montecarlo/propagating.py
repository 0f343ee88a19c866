"""A result's distribution from a million trials: the same inputs and figures as the portable run, in columns.

Rules
-----
1. Trials are drawn and worked out in chunks that fit a processor's cache; the model sees whole columns.
2. A chunk is a batch: the scatter of the batches is the run's own uncertainty.
3. The same seed gives the same figures with the same version of numpy.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import cast

import numpy as np
from numpy.random import Generator

from steadyhead.errors import SensorCheckError
from steadyhead.messages import message
from steadyhead.sensorcheck.coverage import COVERAGE
from steadyhead.sensorcheck.drawing import Group, Plan, plan
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

Column = np.ndarray[tuple[int], np.dtype[np.float64]]


def propagate(measurand: Measurand, *, trials: int = 1_000_000, seed: int = 1, coverage: float = 0.95) -> Propagated:
    """Return a result's distribution by a Monte Carlo run of stated length.

    Parameters
    ----------
    measurand
        The model with its inputs; the model is written in plain arithmetic, so that it takes columns.
    trials
        How many, 1000 at least; rounded up to whole batches.
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
    >>> from steadyhead.sensorcheck.inputs import About, within
    >>> from steadyhead.sensorcheck.measurand import Measurand
    >>> sides = tuple(within(About(name=name, dimension="number"), 0.0, 1.0) for name in "ab")
    >>> sum_ = Measurand(name="sum", dimension="number", formula="a + b", model=lambda of: of["a"] + of["b"],
    ...     inputs=sides)
    >>> run = propagate(sum_, trials=100_000, coverage=0.9)
    >>> round(run.found.u, 1), round(run.found.symmetric.high, 1)  # triangular: sqrt(2/3), 2 (1 - sqrt(0.1))
    (0.8, 1.4)

    References
    ----------
    JCGM 101:2008, clause 7 (from memory).
    """
    require_trials(trials)
    COVERAGE.require(coverage)
    random = np.random.default_rng(seed)
    drawn = plan(measurand)
    size = math.ceil(trials / BATCHES)
    chunks = [_answers(measurand, drawn, random, size) for _ in range(BATCHES)]
    return Propagated(
        measurand=measurand,
        coverage=coverage,
        trials=size * BATCHES,
        seed=seed,
        found=_summary(np.concatenate(chunks), coverage),
        known=own_uncertainty([_summary(chunk, coverage) for chunk in chunks]),
    )


def _answers(measurand: Measurand, drawn: Plan, random: Generator, size: int) -> Column:
    columns: dict[str, float | Column] = dict(drawn.fixed)
    for one in drawn.alone:
        columns[one.name] = _SAMPLERS[one.kind](one, random, size)
    for group in drawn.groups:
        columns.update(_together(group, random, size))
    with np.errstate(all="ignore"):
        answers = np.asarray(measurand.model(cast("Mapping[str, float]", columns)), dtype=np.float64)
    if not np.isfinite(answers).all():
        raise SensorCheckError(message("model-has-no-answer", result=measurand.name, formula=measurand.formula))
    return np.broadcast_to(answers, (size,))


def _summary(answers: Column, coverage: float) -> Summary:
    ordered = np.sort(answers)
    spans = covered(ordered.size, coverage)
    below = (ordered.size - spans) // 2
    narrowest = int(np.argmin(ordered[spans:] - ordered[: ordered.size - spans]))
    return Summary(
        estimate=float(ordered.mean()),
        u=float(ordered.std(ddof=1)),
        symmetric=Interval(low=float(ordered[below]), high=float(ordered[below + spans])),
        shortest=Interval(low=float(ordered[narrowest]), high=float(ordered[narrowest + spans])),
    )


# ------------------------------------------------------------ drawing


def _normal(one: Input, random: Generator, size: int) -> Column:
    return one.estimate + one.spread * random.standard_normal(size)


def _rectangular(one: Input, random: Generator, size: int) -> Column:
    return random.uniform(one.estimate - one.spread, one.estimate + one.spread, size)


def _triangular(one: Input, random: Generator, size: int) -> Column:
    return (one.estimate - one.spread) + one.spread * (random.random(size) + random.random(size))


def _arcsine(one: Input, random: Generator, size: int) -> Column:
    return one.estimate + one.spread * np.sin(2.0 * np.pi * random.random(size))


def _trapezoidal(one: Input, random: Generator, size: int) -> Column:
    wide, narrow = 1.0 + one.shape, 1.0 - one.shape
    return one.estimate + one.spread * (wide * random.random(size) + narrow * random.random(size) - 1.0)


def _uncertain(one: Input, random: Generator, size: int) -> Column:
    limits = one.spread * (1.0 + one.shape * random.uniform(-1.0, 1.0, size))
    return one.estimate + limits * random.uniform(-1.0, 1.0, size)


def _student(one: Input, random: Generator, size: int) -> Column:
    if math.isinf(one.dof):
        return _normal(one, random, size)
    return one.estimate + one.spread * random.standard_t(one.dof, size)


_SAMPLERS: dict[Kind, Callable[[Input, Generator, int], Column]] = {
    "normal": _normal,
    "rectangular": _rectangular,
    "triangular": _triangular,
    "arcsine": _arcsine,
    "trapezoidal": _trapezoidal,
    "uncertain": _uncertain,
    "t": _student,
}


def _together(group: Group, random: Generator, size: int) -> dict[str, Column]:
    plain = [random.standard_normal(size) for _ in group.inputs]
    dof = group.inputs[0].dof if group.inputs[0].kind == "t" else math.inf
    stretch = 1.0 if math.isinf(dof) else 1.0 / np.sqrt(random.chisquare(dof, size) / dof)
    found: dict[str, Column] = {}
    for one, row in zip(group.inputs, group.root, strict=True):
        mixed = sum((part * each for part, each in zip(row, plain, strict=False)), np.zeros(size))
        found[one.name] = one.estimate + one.spread * stretch * mixed
    return found
