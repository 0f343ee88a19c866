"""Every suspect judged over the same makes of devices.

Rules
-----
1. A suspect that comes near is fitted over all makes, each from where its first cell has come to; one that does not
   come near over a few of them, the same few for all.
2. A fit stands for as many makes as it was chosen from. So a reading that only tells the make moves no suspect against
   another, and none gains by one make that happens to suit it.
3. Where what promised most at the first rough look fits badly, what promised less is fitted too; and what the best fit
   found of all that is no fault (joints, volts, the gauge's error) serves those that are behind. What readings
   contradict is begun again from there, once more where the best has come far since.
4. Where a pair leads, or is close behind, each of its faults is fitted alone from where it and its near rivals stand:
   one fault that would explain all by itself is never hidden by two.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import log, pi

from steadyhead.diagnosis.cells import SIZES, Cell
from steadyhead.diagnosis.fitting import EVEN, LOST, STUCK, Fit, even, informed, leaders
from steadyhead.diagnosis.lines import Group
from steadyhead.diagnosis.makes import COMMON, FEW
from steadyhead.diagnosis.restarts import ASLEEP_AT, begun_again, nudgeable
from steadyhead.diagnosis.rough import HOPELESS, Start, narrowed, promising
from steadyhead.diagnosis.system import System

#: Suspects that are looked at too where those that promised most come to nothing.
OTHERS = 60
#: A suspect worse than the best by this is judged over a few makes.
CLOSE = 3.5
#: And a pair behind one fault by no more than this is taken apart too.
CLOSE_BEHIND = 2.0
#: How often each is looked at, and what a step must promise.
LOOKS, WORTH_A_STEP = 3, 0.3
#: How many leading pairs are taken apart, how often each of their faults is looked at alone, and how many of its makes
#: are nudged where they are stuck.
PAIRS_TAKEN_APART, LOOKS_ALONE, NUDGED_ALONE = 4, 6, 4

Make = tuple[float, ...]
#: Fault and place.
Key = tuple[str, str]


def fitted(
    system: System, starts: Sequence[Start], cells: Sequence[tuple[float, Cell]], groups: Sequence[Group]
) -> list[Fit]:
    """Return the fits of all suspects that may yet count, each standing for a number of makes.

    `starts` are the rough fits; `cells` all cells, each with the logarithm of its weight and of all words.
    """
    others: dict[Key, dict[Make, tuple[float, Cell]]] = {}
    for prior, cell in cells:
        others.setdefault(cell.key, {})[cell.make] = (prior, cell)
    alike = all_one_from_the_terminals(groups)
    begun = _begun(system, starts, groups, alike=alike)
    informed(begun)
    again = begun_again(system, begun, others, groups)
    if again:
        informed([*begun, *again])
    first = _by_key([*begun, *again])
    for key, fits in _alone(system, first, others, groups).items():
        if fits:
            first[key] = _better(first.get(key, {}), fits)
    top = _over_all(system, first, others, groups, max(fit.best for fit in begun))
    found: list[Fit] = []
    for held in first.values():
        if _best(held) < top - LOST:
            continue
        for make, makes in _stand_for(held).items():
            held[make].stands_for = makes
            found.append(held[make])
    return _everywhere(found, others) if alike else found


def _stand_for(held: Mapping[Make, Fit]) -> dict[Make, float]:
    """Return for how many makes each fit of a suspect stands: all, or the few and the one that suits it best."""
    if all(make in held for make in COMMON):
        return dict.fromkeys(COMMON, 1.0)
    best = max(held, key=lambda make: (even(held[make].best), make))
    if best in FEW:
        return dict.fromkeys(FEW, len(COMMON) / len(FEW))
    return {best: 1.0, **dict.fromkeys(FEW, (len(COMMON) - 1) / len(FEW))}


def _over_all(
    system: System,
    first: dict[Key, dict[Make, Fit]],
    others: Mapping[Key, Mapping[Make, tuple[float, Cell]]],
    groups: Sequence[Group],
    known: float,
) -> float:
    """Fit what comes near over the makes, and return how good the best one is.

    Where it is far better than what was `known` when suspects were begun again, that is done once more: what is behind
    is tried from there too.
    """
    best = _each(system, first, others, groups)
    if best < known + STUCK:
        return best
    for key, fits in _by_key(begun_again(system, _bests(first), others, groups)).items():
        first[key] = _better(first.get(key, {}), fits)
    return _each(system, first, others, groups)


def _each(
    system: System,
    first: Mapping[Key, dict[Make, Fit]],
    others: Mapping[Key, Mapping[Make, tuple[float, Cell]]],
    groups: Sequence[Group],
) -> float:
    """Fit each suspect that comes near over the makes, and return how good the best one is."""
    top = max(_best(held) for held in first.values())
    for key, held in first.items():
        if _best(held) >= top - LOST:
            _add(system, held, others[key], COMMON if _best(held) > top - CLOSE else FEW, groups)
    return max(_best(held) for held in first.values())


def _begun(system: System, starts: Sequence[Start], groups: Sequence[Group], *, alike: bool) -> list[Fit]:
    """Return the fits of what promises most, and where none of these is any good, of what promised less."""

    def fits(suspects: Sequence[Sequence[Start]], at_most: int | None = None) -> list[Fit]:
        those = narrowed(system, _one_place(suspects) if alike else suspects, groups, at_most)
        return leaders(system, those, groups)

    most = max(start.score for start in starts)
    first = promising(starts, most - HOPELESS)
    begun = fits(first)
    come_to = max(fit.best for fit in begun) - at_best(groups)
    if come_to > most - HOPELESS:
        return begun
    known = {held[0].key for held in first}
    others = [held for held in promising(starts, come_to) if held[0].key not in known]
    return [*begun, *fits(others, OTHERS)] if others else begun


def at_best(groups: Sequence[Group]) -> float:
    """Return the logarithm of the density of all figures if each were foretold to the last digit."""
    figures = [o for group in groups for o in group.observations if not o.word and not o.side]
    return -sum(0.5 * log(2.0 * pi * o.sd * o.sd) for o in figures)


def all_one_from_the_terminals(groups: Sequence[Group]) -> bool:
    """Tell whether where a break or a leak sits in a cable is all one to the readings: none was taken beyond."""
    points = [point for group in groups for q in group.questions for point in (q.red, q.black) if point is not None]
    as_found = all(group.stance.arrangement == "connected" for group in groups)
    return as_found and not any(point.startswith("sensor.") for point in points)


def _one_place(suspects: Sequence[Sequence[Start]]) -> list[Sequence[Start]]:
    """Return the suspects, a fault of the cable at the first of its places only."""
    places: dict[str, str] = {}
    found = []
    for starts in suspects:
        cell = starts[0].cell
        if not cell.in_the_cable or places.setdefault(cell.fault, cell.place) == cell.place:
            found.append(starts)
    return found


def _everywhere(fits: Sequence[Fit], others: Mapping[Key, Mapping[Make, tuple[float, Cell]]]) -> list[Fit]:
    """Return the fits, those of a cable's fault at all of its places."""
    found = []
    for fit in fits:
        found.append(fit)
        if fit.cell.in_the_cable:
            keys = [key for key in others if key[0] == fit.cell.fault and key != fit.cell.key]
            found += [fit.at_another_place(*others[key][fit.cell.make]) for key in keys]
    return found


def _by_key(fits: Sequence[Fit]) -> dict[Key, dict[Make, Fit]]:
    """Return the best fit of each make by fault and place."""
    found: dict[Key, dict[Make, Fit]] = {}
    for fit in fits:
        held = found.setdefault(fit.cell.key, {})
        if fit.cell.make not in held or fit.best > held[fit.cell.make].best + EVEN:
            held[fit.cell.make] = fit
    return found


def _bests(first: Mapping[Key, Mapping[Make, Fit]]) -> list[Fit]:
    """Return each suspect's best fit."""
    return [max(held.values(), key=lambda f: (even(f.best), f.cell.make)) for held in first.values()]


def _best(held: Mapping[Make, Fit]) -> float:
    return max(fit.best for fit in held.values())


def _alone(
    system: System,
    first: Mapping[Key, Mapping[Make, Fit]],
    others: Mapping[Key, Mapping[Make, tuple[float, Cell]]],
    groups: Sequence[Group],
) -> dict[Key, dict[Make, Fit]]:
    """Return the fits of each fault of the leading pairs alone, over all makes, where pairs lead or nearly do."""
    best = _bests(first)
    best.sort(key=lambda f: (-even(f.best), f.cell.key))
    least = best[0].best - (CLOSE if len(best[0].cell.parts) > 1 else CLOSE_BEHIND)
    pairs = [fit for fit in best if len(fit.cell.parts) > 1 and fit.best + _eased(fit, others) > least]
    near = pairs[:PAIRS_TAKEN_APART]
    found: dict[Key, dict[Make, Fit]] = {}
    for pair in near:
        for part, size in zip(pair.cell.parts, SIZES, strict=False):
            key = part.fault, part.place
            if key in others:
                found[key] = _better(found.get(key, {}), _one_alone(system, pair, size, others[key], groups))
    return found


def _eased(pair: Fit, others: Mapping[Key, Mapping[Make, tuple[float, Cell]]]) -> float:
    """Return how much likelier the likelier of a pair's faults is alone, before any reading."""
    keys = [(part.fault, part.place) for part in pair.cell.parts]
    alone = [others[key][pair.cell.make][0] for key in keys if key in others]
    return max(alone, default=pair.prior) - pair.prior


def _one_alone(
    system: System, pair: Fit, size: str, makes: Mapping[Make, tuple[float, Cell]], groups: Sequence[Group]
) -> dict[Make, Fit]:
    """Return the fits of one fault of a pair, whose size stands in `size`, each from where the pair has come to.

    What the other fault did a sensor that sleeps may do.
    """
    here = pair.here._replace(severity=getattr(pair.here, size), second=0.0)
    found = {}
    for make, (prior, cell) in makes.items():
        fit = Fit(system, Start(cell, prior, prior, prior, here, {}), groups, pair.near)
        if fit.look(here):
            fit.tried(here._replace(**ASLEEP_AT[system.unit]))
            fit.settle(LOOKS_ALONE, float("-inf"))
            found[make] = fit
    for fit in sorted(found.values(), key=lambda f: (-even(f.hope), f.cell.make))[:NUDGED_ALONE]:
        fit.nudged(nudgeable(system, fit.cell), pair.best - CLOSE)
    return found


def _better(held: Mapping[Make, Fit], fits: Mapping[Make, Fit]) -> dict[Make, Fit]:
    """Return the better fit of each make."""
    new = {make: fit for make, fit in fits.items() if make not in held or fit.best > held[make].best + EVEN}
    return {**held, **new}


def _add(
    system: System,
    held: dict[Make, Fit],
    others: Mapping[Make, tuple[float, Cell]],
    makes: Sequence[Make],
    groups: Sequence[Group],
) -> None:
    """Fit other makes, each from where the best one has come to; one that was left far behind goes on from there."""
    leader = max(held.values(), key=lambda fit: (even(fit.best), fit.cell.make))
    for make in makes:
        if make in held:
            if held[make].best < leader.best - STUCK and held[make].tried(leader.here):
                held[make].settle(LOOKS, leader.best - LOST, WORTH_A_STEP)
            continue
        prior, cell = others[make]
        fit = Fit(system, Start(cell, prior, prior, prior, leader.here, {}), groups, leader.near)
        fit.look(leader.here)
        fit.settle(LOOKS, leader.best - LOST, WORTH_A_STEP)
        held[make] = fit
