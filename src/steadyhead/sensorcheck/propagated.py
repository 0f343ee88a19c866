"""What came out of a Monte Carlo run, and how well that itself is known.

Rules
-----
1. The estimate is the mean of the trials, its standard uncertainty their standard deviation.
2. The probabilistically symmetric interval leaves as much below as above; the shortest one is the narrowest of all
   that cover as much.
3. A run is itself a sample: each of its figures has an uncertainty of its own, from as many batches as the run had.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from steadyhead.errors import SensorCheckError
from steadyhead.figures import Figure
from steadyhead.messages import message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.inputs import SUPPLEMENT
from steadyhead.sensorcheck.measurand import Measurand

FEWEST_TRIALS = 1000
BATCHES = 20  #: into which a run is parted for its own uncertainty


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """Both ends of a coverage interval [unit of the result]."""

    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """The five figures of a run, or how well they are known: mean, standard deviation and both intervals."""

    estimate: float
    u: float
    symmetric: Interval
    shortest: Interval

    @property
    def figures(self) -> tuple[float, ...]:
        """All of them in a row."""
        return (self.estimate, self.u, self.symmetric.low, self.symmetric.high, self.shortest.low, self.shortest.high)

    @classmethod
    def of(cls, figures: Sequence[float]) -> Summary:
        """Return a summary from its figures in a row."""
        return cls(
            estimate=figures[0],
            u=figures[1],
            symmetric=Interval(low=figures[2], high=figures[3]),
            shortest=Interval(low=figures[4], high=figures[5]),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Trials:
    """A run without what was asked: figures alone, which can be handed to another process, as no model can.

    The parameters are those of `Propagated`.
    """

    coverage: float
    trials: int
    seed: int
    found: Summary
    known: Summary

    def of(self, measurand: Measurand) -> Propagated:
        """Return the run of the measurand that was asked."""
        return Propagated(
            measurand=measurand, coverage=self.coverage, trials=self.trials, seed=self.seed, found=self.found,
            known=self.known,
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Propagated:
    """The outcome of a Monte Carlo run.

    Parameters
    ----------
    measurand
        What was asked.
    coverage
        Probability of both intervals.
    trials, seed
        How many were drawn, and from which seed: the same seed gives the same figures.
    found
        The figures.
    known
        Their own standard uncertainties.
    """

    measurand: Measurand
    coverage: float
    trials: int
    seed: int
    found: Summary
    known: Summary

    @property
    def bare(self) -> Trials:
        """The run without its measurand."""
        return Trials(
            coverage=self.coverage, trials=self.trials, seed=self.seed, found=self.found, known=self.known
        )

    @property
    def figure(self) -> Figure:
        """The estimate with its descent."""
        return Figure(
            name=self.measurand.name,
            value=self.found.estimate,
            dimension=self.measurand.dimension,
            formula=f"mean of {self.trials} trials (seed {self.seed}) of {self.measurand.formula}",
            inputs=(*(one.figure for one in self.measurand.inputs), *self.measurand.constants),
            source=Source(cite=SUPPLEMENT, locator="7.6, equations (16) and (17)", seen="memory"),
            standard_uncertainty=self.found.u,
        )


def require_trials(trials: int) -> None:
    """Refuse a run that is too short to say anything.

    Raises
    ------
    SensorCheckError
        ``too-few-trials``: fewer than `FEWEST_TRIALS`.
    """
    if trials < FEWEST_TRIALS:
        raise SensorCheckError(message("too-few-trials", got=trials, must_be=FEWEST_TRIALS))


def covered(trials: int, coverage: float) -> int:
    """Return how many trials an interval spans: ``q = p M``, rounded, and one fewer than there are at most.

    References
    ----------
    JCGM 101:2008, 7.7.2 (from memory).
    """
    return min(math.floor(coverage * trials + 0.5), trials - 1)


def own_uncertainty(batches: Sequence[Summary]) -> Summary:
    """Return the standard uncertainties of a run's figures, from the scatter of its batches: ``s / sqrt(h)``.

    References
    ----------
    JCGM 101:2008, 7.9.4 (from memory).
    """
    count = len(batches)
    spreads = []
    for column in zip(*(batch.figures for batch in batches), strict=True):
        middle = math.fsum(column) / count
        squares = math.fsum((each - middle) ** 2 for each in column)
        spreads.append(math.sqrt(squares / (count * (count - 1))))
    return Summary.of(spreads)
