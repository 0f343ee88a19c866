"""Use case: a pressure tank and its pump's starts. Answers as text in; figures and messages, or JSON, out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.figures import Figure
from steadyhead.quantities import DIMENSIONS
from steadyhead.service.answer_json import message_json
from steadyhead.visit.record import Figure as Read
from steadyhead.visit.record import Visit
from steadyhead.water.tank import TankTold, tank_from, tank_told
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

SCHEMA = 1
#: How a figure of each dimension is said.
SAID = {"volume": "{value:volume}", "number": "{value:rough}"}
#: What a reading of the visit answers already, by the question that it answers.
READ = {"precharge": "precharge"}


def work_out_tank(answers: Mapping[str, str]) -> TankTold:
    """Return what a tank gives, and how often its pump starts.

    Raises
    ------
    AnswersError
        One or more of the answers cannot be used, or are lacking.
    """
    return tank_told(tank_from(answers))


def tank_known_of(visit: Visit) -> dict[str, str]:
    """Return answers that a visit has already: what was read last, as it was written."""
    found = {}
    for reading in visit.readings:
        key = READ.get(reading.measure)
        if key and isinstance(reading.value, Read):
            found[key] = reading.value.as_written
    return found


def tank_figure_said(figure: Figure, speaker: Speaker) -> str:
    """Return a figure as this reader reads it."""
    if figure.dimension == "time":
        return speaker.render("{value:minutes}", {"value": figure.value / 60.0})
    return speaker.render(SAID[figure.dimension], {"value": figure.value})


def tank_json(told: TankTold, speaker: Speaker) -> dict[str, Any]:
    """Return the answer for programs: SI figures with their formulas, and every sentence beside its id."""
    return {
        "schema": SCHEMA,
        "figures": [_figure_json(figure, speaker) for figure in told.figures],
        "says": [message_json(each, speaker) for each in told.says],
    }


def _figure_json(figure: Figure, speaker: Speaker) -> dict[str, Any]:
    return {
        "name": figure.name, "called": sentence(speaker.name("figure", figure.name)), "value": figure.value,
        "unit": "" if figure.dimension == "number" else DIMENSIONS[figure.dimension].si,
        "text": tank_figure_said(figure, speaker), "formula": figure.formula,
        "inputs": [each.name for each in figure.inputs], "source": figure.source.cite,
    }  # fmt: skip
