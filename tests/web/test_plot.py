"""The picture of a sensor check: by its geometry, read back from the SVG as a browser would."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.web.plot.error_plot import BOTTOM, HIGH, LEFT, RIGHT, TOP, WIDE, ErrorPlot, PlotPoint, error_plot
from steadyhead.web.plot.scales import Scale, opened, ticks
from tests.web.drawn import SVG, looks, overlapping, texts

WORDS = {
    "error": "Error, psi", "pressure": "Pressure, psi", "allowed": "allowed ±1 psi", "next": "next: 80 psi",
    "up": "going up", "down": "going down", "bar": "how well it is known",
}  # fmt: skip
EMPTY = ErrorPlot(range=(0.0, 100.0), allowed=1.0, words=WORDS, title="Error", told="Nothing yet.")
POINTS = (
    PlotPoint(pressure=0.0, error=0.0, known_within=0.5),
    PlotPoint(pressure=50.0, error=1.0, known_within=0.5),
    PlotPoint(pressure=100.0, error=-0.4, known_within=0.5),
    PlotPoint(pressure=50.0, error=1.4, known_within=0.5, direction="down"),
    PlotPoint(pressure=0.0, error=0.2, direction="down"),
)
FULL = replace(EMPTY, points=POINTS)
NUMBER = re.compile(r"-?\d+\.?\d*")
FIGURES = st.floats(-1e6, 1e6, allow_nan=False)


def picture(plot: ErrorPlot) -> ET.Element:
    """Return a picture, parsed."""
    text = str(error_plot(plot)).replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return ET.fromstring(text)  # noqa: S314 - our own text


def places(root: ET.Element, *look: str) -> list[list[tuple[float, float]]]:
    """Return the corners of every line that has these classes."""
    found = []
    for node in root.iter(f"{SVG}path"):
        if set(look) <= set(looks(node)):
            figures = list(map(float, NUMBER.findall(node.get("d", ""))))
            found.append(list(zip(figures[::2], figures[1::2], strict=True)))
    return found


def middle(corners: list[tuple[float, float]]) -> tuple[float, float]:
    """Return the middle of gravity of a triangle: the mean of its corners."""
    xs, ys = zip(*corners, strict=True)
    return sum(xs) / 3, sum(ys) / 3


def key_left_out(found: list[list[tuple[float, float]]]) -> list[list[tuple[float, float]]]:
    """Return what stands inside the axes."""
    return [corners for corners in found if all(y <= BOTTOM + 8 for _, y in corners)]


def test_a_point_without_error_lies_on_the_zero_line() -> None:
    """The middle of its triangle, to a tenth of a unit: what is written."""
    root = picture(FULL)
    ((_, zero), _) = places(root, "zero")[0]
    assert middle(key_left_out(places(root, "point", "up"))[0])[1] == pytest.approx(zero, abs=0.1)


def test_a_point_at_the_limit_lies_on_the_edge_of_what_is_allowed() -> None:
    """1 psi of 1 psi; the lower edge lies as far below zero."""
    root = picture(FULL)
    ((_, zero), _) = places(root, "zero")[0]
    (upper, _), (lower, _) = places(root, "limit")
    assert middle(key_left_out(places(root, "point", "up"))[1])[1] == pytest.approx(upper[1], abs=0.1)
    assert zero - upper[1] == pytest.approx(lower[1] - zero, abs=0.2)


def test_pressures_stand_in_proportion() -> None:
    """50 psi half-way between 0 and 100 psi."""
    low, half, high = (middle(c)[0] for c in key_left_out(places(picture(FULL), "point", "up")))
    assert half == pytest.approx((low + high) / 2, abs=0.1)


def test_a_bar_reaches_as_far_up_as_down_and_its_length_is_the_uncertainty() -> None:
    """0.5 psi to either side, in the scale that the limits give (1 psi); a point without one has no bar."""
    root = picture(FULL)
    ((_, zero), _) = places(root, "zero")[0]
    a_psi = zero - places(root, "limit")[0][0][1]
    upright = [c for c in key_left_out(places(root, "known")) if c[0][0] == c[1][0]]
    assert len(upright) == 4
    for ((_, top), (_, bottom)), point in zip(upright, POINTS, strict=False):
        assert bottom - top == pytest.approx(a_psi, abs=0.2)
        assert (top + bottom) / 2 == pytest.approx(zero - point.error * a_psi, abs=0.2)


def test_up_and_down_are_told_by_shape() -> None:
    """A triangle's tip: above the middle going up, below it going down; and each is said under the picture."""
    root = picture(FULL)
    for corners in places(root, "point", "up"):
        assert sum(y > middle(corners)[1] for _, y in corners) == 2
    for corners in places(root, "point", "down"):
        assert sum(y < middle(corners)[1] for _, y in corners) == 2
    assert {"going up", "going down", "how well it is known"} <= {box.text for box in texts(root)}
    assert (len(places(root, "way", "up")), len(places(root, "way", "down"))) == (1, 1)


def test_what_is_not_allowed_is_hatched_and_nothing_else() -> None:
    """The hatched boxes end at the limits."""
    root = picture(FULL)
    (upper, _), (lower, _) = places(root, "limit")
    boxes = [node for node in root.iter(f"{SVG}rect") if "url" in node.get("fill", "")]
    tops = [(float(b.get("y", "")), float(b.get("y", "")) + float(b.get("height", ""))) for b in boxes]
    assert tops == [pytest.approx((TOP, upper[1]), abs=0.1), pytest.approx((lower[1], BOTTOM), abs=0.1)]
    assert [n for n in picture(replace(FULL, allowed=None)).iter(f"{SVG}rect") if "url" in n.get("fill", "")] == []


def test_the_next_pressure_stands_where_it_is_written() -> None:
    """80 psi on an axis whose 0 and 100 psi are known from the points."""
    root = picture(replace(FULL, next=80.0))
    low, _, high = (middle(c)[0] for c in key_left_out(places(root, "point", "up")))
    ((x, _), _) = places(root, "comes")[0]
    assert x == pytest.approx(low + 0.8 * (high - low), abs=0.1)
    assert "next: 80 psi" in {box.text for box in texts(root)}


@pytest.mark.parametrize("next_", [None, 0.0, 3.0, 50.0, 97.0, 100.0])
@pytest.mark.parametrize("size", [1e-3, 1.0, 40.0, 900.0])
@pytest.mark.parametrize("span", [1.0, 6.0, 100.0, 25_000.0])
def test_no_text_lies_on_another_or_past_the_edge(span: float, size: float, next_: float | None) -> None:
    """Sizes from a thousandth to a thousand times what is allowed; an estimate of each text's room."""
    points = [replace(p, pressure=p.pressure * span / 100, error=p.error * size * span / 100) for p in POINTS]
    plot = replace(
        FULL, points=points, range=(0.0, span), allowed=span / 100, next=None if next_ is None else next_ * span / 100
    )
    root = picture(plot)
    assert overlapping(root) == []
    for box in texts(root):
        assert box.left >= -0.5, box
        assert box.right <= WIDE + 0.5, box
        assert 0 <= box.top <= box.bottom <= HIGH, box


def test_every_bar_lies_inside_the_frame() -> None:
    """Of a point that is known ten times worse than what is allowed."""
    points = [PlotPoint(pressure=50.0, error=0.5, known_within=10.0)]
    for corners in key_left_out(places(picture(replace(EMPTY, points=points)), "known")):
        assert all(TOP < y < BOTTOM for _, y in corners)


def test_every_mark_lies_inside_the_frame() -> None:
    """A gross error and a pressure past the range open the axes."""
    wild = (PlotPoint(pressure=130.0, error=-40.0, known_within=3.0), PlotPoint(pressure=-8.0, error=25.0))
    for corners in key_left_out(places(picture(replace(EMPTY, points=wild)), "point")):
        x, y = middle(corners)
        assert LEFT < x < RIGHT
        assert TOP < y < BOTTOM


@given(low=FIGURES, span=st.floats(1e-6, 1e6), most=st.integers(2, 9))
def test_ticks_are_round_equally_spaced_and_within(low: float, span: float, most: int) -> None:
    """Each is a whole multiple of 1, 2 or 5 times a power of ten; at most as many as asked for; never none of two."""
    found = ticks(low, low + span, most)
    assert len(found) <= most
    slack = 1e-6 * span + 1e-9 * abs(low)
    assert all(low - slack <= tick <= low + span + slack for tick in found)
    if len(found) > 2 and abs(low) < 1e4 * span:
        steps = {f"{b - a:.3g}" for a, b in pairwise(found)}
        assert len(steps) == 1
        assert re.fullmatch(r"[125]0*\.?0*(e[+-]?\d+)?|0\.0*[125]", steps.pop())


@given(st.lists(FIGURES, min_size=1, max_size=6))
def test_an_axis_holds_every_figure(figures: list[float]) -> None:
    """And places them in their order."""
    low, high = opened(tuple(figures))
    assert low < high
    scale = Scale(low, high, 0.0, 1.0)
    assert all(0.0 <= scale.at(figure) <= 1.0 for figure in figures)
