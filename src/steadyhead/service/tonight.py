"""Use case: water tonight. Answers as text in; the ways there are, as messages and figures, out; and what a tag keeps.

Rules
-----
1. What is kept of a chosen way is worked out here anew from the answers, never taken from a form.
2. Nothing is kept before it is said who gets the water: a pump that feeds sprinklers must not be touched.
3. Kept limits are text with their unit, rounded down: a tag is read by people.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, NamedTuple

from steadyhead.errors import RecordError
from steadyhead.figures import Figure
from steadyhead.messages import Message, message
from steadyhead.quantities import DIMENSIONS, UNITS, spell
from steadyhead.service.answer_json import message_json
from steadyhead.visit.record import Figure as Read
from steadyhead.visit.record import Visit
from steadyhead.water.known import known_from
from steadyhead.water.tonight import Tonight, Way, tonight
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

SCHEMA = 1
#: How a figure of each dimension is said.
SAID = {
    "pressure": "{value:pressure}", "frequency": "{value:hertz}", "flow": "{value:flow}", "head": "{value:head}",
    "percent": "{value:rough-percent}",
}  # fmt: skip
#: Figures that a tag keeps, by the key of the fact.
KEPT = {
    "hertz_start": "tonight-start", "hertz_most": "tonight-most", "pressure_most": "tonight-limit",
    "cut_out": "tonight-cut-out",
}  # fmt: skip


class Chosen(NamedTuple):
    """A way that was chosen, and the answers that it was worked out from."""

    mode: str
    answers: Mapping[str, str]


def figure_said(figure: Figure, speaker: Speaker) -> str:
    """Return a figure with its unit, as this reader reads it."""
    return speaker.render(SAID[figure.dimension], {"value": figure.value})


def work_out(answers: Mapping[str, str]) -> Tonight:
    """Return what may run until the part comes.

    Raises
    ------
    AnswersError
        One or more of the answers cannot be used.
    """
    return tonight(known_from(answers))


def way_of(chosen: Chosen) -> Way:
    """Return the way that was chosen, worked out anew.

    Raises
    ------
    AnswersError
        One or more of the answers cannot be used.
    RecordError
        ``tonight-who-first``: nobody said who gets the water; ``tonight-fire-pump``; or ``tonight-not-so``: there is no
        such way, or it may not be done.
    """
    if not chosen.answers.get("serves"):
        raise RecordError(message("tonight-who-first"))
    found = work_out(chosen.answers)
    if found.refused is not None:
        raise RecordError(found.refused)
    way = next((each for each in found.ways if each.mode == chosen.mode), None)
    if way is None or way.possible != "yes":
        raise RecordError(message("tonight-not-so", ways=tuple(w.mode for w in found.ways if w.possible == "yes")))
    return way


def kept_of(chosen: Chosen, way: Way, pressure_unit: str) -> dict[str, Any]:
    """Return the keys of a fact that keep a way: its mode, its limits as text, who must watch, the answers."""
    body: dict[str, Any] = {"mode": way.mode, "watch_least": way.watch}
    figures = {figure.name: figure for figure in way.limits}
    for key, name in KEPT.items():
        if name in figures:
            body[key] = _safe_text(figures[name], pressure_unit)
    answers = {key: text for key, text in chosen.answers.items() if text}
    return {**body, **({"known": answers} if answers else {})}


def _safe_text(figure: Figure, pressure_unit: str) -> str:
    """Return a limit as text, rounded down to three figures; a speed to a tenth of a hertz."""
    if figure.dimension == "frequency":
        return spell(math.floor(figure.value * 10.0 + 1e-6) / 10.0, "Hz")
    factor = next(each.factor for each in UNITS if each.symbol == pressure_unit and each.dimension == "pressure")
    shown = figure.value / factor
    step = 10.0 ** (math.floor(math.log10(shown)) - 2) if shown > 0 else 1.0
    return spell(math.floor(shown / step + 1e-6) * step * factor, pressure_unit)


def known_of(visit: Visit) -> dict[str, str]:
    """Return answers that the visit has already: the set pressure, the gauge's scale, what is at hand."""
    found: dict[str, str] = {}
    unit = {"m": "mH2O", "ft": "ftH2O"}.get(visit.pressure_unit, visit.pressure_unit)
    read = [each.value for each in visit.readings if each.measure == "displayed-setpoint"]
    if read and isinstance(read[-1], Read):
        found["set-pressure"] = spell(read[-1].value, unit)
    gauge = visit.instruments.gauge
    if gauge is not None and gauge.range is not None:
        found["gauge-top"] = spell(gauge.range.high, unit)
    have = visit.instruments.have or ()
    found |= {key: "yes" for key, tool in (("spare", "spare-sensor"), ("lead", "spare-lead")) if tool in have}
    return found


# ---------------------------------------------------------------- for programs


def tonight_json(found: Tonight, speaker: Speaker) -> dict[str, Any]:
    """Return the answer for programs: ids, SI figures, and every sentence beside its id."""
    best = found.best
    return {
        "schema": SCHEMA,
        "refused": message_json(found.refused, speaker) if found.refused else None,
        "best": best.mode if best else None,
        "tell": _messages(found.tell, speaker),
        "ways": [_way_json(way, speaker) for way in found.ways],
    }


def _way_json(way: Way, speaker: Speaker) -> dict[str, Any]:
    return {
        "mode": way.mode, "called": sentence(speaker.name("tonight-way", way.mode)), "possible": way.possible,
        "why": _messages(way.why, speaker), "blocked": way.blocked,
        "find_out": [{"question": key, "text": speaker.name("tonight-find", key)} for key in way.find],
        "limits": [_figure_json(figure, speaker) for figure in way.limits],
        "lost": list(way.lost), "watch": way.watch, "do": _messages(way.do, speaker),
        "cautions": _messages(way.cautions, speaker),
    }  # fmt: skip


def _figure_json(figure: Figure, speaker: Speaker) -> dict[str, Any]:
    return {
        "name": figure.name, "called": sentence(speaker.name("figure", figure.name)), "value": figure.value,
        "unit": DIMENSIONS[figure.dimension].si, "text": figure_said(figure, speaker), "formula": figure.formula,
        "inputs": [each.name for each in figure.inputs], "source": figure.source.cite,
    }  # fmt: skip


def _messages(lines: tuple[Message, ...], speaker: Speaker) -> list[dict[str, Any]]:
    return [message_json(line, speaker) for line in lines]
