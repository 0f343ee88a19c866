"""What a three-wire sensor's electronics does at its signal pin: a driven voltage, or a current that it sends.

Rules
-----
1. What an output sources comes out of its supply pin; what it sinks goes to its common pin. Nothing comes from nowhere:
   an output without supply, or with its polarity reversed, drives nothing.
2. Both are made of straight pieces, as `steadyhead.loop.elements` wants them.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from typing import NamedTuple

from steadyhead.loop.elements import NEVER, Crossing, Rows, leaves

#: Of a sent current, what is left of its slope once it is sent in full.
SLIGHT = 1e-4

#: Ways to drive: sinking all it can, sinking, sourcing, sourcing all it can.
_SINKS_ALL, _SINKS, _SOURCES, _SOURCES_ALL = range(4)


class OutputStage(NamedTuple):
    """A sensor's voltage output: it drives the signal pin towards a target, within what it can source and sink.

    The target follows the volts between the sensor's own supply and common pins by straight pieces. Below the first
    break nothing is driven, since its transistors do not conduct yet; from there to the second the
    limits grow from nothing to `source_a` and `sink_a`.

    Parameters
    ----------
    supply, signal, common
        Node names of the three pins.
    breaks
        Supply volts at which the target's pieces part, rising, the first one that of the least that drives [V].
    targets
        Target volts above the common pin for the pieces above each break: slope, and volts at no supply [V].
    siemens
        One over the output resistance [S].
    source_a, sink_a
        Largest current out of and into the signal pin [A].

    Notes
    -----
    Region 0 drives nothing; the others are the target's pieces times the four ways to drive.
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
        """Return the number of target pieces times the four ways to drive, and one for driving nothing."""
        return 4 * len(self.targets) + 1

    @property
    def start(self) -> int:
        """Return: awake, and sourcing."""
        return 4 * len(self.targets) - 1

    def region(self, at: Sequence[int], volts: Sequence[float]) -> int:
        """Return target piece and way of driving in one number."""
        s, g, c = at
        common = volts[c]
        across = volts[s] - common
        piece = bisect_left(self.breaks, across)
        if piece == 0:
            return 0
        slope, level = self.targets[piece - 1]
        wish = self.siemens * (slope * across + level - (volts[g] - common))
        awake = self._awake(across) if piece == 1 else 1.0
        if wish > 0.0:
            return 4 * piece - (0 if wish > self.source_a * awake else 1)
        return 4 * piece - (2 if wish > -self.sink_a * awake else 3)

    def _line(self, piece: int, way: int) -> tuple[float, float, float]:
        """Return what a volt from supply to common, and one from signal to common, adds to the current, and its rest.

        The three numbers are in siemens, siemens and ampere; the current is that out of the signal pin.
        """
        if _SINKS <= way <= _SOURCES:
            slope, level = self.targets[piece - 1]
            siemens = self.siemens
            return (siemens * slope, -siemens, siemens * level)
        limit = self.source_a if way == _SOURCES_ALL else -self.sink_a
        if piece > 1:
            return (0.0, 0.0, limit)
        slope = limit / (self.breaks[1] - self.breaks[0])
        return (slope, 0.0, -slope * self.breaks[0])

    def _awake(self, across: float) -> float:
        """Return what part of its limits it can drive between the first break and the second."""
        return (across - self.breaks[0]) / (self.breaks[1] - self.breaks[0])

    def stamp(self, at: Sequence[int], region: int, rows: Rows, push: list[float]) -> None:
        """Add the driven current: from the supply pin while it sources, from the common pin while it sinks."""
        if region == 0:
            return
        s, g, c = at
        piece, way = (region + 3) // 4, (region - 1) % 4
        by_supply, by_signal, rest = self._line(piece, way)
        by_common = -by_supply - by_signal
        if way >= _SOURCES:
            row = rows[s]
            row[g] += by_signal
            row[c] += by_common
            push[s] -= rest
        else:
            row = rows[c]
            row[s] += by_supply
            row[g] += by_signal
            push[c] -= rest
        row = rows[g]
        row[s] -= by_supply
        row[c] -= by_common
        push[g] += rest

    def crossing(self, at: Sequence[int], region: int, old: Sequence[float], new: Sequence[float]) -> Crossing:
        """Return where the target piece or the way of driving changes first."""
        s, g, c = at
        before, after = old[s] - old[c], new[s] - new[c]
        if region == 0:
            part = leaves(self.breaks, 0, before, after)[0]
            signal = (1.0 - part) * (old[g] - old[c]) + part * (new[g] - new[c]) if part <= 1.0 else 0.0
            return NEVER if part > 1.0 else (part, 1 + (_SINKS_ALL if signal > 0.0 else _SOURCES_ALL))
        piece, way = (region + 3) // 4, (region - 1) % 4
        part, entered = leaves(self.breaks, piece, before, after)
        best = NEVER if entered < 0 else (part, 4 * entered - 3 + way if entered else 0)
        here = self._beyond(piece, before, old[g] - old[c])
        there = self._beyond(piece, after, new[g] - new[c])
        if way < _SOURCES_ALL and there[way] > 0.0:
            best = min(best, (_zero(here[way], there[way]), region + 1))
        if way > _SINKS_ALL and there[way - 1] < 0.0:
            best = min(best, (_zero(here[way - 1], there[way - 1]), region - 1))
        return best

    def _beyond(self, piece: int, across: float, signal: float) -> tuple[float, float, float]:
        """Return how far the wished current is above the most it sinks, above none, and above the most it sources."""
        slope, level = self.targets[piece - 1]
        wish = self.siemens * (slope * across + level - signal)
        awake = self._awake(across) if piece == 1 else 1.0
        return (wish + self.sink_a * awake, wish, wish - self.source_a * awake)

    def currents(self, at: Sequence[int], volts: Sequence[float]) -> tuple[float, ...]:
        """Return the currents that leave the nodes supply, signal and common into the stage."""
        region = self.region(at, volts)
        if region == 0:
            return (0.0, 0.0, 0.0)
        s, g, c = at
        by_supply, by_signal, rest = self._line((region + 3) // 4, (region - 1) % 4)
        common = volts[c]
        out = by_supply * (volts[s] - common) + by_signal * (volts[g] - common) + rest
        return (out, -out, 0.0) if out > 0.0 else (0.0, -out, out)


class SourcedCurrent(NamedTuple):
    """A three-wire current output: it sends a current out of the signal pin while it has volts to work with.

    The current is the smaller of two ramps. One rises by the volts from supply to signal pin, up to the current that
    the pressure asks for; the other by the volts from supply to common pin, which feed its electronics.

    Parameters
    ----------
    supply, signal, common
        Node names of the three pins.
    amperes
        Current that the pressure asks for [A].
    headroom_v
        Volts from supply to signal pin at which it can still send that current [V].
    wakes_v, works_v
        Volts from supply to common pin at which it begins to send, and at which it could send all [V].

    Notes
    -----
    Regions 0 to 2 are the pieces of the first ramp where it rules, 3 and 4 those of the second.
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
        """Return the number of pieces of both ramps."""
        return 5

    @property
    def start(self) -> int:
        """Return: all of the current, ruled by the first ramp."""
        return 2

    def _line(self, region: int) -> tuple[float, float]:
        """Return slope [S] and current at zero volts [A] of a region's ramp."""
        if region == 3:
            return (0.0, 0.0)
        if region == 4:
            slope = self.amperes / (self.works_v - self.wakes_v)
            return (slope, -slope * self.wakes_v)
        slope = self.amperes / self.headroom_v
        if region == 1:
            return (slope, 0.0)
        slope *= SLIGHT
        return (slope, 0.0 if region == 0 else self.amperes - slope * self.headroom_v)

    def _pieces(self, headroom: float, feed: float) -> tuple[int, int]:
        """Return in which piece of each ramp the volts to the signal pin and to the common pin lie."""
        return bisect_left((0.0, self.headroom_v), headroom), 3 if feed <= self.wakes_v else 4

    def _ruling(self, at: Sequence[int], volts: Sequence[float]) -> tuple[float, int]:
        """Return the smaller of both ramps' currents and its region."""
        s, g, c = at
        supply = volts[s]
        headroom, feed = supply - volts[g], supply - volts[c]
        first, second = self._pieces(headroom, feed)
        slope, level = self._line(first)
        slope2, level2 = self._line(second)
        return min((slope * headroom + level, first), (slope2 * feed + level2, second))

    def region(self, at: Sequence[int], volts: Sequence[float]) -> int:
        """Return the ramp that rules and its piece."""
        return self._ruling(at, volts)[1]

    def stamp(self, at: Sequence[int], region: int, rows: Rows, push: list[float]) -> None:
        """Add the current from supply to signal pin, controlled by the ramp that rules."""
        s, g, c = at
        slope, level = self._line(region)
        rows[g][s] -= slope
        if region < 3:
            rows[s][g] -= slope
        else:
            rows[s][c] -= slope
            rows[g][c] += slope
        push[s] -= level
        push[g] += level

    def crossing(self, at: Sequence[int], region: int, old: Sequence[float], new: Sequence[float]) -> Crossing:
        """Return where a piece ends or the other ramp takes over."""
        s, g, c = at
        headroom, feed = (old[s] - old[g], new[s] - new[g]), (old[s] - old[c], new[s] - new[c])
        own, others, base = (headroom, (3, 4), feed) if region < 3 else (feed, (0, 1, 2), headroom)
        if region < 3:
            best = leaves((0.0, self.headroom_v), region, *own)
        else:
            part, entered = leaves((self.wakes_v,), region - 3, *own)
            best = (part, entered + 3) if entered >= 0 else NEVER
        slope, level = self._line(region)
        for other in others:
            slope2, level2 = self._line(other)
            here = slope2 * base[0] + level2 - slope * own[0] - level
            there = slope2 * base[1] + level2 - slope * own[1] - level
            part = _zero(here, there) if there < 0.0 else best[0]
            if part < best[0] and other in self._pieces(*[base[0] + part * (base[1] - base[0])] * 2):
                best = (part, other)
        return best

    def currents(self, at: Sequence[int], volts: Sequence[float]) -> tuple[float, ...]:
        """Return the currents that leave the nodes supply, signal and common into the output."""
        out = self._ruling(at, volts)[0]
        return (out, -out, 0.0)


def _zero(here: float, there: float) -> float:
    """Return the part of the way at which a quantity passes zero; 0 where it has passed already."""
    return max(0.0, min(1.0, here / (here - there))) if here != there else 0.0
