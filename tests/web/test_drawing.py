"""The loop drawing: what stands on it, where, and that nothing lies on anything else."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.diagnosis.answer import Suspect
from steadyhead.loop.faults import FAULTS
from steadyhead.loop.vocabulary import ARRANGEMENTS, POINTS
from steadyhead.web.drawing import Picture
from steadyhead.web.drawing.picture import Link
from steadyhead.web.drawing.places import HIGH, HOOK_UPS, WIDE, place_of
from steadyhead.web.drawing.suspicion import PARTS, Level, levels, part_of
from tests.web.drawn import SVG, drawn, looks, overlapping, said, texts

LABELS = {
    "controller.supply": "V+", "controller.signal": "SIG", "controller.common": "COM",
    "wire.supply": "orange", "wire.signal": "blue", "wire.common": "brown",
}  # fmt: skip
#: As long as a person would ever write them, and longer.
LONG = {
    "controller.supply": "SENSOR PWR +5 VDC", "controller.signal": "AI 1 analogue in",
    "controller.common": "GND (shared)",
    "wire.supply": "white with a red stripe", "wire.signal": "light blue", "wire.common": "green and yellow",
    "sensor.supply": "pin 1", "sensor.signal": "contact 3", "sensor.common": "pin 2",
}  # fmt: skip
ALL = tuple(id_ for id_, each in ARRANGEMENTS.items() if not each.water_side)
SHADED = {
    "controller": Level("unlikely", 0), "cable": Level("most-likely", 3), "sensor": Level("possible", 1),
    "pipe": Level("likely", 2),
}  # fmt: skip
FULL = Picture(
    labels=LABELS, levels=SHADED, measure="volts", red="controller.signal", black="controller.common",
    gauge="48.25 bar", display="LOW SIGNAL", cable="120 m", cock=True, source="12 mA",
)  # fmt: skip

EVERY = [
    pytest.param(replace(FULL, arrangement=id_, wires=wires, labels=labels), id=f"{id_}-{wires}-{name}")
    for id_ in ALL
    for wires in (2, 3)
    for name, labels in (("short", LABELS), ("long", LONG))
]


@pytest.mark.parametrize("picture", EVERY)
@pytest.mark.parametrize("region", ["north-america", "elsewhere"])
def test_no_two_texts_lie_on_each_other(picture: Picture, region: str) -> None:
    """An estimate of each text's room that is not the drawing's own."""
    assert overlapping(drawn(picture, region)) == []


@pytest.mark.parametrize("picture", EVERY)
def test_nothing_reaches_past_the_edge(picture: Picture) -> None:
    """The drawing's own size, against the estimate of each text and the corners of each shape."""
    root = drawn(picture)
    assert root.get("viewBox") == f"0 0 {WIDE:g} {HIGH:g}"
    for box in texts(root):
        assert box.left >= 0 <= box.top, box
        assert box.right <= WIDE, box
        assert box.bottom <= HIGH, box
    for node in root.iter(f"{SVG}rect"):
        x, y, wide, high = (float(node.get(name, "0")) for name in ("x", "y", "width", "height"))
        assert 0 <= x <= x + wide <= WIDE, looks(node)
        assert 0 <= y <= y + high <= HIGH, looks(node)


def test_the_drawing_shows_this_panels_labels_and_this_plugs_colours() -> None:
    """The labels that went in."""
    assert set(said(drawn(FULL))) >= set(LABELS.values())


def test_a_two_wire_cable_has_no_common_wire_but_the_panel_has_its_terminal() -> None:
    """Vocabulary of points: a two-wire system has no ``wire.common``, the controller has its common."""
    words = said(drawn(replace(FULL, wires=2)))
    assert "brown" not in words
    assert "COM" in words


def test_a_name_that_looks_like_markup_stays_a_name() -> None:
    """Parsing gives back the very text, and no new element."""
    root = drawn(replace(FULL, labels={"controller.signal": "<b>&"}))
    assert "<b>&" in said(root)
    assert [node for node in root.iter() if node.tag.endswith("}b")] == []


@pytest.mark.parametrize("arrangement", ALL)
@pytest.mark.parametrize("wires", [2, 3])
def test_each_lead_ends_where_it_is_put(arrangement: str, wires: int) -> None:
    """The round tip lies on the red lead's point, the square one is centred on the black lead's."""
    stands = HOOK_UPS[arrangement]
    side = "wire" if stands.lifted == ("supply", "signal", "common") and not stands.middle else "controller"
    red, black = f"{side}.signal", f"{side}.supply"
    root = drawn(replace(FULL, arrangement=arrangement, wires=wires, red=red, black=black))
    (circle,) = [node for node in root.iter(f"{SVG}circle") if looks(node) == ["tip-r"]]
    (square,) = [node for node in root.iter(f"{SVG}rect") if looks(node) == ["tip-b"]]
    assert (float(circle.get("cx", "")), float(circle.get("cy", ""))) == place_of(red, stands)
    left, top, wide, high = (float(square.get(name, "")) for name in ("x", "y", "width", "height"))
    assert (left + wide / 2, top + high / 2) == place_of(black, stands)


def test_in_series_the_meter_lies_between_the_lifted_wire_and_its_terminal() -> None:
    """Vocabulary: milliamps has no leads of its own, red to the wire and black to the terminal."""
    root = drawn(replace(FULL, wires=2, arrangement="meter-in-signal", measure="milliamps", red=None, black=None))
    (circle,) = [node for node in root.iter(f"{SVG}circle") if looks(node) == ["tip-r"]]
    place = place_of("wire.signal", HOOK_UPS["meter-in-signal"])
    assert (float(circle.get("cx", "")), float(circle.get("cy", ""))) == place


@pytest.mark.parametrize("arrangement", ALL)
def test_every_target_is_a_thumb_wide_and_none_covers_another(arrangement: str) -> None:
    """48 units, and the drawing is at least as many pixels wide as it has units."""
    points: tuple[str, ...] = tuple(point for point in POINTS if point != "shield")
    if HOOK_UPS[arrangement].middle in {"spare", "source"}:
        points = tuple(point for point in points if not point.startswith("sensor."))
    links = {point: Link(f"?red={point}", point) for point in points}
    root = drawn(replace(FULL, arrangement=arrangement, links=links))
    boxes = [[float(node.get(name, "")) for name in ("x", "y", "width", "height")]
             for node in root.iter(f"{SVG}rect") if "touch" in looks(node)]  # fmt: skip
    assert boxes
    assert all((wide, high) == (48.0, 48.0) for _, _, wide, high in boxes)
    for k, (x, y, _, _) in enumerate(boxes):
        assert all(abs(x - x2) >= 48 or abs(y - y2) >= 48 for x2, y2, _, _ in boxes[k + 1 :])


def test_suspicion_is_told_in_words_and_in_the_density_of_hatching() -> None:
    """The levels that went in: dense, middle, wide, and none."""
    root = drawn(FULL)
    fills = [node.get("fill", "") for node in root.iter(f"{SVG}rect") if node.get("fill")]
    assert sorted(fills) == ["url(#h1)", "url(#h2)", "url(#h3)"]
    assert {"most likely", "possible", "likely", "unlikely"} <= set(said(root))


def test_who_does_not_see_the_drawing_hears_where_the_leads_go() -> None:
    """The description, by this panel's labels."""
    told = drawn(FULL).findtext(f"{SVG}desc") or ""
    assert "Red lead on SIG." in told
    assert "Black lead on COM." in told
    assert "cable: most likely." in told


@pytest.mark.parametrize(("links", "role"), [({}, "img"), ({"earth": Link("/x", "x")}, "group")])
def test_a_drawing_that_can_be_tapped_is_no_plain_picture(links: dict[str, Link], role: str) -> None:
    """ARIA: the children of a picture are hidden from a screen reader, those of a group are not."""
    assert drawn(replace(FULL, links=links)).get("role") == role


def test_every_fault_shades_a_part_of_the_drawing() -> None:
    """The list of faults itself; `none` shades nothing."""
    assert {part_of(fault.id) for fault in FAULTS} == {*PARTS, ""}
    assert [fault.id for fault in FAULTS if not part_of(fault.id)] == ["none"]


def test_each_half_of_a_pair_shades_its_own_part_and_one_part_is_the_most_likely() -> None:
    """Sums by hand: cable 0.6 + 0.3, sensor 0.3 + 0.1."""
    suspects = [
        Suspect(fault="open-signal", remedy="repair-cable", probability=0.6),
        Suspect(fault="leakage-signal-common+sensor-low", remedy="repair-cable+replace-sensor", probability=0.3),
        Suspect(fault="sensor-high", remedy="replace-sensor", probability=0.1),
    ]
    found = levels(suspects)
    assert {part: found[part].word for part in found} == {
        "controller": "ruled-out", "cable": "most-likely", "sensor": "likely", "pipe": "ruled-out",
        "meter": "ruled-out",
    }  # fmt: skip
    assert levels([]) == {}
