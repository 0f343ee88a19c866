"""None of these: what the readings say where the cause is none that the tool knows.

Rules
-----
1. Each reading is then half what a healthy loop shows, half anything on its scale; none depends on another.
2. Of all readings the one that it gains most by is taken for a slip, as under every suspect: one absurd figure speaks
   for nothing; two and more do.
3. A look finds something wrong now and then; a shown fault may be any.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log, pi, sqrt

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.evidence import SLIP, Line
from steadyhead.diagnosis.lines import Group, Looks, lines
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Observation
from steadyhead.diagnosis.system import System
from steadyhead.errors import CircuitError

#: Part of the readings that are healthy all the same; chance that a look finds something; of each word that is shown.
HEALTHY, FINDS, WORD = 0.5, 0.12, 0.3
#: Chance that a figure jumps, and that one lies past its instrument's scale.
JUMPS, PAST = 0.06, 0.3


def log_figures(system: System, cell: Cell, groups: Sequence[Group]) -> float:
    """Return the logarithm of the probability of all figures and shown words where the cause is none of these."""
    whole, most = 0.0, 0.0
    for group in groups:
        try:
            found = lines(system, cell, Latents(), group, Looks({}, {}))
        except CircuitError:
            found = []
        told = {line.observation.number: line for line in found}
        for o in group.observations:
            log_figure, log_slip = _log_figure(o, told.get(o.number))
            whole, most = whole + log_figure, max(most, log_figure - log_slip)
    return whole - most


def _log_figure(o: Observation, line: Line | None) -> tuple[float, float]:
    """Return the logarithm of one reading's probability, and the same where it is healthy or a slip."""
    if line is None or line.word is not None:
        return log(WORD), log(WORD)
    if o.side:
        return log(PAST), log(PAST)
    variance = line.variance + sum(s * s for s in line.slopes)
    healthy = exp(-0.5 * min(line.residual**2 / variance, 700.0)) / sqrt(2.0 * pi * variance)
    jumps = log(JUMPS / line.span) if o.jumping else 0.0
    broad = 1.0 / (1.6 * line.span)
    anything = log(HEALTHY * healthy + (1.0 - HEALTHY) * broad) + jumps
    return anything, log((1.0 - SLIP) * healthy + SLIP * broad) + jumps


def log_words(observations: Sequence[Observation]) -> float:
    """Return the logarithm of the chance of what the looks found."""
    chances = {"wrong": FINDS, "right": 1.0 - FINDS}
    return sum(log(chances.get(o.word, 1.0)) for o in observations if o.question.measure == "inspection")
