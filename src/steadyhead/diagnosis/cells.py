"""Cells: small neighbourhoods of imagined systems, each with one fault of one size in one place, or with two.

Theory of operation
-------------------
1. A suspect is a set of cells. A cell fixes what does not vary smoothly: the fault, its place, the make of the devices.
   What does vary smoothly (`Latents`) has a normal distribution in it, the fault's size one about the cell's own.
2. A cell predicts a reading by a straight line in its latents about the point where it was looked at. So all readings
   of one visit share the same unknown gauge error, and a dozen cells do the work of thousands of drawn systems.
3. Cells of a fault divide its probability evenly but for the shares of its places. They differ in their makes alone,
   the same makes for every fault, and in the sizes at which their first look begins.
4. A pair is a cell of two parts. What was fitted or set comes about first, then what broke, each in the order of the
   ids: so a part that breaks is the one that is there. Each part's size has a latent number of its own: two sizes on
   one number would see only pairs in which both are large or both are small, and a size held fixed would blame a pair
   for a figure that the next size explains.
5. The cells of a pair are spread evenly in places and sizes over the same makes; but one with a part that dies in
   ways as different as two faults (`UNLIKE`) has cells of each of them: spread over all, the right way would be missed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from steadyhead.diagnosis.complaint import factor
from steadyhead.diagnosis.estimates import NONE_OF_THESE
from steadyhead.diagnosis.makes import BATTERY_V, COMMON, FIRST, Latents, designs, healthy, spare_of
from steadyhead.diagnosis.pairs import MENDED_AGAIN, common_pairs, left_over, pair_id, pair_remedy
from steadyhead.diagnosis.priors import prior
from steadyhead.diagnosis.system import System, last_mended
from steadyhead.loop.draft import LoopDraft
from steadyhead.loop.faults import FAULTS, Fault, faults_of

#: How much likelier it is that nothing is wrong once something has been mended.
MENDED = 12.0
#: Middle and standard deviation of a fault's size, as parts of its scale.
MIDDLE, WIDTH = 0.5, 0.33
#: From one try at a design to the next.
SEEDS = 100_003
#: How far a size may lie past either end of its scale, which is nobody's limit, in parts of it.
PAST_ITS_SCALE = 0.15


@dataclass(frozen=True, slots=True)
class Part:
    """One fault of a cell.

    Parameters
    ----------
    fault
        Its id.
    place
        Where it is, in the fault's own words.
    size
        Middle of its size, as a part of its scale.
    width
        Standard deviation of that part; 0 where the fault has no size.
    start
        Size at which its first look begins, in standard deviations from its middle.
    good_now
        Whether a fault that comes and goes is away.
    """

    fault: str
    place: str
    size: float
    width: float
    start: float = 0.0
    good_now: bool = False

    def severity(self, z: float) -> float:
        """Return its size on its own scale, at one point of the latent that moves it."""
        scale = BY_ID[self.fault].severity
        return scale.at(min(max(self.size + self.width * z, -PAST_ITS_SCALE), 1.0 + PAST_ITS_SCALE)) if scale else 0.0

    @property
    def comes_and_goes(self) -> bool:
        """Whether it is there at one reading and away at the next."""
        return self.fault.startswith("intermittent-")

    @property
    def noisy(self) -> bool:
        """Whether it is what the cable picks up."""
        return self.fault in {"noise-pickup", "shield-looped"}

    @property
    def damp(self) -> bool:
        """Whether it is a wet joint, which is a battery too."""
        return self.fault.startswith("leakage-")

    def acts(self, system: System, *, quiet: bool) -> bool:
        """Tell whether it changes the loop now; a setting that was read is in the healthy loop already."""
        as_read = self.fault == "setting-range" and system.scaled is not None
        return not (self.good_now or as_read or (quiet and self.noisy))


@dataclass(frozen=True, slots=True)
class Cell:
    """One neighbourhood.

    Parameters
    ----------
    fault
        Id of its fault, or of its pair: ``a+b``, sorted.
    remedy
        What mends it; of a pair both remedies, sorted, each once.
    parts
        Its fault, or both, in the order in which they come about.
    weight
        Its share of all probability before the first reading.
    make
        Point of the unit cube from which the devices' makes are drawn.
    said
        How many times the complaint multiplied its weight.
    """

    fault: str
    remedy: str
    parts: tuple[Part, ...]
    weight: float
    make: tuple[float, ...]
    said: float = 1.0

    def draft(self, system: System, z: Latents, *, spare: bool = False, quiet: bool = False) -> LoopDraft:
        """Return the loop of this cell at one point of its latents.

        With `spare` a good sensor lies beside it; `quiet`, there is nothing that the cable could pick up.
        """
        draft = healthy(system, self.make, z)
        if spare:
            draft.spare = spare_of(system, self.make, z)
        for part, size in zip(self.parts, (z.severity, z.second), strict=False):
            if part.acts(system, quiet=quiet):
                BY_ID[part.fault].change(draft, part.severity(size), part.place)
        if self.damp:
            draft.leaks = [leak._replace(volts=BATTERY_V * z.battery) for leak in draft.leaks]
        return draft

    def has(self, *faults: str) -> bool:
        """Tell whether one of these is among its faults."""
        return any(part.fault in faults for part in self.parts)

    @property
    def place(self) -> str:
        """Where it is: of a pair the first place that there is."""
        return next((part.place for part in self.parts if part.place), "")

    @property
    def key(self) -> tuple[str, str]:
        """Its suspect and place; a pair's cells, whose places are spread, are one but for those of `UNLIKE` parts."""
        parts = self.parts if len(self.parts) == 1 else [part for part in self.parts if part.fault in UNLIKE]
        return self.fault, next((part.place for part in parts), "")

    @property
    def in_the_cable(self) -> bool:
        """Whether it is one fault of the cable, which has places."""
        return len(self.parts) == 1 and self.remedy == "repair-cable"

    @property
    def sizes(self) -> tuple[str, ...]:
        """The latents that move its sizes."""
        return tuple(name for part, name in zip(self.parts, SIZES, strict=False) if part.width)

    @property
    def begins(self) -> Latents:
        """Where its first look begins."""
        return Latents(**{name: part.start for part, name in zip(self.parts, SIZES, strict=False)})

    @property
    def comes_and_goes(self) -> bool:
        """Whether one of its faults is there at one reading and away at the next."""
        return any(part.comes_and_goes for part in self.parts)

    def away(self) -> Cell:
        """Return the cell while what comes and goes is away."""
        return replace(self, parts=tuple(replace(p, good_now=True) if p.comes_and_goes else p for p in self.parts))

    @property
    def noisy(self) -> bool:
        """Whether one of its faults is what the cable picks up."""
        return any(part.noisy for part in self.parts)

    @property
    def damp(self) -> bool:
        """Whether one of its faults is a wet joint."""
        return any(part.damp for part in self.parts)


BY_ID: dict[str, Fault] = {fault.id: fault for fault in FAULTS}
#: A fault that shows in two of its places at once, and in what part of its cases: what kills half of a converter shifts
#: its zero and its gain (common practice).
TWO_WAYS = {"controller-input-shifted": (("offset", "gain"), 0.4)}
#: The latents of a cell's sizes, in the order of its parts.
SIZES = ("severity", "second")
#: Faults whose places are as unlike as faults: an input that is shorted, one that is open, one that sees nothing.
UNLIKE = frozenset(("controller-input-dead",))


def single(part: Part, weight: float, make: tuple[float, ...]) -> Cell:
    """Return a cell with one fault."""
    return Cell(part.fault, BY_ID[part.fault].remedy, (part,), weight, make)


def double(first: Part, second: Part, weight: float, make: tuple[float, ...]) -> Cell:
    """Return a cell with two faults, given in any order."""
    parts = tuple(sorted((first, second), key=_comes_about))
    remedies = [BY_ID[part.fault].remedy for part in parts]
    return Cell(pair_id(first.fault, second.fault), pair_remedy(*remedies), parts, weight, make)


def _comes_about(part: Part) -> tuple[bool, str]:
    """Return what orders the parts of a pair: fitted or set before broken, then by id."""
    return not part.fault.startswith(("sensor-wrong-part", "setting-")), part.fault


def cells(system: System, odds: Mapping[str, float] | None = None) -> list[Cell]:
    """Return the cells of all single faults, and of all pairs with one cause, their weights summing to one.

    `odds` of the single faults stand in for those of `single_odds`, where more is known of them.
    """
    odds = single_odds(system) if odds is None else odds
    found: list[Cell] = []
    for index, fault in enumerate(faults_of(system.wires, system.kind)):
        if odds[fault.id] > 0.0:
            found += _of(fault, index, odds[fault.id])
    found.append(Cell(NONE_OF_THESE, "look-further", (), odds[NONE_OF_THESE], COMMON[0]))
    for pair in common_pairs(system.wires, system.kind):
        found += of_pair(pair.first, pair.second, pair.per_100 / 100.0, pair.cause.place)
    said = {cell.fault: factor(system.visit.complaint, cell.fault, system.estimates) for cell in found}
    total = sum(cell.weight * said[cell.fault] for cell in found)
    return [replace(c, weight=c.weight * said[c.fault] / total, said=said[c.fault]) for c in found]


def single_odds(system: System) -> dict[str, float]:
    """Return how likely each single fault is beside the others, by what was set and mended on this visit."""
    plain = prior(system.wires, system.kind, system.estimates)
    odds = {fault: chance * _by_setting(system, fault) for fault, chance in plain.items()}
    last = last_mended(system.visit)
    if not last:
        return odds
    mended = frozenset(action.remedy for action in system.visit.actions if action.after_reading <= last)
    cured = MENDED * plain["none"]
    odds = {fault: chance * (MENDED_AGAIN if _remedy(fault) in mended else 1.0) for fault, chance in odds.items()}
    for fault, chance in left_over(mended, common_pairs(system.wires, system.kind), plain).items():
        odds[fault] += cured * chance
    return odds


def _remedy(fault: str) -> str:
    return BY_ID[fault].remedy if fault in BY_ID else "look-further"


def _by_setting(system: System, fault: str) -> float:
    """Return the factor that the setting read on this visit puts on a fault's odds; what is not there is not shut."""
    if fault == "setting-range" and system.scaled is not None:
        return 12.0 if system.scaled_differs else 0.02
    if fault == "sensor-cock-shut" and system.no_cock:
        return 0.0
    if fault == "none" and system.scaled_differs:
        return 0.0
    return MENDED if fault == "none" and last_mended(system.visit) else 1.0


def _of(fault: Fault, index: int, weight: float) -> list[Cell]:
    """Return a fault's cells: at each of its places one of each make, begun at sizes shuffled over the makes.

    The same sizes at every place of a cable, which looks alike from the terminals.
    """
    wiring = fault.remedy == "repair-cable"
    found = _two_ways(fault, index, weight)
    weight -= sum(cell.weight for cell in found)
    for number, (place, share) in enumerate(fault.places):
        sizes = begins(97 * index + (0 if wiring else number))
        found += [
            single(_sized(fault, place, size), weight * share / len(COMMON), make)
            for make, size in zip(COMMON, sizes, strict=True)
        ]
    return found


def _two_ways(fault: Fault, index: int, weight: float) -> list[Cell]:
    """Return the cells of a fault that shows in two of its places at once, each by a size of its own."""
    if fault.id not in TWO_WAYS:
        return []
    (one, other), share = TWO_WAYS[fault.id]
    first, second = (begins(97 * index + number) for number in (len(fault.places), len(fault.places) + 1))
    return [
        Cell(
            fault.id, fault.remedy, (_sized(fault, one, size), _sized(fault, other, size_too)),
            weight * share / len(COMMON), make,
        )
        for make, size, size_too in zip(COMMON, first, second, strict=True)
    ]  # fmt: skip


@lru_cache(maxsize=1024)
def begins(seed: int) -> tuple[float, ...]:
    """Return a size for each make, as a part of its scale, each of as many parts once.

    The few makes that stand for all at first have a small one, a middling one and a large one: from the middle alone,
    nothing tells that an ohm a hundred times as large would fit.

    >>> [sorted(round(3.0 * size - 0.5) for size in (begins(seed)[number] for number in FIRST)) for seed in (0, 97)]
    [[0, 1, 2], [0, 1, 2]]
    """
    while True:
        sizes = tuple(size for size, in designs(len(COMMON), 1, seed))
        few = sorted(sizes[number] for number in FIRST)
        if all(k < 3.0 * size < k + 1 for k, size in enumerate(few)):
            return sizes
        seed += SEEDS


def _sized(fault: Fault, place: str, size: float) -> Part:
    """Return a fault whose first look begins at a size, where it has one."""
    if not fault.severity:
        return Part(fault.id, place, 0.0, 0.0)
    return Part(fault.id, place, MIDDLE, WIDTH, (size - MIDDLE) / WIDTH)


def of_pair(first: Fault, second: Fault, weight: float, place: str = "") -> list[Cell]:
    """Return the cells of two faults at once; `place` begins the first one's places, where not all will do."""
    unlike = next((fault for fault in (first, second) if fault.id in UNLIKE), None)
    found = []
    for way, share in unlike.places if unlike else (("", 1.0),):
        its, other = way if unlike is first else place, way if unlike is second else ""
        found += _spread(first, second, weight * share, its, other)
    return found


def _spread(first: Fault, second: Fault, weight: float, place: str, other_place: str) -> list[Cell]:
    """Return the cells of two faults, spread over the makes; the places of each begin with a word, or are any."""
    index = FAULTS.index(first) * len(FAULTS) + FAULTS.index(second)
    found = []
    for make, (where, size, where_else, size_else) in zip(COMMON, designs(len(COMMON), 4, index), strict=True):
        one, other = _drawn(first, where, size, place), _drawn(second, where_else, size_else, other_place)
        found.append(double(one, other, weight / len(COMMON), make))
    return found


def _drawn(fault: Fault, where: float, size: float, begins: str = "") -> Part:
    """Return a fault at one point of its places, taken by their shares, begun at a size."""
    places = [(place, share) for place, share in fault.places if place.startswith(begins)]
    left = where * sum(share for _, share in places)
    place = places[-1][0]
    for name, share in places:
        left -= share
        if left < 0.0:
            place = name
            break
    return _sized(fault, place, size)
