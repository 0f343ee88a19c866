"""The cheapest way through a small belief, found by trying every way: what a planner is measured against.

Rules
-----
1. A world is a handful of cells with their shares, what each check shows under each of them as chances of a few
   outcomes, and the minutes of a check from where the technician stands. Outcomes are independent given the cell, and a
   check that is repeated would show the same, so none is.
2. Stopping mends what is likeliest; what is wrong with it costs a second trip.
3. The cheapest way is found backwards over all sets of outcomes that can be seen: of stopping and of every check left,
   with the cheapest way on from each of its outcomes, the smallest. A way is cut off only where what it has cost, with
   the least that can follow, is no less than the best way known.
4. Following a policy costs what it asks for and where it stops, over the same outcomes.

All costs are in minutes times the mass of the state, so that they add up over outcomes.

References
----------
Bellman, *Dynamic Programming*, Princeton 1957: the principle of optimality; from memory.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

Check = TypeVar("Check", bound=Hashable)
Place = TypeVar("Place", bound=Hashable)
Outcomes = Sequence[tuple[Hashable, float]]
#: The mass of each cell, and the outcomes that led there.
Masses = tuple[float, ...]
Seen = frozenset[tuple[Check, Hashable]]

#: An outcome of less mass than this is left out; the mass that is lost is counted as a second trip.
NOTHING = 1e-9


@dataclass(frozen=True)
class World(Generic[Check, Place]):
    """A small belief with its checks.

    Parameters
    ----------
    remedies
        What mends each cell.
    looks
        What each check shows under each cell: outcomes with their chances, which sum to one.
    minutes, after
        What a check costs from a place [min], and the place where it leaves the technician.
    wrong
        What a wrong remedy costs [min].
    """

    remedies: Sequence[str]
    looks: Mapping[Check, Sequence[Outcomes]]
    minutes: Callable[[Check, Place], float]
    after: Callable[[Check, Place], Place]
    wrong: float = 120.0

    def stopping(self, masses: Masses) -> float:
        """Return what stopping costs: a second trip for all but the likeliest remedy [min x mass]."""
        by_remedy: dict[str, float] = {}
        for remedy, mass in zip(self.remedies, masses, strict=True):
            by_remedy[remedy] = by_remedy.get(remedy, 0.0) + mass
        return self.wrong * (sum(masses) - max(by_remedy.values()))

    def split(self, masses: Masses, check: Check) -> dict[Hashable, Masses]:
        """Return the cells' masses after each outcome of a check."""
        parts: dict[Hashable, list[float]] = {}
        for k, mass in enumerate(masses):
            if mass > 0.0:
                for outcome, chance in self.looks[check][k]:
                    parts.setdefault(outcome, [0.0] * len(masses))[k] += mass * chance
        return {outcome: tuple(part) for outcome, part in parts.items() if sum(part) > NOTHING}


class Cheapest(Generic[Check, Place]):
    """The cheapest way through a world, remembered by what was seen and where the technician stands."""

    def __init__(self, world: World[Check, Place]) -> None:
        self._world = world
        self._known: dict[tuple[Seen[Check], Place], tuple[float, Check | None]] = {}

    def cost(self, masses: Masses, place: Place, seen: Seen[Check] = frozenset()) -> float:
        """Return what the cheapest way costs from here [min x mass]."""
        return self.best(masses, place, seen)[0]

    def best(self, masses: Masses, place: Place, seen: Seen[Check] = frozenset()) -> tuple[float, Check | None]:
        """Return what the cheapest way costs, and its first check; None where it is to stop."""
        known = self._known.get((seen, place))
        if known is None:
            known = self._known[seen, place] = self._tried(masses, place, seen)
        return known

    def _tried(self, masses: Masses, place: Place, seen: Seen[Check]) -> tuple[float, Check | None]:
        world = self._world
        asked = {check for check, _ in seen}
        best: tuple[float, Check | None] = (world.stopping(masses), None)
        left = [(world.minutes(check, place), k, check) for k, check in enumerate(world.looks) if check not in asked]
        for minutes, _, check in sorted(left, key=lambda item: item[:2]):
            spent = minutes * sum(masses)
            if spent >= best[0]:
                break
            cost = self._after(world.split(masses, check), check, (place, seen), best[0] - spent) + spent
            if cost < best[0]:
                best = cost, check
        return best

    def _after(
        self, parts: Mapping[Hashable, Masses], check: Check, here: tuple[Place, Seen[Check]], most: float
    ) -> float:
        """Return what the cheapest ways on from a check's outcomes cost; anything above `most` where it is more."""
        place, seen = self._world.after(check, here[0]), here[1]
        least = {outcome: self._least(part, place, check, seen) for outcome, part in parts.items()}
        total = sum(least.values())
        for outcome, part in parts.items():
            if total >= most:
                break
            total += self.cost(part, place, seen | {(check, outcome)}) - least[outcome]
        return total

    def _least(self, masses: Masses, place: Place, check: Check, seen: Seen[Check]) -> float:
        """Return a bound that no way from a state undercuts: to stop, or one more check that tells all."""
        asked = {check, *(other for other, _ in seen)}
        left = [self._world.minutes(other, place) for other in self._world.looks if other not in asked]
        return min([self._world.stopping(masses), *(minutes * sum(masses) for minutes in left)])


def followed(
    world: World[Check, Place],
    policy: Callable[[Masses, frozenset[Check], Place], Check | None],
    masses: Masses,
    place: Place,
    asked: frozenset[Check] = frozenset(),
) -> float:
    """Return what following a policy costs [min x mass]; it is told the masses, what was asked, and the place."""
    check = policy(masses, asked, place) if len(asked) < len(world.looks) else None
    if check is None:
        return world.stopping(masses)
    there, since = world.after(check, place), asked | {check}
    parts = world.split(masses, check).values()
    return world.minutes(check, place) * sum(masses) + sum(followed(world, policy, p, there, since) for p in parts)
