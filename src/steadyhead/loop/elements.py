"""The parts of a loop that do not obey Ohm's law, each as straight pieces of current against voltage.

Rules
-----
1. An element's current depends on differences of node voltages only, never on a voltage by itself.
2. It is continuous and made of straight pieces, so that every solved circuit is exact in its piece.
3. A piece never has a negative slope along the element's own voltage: a part of the loop is no oscillator. The one
   exception is a sensor's output stage, which is driven by its supply (`steadyhead.loop.stages`).
4. No element gives out power but the supply and a signal source.
5. Node numbers are those of one compiled circuit; 0 is the controller's common.

The vocabulary: ``volts[k]`` is node k's voltage to common, ``rows[k][j]`` minus what one volt at node j pushes into
node k (its own column is left empty: each row sums to zero), ``push[k]`` the current pushed into node k.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple, Protocol

Rows = list[list[float]]
Crossing = tuple[float, int]
#: A region that is not left on the way.
NEVER: Crossing = (float("inf"), -1)


class Element(Protocol):
    """What the solver asks of a part that does not obey Ohm's law."""

    @property
    def nodes(self) -> tuple[str, ...]:
        """Names of the nodes that it hangs on."""

    @property
    def regions(self) -> int:
        """How many combinations of pieces it has."""

    @property
    def start(self) -> int:
        """The region of a healthy loop, where the solver looks first."""

    def region(self, at: Sequence[int], volts: Sequence[float]) -> int:
        """Return the region in which these voltages lie."""

    def stamp(self, at: Sequence[int], region: int, rows: Rows, push: list[float]) -> None:
        """Add what the element does in one region to the circuit's equations."""

    def crossing(self, at: Sequence[int], region: int, old: Sequence[float], new: Sequence[float]) -> Crossing:
        """Return how far from `old` to `new` the region is left (0..1), and which region follows."""

    def currents(self, at: Sequence[int], volts: Sequence[float]) -> tuple[float, ...]:
        """Return the current that leaves each of its nodes into the element [A]."""


class Branch(NamedTuple):
    """A two-terminal part: the current from `a` to `b` [A] as straight pieces of the voltage from `a` to `b` [V].

    Parameters
    ----------
    a, b
        Node names.
    breaks
        Voltages at which one piece ends and the next begins, rising [V].
    pieces
        For each piece its slope [S] and its current at zero volts [A]; one more than `breaks`.
    start
        Index of the piece of a healthy loop.
    """

    a: str
    b: str
    breaks: tuple[float, ...]
    pieces: tuple[tuple[float, float], ...]
    start: int

    @property
    def nodes(self) -> tuple[str, ...]:
        """Return the two node names."""
        return (self.a, self.b)

    @property
    def regions(self) -> int:
        """Return the number of pieces."""
        return len(self.pieces)

    def region(self, at: Sequence[int], volts: Sequence[float]) -> int:
        """Return the piece in which the voltage lies."""
        a, b = at
        return bisect_left(self.breaks, volts[a] - volts[b])

    def stamp(self, at: Sequence[int], region: int, rows: Rows, push: list[float]) -> None:
        """Add the piece as a conductance beside a current."""
        a, b = at
        slope, current = self.pieces[region]
        rows[a][b] -= slope
        rows[b][a] -= slope
        push[a] -= current
        push[b] += current

    def crossing(self, at: Sequence[int], region: int, old: Sequence[float], new: Sequence[float]) -> Crossing:
        """Return where the piece is left on the way from old to new voltages."""
        a, b = at
        return leaves(self.breaks, region, old[a] - old[b], new[a] - new[b])

    def currents(self, at: Sequence[int], volts: Sequence[float]) -> tuple[float, ...]:
        """Return the current out of `a`, and out of `b`."""
        a, b = at
        volt = volts[a] - volts[b]
        slope, current = self.pieces[bisect_left(self.breaks, volt)]
        through = slope * volt + current
        return (through, -through)


def chain(a: str, b: str, points: Sequence[tuple[float, float]], slopes: tuple[float, float], start: int) -> Branch:
    """Return the branch that runs through the (volt, ampere) `points` and goes on with the outer `slopes` [S].

    >>> chain("a", "b", [(0.0, 0.0), (1.0, 0.5)], (0.0, 0.1), 1).pieces
    ((0.0, 0.0), (0.5, 0.0), (0.1, 0.4))
    """
    inner = [(i1 - i0) / (v1 - v0) for (v0, i0), (v1, i1) in pairwise(points)]
    anchors = (points[0], *points)
    pieces = [(g, i - g * v) for g, (v, i) in zip((slopes[0], *inner, slopes[1]), anchors, strict=True)]
    return Branch(a, b, tuple([v for v, _ in points]), tuple(pieces), start)


def leaves(breaks: Sequence[float], piece: int, before: float, after: float) -> Crossing:
    """Return the part of the way at which a value leaves its piece, and the piece it enters.

    >>> leaves((1.0, 2.0), 1, 1.5, 3.5)
    (0.25, 2)
    >>> leaves((1.0, 2.0), 1, 1.5, 1.8)
    (inf, -1)
    """
    if after > before and piece < len(breaks) and after > breaks[piece]:
        return (max(0.0, (breaks[piece] - before) / (after - before)), piece + 1)
    if after < before and piece > 0 and after <= breaks[piece - 1]:
        return (max(0.0, (before - breaks[piece - 1]) / (before - after)), piece - 1)
    return NEVER
