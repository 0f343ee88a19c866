"""What the readings of one visit say of one cell, in one closed formula.

Theory of operation
-------------------
1. A cell predicts all figures at once, by straight lines in its latents; latents and instrument errors are normal. With
   residuals r, their variances R, slopes J and prior z ~ N(0, 1): ``S = R + J J'``,
   ``2 log p = -r' S^-1 r - log det (2 pi S)``, and the latents that the readings ask for are ``z = J' S^-1 r``.
2. Each reading may have been a slip: leads swapped, range wrong, misread. What the others say of it is at hand
   (leave-one-out). The reading for which a slip is likelier than not, and most so, is set aside at the price of a slip,
   then the next, until none is left; the alternative of one slip more or less is added in closed form. So one absurd
   figure costs the same under every suspect, however far it lies off, and pulls no latent.
3. Words multiply by their chance, and so does the chance that a value lies past the end of an instrument's scale, as
   the other readings leave it.

References
----------
Rasmussen and Williams, *Gaussian Processes for Machine Learning*, 2006, section 5.4.2 (leave-one-out in closed form);
from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice
from math import erf, exp, log, pi, sqrt
from operator import mul
from typing import NamedTuple

from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Observation

#: Chance that a reading is a slip.
SLIP = 0.008
#: Up to here a search counts a miss by its square [deviations].
NEAR = 3.0
LATENTS = len(Latents._fields)

_LOG_2PI = log(2.0 * pi)


class Line(NamedTuple):
    """A reading's residual at the point that was looked at, its variance, and its slopes in the latents."""

    observation: Observation
    residual: float
    variance: float
    slopes: tuple[float, ...]
    span: float
    #: Logarithm of a word's chance, for readings that are words.
    word: float | None = None
    #: Chance that a figure stands still, where interference makes it jump.
    chance: float = 1.0
    #: What its jumping misses by its width, for a search; never below zero.
    width_missed: float = 0.0


@dataclass(frozen=True, slots=True)
class Evidence:
    """What the readings say of a cell.

    `along` is the logarithm of their probability along the lines, `here` the same by the curvature at the very point
    that was looked at, which no far line can flatter; there no figure costs more than a slip. `posterior` is the point
    that the readings taken for true ask for, `asked` the one that all of them ask for.
    """

    along: float
    here: float
    posterior: Latents
    asked: Latents
    misfits: tuple[tuple[int, float], ...]


def evidence(lines: Sequence[Line], at: Latents) -> Evidence:
    """Return what the readings say, and the latents that they ask for.

    Parameters
    ----------
    lines
        The readings, each as a straight line about the point that was looked at.
    at
        That point.
    """
    figures = [line for line in lines if line.word is None and not line.observation.side]
    kept = _Kept(figures, [_centred(line, at) for line in figures])
    asked = kept.asked()
    kept.set_slips_aside()
    fixed = kept.fixed + sum(log(line.chance) for line in figures)
    fixed += sum(line.word for line in lines if line.word is not None)
    along = fixed
    beyond = [line for line in lines if line.word is None and line.observation.side]
    for line in beyond:
        left, wide = kept.foretold(line)
        along += _past(line, _centred(line, at) - left, wide)
    along -= 0.5 * kept.cost
    here = fixed - 0.5 * _dot(at, at) - 0.5 * sum(_square(figures[k]) for k in kept.numbers)
    here += sum(_past(line, line.residual, line.variance) for line in beyond)
    misfits = [(figures[k].observation.number, off) for k, off in sorted(kept.misfits.items())]
    return Evidence(along, here, kept.asked(), asked, tuple(misfits))


def unlikely(at: Latents) -> float:
    """Return what a point of the latents costs by itself, before any reading."""
    return 0.5 * _dot(at, at)


def missed(lines: Sequence[Line]) -> float:
    """Return how far a point of the latents misses readings, as a search that comes from afar should see it.

    Never below zero. Squares near by, straight beyond `NEAR` deviations: one absurd figure outweighs no others, and
    being less wrong always counts. References: Huber, Annals of Mathematical Statistics 35 (1964) 73; from memory.
    """
    total = 0.0
    for line in lines:
        total += line.width_missed
        if line.word is not None:
            total -= line.word
        elif line.observation.side:
            total -= _past(line, line.residual, line.variance)
        else:
            off = abs(line.residual) / sqrt(line.variance)
            total += 0.5 * off * off if off < NEAR else NEAR * (off - 0.5 * NEAR)
    return total


class _Kept:
    """The figures that are taken for true: those left when likely slips are set aside."""

    __slots__ = ("_inverse", "_log_det", "_residuals", "cost", "figures", "fixed", "misfits", "numbers", "pulled")

    def __init__(self, figures: Sequence[Line], residuals: list[float]) -> None:
        self.figures, self._residuals = figures, residuals
        self._inverse, self._log_det = inverted(_covariance(figures))
        self.numbers = list(range(len(figures)))
        self.misfits: dict[int, float] = {}
        self.pulled = [_dot(row, residuals) for row in self._inverse]
        #: Logarithm of the probability but for the squares, and their sum.
        self.fixed = self.cost = 0.0

    def asked(self) -> Latents:
        """Return the latents that the kept figures ask for; a slope beyond theirs is of a doubt about the meter."""
        columns = zip(*[self.figures[k].slopes for k in self.numbers], strict=True)
        return Latents(*[_dot(column, self.pulled) for column in islice(columns, LATENTS)])

    def set_slips_aside(self) -> None:
        """Set aside the figure that is likeliest a slip while there is one, and add up what it all comes to."""
        others = 0.0
        while True:
            odds = self._odds_of_slips()
            worst = max(odds, default=0.0)
            if worst <= 0.0:
                break
            k = odds.index(worst)
            others += exp(-min(worst, 50.0))
            self.fixed += log(SLIP / (1.6 * self.figures[self.numbers[k]].span))
            self._drop(k)
        others += sum(exp(o) for o in odds)
        self.cost = _dot([self._residuals[k] for k in self.numbers], self.pulled)
        self.fixed += len(self.numbers) * (log(1.0 - SLIP) - 0.5 * _LOG_2PI) - 0.5 * self._log_det + log(1.0 + others)

    def _odds_of_slips(self) -> list[float]:
        """Return for each kept figure the logarithm of the odds that it was a slip."""
        residuals = [self._residuals[k] for k in self.numbers]
        self.pulled = [_dot(row, residuals) for row in self._inverse]
        odds = []
        for k, number in enumerate(self.numbers):
            own = self._inverse[k][k]
            off = self.pulled[k] / own
            self.misfits[number] = abs(off) * sqrt(own)
            left_out = -0.5 * (off * off * own - log(own) + _LOG_2PI)
            odds.append(log(SLIP / (1.0 - SLIP) / (1.6 * self.figures[number].span)) - left_out)
        return odds

    def _drop(self, k: int) -> None:
        """Leave a figure out: its row and column go by the block inverse."""
        row, own = self._inverse[k], self._inverse[k][k]
        self._log_det += log(own)
        keep = [i for i in range(len(row)) if i != k]
        self._inverse = [[self._inverse[i][j] - row[i] * row[j] / own for j in keep] for i in keep]
        del self.numbers[k]

    def foretold(self, line: Line) -> tuple[float, float]:
        """Return what the kept figures foretell of another reading's residual, and its variance."""
        shared = [_dot(line.slopes, self.figures[k].slopes) for k in self.numbers]
        told = sum(a * _dot(row, shared) for a, row in zip(shared, self._inverse, strict=True))
        wide = line.variance + max(_dot(line.slopes, line.slopes) - told, 0.0)
        return _dot(shared, self.pulled), wide


def _square(line: Line) -> float:
    """Return a residual's square in variances, up to where a slip would cost less."""
    slip = log((1.0 - SLIP) * 1.6 * line.span / SLIP) - 0.5 * (_LOG_2PI + log(line.variance))
    return min(line.residual**2 / line.variance, max(2.0 * slip, 0.0))


def _covariance(figures: Sequence[Line]) -> list[list[float]]:
    """Return ``R + J J'``: what the readings' errors, their own and those that they share, have in common."""
    found: list[list[float]] = []
    for k, line in enumerate(figures):
        row = [before[k] for before in found]
        row += [_dot(line.slopes, other.slopes) for other in figures[k:]]
        row[k] += line.variance
        found.append(row)
    return found


def _dot(a: Sequence[float], b: Sequence[float]) -> float:
    total: float = sum(map(mul, a, b))
    return total


def _centred(line: Line, at: Latents) -> float:
    """Return the residual at the middle of the prior, along the line."""
    return line.residual + _dot(line.slopes, at)


def _past(line: Line, residual: float, variance: float) -> float:
    """Return the logarithm of the chance that the value lies past the end of the instrument's scale."""
    sign = -1.0 if line.observation.side == "above" else 1.0
    chance_ = 0.5 * (1.0 + erf(sign * residual / sqrt(2.0 * variance + 1e-30)))
    return log((1.0 - SLIP) * chance_ + SLIP * 0.3)


def inverted(matrix: list[list[float]]) -> tuple[list[list[float]], float]:
    """Return the inverse of a symmetric positive matrix and the logarithm of its determinant."""
    size = len(matrix)
    lower: list[list[float]] = []
    log_det = 0.0
    for i, given in enumerate(matrix):
        row: list[float] = []
        for j in range(i):
            before = lower[j]
            row.append((given[j] - _dot(row, before)) / before[j])
        row.append(sqrt(given[i] - _dot(row, row)))
        log_det += 2.0 * log(row[i])
        lower.append(row)
    upper = [[lower[j][i] for j in range(i, size)] for i in range(size)]
    return [_solved(lower, upper, k) for k in range(size)], log_det


def _solved(lower: list[list[float]], upper: list[list[float]], k: int) -> list[float]:
    """Return a column of the inverse; `upper` are the columns of `lower` from its diagonal on."""
    y = [0.0] * k
    for i in range(k, len(lower)):
        row = lower[i]
        y.append(((1.0 if i == k else 0.0) - _dot(row, y)) / row[i])
    for i in range(len(lower) - 1, -1, -1):
        column = upper[i]
        y[i] = (y[i] - _dot(column[1:], y[i + 1 :])) / column[0]
    return y
