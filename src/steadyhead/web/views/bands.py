"""A band and a figure on one short axis, drawn: healthy from here to there, read here.

Rules
-----
1. The axis reaches past both ends of the band and past the figure, so that nothing lies on its edge.
2. Where a figure lies outside the band is said in words too.
"""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from steadyhead.diagnosis.answer import Band
from steadyhead.service.after_repair import band_shown
from steadyhead.service.figures import band
from steadyhead.visit.record import Figure, ReadingValue, Spread
from steadyhead.words import Speaker

WIDE, HIGH, EDGE = 104.0, 26.0, 6.0
#: An axis is at least this many times as long as its band.
ROOM = 2.2


@dataclass(frozen=True, slots=True, kw_only=True)
class BandView:
    """A healthy band: in words, as figures in its unit for the page's script, and drawn."""

    text: str
    low: float
    high: float
    unit: str
    svg: Markup
    state: str = ""


def band_view(found: Band | None, value: ReadingValue | None, pressure_unit: str, speaker: Speaker) -> BandView | None:
    """Return a band with what was read; None where there is no band."""
    if found is None:
        return None
    shown = band_shown(found, pressure_unit)
    low, high = float(shown["low"]), float(shown["high"])
    factor = (high - low) / ((found.high - found.low) or 1.0)
    marks = [mark * factor for mark in _marks(value)]
    return BandView(
        text=band((low, high), shown["unit"], speaker),
        low=low,
        high=high,
        unit=shown["unit"],
        svg=_drawn(low, high, marks, _said(low, high, marks, speaker)),
        state=state(low, high, marks),
    )


def state(low: float, high: float, marks: list[float]) -> str:
    """Return where a reading lies: ``within``, ``below``, ``above``, or nothing where there is none.

    >>> state(1.0, 2.0, [1.5]), state(1.0, 2.0, [0.2]), state(1.0, 2.0, [0.5, 1.5]), state(1.0, 2.0, [])
    ('within', 'below', 'below', '')
    """
    if not marks:
        return ""
    if min(marks) < low:
        return "below"
    return "above" if max(marks) > high else "within"


def _marks(value: ReadingValue | None) -> list[float]:
    """Return where marks stand, SI units: one for a figure, two for one that jumps."""
    if isinstance(value, Figure) and value.unit != "fraction":
        return [value.value]
    return [value.low, value.high] if isinstance(value, Spread) else []


def _said(low: float, high: float, marks: list[float], speaker: Speaker) -> str:
    where = state(low, high, marks)
    return speaker.name("band", where) if where else speaker.tell("web-band-empty")


def _drawn(low: float, high: float, marks: list[float], said: str) -> Markup:
    """Return the axis with the band as a box and the figure as a stroke."""
    ends = (min([low, *marks]), max([high, *marks]))
    length = max((ends[1] - ends[0]) * 1.15, (high - low) * ROOM) or 1.0
    start = 0.5 * (ends[0] + ends[1]) - length / 2

    def place(figure: float) -> str:
        return f"{EDGE + (WIDE - 2 * EDGE) * (figure - start) / length:.1f}"

    strokes = Markup("").join(
        Markup('<line class="mark" x1="{0}" x2="{0}" y1="3" y2="23"/>').format(place(mark)) for mark in marks
    )
    left, right = place(low), place(high)
    box = Markup('<rect class="range" x="{}" y="5" width="{:.1f}" height="16"/>').format(
        left, max(float(right) - float(left), 2.0)
    )
    axis = Markup('<line class="axis" x1="2" x2="102" y1="13" y2="13"/>')
    head = Markup('<svg class="band" viewBox="0 0 {:g} {:g}" role="img" aria-label="{}">').format(WIDE, HIGH, said)
    return head + axis + box + strokes + Markup("</svg>")
