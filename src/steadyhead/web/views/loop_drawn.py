"""The drawing of a visit's loop: which figures stand on it, and where a tap on each point leads."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from urllib.parse import urlencode

from markupsafe import Markup

from steadyhead.diagnosis.answer import Suspect
from steadyhead.diagnosis.observing import Question
from steadyhead.quantities import spell
from steadyhead.service.answer_json import source_text
from steadyhead.service.guide.keeping import figure_of
from steadyhead.visit.measures import POINTS_IN, points_of_system
from steadyhead.visit.record import Visit, Word
from steadyhead.web.drawing import Picture, draw
from steadyhead.web.drawing.picture import Link
from steadyhead.web.drawing.places import hook_up
from steadyhead.web.drawing.suspicion import levels
from steadyhead.words import Speaker
from steadyhead.words.points import label
from steadyhead.words.web_names import SHORT_POINTS

#: Hook-ups in which a spare or a source stands before the plug: its contacts are out of reach of a thumb there.
CROWDED = frozenset(("spare-at-controller", "source-at-controller"))


def drawn_loop(
    visit: Visit, question: Question | None, suspects: Iterable[Suspect], speaker: Speaker, links: Mapping[str, Link]
) -> Markup:
    """Return the drawing of a loop as it stands for a check.

    Parameters
    ----------
    visit
        The visit: labels, figures that were read, what the system has.
    question
        What is read next; None where nothing is.
    suspects
        Who shades the parts; empty where nothing was judged.
    speaker
        Whose words are written on it.
    links
        Where a tap on each point leads.
    """
    asked = question or Question("")
    current = visit.sensor.signal.kind == "current"
    picture = Picture(
        wires=visit.sensor.signal.wires,
        arrangement=asked.arrangement,
        labels=short_labels(speaker),
        levels=levels(suspects),
        measure=asked.measure,
        red=asked.red,
        black=asked.black,
        item=asked.item,
        gauge=_last(visit, "gauge-pressure"),
        display=_last(visit, "displayed-pressure"),
        source=source_text(asked, current=current) or "",
        cable="" if visit.cable.length_m is None else spell(visit.cable.length_m, "m"),
        cock=visit.place.cock,
        shield=visit.cable.shield,
        links=links,
    )
    return draw(picture, speaker)


def short_labels(speaker: Speaker) -> dict[str, str]:
    """Return what each point is called on the drawing: its label, or a word of the trade that is as short."""
    points = (f"{side}.{core}" for side in ("controller", "wire", "sensor") for core in ("supply", "signal", "common"))
    own = {point: label(point, speaker) for point in points}
    plain = {point: speaker.name("short-point", point) for point in SHORT_POINTS}
    return {**plain, **{point: text for point, text in own.items() if text}}


def tappable(visit: Visit, arrangement: str) -> tuple[str, ...]:
    """Return the points that a lead can be put on in a hook-up, and that the drawing has room for."""
    there = points_of_system(visit.sensor.signal.wires, shield=visit.cable.shield)
    reachable = [point for point in POINTS_IN[arrangement] if point in there and point != "shield"]
    if visit.cable.shield:
        reachable.append("shield")
    lifted = hook_up(arrangement).lifted
    return tuple(
        point
        for point in reachable
        if not (point.startswith("wire.") and point.partition(".")[2] not in lifted)
        and not (point.startswith("sensor.") and arrangement in CROWDED)
    )


def links_to_read(visit: Visit, address: str, chosen: Mapping[str, str], speaker: Speaker) -> dict[str, Link]:
    """Return where a tap on each point leads: the first puts the red lead there, the second the black one.

    Parameters
    ----------
    visit
        The visit.
    address
        Of the page that takes a reading between two points.
    chosen
        What was chosen before: ``arrangement``, and ``red`` once that lead has its point.
    speaker
        Whose labels name the points.
    """
    return {point: _link(point, address, chosen, speaker) for point in tappable(visit, chosen["arrangement"])}


def _link(point: str, address: str, chosen: Mapping[str, str], speaker: Speaker) -> Link:
    """Return where a tap on one point leads."""
    red = chosen.get("red")
    if point == red:
        kept, says = {"arrangement": chosen["arrangement"]}, speaker.tell("web-lead-off", red=point)
    elif red:
        kept, says = {**chosen, "black": point}, speaker.tell("web-put-black", black=point)
    else:
        kept, says = {**chosen, "red": point}, speaker.tell("web-put-red", red=point)
    return Link(f"{address}?{urlencode(kept)}", says)


def _last(visit: Visit, measure: str) -> str:
    """Return the last figure of a measure, as it was written."""
    found = [r for r in visit.readings if r.measure == measure and r.arrangement == "connected"]
    return figure_of(found[-1]) if found and not isinstance(found[-1].value, Word) else ""
