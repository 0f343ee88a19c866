"""What a run says of the sensor: its zero, its span, its linearity, its hysteresis and its repeatability, as published.

Definitions
-----------
======================  ==============================================================================================
zero error              mean error at the lower end of the range; where no point stands there, the least-squares line
                        of the mean errors drawn on to it, which is told
span error              error at the upper end less error at the lower one; likewise
non-linearity           greatest deviation of the mean error curve from a line: terminal-based, least squares, or
                        independent; over what was checked
hysteresis              greatest difference between the mean errors of one level coming down and going up
repeatability           greatest spread of errors of one level approached from one direction, over the cycles
inaccuracy              greatest positive and greatest negative error of any single reading
======================  ==============================================================================================

Rules
-----
1. Each is in pascal here; `Characteristics.of_span` gives it as a fraction of the sensor's span.
2. What cannot be told from the points at hand is None: hysteresis without both directions, repeatability without a
   second cycle, linearity with fewer than three levels.
3. Linearity is told over the checked part of the range only; how much that is stands beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from steadyhead.figures import Figure
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.at_sensor import air_told, range_ends
from steadyhead.sensorcheck.errors import (
    IEC,
    SAME_LEVEL,
    Level,
    PointError,
    left_out,
    levels_of,
    part_of,
    point_errors,
    span_figure,
)
from steadyhead.sensorcheck.lines import Fit, Line, least_squares
from steadyhead.sensorcheck.lines_of_linearity import independent_line, terminal_line
from steadyhead.sensorcheck.run import CheckRun

FEWEST_FOR_LINEARITY = 3
_LEAST_SQUARES = Source(
    cite="common practice", locator="least squares of the mean errors, every level alike", seen="memory"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Linearity:
    """Non-linearity against each of the three lines [Pa].

    Parameters
    ----------
    terminal, least_squares, independent
        Greatest deviation, without its sign.
    low, high
        Lowest and highest level that was checked.
    """

    terminal: Figure
    least_squares: Figure
    independent: Figure
    low: Figure
    high: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Characteristics:
    """Everything that a run says of its sensor.

    Parameters
    ----------
    span
        The sensor's span [Pa].
    points
        The error at each usable point, in order.
    levels
        The levels, lowest first.
    zero, sensor_span
        Zero error and span error [Pa]; None with a single level away from both ends.
    linearity
        None with fewer than three levels.
    hysteresis, repeatability
        [Pa], or None.
    most, least
        Greatest error and least (most negative) error of any reading [Pa].
    notes
        What must be said beside them.
    """

    span: Figure
    points: tuple[PointError, ...]
    levels: tuple[Level, ...]
    zero: Figure | None
    sensor_span: Figure | None
    linearity: Linearity | None
    hysteresis: Figure | None
    repeatability: Figure | None
    most: Figure
    least: Figure
    notes: tuple[Message, ...]

    @property
    def worst(self) -> Figure:
        """The greatest error of any reading, whichever its sign."""
        return self.most if abs(self.most.value) >= abs(self.least.value) else self.least

    def of_span(self, figure: Figure) -> Figure:
        """Return one of the figures as a fraction of the sensor's span."""
        return part_of(f"{figure.name}-of-span", figure, self.span)


def characteristics(run: CheckRun) -> Characteristics:
    """Return what a run says of its sensor.

    Raises
    ------
    FitError
        ``no-usable-point``: not one point is usable.

    References
    ----------
    IEC 61298-2:2008 (from memory).
    """
    span = span_figure(run)
    points = point_errors(run)
    levels = levels_of(points, span.value)
    errors = [each.error for each in points]
    notes = (*left_out(run), *air_told(run), *_reach(run, levels, span.value))
    return Characteristics(
        span=span, points=points, levels=levels, zero=_zero(run, levels, span.value),
        sensor_span=_sensor_span(run, levels, span), linearity=_linearity(levels), hysteresis=_hysteresis(levels),
        repeatability=_repeatability(levels), most=_extreme("greatest-error", errors, 1.0),
        least=_extreme("least-error", errors, -1.0), notes=notes,
    )  # fmt: skip


def _extreme(name: str, errors: Sequence[Figure], sign: float) -> Figure:
    """Return the greatest error, or with `sign` below zero the least."""
    found = max(errors, key=lambda each: sign * each.value)
    return Figure(
        name=name, value=found.value, dimension="pressure",
        formula="greatest of all errors" if sign > 0 else "least of all errors", inputs=(found,), source=IEC,
    )  # fmt: skip


# ------------------------------------------------------------ both ends


def _at_end(levels: Sequence[Level], end_pa: float, span_pa: float) -> Level | None:
    near = min(levels, key=lambda each: abs(each.pressure.value - end_pa))
    return near if abs(near.pressure.value - end_pa) <= SAME_LEVEL * span_pa else None


def _reach(run: CheckRun, levels: Sequence[Level], span_pa: float) -> Iterator[Message]:
    """Yield what must be said where the run did not reach an end of the range."""
    low, high = range_ends(run)
    if _at_end(levels, low.value, span_pa) is None:
        yield message("zero-not-reached", lowest=levels[0].pressure.value)
    if _at_end(levels, high.value, span_pa) is None:
        share = (levels[-1].pressure.value - low.value) / span_pa
        yield message("top-not-reached", highest=levels[-1].pressure.value, share=share)


def error_line(levels: Sequence[Level]) -> Fit | None:
    """Return the least-squares line of mean error [Pa] on pressure [Pa]; None with fewer than two levels."""
    if len(levels) < 2:
        return None
    return least_squares([each.pressure.value for each in levels], [each.both.value for each in levels])


def _zero(run: CheckRun, levels: Sequence[Level], span_pa: float) -> Figure | None:
    low = range_ends(run)[0]
    return _error_at("zero-error", levels, low, span_pa)


def _error_at(name: str, levels: Sequence[Level], end: Figure, span_pa: float) -> Figure | None:
    """Return the error at an end of the range: as it was read there, or drawn on to it."""
    here = _at_end(levels, end.value, span_pa)
    if here is not None:
        return Figure(
            name=name, value=here.both.value, dimension="pressure", formula=f"mean-error at {end.name}",
            inputs=(here.both, end), source=IEC,
        )  # fmt: skip
    line = error_line(levels)
    if line is None:
        return None
    return Figure(
        name=name, value=line.at(end.value), dimension="pressure",
        formula=f"least-squares line of mean-error on level, drawn on to {end.name}",
        inputs=(*_curve(levels), end), source=_LEAST_SQUARES,
    )  # fmt: skip


def _sensor_span(run: CheckRun, levels: Sequence[Level], span: Figure) -> Figure | None:
    low, high = range_ends(run)
    zero = _error_at("zero-error", levels, low, span.value)
    top = _error_at("top-error", levels, high, span.value)
    if zero is None or top is None or len(levels) < 2:
        return None
    return Figure(
        name="span-error", value=top.value - zero.value, dimension="pressure", formula="top-error - zero-error",
        inputs=(top, zero), source=IEC,
    )  # fmt: skip


# ------------------------------------------------------------ linearity, hysteresis, repeatability


def _curve(levels: Sequence[Level]) -> tuple[Figure, ...]:
    return tuple(figure for each in levels for figure in (each.pressure, each.both))


def _linearity(levels: Sequence[Level]) -> Linearity | None:
    if len(levels) < FEWEST_FOR_LINEARITY:
        return None
    x, y = [each.pressure.value for each in levels], [each.both.value for each in levels]
    return Linearity(
        terminal=_non_linearity("non-linearity-terminal", "the line through the lowest and the highest level", levels,
                                terminal_line(x, y)),
        least_squares=_non_linearity("non-linearity-least-squares", "the least-squares line", levels,
                                     least_squares(x, y)),
        independent=_non_linearity("non-linearity-independent", "the line that makes it least", levels,
                                   independent_line(x, y)),
        low=levels[0].pressure, high=levels[-1].pressure,
    )  # fmt: skip


def _non_linearity(name: str, which: str, levels: Sequence[Level], line: Line) -> Figure:
    greatest = max(abs(each.both.value - line.at(each.pressure.value)) for each in levels)
    source = _LEAST_SQUARES if "least-squares" in name else IEC
    return Figure(
        name=name, value=greatest, dimension="pressure", formula=f"max |mean-error - {which}|",
        inputs=_curve(levels), source=source,
    )  # fmt: skip


def _hysteresis(levels: Sequence[Level]) -> Figure | None:
    found = [
        (abs(each.down.value - each.up.value), each.up, each.down)
        for each in levels
        if each.up is not None and each.down is not None
    ]
    if not found:
        return None
    greatest, up, down = max(found, key=lambda each: each[0])
    return Figure(
        name="hysteresis", value=greatest, dimension="pressure", formula="max |mean-error-down - mean-error-up|",
        inputs=(up, down), source=IEC,
    )  # fmt: skip


def _repeatability(levels: Sequence[Level]) -> Figure | None:
    groups = [
        [each.error for each in points]
        for level in levels
        for points in (level.towards("up"), level.towards("down"))
        if len({each.cycle for each in points}) > 1
    ]
    if not groups:
        return None
    widest = max(groups, key=_spread)
    return Figure(
        name="repeatability", value=_spread(widest), dimension="pressure",
        formula="max (greatest error - least error) of one level from one direction", inputs=tuple(widest), source=IEC,
    )  # fmt: skip


def _spread(errors: Sequence[Figure]) -> float:
    values = [each.value for each in errors]
    return max(values) - min(values)
