"""What the readings of one visit say of one cell, in one closed formula.

Theory of operation
-------------------
1. A cell predicts all figures at once, by straight lines in its latents; latents and instrument errors are normal. With
   residuals r, their variances R, slopes J and prior z ~ N(0, 1): ``S = R + J J'``,
   ``2 log p = -r' S^-1 r - log det (2 pi S)``, and the latents that the readings ask for are ``z = J' S^-1 r``.
2. Each reading may have been a slip: leads swapped, range wrong, misread. What the others say of it is at hand
   (leave-one-out), so the alternative of one slip is added in closed form.
3. Words multiply by their chance, and so does the chance that a value lies past the end of an instrument's scale.

References
----------
Rasmussen and Williams, *Gaussian Processes for Machine Learning*, 2006, section 5.4.2 (leave-one-out in closed form);
from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import erf, exp, log, pi, sqrt
from operator import mul

from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Observation

#: Chance that a reading is a slip.
SLIP = 0.008
LATENTS = len(Latents._fields)

_LOG_2PI = log(2.0 * pi)


@dataclass(frozen=True, slots=True)
class Line:
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


@dataclass(frozen=True, slots=True)
class Evidence:
    """What the readings say of a cell.

    `along` is the logarithm of their probability along the lines, `here` the same by the curvature at the very point
    that was looked at, which no far line can flatter.
    """

    along: float
    here: float
    posterior: Latents
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
    figures: list[Line] = []
    fixed = 0.0
    for line in lines:
        if line.word is not None:
            fixed += line.word
        elif line.observation.side:
            fixed += _past(line)
        else:
            figures.append(line)
            fixed += log(line.chance)
    inverse, log_det = inverted(_covariance(figures))
    residuals = [_centred(line, at) for line in figures]
    pulls = [_dot(row, residuals) for row in inverse]
    slips, misfits = 0.0, []
    for k, line in enumerate(figures):
        ratio, misfit = _slip(line.span, pulls[k], inverse[k][k])
        slips += ratio
        misfits.append((line.observation.number, misfit))
    fixed += len(figures) * (log(1.0 - SLIP) - 0.5 * _LOG_2PI) + log(1.0 + slips) - 0.5 * log_det
    bare = _dot(at, at) + sum(line.residual**2 / line.variance for line in figures)
    asked = Latents(*[_dot([line.slopes[k] for line in figures], pulls) for k in range(LATENTS)])
    return Evidence(fixed - 0.5 * _dot(residuals, pulls), fixed - 0.5 * bare, asked, tuple(misfits))


def _covariance(figures: Sequence[Line]) -> list[list[float]]:
    """Return ``R + J J'``: what the readings' errors, their own and those that they share, have in common."""
    found = []
    for k, line in enumerate(figures):
        row = [_dot(line.slopes, other.slopes) for other in figures]
        row[k] += line.variance
        found.append(row)
    return found


def _dot(a: Sequence[float], b: Sequence[float]) -> float:
    total: float = sum(map(mul, a, b))
    return total


def _centred(line: Line, at: Latents) -> float:
    """Return the residual at the middle of the prior, along the line."""
    return line.residual + _dot(line.slopes, at)


def _past(line: Line) -> float:
    """Return the logarithm of the chance that the value lies past the end of the instrument's scale."""
    spread = sqrt(line.variance + sum(s * s for s in line.slopes) + 1e-30)
    sign = -1.0 if line.observation.side == "above" else 1.0
    chance_ = 0.5 * (1.0 + erf(sign * line.residual / (spread * sqrt(2.0))))
    return log((1.0 - SLIP) * chance_ + SLIP * 0.3)


def _slip(span: float, pull: float, own: float) -> tuple[float, float]:
    """Return the odds that a reading was a slip, and how many deviations it lies from what the others say.

    `own` is one over the variance that the others leave it, `pull` its distance from what they say times that.
    """
    off = pull / own
    log_one_out = -0.5 * (off * off * own - log(own) + _LOG_2PI)
    broad = 1.0 / (1.6 * span)
    return SLIP / (1.0 - SLIP) * broad * exp(min(-log_one_out, 600.0)), abs(off) * sqrt(own)


def inverted(matrix: list[list[float]]) -> tuple[list[list[float]], float]:
    """Return the inverse of a symmetric positive matrix and the logarithm of its determinant."""
    size = len(matrix)
    lower = [[0.0] * size for _ in range(size)]
    log_det = 0.0
    for i in range(size):
        for j in range(i + 1):
            value = matrix[i][j] - sum(lower[i][k] * lower[j][k] for k in range(j))
            if i == j:
                lower[i][i] = sqrt(value)
                log_det += 2.0 * log(lower[i][i])
            else:
                lower[i][j] = value / lower[j][j]
    columns = [_solved(lower, k) for k in range(size)]
    return columns, log_det


def _solved(lower: list[list[float]], k: int) -> list[float]:
    size = len(lower)
    y = [0.0] * size
    for i in range(k, size):
        y[i] = ((1.0 if i == k else 0.0) - sum(lower[i][j] * y[j] for j in range(k, i))) / lower[i][i]
    for i in range(size - 1, -1, -1):
        y[i] = (y[i] - sum(lower[j][i] * y[j] for j in range(i + 1, size))) / lower[i][i]
    return y
