"""Reads a drawing back as a browser would: its texts with their boxes, its shapes, its targets."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from xml.etree import ElementTree as ET

from steadyhead.web.drawing import Picture, draw
from steadyhead.words import Speaker

SVG = "{http://www.w3.org/2000/svg}"
#: Width of a sign in parts of the type's size: an outside estimate, not the drawing's own (bold capitals are wider).
SIGN, MONO = 0.56, 0.62
#: How high the letters of a line stand above and below its base line, in parts of the size.
ABOVE, BELOW = 0.72, 0.2


@dataclass(frozen=True)
class TextBox:
    """A text of the drawing with the room that it takes."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: TextBox) -> bool:
        """Tell whether two texts lie on each other."""
        beside = self.right <= other.left or other.right <= self.left
        return not beside and self.top < other.bottom and other.top < self.bottom


def drawn(picture: Picture, region: str = "north-america") -> ET.Element:
    """Return a drawing, parsed."""
    speaker = Speaker(labels=picture.labels, wires=picture.wires, region=region)
    text = str(draw(picture, speaker)).replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return ET.fromstring(text)  # noqa: S314 - our own text


def texts(root: ET.Element) -> list[TextBox]:
    """Return every text but the letters on the leads' tips."""
    return [_box(node) for node in root.iter(f"{SVG}text") if "tip" not in looks(node)]


def looks(node: ET.Element) -> list[str]:
    """Return the classes of a shape."""
    return node.get("class", "").split()


def said(root: ET.Element) -> list[str]:
    """Return the texts."""
    return [box.text for box in texts(root)]


def overlapping(root: ET.Element) -> list[tuple[str, str]]:
    """Return every pair of texts that lie on each other."""
    return [(a.text, b.text) for a, b in combinations(texts(root), 2) if a.meets(b)]


def _box(node: ET.Element) -> TextBox:
    classes = looks(node)
    size = next(float(each[1:]) for each in classes if each[1:].isdigit())
    text = node.text or ""
    wide = len(text) * size * (MONO if "figures" in classes else SIGN)
    x, y = float(node.get("x", "0")), float(node.get("y", "0"))
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[node.get("text-anchor", "start")]
    return TextBox(text, left, y - ABOVE * size, left + wide, y + BELOW * size)
