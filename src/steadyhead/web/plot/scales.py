"""An axis: where a figure stands on it, and which round figures are written beside it.

Rules
-----
1. A scale is straight: equal steps of the figure are equal steps on the picture.
2. Ticks are whole multiples of 1, 2 or 5 times a power of ten, in the unit that is shown, and none lies outside.
3. An axis is never empty: where both ends are equal it is opened to either side.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, isfinite, log10

from steadyhead.quantities import spell_figure

_STEPS = (1.0, 2.0, 5.0, 10.0, 20.0)
_HAIR = 1e-9  #: of a step: what arithmetic in floats may be off


@dataclass(frozen=True, slots=True)
class Scale:
    """A straight axis: the figure `low` stands at `start`, `high` at `end` [units of the picture]."""

    low: float
    high: float
    start: float
    end: float

    def at(self, figure: float) -> float:
        """Return where a figure stands.

        >>> Scale(0.0, 100.0, 40.0, 340.0).at(50.0), Scale(-1.0, 1.0, 200.0, 20.0).at(0.0)
        (190.0, 110.0)
        """
        return self.start + (self.end - self.start) * (figure - self.low) / (self.high - self.low)


def opened(figures: tuple[float, ...], room: float = 0.08) -> tuple[float, float]:
    """Return ends that hold every figure, with some room on either side.

    Parameters
    ----------
    figures
        What must lie on the axis, at least one.
    room
        What is added on either side, as a share of what they span.

    Examples
    --------
    >>> opened((0.0, 100.0), 0.1), opened((3.0,))
    ((-10.0, 110.0), (2.0, 4.0))
    """
    low, high = min(figures), max(figures)
    if high - low <= _HAIR * max(abs(low), abs(high)):
        half = abs(high) / 3.0 or 1.0
        return low - half, high + half
    return low - room * (high - low), high + room * (high - low)


def step_of(low: float, high: float, most: int) -> float:
    """Return the least round distance between ticks at which at most `most` of them lie between two ends.

    >>> step_of(0.0, 100.0, 6), step_of(-1.3, 1.3, 6), step_of(0.0, 16.0, 5)
    (20.0, 0.5, 5.0)
    """
    power = 10.0 ** floor(log10((high - low) / most))
    return next(step * power for step in _STEPS if len(_multiples(low, high, step * power)) <= most)


def _multiples(low: float, high: float, step: float) -> range:
    return range(ceil(low / step - _HAIR), floor(high / step + _HAIR) + 1)


def ticks(low: float, high: float, most: int = 6) -> tuple[float, ...]:
    """Return the round figures between two ends, both included, rising.

    >>> ticks(0.0, 100.0), ticks(-1.3, 1.3), ticks(0.0, 16.0, 5)
    ((0.0, 20.0, 40.0, 60.0, 80.0, 100.0), (-1.0, -0.5, 0.0, 0.5, 1.0), (0.0, 5.0, 10.0, 15.0))
    """
    if not (isfinite(low) and isfinite(high) and high > low):
        return ()
    step = step_of(low, high, most)
    return tuple(float(f"{k * step:.12g}") for k in _multiples(low, high, step))


def written(tick: float) -> str:
    """Return a tick as it is written, with a true minus.

    >>> written(-0.5), written(20.0), written(0.0)
    ('−0.5', '20', '0')
    """
    return spell_figure(tick, digits=6).replace("-", "\u2212")
