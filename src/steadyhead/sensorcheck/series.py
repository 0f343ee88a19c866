"""Zero-corrected series, as a German guideline for calibrating pressure gauges reports them.

Definitions
-----------
A *series* is one way through the levels: M1 up, M2 down, M3 up, M4 down, ... Each is freed of its own zero: the error
at the lowest level of its cycle as it began.

==================  ==================================================================================================
zero deviation f0   max |error at the lowest level after the cycle - error there before it|
hysteresis h        at each level, mean over the cycles of |down - up|, each freed of its zero; the greatest of them
repeatability b'    greatest |difference| at one level between two series of one direction, each freed of its zero
==================  ==================================================================================================

Rules
-----
1. A cycle counts where its lowest level was read going up, at its beginning.
2. What cannot be told is None: without a cycle that came back to its zero, without two cycles.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from steadyhead.figures import Figure
from steadyhead.published.source import Source
from steadyhead.sensorcheck.errors import Level
from steadyhead.sensorcheck.run import Direction

DKD = Source(cite="DKD-R 6-1:2014, Calibration of pressure gauges", locator="evaluation of series", seen="memory")
_WAYS: tuple[Direction, Direction] = ("up", "down")


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesFigures:
    """What the series say, each [Pa] or None."""

    zero_deviation: Figure | None
    hysteresis: Figure | None
    repeatability: Figure | None


#: Errors of one series, by level: its place among the levels.
_Series = Mapping[int, Figure]


def series_figures(levels: Sequence[Level]) -> SeriesFigures:
    """Return what the zero-corrected series of a run say.

    Parameters
    ----------
    levels
        The levels of a run, lowest first.

    References
    ----------
    DKD-R 6-1:2014 (from memory: the definitions were not seen).
    """
    cycles = sorted({each.cycle for level in levels for each in level.points})
    every = {(cycle, way): _series(levels, cycle, way) for cycle in cycles for way in _WAYS}
    zeros = {cycle: every[cycle, "up"][0] for cycle in cycles if 0 in every[cycle, "up"]}
    return SeriesFigures(
        zero_deviation=_zero_deviation(every, zeros), hysteresis=_hysteresis(every, zeros, len(levels)),
        repeatability=_repeatability(every, zeros),
    )  # fmt: skip


def _series(levels: Sequence[Level], cycle: int, way: Direction) -> _Series:
    found: dict[int, Figure] = {}
    for place, level in enumerate(levels):
        for each in level.towards(way):
            if each.cycle == cycle:
                found.setdefault(place, each.error)
    return found


def _freed(name: str, error: Figure, zero: Figure) -> Figure:
    return Figure(
        name=name, value=error.value - zero.value, dimension="pressure", formula="error - zero of the series",
        inputs=(error, zero), source=DKD,
    )  # fmt: skip


_Every = Mapping[tuple[int, Direction], _Series]


def _zero_deviation(every: _Every, zeros: Mapping[int, Figure]) -> Figure | None:
    found = [(every[cycle, "down"][0], zero) for cycle, zero in zeros.items() if 0 in every[cycle, "down"]]
    if not found:
        return None
    after, before = max(found, key=lambda pair: abs(pair[0].value - pair[1].value))
    return Figure(
        name="zero-deviation", value=abs(after.value - before.value), dimension="pressure",
        formula="max |error at the lowest level after a cycle - before it|", inputs=(after, before), source=DKD,
    )  # fmt: skip


def _hysteresis(every: _Every, zeros: Mapping[int, Figure], count: int) -> Figure | None:
    candidates = [found for place in range(1, count) if (found := _hysteresis_at(every, zeros, place)) is not None]
    return max(candidates, key=lambda each: each.value, default=None)


def _hysteresis_at(every: _Every, zeros: Mapping[int, Figure], place: int) -> Figure | None:
    """Return the mean over the cycles of |down - up| at a level; the zero of a cycle is the same for both ways."""
    pairs = [
        (_freed("freed-down", every[cycle, "down"][place], zero), _freed("freed-up", every[cycle, "up"][place], zero))
        for cycle, zero in zeros.items()
        if place in every[cycle, "down"] and place in every[cycle, "up"]
    ]
    if not pairs:
        return None
    return Figure(
        name="hysteresis-of-series", value=sum(abs(down.value - up.value) for down, up in pairs) / len(pairs),
        dimension="pressure", formula="mean |freed-down - freed-up| over the cycles",
        inputs=tuple(each for pair in pairs for each in pair), source=DKD,
    )  # fmt: skip


def _repeatability(every: _Every, zeros: Mapping[int, Figure]) -> Figure | None:
    found = list(_differences(every, zeros))
    if not found:
        return None
    one, other = max(found, key=lambda pair: abs(pair[0].value - pair[1].value))
    return Figure(
        name="repeatability-of-series", value=abs(one.value - other.value), dimension="pressure",
        formula="max |difference of two series of one direction, each freed of its zero|", inputs=(one, other),
        source=DKD,
    )  # fmt: skip


def _differences(every: _Every, zeros: Mapping[int, Figure]) -> Iterator[tuple[Figure, Figure]]:
    for way in _WAYS:
        for one, other in combinations(zeros, 2):
            for place in every[one, way].keys() & every[other, way].keys():
                yield (_freed("freed-error", every[one, way][place], zeros[one]),
                       _freed("freed-error", every[other, way][place], zeros[other]))  # fmt: skip
