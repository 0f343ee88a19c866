"""How likely each suspect is, after all readings of a visit.

Theory of operation
-------------------
1. Every cell gets a quick, generous fit from the readings of the loop as found (`steadyhead.diagnosis.rough`);
   hopeless suspects are left there.
2. The cells of the others are fitted to all readings (`steadyhead.diagnosis.fitting`), each where its lines are true.
3. Words (what a look found, which fault is shown) multiply by their chance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import erf, exp, log, sqrt

from steadyhead.diagnosis.called import Called
from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.elsewhere import log_figures, log_words
from steadyhead.diagnosis.estimates import NONE_OF_THESE
from steadyhead.diagnosis.inspections import chance
from steadyhead.diagnosis.lines import Group
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Observation, Pressure, Stance
from steadyhead.diagnosis.over_makes import fitted
from steadyhead.diagnosis.rough import first_pass
from steadyhead.diagnosis.system import System

#: How far figures are believed: the model leaves things out, so their logarithm counts in this part.
TEMPER = 0.8


@dataclass(frozen=True, slots=True)
class Weighed:
    """A cell after the readings: its share of all probability, and where its latents stand."""

    cell: Cell
    share: float
    at: Latents
    #: For each reading, by its number: how far it lies from what the rest of them say of this cell, in deviations.
    misfits: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True)
class Belief:
    """Cells heaviest first, shares summing to one.

    `after` is weighed by all readings; `before` roughly and generously by those that no meter made. `log_after` and
    `log_before` are the logarithms of what all cells of each came to together.
    """

    after: list[Weighed]
    before: list[Weighed]
    log_after: float
    log_before: float


def joined(one: Belief, other: Belief) -> Belief:
    """Return the cells of two beliefs by the same readings as one belief."""
    after, log_after = _joined((one.after, one.log_after), (other.after, other.log_after))
    before, log_before = _joined((one.before, one.log_before), (other.before, other.log_before))
    return Belief(after, before, log_after, log_before)


def _joined(*parts: tuple[list[Weighed], float]) -> tuple[list[Weighed], float]:
    best = max(log_ for _, log_ in parts)
    total = sum(exp(log_ - best) for _, log_ in parts)
    found = [replace(w, share=w.share * exp(log_ - best) / total) for held, log_ in parts for w in held]
    return sorted(found, key=lambda w: -w.share), best + log(total)


def believe(system: System, cells: Sequence[Cell], observations: Sequence[Observation]) -> Belief:
    """Return the cells after all readings, and before those of the meter."""
    groups = grouped(observations)
    order = sorted(observations, key=repr)
    known = [cell for cell in cells if cell.fault != NONE_OF_THESE]
    weights = [(log(cell.weight) + _words(cell, order), cell) for cell in known]
    starts = first_pass(system, weights, groups)
    before, log_before = _normed([(start.cell, start.unmetered, Latents(), ()) for start in starts])
    called = Called(system, order)
    scored = [
        (f.cell, f.prior + TEMPER * (f.best - f.prior) + f.makes + called(f.cell, f.here, f.found), f.here, f.misfits)
        for f in fitted(system, starts, weights, groups)
    ]
    after, log_after = _normed([*scored, *_none_of_these(system, cells, order, groups)])
    return Belief(after, before, log_after, log_before)


def _none_of_these(
    system: System, cells: Sequence[Cell], observations: Sequence[Observation], groups: Sequence[Group]
) -> list[_Scored]:
    """Return the cell for all causes that are not known here, weighed."""
    return [
        (
            cell,
            log(cell.weight) + log_words(observations) + TEMPER * log_figures(system, cell, groups),
            Latents(),
            (),
        )
        for cell in cells
        if cell.fault == NONE_OF_THESE
    ]


_Scored = tuple[Cell, float, Latents, tuple[tuple[int, float], ...]]


def _normed(scored: list[_Scored]) -> tuple[list[Weighed], float]:
    """Return cells with shares that sum to one from the logarithms of their weights, heaviest first.

    With them stands the logarithm of their sum.
    """
    best = max(score for _, score, _, _ in scored)
    total = sum(exp(score - best) for _, score, _, _ in scored)
    found = [Weighed(cell, exp(score - best) / total, at, misfits) for cell, score, at, misfits in scored]
    return sorted(found, key=lambda w: -w.share), best + log(total)


def grouped(observations: Sequence[Observation]) -> list[Group]:
    """Return the continuous readings and shown faults by stance, in an order that does not depend on theirs."""
    by_stance: dict[Stance, list[Observation]] = {}
    for o in observations:
        if o.compares or o.question.measure == "displayed-fault":
            by_stance.setdefault(o.stance, []).append(o)
    keyed = sorted(by_stance.items(), key=lambda item: repr(item[0]))
    return [Group(stance, tuple(sorted(held, key=repr))) for stance, held in keyed]


def _words(cell: Cell, observations: Sequence[Observation]) -> float:
    """Return the logarithm of the chance of all words, and of gauge readings that only a vacuum explains."""
    total = 0.0
    for o in observations:
        if o.question.measure == "inspection" and o.question.item is not None:
            total += log(chance(cell, o.question.item, o.word))
    held = {o.stance.pressure for o in observations if o.stance.pressure.sd > 0.0 and not o.stance.pressure.drift}
    pinned = any(pressure.known == "pinned" for pressure in held)
    moving = sorted((pressure for pressure in held if pressure.known != "pinned"), key=repr)
    return total + log(_pinned_chance(cell) if pinned else 1.0) + sum(log(_gauge_chance(cell, p)) for p in moving)


def _pinned_chance(cell: Cell) -> float:
    """Return how fitting needles on their stop pins are, however many: a pipe without water shows them too."""
    return 1.0 if cell.has("vacuum") else 0.2 if cell.has("site-gauge-wrong") else 0.05


def _gauge_chance(cell: Cell, pressure: Pressure) -> float:
    """Return how fitting a gauge reading is: below zero only a vacuum, or a gauge that lies, shows."""
    if pressure.known == "nothing":
        return 1.0
    sd = max(pressure.sd, 1500.0)
    below = 0.5 * (1.0 - erf((pressure.pa + 4000.0) / (sd * sqrt(2.0))))
    if cell.has("vacuum"):
        return max(below, 0.002)
    return max(1.0 - below, 0.2 if cell.has("site-gauge-wrong") else 0.01)
