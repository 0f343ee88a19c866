"""The meter and its leads, drawn to where the next reading is taken, and the places where a thumb may put them.

Rules
-----
1. The red lead has the letter R and a round tip, the black one B and a square tip: no colour is needed.
2. A lead comes up in the gap beside its point and never lies along a wire.
3. A measure without leads draws no meter.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.loop.vocabulary import METER_MEASURES
from steadyhead.web.drawing import places as at
from steadyhead.web.drawing.picture import Picture
from steadyhead.web.drawing.shapes import Box, Circle, Path, Shape, Target, Text
from steadyhead.web.drawing.widths import fit
from steadyhead.words import Speaker

METER = Box(6.0, 270.0, 122.0, 46.0, "part", 5.0)
#: Where each lead leaves the meter, and how far beside its point it comes up.
START = {"red": 44.0, "black": 90.0}
BESIDE = {"red": 15.0, "black": 11.0}


def meter(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    """Yield the meter with its leads, where the next reading needs one."""
    red, black = leads_of(picture)
    looked = picture.item == "meter-check"
    if picture.measure not in METER_MEASURES and not looked and not (red or black):
        return
    drawn = [(side, point) for side, point in (("black", black), ("red", red)) if point]
    places = {side: at.place_of(point, picture.stands) for side, point in drawn}
    reached = {side: place for side, place in places.items() if place is not None}
    yield from (Path(_way(side, place), f"lead-{side[0]}") for side, place in reached.items())
    yield Box(METER.x, METER.y, METER.wide, METER.high, "part asked" if looked else "part", METER.round)
    said = speaker.name("meter-dial", picture.measure) if picture.measure in METER_MEASURES else ""
    text, size = fit(said or speaker.tell("web-meter"), METER.wide - 10, bold=True)
    yield Text(METER.x + METER.wide / 2, METER.y + 28, text, "name", "middle", size)
    for side, place in reached.items():
        yield from tip(side, place, speaker)


def leads_of(picture: Picture) -> tuple[str | None, str | None]:
    """Return the points of the red and the black lead; in series they lie at the lifted wire and its terminal."""
    if picture.measure == "milliamps" and picture.stands.in_series:
        return "wire.signal", "controller.signal"
    return picture.red, picture.black


def tip(side: str, place: at.Place, speaker: Speaker) -> Iterator[Shape]:
    """Yield a lead's tip: R in a circle, B in a square."""
    x, y = place
    yield Circle(x, y, 10.5, "tip-r") if side == "red" else Box(x - 9.5, y - 9.5, 19.0, 19.0, "tip-b", 0.0)
    letter = speaker.tell("web-red-letter" if side == "red" else "web-black-letter")
    yield Text(x, y + 4.5, letter, "tip", "middle", 13.0)


def _way(side: str, place: at.Place) -> str:
    """Return the way of a lead from the meter to its point."""
    x, y = place
    start = START[side]
    if place == at.EARTH:
        return f"M{start:g} {METER.y:g}C{start:g} 250 {x:g} 262 {x:g} {y + 8:g}"
    gap = x - BESIDE[side] if x > at.TERMINAL else x + BESIDE[side] - 4
    low = min(at.BOTTOM + 12, METER.y - 22)
    bend = min(y + 26, low)
    rise = f"M{start:g} {METER.y:g}C{start:g} {low + 8:g} {gap:g} {METER.y - 8:g} {gap:g} {low:g}"
    return f"{rise}V{bend:g}Q{gap:g} {y + 10:g} {x:g} {y:g}"


def targets(picture: Picture) -> Iterator[Shape]:
    """Yield a place for a thumb at each point that can be tapped, in reading order."""
    for point, link in picture.links.items():
        place = at.place_of(point, picture.stands)
        if place is not None:
            yield Target(*place, link.href, link.says)
