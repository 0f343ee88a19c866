"""The parts of a loop that do not obey Ohm's law, each as straight pieces of current against voltage.

Rules
-----
1. An element's current depends on differences of node voltages only, never on a voltage by itself.
2. It is continuous and made of straight pieces, so that every solved circuit is exact in its piece.
3. A piece never has a negative slope along the element's own voltage: a part of the loop is no oscillator. The one
   exception is the output stage, which is driven by its supply.
4. Where a part limits its current, the piece keeps a slight slope, as the part itself does; no circuit becomes
   undetermined because two limits face each other.
5. Node numbers are those of one compiled circuit; 0 is the controller's common.

The vocabulary: ``volts[k]`` is node k's voltage to common, ``rows[k][j]`` what one volt at node j draws out of node k
(its own column is left empty: each row sums to zero), ``push[k]`` the current pushed into node k.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

Rows = list[list[float]]
Crossing = tuple[float, int]
NEVER: Crossing = (float("inf"), -1)

#: What is left of a slope once a part limits its current.
SLIGHT = 1e-4


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


@dataclass(frozen=True, slots=True)
class Branch:
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
        return bisect_left(self.breaks, volts[at[0]] - volts[at[1]])

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
        before = old[at[0]] - old[at[1]]
        after = new[at[0]] - new[at[1]]
        return _leaves(self.breaks, region, before, after)

    def currents(self, at: Sequence[int], volts: Sequence[float]) -> tuple[float, ...]:
        """Return the current out of `a`, and out of `b`."""
        volt = volts[at[0]] - volts[at[1]]
        slope, current = self.pieces[bisect_left(self.breaks, volt)]
        through = slope * volt + current
        return (through, -through)


def chain(a: str, b: str, points: Sequence[tuple[float, float]], slopes: tuple[float, float], start: int) -> Branch:
    """Return the branch that runs through the (volt, ampere) `points` and goes on with the outer `slopes` [S].

    >>> chain("a", "b", [(0.0, 0.0), (1.0, 0.5)], (0.0, 0.1), 1).pieces
    ((0.0, 0.0), (0.5, 0.0), (0.1, 0.4))
    """
    inner = [
        (i1 - i0) / (v1 - v0) for (v0, i0), (v1, i1) in zip(points, points[1:], strict=False)
    ]
    all_slopes = (slopes[0], *inner, slopes[1])
    anchors = (points[0], *points)
    pieces = tuple((g, i - g * v) for g, (v, i) in zip(all_slopes, anchors, strict=True))
    return Branch(a, b, tuple(v for v, _ in points), pieces, start)


@dataclass(frozen=True, slots=True)
class OutputStage:
    """A sensor's output: it drives the signal pin towards a target, within what it can source and sink.

    The target follows the volts between the sensor's own supply and common pins by straight pieces. What the stage
    sources comes out of the supply pin, what it sinks goes to the common pin.

    Parameters
    ----------
    supply, signal, common
        Node names of the three pins.
    breaks, targets
        Target volts above the common pin: pieces (slope, volts at zero) of the supply volts, parted at `breaks`.
    siemens
        One over the output resistance [S].
    source_a, sink_a
        Largest current out of and into the signal pin [A].
    """

    supply: str
    signal: str
    common: str
    breaks: tuple[float, ...]
    targets: tuple[tuple[float, float], ...]
    siemens: float
    source_a: float
    sink_a: float

    @property
    def nodes(self) -> tuple[str, ...]:
        """Return the three node names."""
        return (self.supply, self.signal, self.common)

    @property
    def regions(self) -> int:
        """Return the number of target pieces times the four ways to drive."""
        return 4 * len(self.targets)

    @property
    def start(self) -> int:
        """Return: awake, and sourcing."""
        return 4 * (len(self.targets) - 1) + 2

    @property
    def _limits(self) -> tuple[float, float, float]:
        return (-self.sink_a, 0.0, self.source_a)

    def _wish(self, piece: int, at: Sequence[int], volts: Sequence[float]) -> float:
        """Return the current that an unlimited stage would source [A]."""
        slope, level = self.targets[piece]
        common = volts[at[2]]
        return self.siemens * (slope * (volts[at[0]] - common) + level - (volts[at[1]] - common))

    def region(self, at: Sequence[int], volts: Sequence[float]) -> int:
        """Return target piece and way of driving in one number."""
        piece = bisect_left(self.breaks, volts[at[0]] - volts[at[2]])
        return 4 * piece + bisect_left(self._limits, self._wish(piece, at, volts))

    def stamp(self, at: Sequence[int], region: int, rows: Rows, push: list[float]) -> None:
        """Add the driven current: from the supply pin while it sources, from the common pin while it sinks."""
        s, g, c = at
        piece, way = divmod(region, 4)
        slope, level = self.targets[piece]
        siemens = self.siemens
        rest = siemens * level
        if way == 0 or way == 3:
            siemens *= SLIGHT
            edge = -self.sink_a if way == 0 else self.source_a
            rest = SLIGHT * rest + (1.0 - SLIGHT) * edge
        origin = s if way >= 2 else c
        # the current siemens * (slope * (Vs - Vc) - (Vg - Vc)) + rest leaves `origin` and enters the signal pin
        by_supply, by_signal, by_common = siemens * slope, -siemens, siemens * (1.0 - slope)
        row = rows[origin]
        if origin == s:
            row[g] += by_signal
            row[c] += by_common
        else:
            row[s] += by_supply
            row[g] += by_signal
        row = rows[g]
        row[s] -= by_supply
        row[c] -= by_common
        push[origin] -= rest
        push[g] += rest

    def crossing(self, at: Sequence[int], region: int, old: Sequence[float], new: Sequence[float]) -> Crossing:
        """Return where the target piece or the way of driving changes first."""
        piece, way = divmod(region, 4)
        by_target = _leaves(self.breaks, piece, old[at[0]] - old[at[2]], new[at[0]] - new[at[2]])
        by_limit = _leaves(self._limits, way, self._wish(piece, at, old), self._wish(piece, at, new))
        if by_target[0] < by_limit[0]:
            return (by_target[0], 4 * by_target[1] + way)
        return (by_limit[0], 4 * piece + by_limit[1]) if by_limit[1] >= 0 else NEVER

    def driven(self, at: Sequence[int], volts: Sequence[float]) -> float:
        """Return the current out of the signal pin [A]; negative while it sinks."""
        wish = self._wish(bisect_left(self.breaks, volts[at[0]] - volts[at[2]]), at, volts)
        held = min(max(wish, -self.sink_a), self.source_a)
        return held + SLIGHT * (wish - held)

    def currents(self, at: Sequence[int], volts: Sequence[float]) -> tuple[float, ...]:
        """Return the currents that leave the nodes supply, signal and common into the stage."""
        out = self.driven(at, volts)
        return (max(out, 0.0), -out, min(out, 0.0))


@dataclass(frozen=True, slots=True)
class SourcedCurrent:
    """A three-wire current output: it sends a current out of the signal pin while it has volts to work with.

    The current is the smaller of two ramps: one by the volts that it keeps for itself between its supply and signal
    pins, one by the volts between its supply and common pins, which feed its electronics.

    Parameters
    ----------
    supply, signal, common
        Node names of the three pins.
    amperes
        Current that the pressure asks for [A].
    headroom_v
        Volts from supply to signal pin at which it can still send that current [V].
    wakes_v, works_v
        Volts from supply to common pin at which it begins to send, and at which it sends all [V].
    """

    supply: str
    signal: str
    common: str
    amperes: float
    headroom_v: float
    wakes_v: float
    works_v: float

    @property
    def nodes(self) -> tuple[str, ...]:
        """Return the three node names."""
        return (self.supply, self.signal, self.common)

    @property
    def regions(self) -> int:
        """Return three pieces of each ramp, for the ramp that rules."""
        return 6

    @property
    def start(self) -> int:
        """Return: all of the current, ruled by the headroom ramp."""
        return 2

    def _ramp(self, which: int) -> tuple[float, float]:
        return (0.0, self.headroom_v) if which == 0 else (self.wakes_v, self.works_v)

    def _line(self, region: int) -> tuple[float, float]:
        """Return slope [S] and current at zero volts [A] of a region's ramp."""
        which, piece = divmod(region, 3)
        low, high = self._ramp(which)
        slope = self.amperes / (high - low)
        if piece == 1:
            return (slope, -slope * low)
        flat = slope * SLIGHT
        return (flat, -flat * low) if piece == 0 else (flat, self.amperes - flat * high)

    def _value(self, which: int, volt: float) -> tuple[float, int]:
        region = 3 * which + bisect_left(self._ramp(which), volt)
        slope, level = self._line(region)
        return (slope * volt + level, region)

    def region(self, at: Sequence[int], volts: Sequence[float]) -> int:
        """Return the ramp that rules and its piece."""
        s, g, c = (volts[k] for k in at)
        return min(self._value(0, s - g), self._value(1, s - c))[1]

    def stamp(self, at: Sequence[int], region: int, rows: Rows, push: list[float]) -> None:
        """Add the current from supply to signal pin, controlled by the ramp that rules."""
        s, g, c = at
        slope, level = self._line(region)
        other = g if region < 3 else c
        rows[s][other] -= slope
        rows[g][s] -= slope
        if other != g:
            rows[g][other] += slope
        push[s] -= level
        push[g] += level

    def crossing(self, at: Sequence[int], region: int, old: Sequence[float], new: Sequence[float]) -> Crossing:
        """Return where a piece ends or the other ramp takes over."""
        s0, g0, c0 = (old[k] for k in at)
        s1, g1, c1 = (new[k] for k in at)
        which, piece = divmod(region, 3)
        own0, own1 = (s0 - g0, s1 - g1) if which == 0 else (s0 - c0, s1 - c1)
        first, after = _leaves(self._ramp(which), piece, own0, own1)
        best: Crossing = (first, 3 * which + after) if after >= 0 else NEVER
        slope, level = self._line(region)
        base0, base1 = (s0 - c0, s1 - c1) if which == 0 else (s0 - g0, s1 - g1)
        for other in range(3 * (1 - which), 3 * (1 - which) + 3):
            slope2, level2 = self._line(other)
            gap0 = slope2 * base0 + level2 - slope * own0 - level
            gap1 = slope2 * base1 + level2 - slope * own1 - level
            if gap0 > 0.0 > gap1:
                t = gap0 / (gap0 - gap1)
                volt = base0 + t * (base1 - base0)
                if t < best[0] and bisect_left(self._ramp(1 - which), volt) == other - 3 * (1 - which):
                    best = (t, other)
        return best

    def currents(self, at: Sequence[int], volts: Sequence[float]) -> tuple[float, ...]:
        """Return the currents that leave the nodes supply, signal and common into the output."""
        s, g, c = (volts[k] for k in at)
        out = min(self._value(0, s - g), self._value(1, s - c))[0]
        return (out, -out, 0.0)


def _leaves(breaks: Sequence[float], piece: int, before: float, after: float) -> Crossing:
    """Return the part of the way at which a value leaves its piece, and the piece it enters."""
    if after > before and piece < len(breaks) and after > breaks[piece]:
        return (max(0.0, (breaks[piece] - before) / (after - before)), piece + 1)
    if after < before and piece > 0 and after <= breaks[piece - 1]:
        return (max(0.0, (before - breaks[piece - 1]) / (before - after)), piece - 1)
    return NEVER
