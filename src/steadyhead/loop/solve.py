"""Where a circuit comes to rest: the voltages at which every current finds its way back.

Theory of operation
-------------------
1. The network is reduced to the terminals of its elements (`steadyhead.loop.network`).
2. Every element is assumed to be in the region of a healthy loop; the linear circuit is solved; each element then says
   in which region these voltages lie. When all agree, the answer is exact. A healthy loop needs one or two rounds.
3. Where that runs in circles, the way is walked instead: from rest towards the answer of the present regions, as far as
   the first element that leaves its region, which alone is switched (Katzenelson, Bell System Technical Journal 44
   (1965) 1605). Each switch keeps what has been reached.
4. Where that fails too, every combination of regions is tried. A circuit that fits none raises
   `NoOperatingPointError`: a last guess is never handed out.
5. `Operation` keeps the eliminated equations, so that a meter across any two points costs one substitution.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from math import prod
from typing import NamedTuple

from steadyhead.errors import FloatingNodeError, NoOperatingPointError
from steadyhead.loop.elements import Element, Rows
from steadyhead.loop.network import Eliminated, Network
from steadyhead.messages import message

#: Rounds of rule 2 before the way is walked; switches of rule 3 before all combinations are tried.
ROUNDS = 14
SWITCHES = 80
#: The most combinations of regions that rule 4 looks at.
COMBINATIONS = 20_000
#: No conductance is as large [S].
INFINITE = float("inf")
#: Two pieces whose currents differ by no more than this part of what they are made of meet there: rounding.
TOUCH = 1e-12

Places = tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class Operation:
    """A circuit at rest: the voltage of every point, and what the circuit would do under a meter.

    Parameters
    ----------
    volts
        Voltage of each node number to common [V].
    regions
        The region of each element.
    way
        How it was found: ``direct``, ``walked`` or ``tried``.
    index
        Number of each point that is an element's terminal.
    elements, places
        The elements, and for each the numbers of its nodes.
    taken
        The points that were eliminated, in that order.
    factors
        The eliminated equations: each row's pivot on the diagonal, its factors right of it.
    """

    volts: Sequence[float]
    regions: tuple[int, ...]
    way: str
    index: dict[str, int]
    elements: tuple[Element, ...]
    places: Places
    taken: dict[str, Eliminated]
    factors: Rows

    def volt(self, node: str) -> float:
        """Return a point's voltage to common [V].

        Raises
        ------
        FloatingNodeError
            Nothing ties this point to a voltage.
        """
        return self._volt(node, self.volts)

    def between(self, red: str, black: str, meter_ohm: float | None = None) -> float:
        """Return the volts from `black` to `red` [V], with a meter of `meter_ohm` between them where it is given.

        The meter's own current is taken into account exactly as long as it moves no element into another region.
        """
        across = self.volt(red) - self.volt(black)
        if meter_ohm is None:
            return across
        return across * meter_ohm / (meter_ohm + self.ohms_between(red, black))

    def ohms_between(self, red: str, black: str) -> float:
        """Return the resistance that a small test current meets between two points [ohm]."""
        raised = self._response({red: 1.0, black: -1.0})
        return max(0.0, raised[red] - raised[black])

    def pushed(self, node: str, amperes: float) -> Operation:
        """Return where the circuit comes to rest when a small current is pushed into a terminal [A]."""
        push = [0.0] * len(self.volts)
        push[self.index[node]] += amperes
        return self._risen_by(push)

    def moved(self, changes: Sequence[tuple[int, tuple[float, ...]]]) -> Operation:
        """Return where the circuit comes to rest when elements change a little, each in its region.

        Parameters
        ----------
        changes
            For each changed element its number, and how much more current leaves each of its nodes into it [A].
        """
        push = [0.0] * len(self.volts)
        for number, amounts in changes:
            for place, amount in zip(self.places[number], amounts, strict=True):
                push[place] -= amount
        return self._risen_by(push)

    def _risen_by(self, push: list[float]) -> Operation:
        risen = _substituted(self.factors, push)
        volts = tuple([v + r for v, r in zip(self.volts, risen, strict=True)])
        return Operation(
            volts, self.regions, self.way, self.index, self.elements, self.places, self.taken, self.factors
        )

    def currents(self) -> list[tuple[float, ...]]:
        """Return, for each element, the current that leaves each of its nodes into it [A]."""
        return [e.currents(at, self.volts) for e, at in zip(self.elements, self.places, strict=True)]

    def _volt(self, node: str, volts: Sequence[float]) -> float:
        known = self.index.get(node)
        if known is not None:
            return volts[known]
        gone = self.taken.get(node)
        if gone is None:
            raise FloatingNodeError(message("floating-node", point=node))
        total = 0.0
        for name, share in gone.weights:
            total += share * self._volt(name, volts)
        return total

    def _response(self, pushed: dict[str, float]) -> dict[str, float]:
        """Return how the pushed nodes rise when small currents are pushed into them, everything else held."""
        asked = list(pushed)
        current = dict(pushed)
        local: dict[str, float] = {}
        for node, gone in self.taken.items():
            if (amount := current.pop(node, 0.0)) != 0.0:
                local[node] = amount / gone.siemens
                for name, share in gone.weights:
                    current[name] = current.get(name, 0.0) + share * amount
        push = [0.0] * len(self.volts)
        for name, amount in current.items():
            if name not in self.index:
                raise FloatingNodeError(message("floating-node", point=name))
            push[self.index[name]] += amount
        risen = _substituted(self.factors, push)
        return {name: self._risen(name, risen, local) for name in asked}

    def _risen(self, node: str, risen: Sequence[float], local: dict[str, float]) -> float:
        known = self.index.get(node)
        if known is not None:
            return risen[known]
        around = sum(share * self._risen(name, risen, local) for name, share in self.taken[node].weights)
        return around + local.get(node, 0.0)


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
    index = network.terminals()
    base, taken = network.reduced(index)
    pushed = [0.0] * len(index)
    for node, amperes in network.pushed.items():
        pushed[index[node]] += amperes
    elements = tuple(network.elements)
    places = tuple([tuple([index[node] for node in e.nodes]) for e in elements])
    circuit = _Circuit(base, pushed, elements, places, tuple(index))
    rest = circuit.rest(guess)
    return Operation(rest.volts, rest.regions, rest.way, index, elements, places, taken, rest.factors)


class _Rest(NamedTuple):
    """Voltages, regions, the way they were found, and the eliminated equations."""

    volts: list[float]
    regions: tuple[int, ...]
    way: str
    factors: Rows


class _Circuit(NamedTuple):
    """The reduced equations of one circuit; `names` are its nodes', by number."""

    base: Rows
    pushed: list[float]
    elements: tuple[Element, ...]
    places: Places
    names: tuple[str, ...]

    def rest(self, guess: Sequence[int] | None) -> _Rest:
        """Return where the circuit comes to rest."""
        regions = tuple([e.start for e in self.elements])
        if guess is not None and all(g < e.regions for g, e in zip(guess, self.elements, strict=True)):
            regions = tuple(guess)
        seen: set[tuple[int, ...]] = set()
        for _ in range(ROUNDS):
            volts, factors = self.linear(regions)
            found = self.regions_at(volts)
            if found == regions or (found in seen and self.touches(regions, volts)):
                return _Rest(volts, regions, "direct", factors)
            if found in seen:
                break
            seen.add(regions)
            regions = found
        return self.walk() or self.try_all()

    def linear(self, regions: Sequence[int]) -> tuple[list[float], Rows]:
        """Return the voltages with every element held in its region, and the eliminated equations."""
        rows = [row[:] for row in self.base]
        push = self.pushed[:]
        for element, at, region in zip(self.elements, self.places, regions, strict=True):
            element.stamp(at, region, rows, push)
        self._eliminate(rows)
        return _substituted(rows, push), rows

    def regions_at(self, volts: Sequence[float]) -> tuple[int, ...]:
        """Return the region of each element at these voltages."""
        return tuple([e.region(at, volts) for e, at in zip(self.elements, self.places, strict=True)])

    def touches(self, regions: Sequence[int], volts: Sequence[float]) -> bool:
        """Tell whether currents agree although a voltage lies on the very end of a piece."""
        found = self.regions_at(volts)
        for element, at, region, other in zip(self.elements, self.places, regions, found, strict=True):
            if region != other and not _meet(element, at, (region, other), volts):
                return False
        return True

    def walk(self) -> _Rest | None:
        """Walk from rest, switching one element at a time; None where it does not arrive."""
        here: list[float] = [0.0] * len(self.base)
        regions = self.regions_at(here)
        for _ in range(SWITCHES):
            try:
                there, factors = self.linear(regions)
            except FloatingNodeError:
                return None
            part, which, after = self._first_crossing(regions, here, there)
            if which < 0:
                return _Rest(there, regions, "walked", factors) if self.touches(regions, there) else None
            here = [a + part * (b - a) for a, b in zip(here, there, strict=True)]
            regions = (*regions[:which], after, *regions[which + 1 :])
        return None

    def _first_crossing(
        self, regions: tuple[int, ...], here: Sequence[float], there: Sequence[float]
    ) -> tuple[float, int, int]:
        """Return how far the first element to leave its region lets one go, its number (-1 for none), and its next."""
        part, which, after = 1.0, -1, -1
        for k, (element, at) in enumerate(zip(self.elements, self.places, strict=True)):
            t, region = element.crossing(at, regions[k], here, there)
            if t < part:
                part, which, after = t, k, region
        return part, which, after

    def try_all(self) -> _Rest:
        """Try every combination of regions."""
        if prod(e.regions for e in self.elements) <= COMBINATIONS:
            for regions in product(*(range(e.regions) for e in self.elements)):
                try:
                    volts, factors = self.linear(regions)
                except FloatingNodeError:
                    continue
                if self.touches(regions, volts):
                    return _Rest(volts, regions, "tried", factors)
        raise NoOperatingPointError(message("no-operating-point", points=self.names[1:]))

    def _eliminate(self, rows: Rows) -> None:
        """Eliminate the nodes from the last to the first, in place; each row's diagonal then holds its pivot."""
        for k in range(len(rows) - 1, 0, -1):
            row = rows[k][:k]
            pivot = -sum(row)
            if not -INFINITE < pivot < INFINITE or pivot == 0.0:
                raise FloatingNodeError(message("floating-node", point=self.names[k]))
            rows[k][k] = pivot
            for i in range(1, k):
                target = rows[i]
                factor = target[k]
                if factor != 0.0:
                    factor /= pivot
                    target[k] = factor
                    for j, r in enumerate(row):
                        if r != 0.0:
                            target[j] -= factor * r


def _substituted(rows: Rows, push: Sequence[float]) -> list[float]:
    """Return the voltages for the eliminated equations and the currents pushed into the nodes."""
    size = len(rows)
    right = list(push)
    for k in range(size - 1, 0, -1):
        amount = right[k]
        if amount != 0.0:
            for i in range(1, k):
                right[i] -= rows[i][k] * amount
    volts = [0.0] * size
    for k in range(1, size):
        row = rows[k]
        total = right[k]
        for j in range(1, k):
            total -= row[j] * volts[j]
        volts[k] = total / row[k]
    return volts


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
