"""Which parts to load before the drive, so that a second trip is least likely.

Theory of operation
-------------------
1. Every cell of the belief has a repair at a place, and that repair needs each of its parts with a stated chance,
   one apart from the other. A part that was loaded will do with a stated chance.
2. One trip is enough where every part that is needed was loaded and will do: for a cell the product, over its parts,
   of one less (chance that it is needed) x (1, or chance that the loaded one will not do); over all cells the mean.
3. Parts are loaded one by one, each time the one that lowers the chance of a second trip most; ties by name. A part
   more can only lower it.
4. With everything loaded what is left is the floor: parts that will not do, and what nobody foresaw.

The greedy order is not the best set of every size: two parts that one repair needs together are worth more than one
after the other. All parts are listed, so nothing is lost by it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum, prod

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.estimates import NONE_OF_THESE, Estimates
from steadyhead.diagnosis.observing import observations
from steadyhead.diagnosis.opening import believed
from steadyhead.diagnosis.priors import prior
from steadyhead.diagnosis.system import System
from steadyhead.loop.faults import place_word

#: Parts that an instrument at hand brings along.
BRINGS: dict[str, str] = {"spare-sensor": "sensor", "spare-lead": "cable"}


@dataclass(frozen=True, slots=True)
class Job:
    """A repair that may be waiting: its share of all probability, and the chance that it needs each part."""

    share: float
    needs: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """One part: the chance that it is needed, the chance of a second trip once it is loaded, and what that saves [min].

    `load` tells whether it saves more than the loading takes.
    """

    part: str
    needed: float
    second_trip: float
    saves_minutes: float
    load: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """What to load, in the order in which it pays; `before` and `floor` are chances of a second trip.

    `at_hand` are parts that the instruments at hand bring along; `advised` is the chance once all that pays is loaded.
    """

    before: float
    advised: float
    floor: float
    at_hand: tuple[str, ...]
    parts: tuple[Loaded, ...]


def jobs(system: System) -> list[Job]:
    """Return the repairs that may be waiting, with everything that is known of a visit, shares summing to one."""
    weighed = believed(system, observations(system)).after
    found = [Job(w.share, _needs(system.estimates, w.cell)) for w in weighed]
    if any(w.cell.fault == NONE_OF_THESE for w in weighed):
        return found
    other = prior(system.wires, system.kind, system.estimates)[NONE_OF_THESE]
    needs = _needs_of(system.estimates, {"look-further"}, ())
    return [*(Job(job.share * (1.0 - other), job.needs) for job in found), Job(other, needs)]


def _needs(estimates: Estimates, cell: Cell) -> tuple[tuple[str, float], ...]:
    """Return the parts of a cell's repair; a pair's repairs need the parts of both."""
    names = {*cell.fault.split("+"), *cell.remedy.split("+")}
    return _needs_of(estimates, names, [part.place for part in cell.parts])


def _needs_of(estimates: Estimates, names: set[str], where_it_is: Sequence[str]) -> tuple[tuple[str, float], ...]:
    places = {word for place in where_it_is if place for word in (place, place_word(place))}
    spare: dict[str, float] = {}
    for row, chance in estimates.needs.items():
        repair, *where, part = row.split("/")
        if repair in names and (not where or where[0] in places):
            spare[part] = spare.get(part, 1.0) * (1.0 - chance)
    return tuple(sorted((part, 1.0 - none) for part, none in spare.items()))


def second_trip(waiting: Iterable[Job], loaded: frozenset[str], fits: Mapping[str, float]) -> float:
    """Return the chance that somebody must come again.

    Parameters
    ----------
    waiting
        The repairs that may be waiting.
    loaded
        Parts on the van.
    fits
        How likely each of them will do.

    Examples
    --------
    >>> waiting = [Job(0.75, (("sensor", 1.0),)), Job(0.25, ())]
    >>> second_trip(waiting, frozenset(), {"sensor": 0.5}), second_trip(waiting, frozenset({"sensor"}), {"sensor": 0.5})
    (0.75, 0.375)
    """
    return fsum(
        job.share * (1.0 - prod(1.0 - chance * _missing(part, loaded, fits) for part, chance in job.needs))
        for job in waiting
    )


def _missing(part: str, loaded: frozenset[str], fits: Mapping[str, float]) -> float:
    """Return the chance that a part which is needed is not there or will not do."""
    return 1.0 - fits[part] if part in loaded else 1.0


def pack(system: System) -> Packed:
    """Return which parts to load for a visit, with all that is known of it."""
    waiting, estimates = jobs(system), system.estimates
    have = system.visit.instruments.have or ()
    at_hand = frozenset(part for instrument, part in BRINGS.items() if instrument in have)
    return packed(waiting, at_hand, estimates)


def packed(waiting: Sequence[Job], at_hand: frozenset[str], estimates: Estimates) -> Packed:
    """Return which parts to load for these repairs, one by one, each time the one that helps most."""
    fits = estimates.fits
    before = now = second_trip(waiting, at_hand, fits)
    loaded, left = set(at_hand), sorted(set(fits) - at_hand)
    found: list[Loaded] = []
    while left:
        after = {part: second_trip(waiting, frozenset({*loaded, part}), fits) for part in left}
        part = min(left, key=lambda each: (after[each], each))
        saves = (now - after[part]) * estimates.second_trip
        found.append(
            Loaded(
                part=part, needed=_needed(waiting, part), second_trip=after[part], saves_minutes=saves,
                load=saves > estimates.loading,
            )
        )  # fmt: skip
        now = after[part]
        loaded.add(part)
        left.remove(part)
    advised = second_trip(waiting, at_hand | {each.part for each in found if each.load}, fits)
    return Packed(before=before, advised=advised, floor=now, at_hand=tuple(sorted(at_hand)), parts=tuple(found))


def _needed(waiting: Iterable[Job], part: str) -> float:
    return fsum(job.share * dict(job.needs).get(part, 0.0) for job in waiting)
