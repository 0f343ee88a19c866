"""A solved circuit: the voltage of every point, and what the circuit would do under a meter or a small change.

Rules
-----
1. A point that was eliminated has the weighted mean of its neighbours' voltages (`steadyhead.loop.network`).
2. What a meter, or an element that changes a little, does is one substitution in the eliminated equations: exact as
   long as no element leaves its region.
3. A point that nothing ties to a voltage has none, and is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from steadyhead.errors import FloatingNodeError
from steadyhead.loop.elements import Element
from steadyhead.loop.elimination import Steps, substituted
from steadyhead.loop.network import Eliminated
from steadyhead.messages import message

Places = tuple[tuple[int, ...], ...]


class Operation(NamedTuple):
    """A circuit at rest: the voltage of every point, and what the circuit would do under a meter.

    Parameters
    ----------
    volts
        Voltage of each node number to common [V].
    regions
        The region of each element.
    way
        How it was found: ``direct``, ``walked`` or ``tried``.
    numbers
        Number of each point that is an element's terminal.
    elements, places
        The elements, and for each the numbers of its nodes.
    taken
        The points that were eliminated, in that order.
    steps
        The eliminated equations.
    """

    volts: Sequence[float]
    regions: tuple[int, ...]
    way: str
    numbers: dict[str, int]
    elements: tuple[Element, ...]
    places: Places
    taken: dict[str, Eliminated]
    steps: Steps

    def volt(self, node: str) -> float:
        """Return a point's voltage to common [V].

        Raises
        ------
        FloatingNodeError
            Nothing ties this point to a voltage.
        """
        known = self.numbers.get(node)
        return self._volt(node, self.volts) if known is None else self.volts[known]

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
        first, second = self.numbers.get(red), self.numbers.get(black)
        if first is not None and second is not None:
            push = [0.0] * len(self.volts)
            push[first] += 1.0
            push[second] -= 1.0
            risen = substituted(self.steps, push)
            return max(0.0, risen[first] - risen[second])
        raised = self._response({red: 1.0, black: -1.0})
        return max(0.0, raised[red] - raised[black])

    def pushed(self, node: str, amperes: float) -> Operation:
        """Return where the circuit comes to rest when a small current is pushed into a terminal [A]."""
        push = [0.0] * len(self.volts)
        push[self.numbers[node]] += amperes
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
        risen = substituted(self.steps, push)
        volts = tuple([v + r for v, r in zip(self.volts, risen, strict=True)])
        return Operation(
            volts, self.regions, self.way, self.numbers, self.elements, self.places, self.taken, self.steps
        )

    def currents(self) -> list[tuple[float, ...]]:
        """Return, for each element, the current that leaves each of its nodes into it [A]."""
        return [e.currents(at, self.volts) for e, at in zip(self.elements, self.places, strict=True)]

    def _volt(self, node: str, volts: Sequence[float]) -> float:
        known = self.numbers.get(node)
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
            if name not in self.numbers:
                raise FloatingNodeError(message("floating-node", point=name))
            push[self.numbers[name]] += amount
        risen = substituted(self.steps, push)
        return {name: self._risen(name, risen, local) for name in asked}

    def _risen(self, node: str, risen: Sequence[float], local: dict[str, float]) -> float:
        known = self.numbers.get(node)
        if known is not None:
            return risen[known]
        around = sum(share * self._risen(name, risen, local) for name, share in self.taken[node].weights)
        return around + local.get(node, 0.0)
