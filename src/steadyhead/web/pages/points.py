"""A reading anywhere: tap two points of the drawing, and say what the meter shows between them.

Rules
-----
1. Every tap is a link: it works without scripts, and the back button takes it back.
2. The hook-up is chosen first; it is the one in which the last reading was taken unless the address says otherwise.
3. What cannot be measured between two points is not offered; what the record's rules refuse is told when it is kept.
"""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.diagnosis.cautions import cautions
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.system import System
from steadyhead.errors import UnknownWordError
from steadyhead.loop.vocabulary import INSPECTION_ITEMS, TWO_LEAD_MEASURES
from steadyhead.messages import message
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.measures import DEAD, MEASURE, ohms_points_in
from steadyhead.visit.nearest import shown
from steadyhead.web.pages.shared import Shop
from steadyhead.web.questions import LOOP, key_of
from steadyhead.web.views.caring import care_view
from steadyhead.web.views.checks import entry_view, leads, title, told_before
from steadyhead.web.views.loop_drawn import drawn_loop, links_to_read, tappable
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence


async def read_anywhere(shop: Shop, request: Request) -> Response:
    """Show the drawing to tap at; once both leads have their points, the form."""
    seen = shop.visit(request)
    question = _question(seen, request)
    values = {**await read_values(shop, seen, question), "typed": "", "unit": "", "problem": "", "doubt": None}
    return shop.page(request, "read.html", shop.speaker_for(seen), values)


async def read_values(shop: Shop, seen: VisitSeen, question: Question) -> dict[str, Any]:
    """Return what the template needs, but for what its form holds."""
    speaker, visit = shop.speaker_for(seen), seen.visit
    address = f"/visits/{seen.id}/read"
    both = bool(question.red and question.black) or question.measure == "milliamps"
    chosen = {"arrangement": question.arrangement}
    if question.red and not both:
        chosen["red"] = question.red
    links = links_to_read(visit, address, chosen, speaker)
    asks = speaker.tell("web-tap-black" if question.red else "web-tap-red")
    found = await shop.think(seen)
    return {
        "seen": seen,
        "title": shop.name_of(seen),
        "drawing": drawn_loop(visit, question, found.answer.suspects if found.answer else (), speaker, links),
        "head": title(question, speaker) if both else asks,
        "leads": leads(question, speaker),
        "choices": _measures(question, address, speaker.name) if question.black else (),
        "leadless": _leadless(seen, question.arrangement, speaker),
        "entry": entry_view(visit, question, speaker) if both else None,
        "care": care_view(cautions(System(visit), question) if both else (), told_before(seen), speaker),
        "hook_ups": [
            (f"{address}?{urlencode({'arrangement': id_})}", sentence(speaker.name("arrangement", id_)),
             id_ == question.arrangement)
            for id_ in _hook_ups(seen)
        ],
    }  # fmt: skip


def _hook_ups(seen: VisitSeen) -> tuple[str, ...]:
    """Return the hook-ups that this system can stand in; a signal in volts has no meter in its wire."""
    current = seen.visit.sensor.signal.kind == "current"
    return tuple(id_ for id_ in LOOP if current or id_ != "meter-in-signal")


def _leadless(seen: VisitSeen, arrangement: str, speaker: Speaker) -> list[tuple[str, str]]:
    """Return what can be read without leads as the loop stands: gauge, display, and every look."""
    shown = () if arrangement == "source-at-controller" else ("displayed-pressure", "displayed-signal")
    asked = [Question("gauge-pressure"), *(Question(measure, arrangement) for measure in shown)]
    asked += [Question("displayed-fault"), *(Question("inspection", item=item) for item in INSPECTION_ITEMS)]
    return [(f"/visits/{seen.id}?{urlencode({'check': key_of(each)})}", title(each, speaker)) for each in asked]


def _question(seen: VisitSeen, request: Request) -> Question:
    """Return what the address asks for.

    Raises
    ------
    UnknownWordError
        A hook-up, a point or a measure that this system does not have.
    """
    asked = request.query_params
    arrangement = asked.get("arrangement", "connected")
    _known(arrangement, _hook_ups(seen))
    points = tappable(seen.visit, arrangement)
    red, black = asked.get("red"), asked.get("black")
    for point in (red, black):
        _known(point, (None, *points))
    measures = measures_between(arrangement, red, black)
    measure = asked.get("measure", measures[0])
    _known(measure, measures)
    if arrangement == "meter-in-signal" and not red:
        return Question("milliamps", arrangement)
    return Question(measure, arrangement, red, black if black != red else None)


def measures_between(arrangement: str, red: str | None, black: str | None) -> tuple[str, ...]:
    """Return what can be measured between two points in a hook-up, the usual one first.

    >>> measures_between("connected", "controller.signal", "controller.common")
    ('volts', 'volts-ac')
    """
    dead = arrangement in DEAD
    fed = ohms_points_in(arrangement)
    found = []
    for measure in ("ohms", "megohms", "volts", "volts-ac") if dead else TWO_LEAD_MEASURES:
        allowed = MEASURE[measure].arrangements
        free = measure not in {"ohms", "megohms"} or {red, black} <= {None, *fed}
        if free and (not allowed or arrangement in allowed):
            found.append(measure)
    return tuple(found)


def _measures(question: Question, address: str, name: Any) -> list[tuple[str, str, bool]]:  # noqa: ANN401 - a speaker's own
    where = {"arrangement": question.arrangement, "red": question.red, "black": question.black}
    return [
        (f"{address}?{urlencode({**where, 'measure': measure})}", sentence(name("measure", measure)),
         measure == question.measure)
        for measure in measures_between(question.arrangement, question.red, question.black)
    ]  # fmt: skip


def _known(word: str | None, words: tuple[str | None, ...]) -> None:
    if word not in words:
        raise UnknownWordError(message("web-check-unknown", got=shown(word or "")))
