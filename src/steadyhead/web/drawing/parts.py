"""The parts of the drawing: controller, cable, sensor and pipe, each in its place, named, shaded, as it stands."""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.web.drawing import places as at
from steadyhead.web.drawing.picture import Picture
from steadyhead.web.drawing.shapes import Box, Circle, Hatch, Path, Shape, Text
from steadyhead.web.drawing.widths import figures, fit
from steadyhead.words import Speaker

#: What an inspection looks at, by its item.
LOOKED_AT = {
    "connections": "controller", "wiring-order": "controller", "range-setting": "display", "input-setting": "display",
    "moisture": "cable", "cable-routing": "cable", "cable-damage": "cable", "wiggle": "cable", "min-max": "meter",
    "port": "sensor", "cock": "cock", "tap-place": "pipe", "gauge-zero": "gauge", "meter-check": "meter",
}  # fmt: skip
DISPLAY = Box(14.0, 87.0, 72.0, 24.0, "screen", 2.0)
GAUGE = (176.0, 274.0)
PIPE = (300.0, 324.0)
COCK = (310.0, 252.0)


def looked_at(picture: Picture) -> str:
    """Return the part that the next reading is taken on without leads, empty where it has leads or there is none."""
    if picture.measure == "inspection":
        return LOOKED_AT.get(picture.item or "", "")
    if picture.measure.startswith("displayed-"):
        return "display"
    return "gauge" if picture.measure == "gauge-pressure" else ""


def controller(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    """Yield the controller: its box, its display, its terminals with this panel's labels."""
    left, right = at.CONTROLLER
    box = Box(left, at.TOP, right - left, at.BOTTOM - at.TOP, _part("controller", picture))
    yield from _shaded(box, "controller", picture)
    yield _name(speaker.tell("web-controller"), (left + 8, 41.0), right - left - 14)
    yield from _level("controller", picture, speaker, (left + 8, at.BOTTOM - 9))
    yield from _display(picture, speaker)
    for core in at.CORES:
        yield Circle(at.TERMINAL, at.ROWS[core], 4.0, "dot")
        yield _label(picture, f"controller.{core}", (at.TERMINAL - 14, at.ROWS[core] + 5), 84.0)
    yield from _earth(picture)
    if picture.stands.others_lifted:
        yield Path("M66 214V221M66 233C66 240 76 242 82 238M90 214V221M90 233C90 240 100 242 106 238", "wire thin")


def _display(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    asked = looked_at(picture) == "display"
    yield DISPLAY if not asked else Box(DISPLAY.x, DISPLAY.y, DISPLAY.wide, DISPLAY.high, "screen asked", 2.0)
    said = "?" if asked else picture.display
    if not picture.stands.power:
        said = speaker.tell("web-power-off")
    if said:
        text, size = figures(said, DISPLAY.wide - 4)
        yield Text(DISPLAY.x + DISPLAY.wide / 2, DISPLAY.y + 17, text, "figures", "middle", size)


def _earth(picture: Picture) -> Iterator[Shape]:
    if "earth" not in {picture.red, picture.black, *picture.links}:
        return
    x, y = at.EARTH
    yield Path(f"M{x:g} {at.BOTTOM:g}V{y:g}M{x - 10:g} {y:g}H{x + 10:g}M{x - 6:g} {y + 5:g}H{x + 6:g}"
               f"M{x - 2:g} {y + 10:g}H{x + 2:g}", "wire thin")  # fmt: skip


def cable(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    """Yield the cable: its sheath, its wires with their colours, and what stands in its place."""
    stands = picture.stands
    left, right = _sheath(picture)
    if stands.middle not in {"spare", "source"}:
        yield from _shaded(Box(left, 44.0, right - left, 164.0, _part("cable", picture), 14.0), "cable", picture)
    for core in at.cores(picture.wires):
        yield Path(_wire(core, picture), "wire dashed" if stands.middle == "temporary" else "wire")
    for core in at.cores(picture.wires):
        yield from _colour(core, picture, (left, right))
    yield from _ends(picture)
    yield from _cable_name(picture, speaker, (left, right))


def _sheath(picture: Picture) -> tuple[float, float]:
    """Return the left and right edge of the cable's sheath."""
    stands = picture.stands
    right = 214.0 if stands.far in {"plug-off", "free", "looped"} else 238.0
    return (174.0 if len(stands.lifted) > 1 else 136.0), right


def _wire(core: str, picture: Picture) -> str:
    """Return the way of a wire from its terminal, or from where it is lifted, to its far end."""
    stands = picture.stands
    y = at.ROWS[core]
    end = at.contact(stands)
    if core not in stands.lifted:
        return f"M{at.TERMINAL:g} {y:g}H{end:g}"
    start = at.wire_end(stands)
    return f"M{start:g} {y:g}H{end:g}"


def _colour(core: str, picture: Picture, edges: tuple[float, float]) -> Iterator[Shape]:
    name = picture.labels.get(f"wire.{core}", "")
    if not name or picture.stands.middle in {"spare", "source"}:
        return
    text, size = fit(name, max(edges[1] - edges[0] - 6, 74.0))
    yield Text((edges[0] + edges[1]) / 2, at.ROWS[core] - 7, text, "halo", "middle", size)


def _ends(picture: Picture) -> Iterator[Shape]:
    """Yield the free ends, the plug, and the joint of ends that are looped."""
    stands = picture.stands
    for core in stands.lifted:
        if core in at.cores(picture.wires):
            yield Circle(at.wire_end(stands), at.ROWS[core], 4.0, "free")
    rows = [at.ROWS[core] for core in at.cores(picture.wires)]
    if stands.far in {"plug-off", "free"}:
        yield Box(at.PLUG - 8, rows[0] - 14, 10.0, rows[-1] - rows[0] + 28, "plug", 3.0)
    if stands.far == "looped":
        yield Path(f"M{at.PLUG:g} {rows[0]:g}V{rows[-1]:g}", "wire")
        yield from (Circle(at.PLUG, y, 4.0, "dot") for y in rows)


def _cable_name(picture: Picture, speaker: Speaker, edges: tuple[float, float]) -> Iterator[Shape]:
    if picture.stands.middle in {"spare", "source"}:
        return
    said = speaker.tell("web-temporary-lead") if picture.stands.middle == "temporary" else speaker.tell("web-cable")
    whole = f"{said} {picture.cable}" if picture.cable and not picture.stands.middle else said
    text, size = fit(whole, 130.0, bold=True)
    middle = (edges[0] + edges[1]) / 2
    yield Text(middle, 34.0, text, "name", "middle", size)
    yield from _level("cable", picture, speaker, (middle, 202.0), "middle")
    if picture.shield or "shield" in {picture.red, picture.black}:
        x, y = at.SHIELD
        yield Path(f"M{x:g} 208V{y:g}", "wire thin")
        yield Text(x + 16, y + 5, speaker.region_word("shield"), "soft", "start", 13.0)


def middle(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    """Yield what stands between the terminals and the lifted wires: a spare sensor, or a signal source."""
    kind = picture.stands.middle
    if kind not in {"spare", "source"}:
        return
    left, right = at.BETWEEN
    joined = at.cores(picture.wires) if kind == "spare" else ("signal", "common")
    for core in joined:
        yield Path(f"M{at.TERMINAL:g} {at.ROWS[core]:g}H{left:g}", "wire")
    yield Box(left, 44.0, right - left, 162.0, "part stand-in", 3.0)
    said = speaker.tell("web-spare" if kind == "spare" else "web-source")
    yield from _centred(said, ((left + right) / 2, 94.0), right - left - 8, "name")
    note = speaker.tell("web-open-to-air") if kind == "spare" else picture.source
    yield from _centred(note, ((left + right) / 2, 160.0), right - left - 8, "" if kind == "spare" else "figures")


def sensor(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    """Yield the sensor, or the spare that stands in its place."""
    left, right = at.SENSOR
    spare = picture.stands.far == "spare"
    box = Box(left, at.TOP, right - left, at.BOTTOM - at.TOP, "part stand-in" if spare else _part("sensor", picture))
    if spare:
        yield box
    else:
        yield from _shaded(box, "sensor", picture)
    yield from _pins(picture)
    said = speaker.tell("web-spare" if spare else "web-sensor")
    yield _name(said, (right - 5, 41.0), right - left - 4, "end")
    if spare:
        yield from _centred(speaker.tell("web-open-to-air"), ((left + right) / 2 + 6, 106.0), right - left - 16, "")
        return
    yield from _level("sensor", picture, speaker, (right - 8, at.BOTTOM - 9), "end")


def _pins(picture: Picture) -> Iterator[Shape]:
    left, stands = at.SENSOR[0], picture.stands
    for core in at.cores(picture.wires):
        y = at.ROWS[core]
        if stands.far in {"sensor", "spare"}:
            yield Circle(left, y, 4.0, "dot")
        else:
            yield Path(f"M{left - 9:g} {y:g}H{left:g}", "wire")
        text = picture.labels.get(f"sensor.{core}", "")
        if text and stands.far != "spare":
            short, size = fit(text, 66.0)
            yield Text(left + 14, y + 5, short, "halo", "start", size)


def pipe(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    """Yield the pipe with its gauge, and the way of the water to the sensor."""
    upper, lower = PIPE
    asked = looked_at(picture)
    yield from _to_the_water(picture, speaker)
    look = "wire asked" if asked == "pipe" else "wire"
    yield Path(f"M146 {upper:g}H354M146 {lower:g}H354", look)
    yield from _gauge(picture, asked)
    level = picture.levels.get("pipe")
    if level is not None and level.density:
        yield Hatch(Box(146.0, upper, 208.0, lower - upper, ""), level.density)
    yield Text(148.0, 342.0, speaker.tell("web-pipe"), "soft", "start", 13.0)
    yield from _level("pipe", picture, speaker, (354.0, 342.0), "end")


def _to_the_water(picture: Picture, speaker: Speaker) -> Iterator[Shape]:
    x, y = COCK
    if picture.stands.far == "spare":
        yield Path(f"M{x:g} 266V{PIPE[0]:g}", "wire")
        yield Box(x - 24, 236.0, 48.0, 30.0, "part", 3.0)
        yield from _centred(speaker.tell("web-own"), (x, 256.0), 42.0, "")
        return
    yield Path(f"M{x:g} {at.BOTTOM:g}V{PIPE[0]:g}", "wire")
    if picture.cock or picture.stands.vented or looked_at(picture) == "cock":
        look = "cock shut" if picture.stands.vented else "cock asked" if looked_at(picture) == "cock" else "cock"
        yield Path(f"M{x - 11:g} {y - 8:g}L{x + 11:g} {y + 8:g}V{y - 8:g}L{x - 11:g} {y + 8:g}Z", look)
    if picture.stands.vented:
        yield Path(f"M{x:g} {y - 24:g}H{x + 26:g}M{x + 19:g} {y - 30:g}L{x + 27:g} {y - 24:g}L{x + 19:g} {y - 18:g}")
        yield Text(x - 17, y + 5, speaker.tell("web-shut"), "say", "end", 13.0)


def _gauge(picture: Picture, asked: str) -> Iterator[Shape]:
    x, y = GAUGE
    yield Path(f"M{x:g} {y + 15:g}V{PIPE[0]:g}", "wire")
    yield Circle(x, y, 15.0, "part asked" if asked == "gauge" else "part")
    yield Path(f"M{x:g} {y:g}l7 -9", "wire thin")
    said = "?" if asked == "gauge" else picture.gauge
    if said:
        text, size = figures(said, 92.0)
        yield Text(x + 21, y + 5, text, "figures", "start", size)


def _part(name: str, picture: Picture) -> str:
    """Return the looks of a part: one that is looked at next has the accent."""
    return "part asked" if looked_at(picture) == name else "part"


def _shaded(box: Box, name: str, picture: Picture) -> Iterator[Shape]:
    yield box
    level = picture.levels.get(name)
    if level is not None and level.density:
        yield Hatch(box, level.density)


def _level(
    name: str, picture: Picture, speaker: Speaker, where: at.Place, anchor: at.AnchorWord = "start"
) -> Iterator[Shape]:
    level = picture.levels.get(name)
    if level is not None:
        text, size = fit(speaker.name("level", level.word), 92.0, bold=True)
        yield Text(where[0], where[1], text, "say halo", anchor, size)


def _name(said: str, where: at.Place, room: float, anchor: at.AnchorWord = "start") -> Text:
    text, size = fit(said, room, bold=True)
    return Text(where[0], where[1], text, "name halo", anchor, size)


def _label(picture: Picture, point: str, where: at.Place, room: float) -> Text:
    text, size = fit(picture.labels.get(point, ""), room)
    return Text(where[0], where[1], text, "halo", "end", size)


def _centred(said: str, where: at.Place, room: float, look: str) -> Iterator[Shape]:
    """Yield a text about a middle, its words below each other."""
    for line, word in enumerate(said.split(" ") if look != "figures" else [said]):
        text, size = figures(word, room) if look == "figures" else fit(word, room, bold=bool(look))
        yield Text(where[0], where[1] + 17 * line, text, f"{look} halo".strip(), "middle", size)
