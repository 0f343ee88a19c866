"""A sensor check as a picture: the error of each point against pressure, what is allowed, and how well each is known.

Rules
-----
1. What is allowed is plain paper; what lies outside it is hatched, as everything suspect is in this app.
2. A point that the pressure rose to is a full triangle that points up; one that it fell to is an empty one that points
   down. A line joins the points of one way through the range, from where it turned: unbroken up, broken
   down.
3. The bar through a point is its expanded uncertainty; without one, nobody could work it out.
4. No colour carries meaning alone; the accent marks the pressure that comes next, and that is written beside it.
5. Every figure is in the unit that is shown; what a person reads comes ready made.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from markupsafe import Markup

from steadyhead.web.drawing.shapes import Box, Hatch, Path, Shape, Text, svg
from steadyhead.web.plot.scales import Scale, opened, ticks, written

WIDE, HIGH = 344.0, 268.0
#: The frame; its left edge gives way to long figures.
LEFT, RIGHT, TOP, BOTTOM = 46.0, 332.0, 30.0, 206.0
#: Half the width of a mark, and of the cap of a bar [units of the picture].
MARK, CAP = 7.0, 4.0
MOST_ACROSS, MOST_UP = 6, 6
SIGN = 8.1  #: width of a figure of the axes' type


@dataclass(frozen=True, slots=True, kw_only=True)
class PlotPoint:
    """One point: the pressure at the sensor, its error, and the half-width of what is known, all in the shown unit."""

    pressure: float
    error: float
    known_within: float | None = None
    direction: Literal["up", "down"] = "up"
    cycle: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class ErrorPlot:
    """Everything that the picture shows.

    Parameters
    ----------
    points
        In the order in which they were taken.
    range
        The sensor's range.
    allowed
        Half the width of what the sensor may be off; None: nobody knows.
    next
        The pressure that comes next, None where none does.
    words
        What is written: ``error`` and ``pressure`` (the axes), ``allowed``, ``next``, ``up``, ``down``, ``bar``.
    title, told
        What the picture is called, and what it shows, in words.
    """

    points: Sequence[PlotPoint] = ()
    range: tuple[float, float]
    allowed: float | None = None
    next: float | None = None
    words: Mapping[str, str]
    title: str
    told: str


@dataclass(frozen=True, slots=True)
class Axes:
    """Both scales of a picture."""

    across: Scale
    up: Scale


def axes_of(plot: ErrorPlot) -> Axes:
    """Return the scales: the sensor's whole range across, every error with its bar and what is allowed upwards."""
    low, high = plot.range
    wanted = [low, high, *(point.pressure for point in plot.points)]
    wanted += [] if plot.next is None else [plot.next]
    errors = [0.0]
    for point in plot.points:
        within = point.known_within or 0.0
        errors += [point.error - within, point.error + within]
    usual = 0.02 * (high - low) if plot.allowed is None else plot.allowed
    errors += [-1.25 * usual, 1.25 * usual]
    up = Scale(*opened(tuple(errors)), BOTTOM, TOP)
    longest = max(len(written(tick)) for tick in ticks(up.low, up.high, MOST_UP))
    return Axes(Scale(*opened(tuple(wanted), 0.04), max(LEFT, 12.0 + SIGN * longest), RIGHT), up)


def error_plot(plot: ErrorPlot) -> Markup:
    """Return the picture."""
    axes = axes_of(plot)
    shapes = [
        *_allowed(plot, axes), *_axes(plot, axes), *_next(plot, axes), *_ways(plot, axes), *_marks(plot, axes),
        *_key(plot),
    ]  # fmt: skip
    return svg(shapes, (WIDE, HIGH), plot.title, plot.told)


def _allowed(plot: ErrorPlot, axes: Axes) -> Iterator[Shape]:
    """Hatch what is not allowed."""
    if plot.allowed is None:
        return
    left = axes.across.start
    upper, lower = axes.up.at(plot.allowed), axes.up.at(-plot.allowed)
    yield Hatch(Box(left, TOP, RIGHT - left, upper - TOP, "", 0.0), 1)
    yield Hatch(Box(left, lower, RIGHT - left, BOTTOM - lower, "", 0.0), 1)
    for edge in (upper, lower):
        yield _line(left, edge, RIGHT, edge, "limit")


def _axes(plot: ErrorPlot, axes: Axes) -> Iterator[Shape]:
    left = axes.across.start
    yield Box(left, TOP, RIGHT - left, BOTTOM - TOP, "frame", 0.0)
    zero = axes.up.at(0.0)
    yield _line(left, zero, RIGHT, zero, "zero")
    for tick in ticks(axes.up.low, axes.up.high, MOST_UP):
        y = axes.up.at(tick)
        yield _line(left - 4, y, left, y, "tick")
        yield Text(left - 7, y + 4.5, written(tick), "figures", "end", 13.0)
    for tick in ticks(axes.across.low, axes.across.high, MOST_ACROSS):
        x = axes.across.at(tick)
        yield _line(x, BOTTOM, x, BOTTOM + 4, "tick")
        yield Text(x, BOTTOM + 17, written(tick), "figures", "middle", 13.0)
    yield Text(4, 14, plot.words["error"], "name", "start", 13.0)
    if plot.allowed is not None:
        yield Text(RIGHT, 14, plot.words["allowed"], "", "end", 13.0)
    yield Text(RIGHT, BOTTOM + 33, plot.words["pressure"], "name", "end", 13.0)


def _next(plot: ErrorPlot, axes: Axes) -> Iterator[Shape]:
    """Mark the pressure that comes next."""
    if plot.next is None:
        return
    x = axes.across.at(plot.next)
    yield _line(x, TOP, x, BOTTOM, "comes")
    right = x > (axes.across.start + RIGHT) / 2
    yield Text(x - 5 if right else x + 5, TOP + 14, plot.words["next"], "name halo comes-word",
               "end" if right else "start", 13.0)  # fmt: skip


def _ways(plot: ErrorPlot, axes: Axes) -> Iterator[Shape]:
    """Join the points of each way through the range."""
    before: list[PlotPoint] = []
    for (cycle, direction), some in groupby(plot.points, key=lambda point: (point.cycle, point.direction)):
        points = list(some)
        way = [*(point for point in before[-1:] if point.cycle == cycle), *points]
        places = [f"{axes.across.at(p.pressure):.1f} {axes.up.at(p.error):.1f}" for p in way]
        if len(places) > 1:
            yield Path(f"M{' L'.join(places)}", f"way {direction}")
        before = points


def _marks(plot: ErrorPlot, axes: Axes) -> Iterator[Shape]:
    for point in plot.points:
        x, y = axes.across.at(point.pressure), axes.up.at(point.error)
        if point.known_within:
            ends = [axes.up.at(point.error + sign * point.known_within) for sign in (1, -1)]
            yield _line(x, ends[0], x, ends[1], "known")
            for end in ends:
                yield _line(x - CAP, end, x + CAP, end, "known")
        yield mark(x, y, point.direction)


def mark(x: float, y: float, direction: str) -> Path:
    """Return the triangle of a point: its middle of gravity lies on the point."""
    tip = -MARK if direction == "up" else MARK
    corners = ((x, y + tip), (x + MARK, y - tip / 2), (x - MARK, y - tip / 2))
    places = " L".join(f"{each_x:.1f} {each_y:.1f}" for each_x, each_y in corners)
    return Path(f"M{places} Z", f"point {direction}")


def _key(plot: ErrorPlot) -> Iterator[Shape]:
    """Say what the shapes mean, in one line under the picture."""
    y = HIGH - 10
    x = 10.0
    for name, wide in (("up", 84.0), ("down", 88.0), ("bar", 0.0)):
        if name == "bar":
            if not any(point.known_within for point in plot.points):
                return
            yield _line(x, y - 9, x, y + 1, "known")
            for end in (y - 9, y + 1):
                yield _line(x - CAP, end, x + CAP, end, "known")
        else:
            yield mark(x, y - 4, name)
        yield Text(x + 12, y, plot.words[name], "", "start", 13.0)
        x += wide


def _line(x1: float, y1: float, x2: float, y2: float, look: str) -> Path:
    return Path(f"M{x1:.1f} {y1:.1f} L{x2:.1f} {y2:.1f}", look)
