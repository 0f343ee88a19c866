"""Draws the loop, and says in words what the drawing shows.

Rules
-----
1. Order: pipe, parts, what stands between, leads, targets; what is tapped lies on top.
2. Whoever does not see the drawing hears the same: each part with its word, how the loop stands, where the leads are.
"""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from steadyhead.web.drawing import leads, parts
from steadyhead.web.drawing.picture import Picture
from steadyhead.web.drawing.places import HIGH, WIDE
from steadyhead.web.drawing.shapes import Shape, svg
from steadyhead.web.drawing.suspicion import PARTS
from steadyhead.words import Speaker


def draw(picture: Picture, speaker: Speaker) -> Markup:
    """Return the loop drawing as SVG.

    Parameters
    ----------
    picture
        What to show.
    speaker
        Whose words are written on it.
    """
    return svg(shapes(picture, speaker), (WIDE, HIGH), speaker.tell("web-drawing"), " ".join(told(picture, speaker)))


def shapes(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    """Yield every shape, the lowest first."""
    yield from parts.pipe(picture, speaker)
    yield from parts.controller(picture, speaker)
    yield from parts.sensor(picture, speaker)
    yield from parts.cable(picture, speaker)
    yield from parts.middle(picture, speaker)
    yield from leads.meter(picture, speaker)
    yield from leads.targets(picture)


def told(picture: Picture, speaker: Speaker) -> Iterator[str]:
    """Yield what the drawing shows, in sentences."""
    yield speaker.tell("web-drawn-standing", arrangement=picture.arrangement)
    for part in PARTS:
        if part in picture.levels:
            word = speaker.name("level", picture.levels[part].word)
            yield speaker.tell("web-drawn-part", part=speaker.name("drawn-part", part), level=word)
    red, black = leads.leads_of(picture)
    if red:
        yield speaker.tell("web-drawn-red", red=red)
    if black:
        yield speaker.tell("web-drawn-black", black=black)
