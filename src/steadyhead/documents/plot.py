"""A plot as SVG: ink on paper, the band hatched, each kind of mark a shape of its own; nothing in it needs a colour.

Rules
-----
1. It is drawn in `currentColor`, so that it is ink by day and chalk by night.
2. Every text in it is escaped; labels come from whoever says the paper's messages.
3. An axis is marked at whole steps.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import ceil, floor, log10

from markupsafe import Markup

from steadyhead.documents.numbers import DecimalSign, digits
from steadyhead.documents.paper import Axis, Mark, Plot
from steadyhead.messages import Message

WIDE, HIGH = 360.0, 210.0
LEFT, RIGHT, TOP, BOTTOM = 66.0, 12.0, 10.0, 42.0
MARK = 4.5
Say = Callable[[Message], str]


def steps(low: float, high: float, most: int = 8) -> tuple[float, float, float]:
    """Return an axis that reaches over both ends at whole steps of 1, 2 or 5: its low end, its high end, its step.

    >>> steps(0.0, 100.0), steps(0.5, 4.5), steps(-0.3, 0.7)
    ((0.0, 100.0, 20.0), (0.5, 4.5, 0.5), (-0.4, 0.8, 0.2))
    """
    width = (high - low) or 1.0
    rough = width / most
    power = 10.0 ** floor(log10(rough))
    step = next(round(times * power, 12) for times in (1, 2, 5, 10) if times * power >= rough * (1 - 1e-9))
    first, last = floor(low / step + 1e-9), ceil(high / step - 1e-9)
    return round(first * step, 12), round(last * step, 12), step


def plot_svg(plot: Plot, say: Say, decimal: DecimalSign, number: int = 1) -> str:
    """Return a plot drawn as SVG; it is the paper's `number`-th, so that each has a hatching of its own."""
    hatching = f"band{number}"
    drawn = Markup("").join([*_grid(plot, decimal), *_drawn(plot, hatching), *_axes(plot, say)])
    head = Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {:g} {:g}" fill="currentColor" font-size="14" '
        'font-family="Atkinson Hyperlegible Next, Next, sans-serif">'
    )
    return str(head.format(WIDE, HIGH) + drawn + Markup("</svg>"))


def _drawn(plot: Plot, hatching: str) -> Iterator[Markup]:
    """Yield the band, the line and the marks."""
    yield Markup(
        '<defs><pattern id="{}" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
        '<path d="M0 0V6" stroke="currentColor" stroke-width="1.2"/></pattern></defs>'
    ).format(hatching)
    if plot.band:
        upper = [f"{_x(plot, x):.1f} {_y(plot, high):.1f}" for x, _, high in plot.band]
        lower = [f"{_x(plot, x):.1f} {_y(plot, low):.1f}" for x, low, _ in reversed(plot.band)]
        path = "M" + "L".join([*upper, *lower]) + "Z"
        yield Markup('<path d="{}" fill="url(#{})" stroke="currentColor" stroke-width="0.8"/>').format(path, hatching)
    if plot.line:
        path = "M" + "L".join(f"{_x(plot, x):.1f} {_y(plot, y):.1f}" for x, y in plot.line)
        yield Markup('<path d="{}" fill="none" stroke="currentColor" stroke-width="2"/>').format(path)
    for mark in plot.marks:
        yield _mark(mark, plot)


def _axes(plot: Plot, say: Say) -> Iterator[Markup]:
    """Yield what each axis is called."""
    yield Markup('<text x="{:g}" y="{:g}" text-anchor="end">{}</text>').format(WIDE - RIGHT, HIGH - 4, say(plot.x.says))
    turned = Markup('<text x="{x:g}" y="{y:g}" text-anchor="end" transform="rotate(-90 {x:g} {y:g})">{text}</text>')
    yield turned.format(x=13, y=TOP, text=say(plot.y.says))


def _grid(plot: Plot, decimal: DecimalSign) -> Iterator[Markup]:
    """Yield the axes, their marks and their figures."""
    rule = Markup('<path d="M{:.1f} {:.1f}{}{:.1f}" stroke="currentColor" stroke-width="0.4" opacity="0.6"/>')
    bottom, right = HIGH - BOTTOM, WIDE - RIGHT
    for value in _marked(plot.x):
        at = _x(plot, value)
        yield rule.format(at, TOP, "V", bottom)
        text = digits(value, _places(plot.x.step), decimal)
        yield Markup('<text x="{:.1f}" y="{:g}" text-anchor="middle">{}</text>').format(at, bottom + 18, text)
    for value in _marked(plot.y):
        at = _y(plot, value)
        yield rule.format(LEFT, at, "H", right)
        text = digits(value, _places(plot.y.step), decimal)
        yield Markup('<text x="{:g}" y="{:.1f}" text-anchor="end">{}</text>').format(LEFT - 6, at + 5, text)
    yield Markup('<path d="M{0:g} {1:g}V{2:g}H{3:g}" fill="none" stroke="currentColor" stroke-width="1.5"/>').format(
        LEFT, TOP, bottom, right
    )


def _marked(axis: Axis) -> Iterator[float]:
    for k in range(round((axis.high - axis.low) / axis.step) + 1):
        yield axis.low + k * axis.step


def _places(step: float) -> int:
    return max(0, -floor(log10(step) + 1e-9))


def _x(plot: Plot, value: float) -> float:
    return LEFT + (WIDE - LEFT - RIGHT) * (value - plot.x.low) / (plot.x.high - plot.x.low)


def _y(plot: Plot, value: float) -> float:
    return HIGH - BOTTOM - (HIGH - TOP - BOTTOM) * (value - plot.y.low) / (plot.y.high - plot.y.low)


def _mark(mark: Mark, plot: Plot) -> Markup:
    x, y = _x(plot, mark.x), _y(plot, mark.y)
    if mark.shape == "cross":
        path = f"M{x - MARK:.1f} {y - MARK:.1f}L{x + MARK:.1f} {y + MARK:.1f}M{x - MARK:.1f} {y + MARK:.1f}"
        path += f"L{x + MARK:.1f} {y - MARK:.1f}"
        return Markup('<path d="{}" stroke="currentColor" stroke-width="2"/>').format(path)
    inside = "currentColor" if mark.shape == "dot" else "none"
    circle = Markup('<circle cx="{:.1f}" cy="{:.1f}" r="{:g}" fill="{}" stroke="currentColor" stroke-width="1.8"/>')
    return circle.format(x, y, MARK, inside)
