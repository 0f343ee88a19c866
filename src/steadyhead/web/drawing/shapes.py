"""What the drawing is made of: a few shapes as values, and how each is written as SVG.

Rules
-----
1. A shape is frozen and knows its place; its looks are classes, since the page allows no inline style.
2. Whatever a person typed is escaped here, and nowhere else.
3. A shape with a link is an anchor that works without scripts.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from markupsafe import Markup, escape

Anchor = Literal["start", "middle", "end"]
#: Side of a target for a thumb [units of the drawing, which is at least as many pixels wide].
TOUCH = 48.0


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle."""

    x: float
    y: float
    wide: float
    high: float
    look: str
    round: float = 3.0

    def svg(self) -> Markup:
        """Return the rectangle."""
        return Markup('<rect class="{}" x="{}" y="{}" width="{}" height="{}" rx="{}"/>').format(
            self.look, *map(_figure, (self.x, self.y, self.wide, self.high, self.round))
        )


@dataclass(frozen=True, slots=True)
class Hatch:
    """The hatching over a part: the denser, the likelier; 1 to 3."""

    box: Box
    density: int

    def svg(self) -> Markup:
        """Return the rectangle, filled with hatching."""
        b = self.box
        return Markup('<rect x="{}" y="{}" width="{}" height="{}" rx="{}" fill="url(#h{})"/>').format(
            *map(_figure, (b.x, b.y, b.wide, b.high, b.round)), self.density
        )


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    x: float
    y: float
    radius: float
    look: str

    def svg(self) -> Markup:
        """Return the circle."""
        return Markup('<circle class="{}" cx="{}" cy="{}" r="{}"/>').format(
            self.look, *map(_figure, (self.x, self.y, self.radius))
        )


@dataclass(frozen=True, slots=True)
class Path:
    """A line of straight and curved pieces, in SVG's own letters."""

    pieces: str
    look: str = "wire"

    def svg(self) -> Markup:
        """Return the line."""
        return Markup('<path class="{}" d="{}"/>').format(self.look, self.pieces)


@dataclass(frozen=True, slots=True)
class Text:
    """A word on the drawing."""

    x: float
    y: float
    text: str
    look: str = ""
    anchor: Anchor = "start"
    size: float = 14.0

    def svg(self) -> Markup:
        """Return the word."""
        looks = f"{self.look} s{self.size:.0f}".strip()
        return Markup('<text class="{}" x="{}" y="{}" text-anchor="{}">{}</text>').format(
            looks, _figure(self.x), _figure(self.y), self.anchor, self.text
        )


@dataclass(frozen=True, slots=True)
class Target:
    """A place for a thumb: a point of the loop that a lead can be put on."""

    x: float
    y: float
    href: str
    says: str

    def svg(self) -> Markup:
        """Return the link."""
        corner = (self.x - TOUCH / 2, self.y - TOUCH / 2, TOUCH, TOUCH)
        return Markup(
            '<a class="point" href="{}" aria-label="{}"><rect class="touch" x="{}" y="{}" width="{}" height="{}"'
            ' rx="6"/></a>'
        ).format(self.href, self.says, *map(_figure, corner))


Shape = Box | Hatch | Circle | Path | Text | Target

_PATTERNS = Markup(
    "<defs>"
    '<pattern id="h1" width="13" height="13" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<line class="hatch" x1="0" y1="0" x2="0" y2="13"/></pattern>'
    '<pattern id="h2" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<line class="hatch" x1="0" y1="0" x2="0" y2="8"/></pattern>'
    '<pattern id="h3" width="4.2" height="4.2" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<line class="hatch" x1="0" y1="0" x2="0" y2="4.2"/></pattern>'
    "</defs>"
)


def svg(shapes: Iterable[Shape], size: tuple[float, float], title: str, told: str) -> Markup:
    """Return the shapes as one SVG; `told` says in words what an eye sees."""
    drawn = list(shapes)
    role = "group" if any(isinstance(shape, Target) for shape in drawn) else "img"
    head = Markup(
        '<svg viewBox="0 0 {} {}" role="{}" aria-labelledby="drawing-title" aria-describedby="drawing-told">'
        '<title id="drawing-title">{}</title><desc id="drawing-told">{}</desc>'
    ).format(*map(_figure, size), role, escape(title), escape(told))
    return head + _PATTERNS + Markup("").join(shape.svg() for shape in drawn) + Markup("</svg>")


def _figure(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".")
