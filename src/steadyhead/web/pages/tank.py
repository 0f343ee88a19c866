"""A pressure tank and its pump's starts. Its form keeps nothing: its answers stand in the address."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import AnswersError
from steadyhead.service.tank import tank_figure_said, tank_known_of, work_out_tank
from steadyhead.water.tank import QUESTIONS, AskedOfTank
from steadyhead.web.forms import LONGEST
from steadyhead.web.pages.shared import Shop
from steadyhead.web.views.point_entry import with_unit
from steadyhead.web.views.tonight import pressure_unit
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence
from steadyhead.words.water_said import water_unit

GO = "go"


async def tank(shop: Shop, request: Request) -> Response:
    """Ask what is known of the tank; once it is sent, show what it gives, or name every answer that cannot be used."""
    seen = shop.visit(request)
    speaker = shop.speaker_for(seen)
    sent = {key: text[:LONGEST] for key, text in request.query_params.items()}
    answers = _answers(sent) if GO in sent else tank_known_of(seen.visit)
    values: dict[str, Any] = {
        "seen": seen, "title": shop.name_of(seen), "problems": [], "told": [], "figures": [],
        "asks": [_asked(each, answers, speaker) for each in QUESTIONS],
    }  # fmt: skip
    if GO not in sent:
        return shop.page(request, "tank.html", speaker, values)
    try:
        found = work_out_tank(answers)
    except AnswersError as error:
        wrong = [
            {"key": sentence(speaker.name("tank-ask", each.key)), "says": speaker.say(each.message)}
            for each in error.problems
        ]
        return shop.refused(request, "tank.html", speaker, {**values, "problems": wrong})
    figures = [(sentence(speaker.name("figure", each.name)), tank_figure_said(each, speaker)) for each in found.figures]
    more = {"told": [speaker.say(each) for each in found.says], "figures": figures}
    return shop.page(request, "tank.html", speaker, {**values, **more})


def _answers(sent: Mapping[str, str]) -> dict[str, str]:
    """Return the answers of the form's fields, each figure with its unit."""
    found = {}
    for asked in QUESTIONS:
        text = " ".join(sent.get(asked.key, "").split())
        if text:
            found[asked.key] = text if asked.words else with_unit(text, sent.get(f"{asked.key}.unit", ""))
    return found


def _asked(asked: AskedOfTank, answers: Mapping[str, str], speaker: Speaker) -> dict[str, Any]:
    """Return a question with its choices, or its field with the unit beside it."""
    answer = answers.get(asked.key, "")
    says = sentence(speaker.name("tank-ask", asked.key))
    choices = [(word, sentence(speaker.name("tank-motor", word)), word == answer) for word in asked.words]
    unit = ""
    if asked.dimension:
        pressure = asked.dimension == "pressure"
        unit = pressure_unit(speaker) if pressure else water_unit(asked.dimension, speaker.pressure_unit)
    value = answer.removesuffix(f" {unit}")
    return {"key": asked.key, "says": says, "must": asked.must, "choices": choices, "value": value, "unit": unit}
