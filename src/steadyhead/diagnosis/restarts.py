"""Suspects begun again elsewhere, where readings contradict what they have come to.

Rules
-----
1. Lines do not tell what lies behind a corner: a supply that gives way, an output without volts, a clamp. So a suspect
   that readings contradict, and that may yet come near the best, is tried with other makes and sizes, and about where
   it stands with other numbers of the parts that give way.
2. None can come to more than its prior and the best that any suspect makes of the readings.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.fitting import LOOKS, LOST, Fit, even
from steadyhead.diagnosis.lines import Group, Kept
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.rough import Start, pulled_down
from steadyhead.diagnosis.system import System

#: The cells of a fault and place by their make, with the logarithm of their prior, and those of all.
_OfMakes = Mapping[tuple[float, ...], tuple[float, Cell]]
Makes = Mapping[tuple[str, str], _OfMakes]

#: Sizes that are tried, in deviations, and other numbers of the parts that give way.
SIZES_TRIED = (-1.6, -0.8, -0.2, 0.4, 1.2)
PARTS_TRIED: dict[str, dict[str, tuple[float, ...]]] = {
    "V": {
        "limit": (-1.6, 1.6), "draw": (-1.6, 1.6), "drive": (-1.6,), "wakes": (-1.6, 1.6), "clamp": (-1.4, 1.4),
        "bleed": (1.4,),
    },
    "A": {
        "limit": (-1.6, 1.6), "draw": (-1.6, 1.6), "starved": (-1.6, 1.6), "clamp": (-1.4, 1.4), "bleed": (1.4,),
    },
}
#: A sensor that wants more volts than most, which sleeps at volts with which others work: tried at each size.
ASLEEP_AT: dict[str, dict[str, float]] = {"V": {"wakes": 1.5}, "A": {"starved": 1.6}}
#: A supply that gives less than most before it gives way: tried at each size, in every make, where it gives way, since
#: the makes differ most in what they give then.
GIVING_WAY_AT = {"limit": -1.1}
#: Points of which no reading has a share, beside those where a part's number is another one.
AWAKE, ASLEEP, GIVING_WAY, LED = "", "asleep", "giving way", "led"
#: What readings bend as long as such a part does nothing, put back to its middle beside it.
BENT: dict[str, dict[str, float]] = {"clamp": {"input": 0.0}}
#: So many suspects are begun again at most, each at so many points, one more where the best fit stands, and one where
#: the supply gives way.
SUSPECTS, POINTS = 8, 3
#: And so many where the leader itself leaves a reading unexplained, or is two faults: one that explains all by itself
#: is not to be missed.
MORE_SUSPECTS = 12
#: Every second make is tried: the others are fitted from where these have come to.
EVERY = 2
#: One that may come this near to the best is worth it.
PROMISING = 3.0
#: What no look has found of a promise of this much is doubtful.
DOUBTFUL = 12.0


def begun_again(system: System, fits: Sequence[Fit], makes: Makes, groups: Sequence[Group]) -> list[Fit]:
    """Return the fits of those suspects that were begun again, each from where its fault's best fit stands."""
    leader = max(fits, key=lambda fit: (even(fit.best), fit.cell.key, fit.cell.make))
    best, told = leader.best, max(fit.best - fit.prior for fit in fits)
    by_fault = {fit.cell.fault: fit for fit in sorted(fits, key=lambda f: (even(f.best), f.cell.key, f.cell.make))}
    doubtful = frozenset(fault for fault, fit in by_fault.items() if fit.contradicted)
    farthest = sorted(fits, key=lambda f: (even(f.hope), even(f.best), f.cell.key, f.cell.make))
    by_fault = {fit.cell.fault: fit for fit in farthest if fit.cell.fault in doubtful}
    reach = {fault: min(fit.within_reach, fit.prior + told) for fault, fit in by_fault.items()}
    found: list[Fit] = []
    worth = [fault for fault in reach if reach[fault] > best - PROMISING]
    most = MORE_SUSPECTS if leader.contradicted or len(leader.cell.parts) > 1 else SUSPECTS
    for fault in sorted(worth, key=lambda f: (-even(reach[f] + by_fault[f].hope), f))[:most]:
        again = _again(system, by_fault[fault], makes[by_fault[fault].cell.key], groups, (leader, best))
        best = max([best, *(fit.best for fit in again)])
        found += again
        _elsewhere(fits, again, best)
    return found


def _elsewhere(fits: Sequence[Fit], again: Sequence[Fit], best: float) -> None:
    """Look on at a fault's other places from what was found at one of them."""
    found = max(again, key=lambda fit: (even(fit.best), fit.cell.make), default=None)
    for fit in fits:
        other = found is not None and fit.cell.fault == found.cell.fault and fit.cell.key != found.cell.key
        if found is not None and other and fit.best < found.best and fit.look(found.here):
            fit.settle(LOOKS, best - LOST - DOUBTFUL)


def _again(
    system: System, fit: Fit, cells: _OfMakes, groups: Sequence[Group], best: tuple[Fit, float]
) -> list[Fit]:
    """Return the fits of a suspect with those makes that promise most, each from the size that misses least.

    `best` is the fit that leads, and what a suspect is measured by.
    """
    least: dict[tuple[object, str], tuple[float, Fit, Kept]] = {}
    near = fit.near
    for prior, cell, at, part in _points(system, fit, cells, best[0]):
        kind = None if part in {GIVING_WAY, LED} else cell.make, part
        other = Fit(system, Start(cell, prior, prior, prior, at, {}), groups, near)
        other.worst_first = fit.worst_first
        known = least[kind][0] if kind in least else float("inf")
        misses, looks = other.misses(at, known, keep=part in {AWAKE, ASLEEP, GIVING_WAY})
        near = looks or near
        if kind not in least or even(misses) < least[kind][0]:
            least[kind] = even(misses), other, looks
    begun = {kind: other for kind, (_, other, looks) in least.items() if other.look(other.here, looks)}
    beside = [begun.pop(kind) for kind in ((None, GIVING_WAY), (None, LED)) if kind in begun]
    found = sorted(begun.values(), key=lambda other: (-even(other.hope), other.cell.make))[:POINTS] + beside
    for other in found:
        other.settle(LOOKS, fit.best - LOST - DOUBTFUL)
        other.nudged(nudgeable(system, other.cell), best[1] - LOST)
    return found


def nudgeable(system: System, cell: Cell) -> tuple[str, ...]:
    """Return the numbers in which a stuck fit is nudged: its sizes, and those of the parts that give way."""
    return (*cell.sizes, *PARTS_TRIED[system.unit])


def _points(
    system: System, fit: Fit, cells: _OfMakes, leader: Fit
) -> Iterator[tuple[float, Cell, Latents, str]]:
    """Yield the points that are tried: each with the logarithm of its prior and its cell.

    Last, whether the sensor sleeps, or which part's number is another one. They are of every second make, and of the
    leader's, in which it is tried where the leader stands too. What a make alone decides (against what a converter
    measures, whether an output has junctions) is a corner that no line leads around: it would count for that suspect
    alone which happened to be begun there.
    """
    those, led = [*cells.values()][::EVERY], cells[leader.cell.make]
    those += [] if led in those else [led]
    sizes: list[dict[str, float]] = [dict.fromkeys(fit.cell.sizes, z) for z in SIZES_TRIED] if fit.cell.sizes else [{}]
    given_way = any(pulled_down(base) for base, _ in fit.near.values())
    for prior, cell in those:
        for size in sizes:
            yield prior, cell, Latents(**size), AWAKE
        for size in sizes if fit.cell.sizes else []:
            yield prior, cell, Latents(**{**size, **ASLEEP_AT[system.unit]}), ASLEEP
    for size in sizes:
        yield *led, leader.here._replace(severity=0.0, second=0.0)._replace(**size), LED
    for prior, cell in cells.values() if given_way else []:
        for size in sizes:
            yield prior, cell, Latents(**{**size, **GIVING_WAY_AT}), GIVING_WAY
    for name, tried in PARTS_TRIED[system.unit].items():
        for z in tried:
            yield fit.prior, fit.cell, fit.here._replace(**{**BENT.get(name, {}), name: z}), name
