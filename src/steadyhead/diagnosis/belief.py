"""How likely each suspect is, after all readings of a visit.

Theory of operation
-------------------
1. Each cell predicts all continuous readings of the visit at once, by straight lines in its latents; latents and
   instrument errors are normal, so the evidence of the readings is one closed formula, in any order of the readings:
   with residuals r, their variances R, slopes J and prior z ~ N(0, 1):
   ``A = 1 + J' R^-1 J``, ``b = J' R^-1 r``, ``z = A^-1 b``,
   ``2 log p = -r' R^-1 r + b' z - log det R - log det A``.
2. Each reading may have been a slip: leads swapped, range wrong, misread. What the others say of it is at hand
   (leave-one-out), so each slip's alternative is added in closed form.
3. A cell that fits roughly is looked at again at the latents that its readings ask for, where its lines are true.
4. Words (what a look found, which fault is shown) multiply by their chance.

References
----------
Rasmussen and Williams, *Gaussian Processes for Machine Learning*, 2006, section 5.4.2 (leave-one-out in closed form).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import erf, exp, log, pi, sqrt

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.inspections import chance
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import CONTINUOUS, Look, Observation, Question, Stance, compared, look, shown_chances
from steadyhead.diagnosis.slopes import STEP, moved_looks
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError

#: Chance that a reading is a slip, and that a word is.
SLIP = 0.008
#: How far figures are believed: the model leaves things out, so their logarithm counts in this part.
TEMPER = 0.8
#: Cells whose rough fit is this much worse than the best, in logarithms, are looked at no further.
HOPELESS = 11.0
#: How often, and how many of the best cells, are looked at again where the readings ask for it.
AGAIN, BEST = 5, 50
#: Furthest point of the latents that a cell is looked at, in standard deviations.
FURTHEST = 3.0
LATENTS = len(Latents._fields)
#: A figure that jumps by this part of the span looks steady half of the time.
STEADY = 0.012
#: Rough allowance for all latents in the first pass, in parts of the signal's or the display's span.
ROUGH = 0.05

_LOG_2PI = log(2.0 * pi)


@dataclass(frozen=True, slots=True)
class Weighed:
    """A cell after the readings: its share of all probability, and where its latents stand."""

    cell: Cell
    share: float
    at: Latents
    #: For each reading, by its number: how far it lies from what the rest of them say of this cell, in deviations.
    misfits: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True)
class _Group:
    """Readings that share a stance."""

    stance: Stance
    observations: tuple[Observation, ...]

    @property
    def questions(self) -> tuple[Question, ...]:
        return tuple(o.question for o in self.observations)


def weigh(system: System, cells: Sequence[Cell], observations: Sequence[Observation]) -> list[Weighed]:
    """Return every cell that the readings leave alive, heaviest first, shares summing to one."""
    groups = _grouped(observations)
    words = [(log(cell.weight) + _words(system, cell, observations), cell) for cell in cells]
    starts = _pruned([_rough_fit(system, cell, score, groups) for score, cell in words])
    order = sorted(observations, key=lambda o: o.number)
    fits = [_Fit(system, start, groups, order) for start in starts]
    for fit in fits:
        fit.look(Latents())
    for turn in range(AGAIN):
        fits.sort(key=lambda f: -f.hope)
        best = max(f.best for f in fits)
        for fit in fits[: BEST if turn else 2 * BEST]:
            if fit.hope > best - 9.0 and fit.unfinished:
                fit.look_again()
    return _shared(fits)


def _shared(fits: list[_Fit]) -> list[Weighed]:
    scores = [f.prior + TEMPER * (f.best - f.prior) for f in fits]
    best = max(scores)
    total = sum(exp(s - best) for s in scores)
    found = [
        Weighed(f.cell, exp(s - best) / total, f.here, f.misfits) for f, s in zip(fits, scores, strict=True)
    ]
    return sorted(found, key=lambda w: -w.share)


def _grouped(observations: Sequence[Observation]) -> list[_Group]:
    """Return the continuous readings and shown faults by stance, in an order that does not depend on theirs."""
    by_stance: dict[Stance, list[Observation]] = {}
    for o in observations:
        if o.question.measure in CONTINUOUS or o.question.measure == "displayed-fault":
            by_stance.setdefault(o.stance, []).append(o)
    keyed = sorted(by_stance.items(), key=lambda item: repr(item[0]))
    return [_Group(stance, tuple(sorted(held, key=repr))) for stance, held in keyed]


def _pruned(starts: list[_Start]) -> list[_Start]:
    best = max(start.score for start in starts)
    return [start for start in starts if start.score > best - HOPELESS]


def _words(system: System, cell: Cell, observations: Sequence[Observation]) -> float:
    """Return the logarithm of the chance of all words, and of gauge readings that only a vacuum explains."""
    total = 0.0
    for o in observations:
        if o.question.measure == "inspection" and o.question.item is not None:
            total += log(chance(cell, o.question.item, o.word))
        if o.question.measure == "gauge-pressure":
            total += log(_gauge_chance(system, cell, o))
        total += log(_jump_chance(cell)) if o.jumping else 0.0
    return total


def _gauge_chance(system: System, cell: Cell, o: Observation) -> float:
    """Return how fitting a gauge reading is: below zero only a vacuum, or a gauge that lies, shows."""
    pressure = o.stance.pressure
    sd = max(pressure.sd, 1500.0)
    below = 0.5 * (1.0 - erf((pressure.pa + 4000.0) / (sd * sqrt(2.0))))
    if pressure.known == "pinned":
        return 1.0 if cell.fault == "vacuum" else 0.05
    if cell.fault == "vacuum":
        return max(below, 0.002)
    return max(1.0 - below, 0.01 if cell.fault != "site-gauge-wrong" else 0.2)


def _jump_chance(cell: Cell) -> float:
    if cell.fault in {"noise-pickup", "shield-looped"}:
        return 0.9
    if cell.fault.startswith("intermittent"):
        return 0.6
    return 0.12 if cell.fault.startswith(("resistive", "open", "leakage")) else 0.03


def _span(system: System, measure: str) -> float:
    if measure == "displayed-pressure":
        return (system.scaled or system.range).width
    if measure in {"ohms", "megohms"}:
        return 20.0
    return system.high - system.low if measure != "milliamps" or system.unit == "A" else 0.016


@dataclass(slots=True)
class _Start:
    """A cell's first look at the readings of the loop as found, kept for the second."""

    cell: Cell
    score: float
    looks: dict[Stance, tuple[Look, _Moved]]


_Moved = list[list[float] | None]


def _rough_fit(system: System, cell: Cell, score: float, groups: Sequence[_Group]) -> _Start:
    """Return a quick, generous fit from the readings of the loop as found."""
    start = _Start(cell, score, {})
    for group in groups:
        if group.stance.arrangement != "connected":
            continue
        try:
            base, moved = _looked(system, cell, Latents(), group)
        except CircuitError:
            start.score = float("-inf")
            return start
        start.looks[group.stance] = (base, moved)
        start.score += sum(_rough_miss(system, o, k, base, moved) for k, o in enumerate(group.observations))
    return start


def _looked(system: System, cell: Cell, at: Latents, group: _Group) -> tuple[Look, _Moved]:
    base = look(system, cell, at, group.stance, group.questions)
    return base, moved_looks(system, cell, at, group.stance, group.questions, base)


def _rough_miss(system: System, o: Observation, k: int, base: Look, moved: _Moved) -> float:
    measure = o.question.measure
    if measure == "displayed-fault":
        return 0.0
    value = compared(measure, base.values[k])
    span = _span(system, measure)
    wide = o.sd**2 + ((ROUGH + base.jump) * span) ** 2
    wide += sum(((compared(measure, m[k]) - value) / STEP) ** 2 for m in moved if m is not None)
    miss = o.value - value
    if (o.side == "above" and miss < 0) or (o.side == "below" and miss > 0):
        return 0.0
    return max(-0.3 * miss * miss / wide, -9.0)


class _Fit:
    """One cell against all readings."""

    __slots__ = ("along", "best", "cell", "groups", "here", "kept", "misfits", "order", "part", "posterior", "prior", "score", "system", "tried")

    def __init__(self, system: System, start: _Start, groups: Sequence[_Group], order: Sequence[Observation]) -> None:
        self.system, self.cell, self.groups, self.order = system, start.cell, groups, order
        self.kept = start.looks
        cell = start.cell
        self.prior = log(cell.weight) + _words(system, cell, order)
        #: Along the lines of the last look, and at the best point that was looked at.
        self.score = self.best = self.along = self.tried = float("-inf")
        self.part = 1.0
        self.posterior = self.here = Latents()
        self.misfits: tuple[tuple[int, float], ...] = ()

    @property
    def hope(self) -> float:
        """What it may yet come to."""
        return max(self.score, self.best)

    @property
    def unfinished(self) -> bool:
        """Whether its lines ask for another point than the best one so far."""
        return self.best == float("-inf") or self.along > self.best + 0.05

    def look_again(self) -> None:
        """Look at the latents that the readings ask for, nearer by where that has made it worse."""
        if self.best > self.tried:
            self.part, self.tried = 1.0, self.best
        else:
            self.part *= 0.35
        held = [min(max(z, -FURTHEST), FURTHEST) for z in self.posterior]
        self.look(Latents(*[h + self.part * (z - h) for h, z in zip(self.here, held, strict=True)]))

    def look(self, at: Latents) -> None:
        """Predict all readings by straight lines about a point of the latents, and weigh them."""
        try:
            lines = [line for group in self.groups for line in self._lines(at, group)]
        except CircuitError:
            self.score = float("-inf")
            return
        self.kept = {}
        weighed = _evidence(lines, at)
        self.score = self.prior + weighed.along
        if self.prior + weighed.here > self.best:
            self.along = self.score
            self.best, self.posterior, self.misfits = self.prior + weighed.here, weighed.posterior, weighed.misfits
            self.here = at


    def _lines(self, at: Latents, group: _Group) -> list[_Line]:
        system, cell, stance = self.system, self.cell, group.stance
        if stance in self.kept:
            base, moved = self.kept[stance]
        else:
            base, moved = _looked(system, cell, at, group)
        return [_line(system, o, k, base, moved) for k, o in enumerate(group.observations)]


@dataclass(frozen=True, slots=True)
class _Line:
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


def _line(system: System, o: Observation, k: int, base: Look, moved: _Moved) -> _Line:
    measure = o.question.measure
    if measure == "displayed-fault":
        return _Line(o, 0.0, 1.0, (), 1.0, _shown_chance(system, base.signal, o.word))
    value = compared(measure, base.values[k])
    slopes = tuple([(compared(measure, m[k]) - value) / STEP if m is not None else 0.0 for m in moved])
    span = _span(system, measure)
    if base.jump == 0.0 or measure in {"ohms", "megohms", "volts-ac"}:
        return _Line(o, o.value - value, o.sd**2, slopes, span)
    steady = 1.0 if o.jumping else max(1.0 / (1.0 + (base.jump / STEADY) ** 2), 0.1)
    return _Line(o, o.value - value, o.sd**2 + (0.3 * base.jump * span) ** 2, slopes, span, chance=steady)


def _shown_chance(system: System, signal: float, word: str) -> float:
    """Return the logarithm of the chance that the controller shows a fault word."""
    shown = shown_chances(system, signal)
    return log(max(shown[word], 0.004)) if word in shown else 0.0


@dataclass(frozen=True, slots=True)
class _Evidence:
    """What the readings say of a cell.

    `along` is the logarithm of their probability along the lines, `here` the same by the curvature at the very point
    that was looked at, which no far line can flatter.
    """

    along: float
    here: float
    posterior: Latents
    misfits: tuple[tuple[int, float], ...]


def _evidence(lines: Sequence[_Line], at: Latents) -> _Evidence:
    """Return what the readings say, and the latents that they ask for."""
    figures = [line for line in lines if line.word is None and not line.observation.side]
    live = [k for k in range(LATENTS) if any(line.slopes[k] != 0.0 for line in figures)]
    size = len(live)
    info = [[1.0 if i == j else 0.0 for j in range(size)] for i in range(size)]
    pull = [0.0] * size
    free, bare = 0.0, sum(z * z for z in at)
    fixed = sum(line.word for line in lines if line.word is not None)
    fixed += sum(_past(line, line.residual) for line in lines if line.word is None and line.observation.side)
    prepared: list[tuple[_Line, list[float], float, float]] = []
    for line in figures:
        residual, weight = _centred(line, at), 1.0 / line.variance
        slopes = [line.slopes[k] for k in live]
        for i, s in enumerate(slopes):
            part = s * weight
            if part:
                info[i] = [a + part * b for a, b in zip(info[i], slopes, strict=True)]
                pull[i] += part * residual
        free += residual * residual * weight
        bare += line.residual * line.residual * weight
        fixed += log(line.chance) - 0.5 * (log(line.variance) + _LOG_2PI)
        prepared.append((line, slopes, residual, weight))
    inverse, log_det = _inverse(info)
    z = [sum([a * b for a, b in zip(row, pull, strict=True)]) for row in inverse]
    fixed -= 0.5 * log_det
    slips = 0.0
    misfits: list[tuple[int, float]] = []
    for line, slopes, residual, weight in prepared:
        rest = residual - sum([s * q for s, q in zip(slopes, z, strict=True)])
        ratio, misfit = _slip(line.span, rest, weight, _spread_by(inverse, slopes))
        slips += ratio
        misfits.append((line.observation.number, misfit))
    fixed += len(prepared) * log(1.0 - SLIP) + log(1.0 + slips)
    along = fixed - 0.5 * (free - sum([p * q for p, q in zip(pull, z, strict=True)]))
    posterior = [0.0] * LATENTS
    for k, value in zip(live, z, strict=True):
        posterior[k] = value
    return _Evidence(along, fixed - 0.5 * bare, Latents(*posterior), tuple(misfits))


def _spread_by(inverse: list[list[float]], slopes: list[float]) -> float:
    """Return the variance of a reading that the latents still leave open."""
    return sum(
        [s * sum([a * b for a, b in zip(row, slopes, strict=True)]) for s, row in zip(slopes, inverse, strict=True)]
    )


def _centred(line: _Line, at: Latents) -> float:
    """Return the residual at the middle of the prior, along the line."""
    return line.residual + sum(s * z for s, z in zip(line.slopes, at, strict=True))


def _past(line: _Line, residual: float) -> float:
    """Return the logarithm of the chance that the value lies past the end of the instrument's scale."""
    spread = sqrt(line.variance + sum(s * s for s in line.slopes) + 1e-30)
    sign = -1.0 if line.observation.side == "above" else 1.0
    chance_ = 0.5 * (1.0 + erf(sign * residual / (spread * sqrt(2.0))))
    return log((1.0 - SLIP) * chance_ + SLIP * 0.3)


def _slip(span: float, rest: float, weight: float, open_: float) -> tuple[float, float]:
    """Return the odds that a reading was a slip, and how many deviations it lies from what the others say."""
    own = weight * (1.0 - min(open_ * weight, 1.0 - 1e-9))
    off = rest * weight / own
    log_one_out = -0.5 * (off * off * own - log(own) + _LOG_2PI)
    broad = 1.0 / (1.6 * span)
    return SLIP / (1.0 - SLIP) * broad * exp(min(-log_one_out, 600.0)), abs(off) * sqrt(own)


def _inverse(matrix: list[list[float]]) -> tuple[list[list[float]], float]:
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
