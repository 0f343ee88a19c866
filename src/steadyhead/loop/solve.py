"""Where a circuit comes to rest: the voltages at which every current finds its way back.

Theory of operation
-------------------
1. The network is reduced to the terminals of its elements (`steadyhead.loop.network`).
2. Every element is assumed to be in the region of a healthy loop; the linear circuit is solved; each element then says
   in which region these voltages lie. When all agree, the answer is exact. A healthy loop needs one or two rounds.
3. Where that runs in circles, the way is walked instead: from the first round's volts, then from rest, towards
   the answer of the present regions, as far as the first element that leaves its region, which alone is switched
   (Katzenelson, Bell System Technical Journal 44 (1965) 1605; from memory). Each switch keeps what has been reached.
4. Where that fails too, every combination of regions is tried. A circuit that fits none raises
   `NoOperatingPointError`: a last guess is never handed out.
5. `Operation` keeps the eliminated equations, so that a meter across any two points costs one substitution.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import prod
from typing import NamedTuple

from steadyhead.errors import FloatingNodeError, NoOperatingPointError
from steadyhead.loop.elements import Element, Rows
from steadyhead.loop.elimination import Steps, eliminated, substituted
from steadyhead.loop.network import Network
from steadyhead.loop.operation import Operation
from steadyhead.messages import message

__all__ = ["Operation", "solve"]

#: Rounds of rule 2 before the way is walked; switches of rule 3 before all combinations are tried.
ROUNDS = 6
SWITCHES = 80
#: The most combinations of regions that rule 4 looks at.
COMBINATIONS = 20_000
#: Two pieces whose currents differ by no more than this part of what they are made of meet there: rounding.
TOUCH = 1e-12


def solve(network: Network, guess: Sequence[int] | None = None) -> Operation:
    """Return the operating point of a circuit.

    Parameters
    ----------
    network
        The circuit. It is not changed.
    guess
        Regions of the elements to look at first, such as those of a circuit that differs a little.

    Raises
    ------
    FloatingNodeError
        A terminal is tied to nothing.
    NoOperatingPointError
        No combination of regions fits.

    References
    ----------
    Chua and Lin, *Computer-Aided Analysis of Electronic Circuits*, 1975 (nodal analysis, piecewise-linear circuits);
    from memory.
    """
    plan = network.plan()
    numbers = plan.numbers
    base, taken = network.reduced(plan)
    pushed = [0.0] * len(numbers)
    for node, amperes in network.pushed.items():
        pushed[numbers[node]] += amperes
    elements = tuple(network.elements)
    circuit = _Circuit(base, pushed, tuple(zip(elements, plan.places, strict=True)), numbers)
    rest = circuit.rest(guess)
    return Operation(rest.volts, rest.regions, rest.way, numbers, elements, plan.places, taken, rest.steps)


class _Rest(NamedTuple):
    """Voltages, regions, the way they were found, and the eliminated equations."""

    volts: list[float]
    regions: tuple[int, ...]
    way: str
    steps: Steps


class _Circuit(NamedTuple):
    """The reduced equations of one circuit: `hung` are its elements with their places, `numbers` its nodes'."""

    base: Rows
    pushed: list[float]
    hung: tuple[tuple[Element, tuple[int, ...]], ...]
    numbers: dict[str, int]

    def rest(self, guess: Sequence[int] | None) -> _Rest:
        """Return where the circuit comes to rest."""
        regions = self._begun(guess)
        seen: set[tuple[int, ...]] = set()
        first: list[float] = []
        for _ in range(ROUNDS):
            volts, steps = self.linear(regions)
            found = self.regions_at(volts)
            if found == regions or (found in seen and self.touches(regions, volts)):
                return _Rest(volts, regions, "direct", steps)
            if found in seen:
                break
            first = first or volts
            seen.add(regions)
            regions = found
        return self.walk(first) or self.walk([0.0] * len(self.base)) or self.try_all()

    def _begun(self, guess: Sequence[int] | None) -> tuple[int, ...]:
        """Return the regions to look at first: the guessed ones where the elements have them, else a healthy loop's."""
        if guess is not None:
            for region, (element, _) in zip(guess, self.hung, strict=True):
                if region >= element.regions:
                    break
            else:
                return tuple(guess)
        return tuple([element.start for element, _ in self.hung])

    def linear(self, regions: Sequence[int]) -> tuple[list[float], Steps]:
        """Return the voltages with every element held in its region, and the eliminated equations."""
        rows = [row[:] for row in self.base]
        push = self.pushed[:]
        for (element, at), region in zip(self.hung, regions, strict=True):
            element.stamp(at, region, rows, push)
        steps = eliminated(rows)
        if isinstance(steps, int):
            raise FloatingNodeError(message("floating-node", point=[*self.numbers][steps]))
        return substituted(steps, push), steps

    def regions_at(self, volts: Sequence[float]) -> tuple[int, ...]:
        """Return the region of each element at these voltages."""
        return tuple([element.region(at, volts) for element, at in self.hung])

    def touches(self, regions: Sequence[int], volts: Sequence[float]) -> bool:
        """Tell whether currents agree although a voltage lies on the very end of a piece."""
        found = self.regions_at(volts)
        for (element, at), region, other in zip(self.hung, regions, found, strict=True):
            if region != other and not _meet(element, at, (region, other), volts):
                return False
        return True

    def walk(self, here: list[float]) -> _Rest | None:
        """Walk from given voltages, switching one element at a time; None where that does not arrive."""
        regions = self.regions_at(here)
        for _ in range(SWITCHES):
            try:
                there, steps = self.linear(regions)
            except FloatingNodeError:
                return None
            part, which, after = self._first_crossing(regions, here, there)
            if which < 0:
                return _Rest(there, regions, "walked", steps) if self.touches(regions, there) else None
            here = [a + part * (b - a) for a, b in zip(here, there, strict=True)]
            regions = (*regions[:which], after, *regions[which + 1 :])
        return None

    def _first_crossing(
        self, regions: tuple[int, ...], here: Sequence[float], there: Sequence[float]
    ) -> tuple[float, int, int]:
        """Return how far the first element to leave its region lets one go, its number (-1 for none), and its next."""
        part, which, after = 1.0, -1, -1
        for k, (element, at) in enumerate(self.hung):
            t, region = element.crossing(at, regions[k], here, there)
            if t < part:
                part, which, after = t, k, region
        return part, which, after

    def try_all(self) -> _Rest:
        """Try every combination of regions."""
        if prod(element.regions for element, _ in self.hung) <= COMBINATIONS:
            for regions in product(*(range(element.regions) for element, _ in self.hung)):
                try:
                    volts, steps = self.linear(regions)
                except FloatingNodeError:
                    continue
                if self.touches(regions, volts):
                    return _Rest(volts, regions, "tried", steps)
        raise NoOperatingPointError(message("no-operating-point", points=tuple(self.numbers)[1:]))


def _meet(element: Element, at: tuple[int, ...], pieces: tuple[int, int], volts: Sequence[float]) -> bool:
    """Tell whether two regions' straight lines give the same currents at these voltages, but for rounding."""
    first, second = (_line(element, at, piece, volts) for piece in pieces)
    return all(abs(i - j) <= TOUCH * (m + n) for (i, m), (j, n) in zip(first, second, strict=True))


def _line(element: Element, at: tuple[int, ...], region: int, volts: Sequence[float]) -> list[tuple[float, float]]:
    """Return each node's current into an element by a region's straight line, and the size of what it sums up [A]."""
    rows: Rows = [[0.0] * len(volts) for _ in volts]
    push = [0.0] * len(volts)
    element.stamp(at, region, rows, push)
    found: list[tuple[float, float]] = []
    for place in at:
        parts = [(siemens * volts[j], siemens * volts[place]) for j, siemens in enumerate(rows[place]) if siemens]
        size = sum(abs(a) + abs(b) for a, b in parts) + abs(push[place])
        found.append((sum(a - b for a, b in parts) - push[place], size))
    return found
