"""Why one cause is likely, or out: how each reading moved it, its rivals, and what would decide."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.diagnosis.observing import question_of
from steadyhead.diagnosis.reasons import Reasons
from steadyhead.service.at_work import Task
from steadyhead.service.check_words import question_text
from steadyhead.service.reason_words import LISTED, decides, foretold, moved
from steadyhead.service.record.times import judging_by
from steadyhead.service.why import why
from steadyhead.visit.record import Visit
from steadyhead.web.pages.shared import Shop
from steadyhead.web.views.known import value_text
from steadyhead.words import Speaker
from steadyhead.words.odds import odds
from steadyhead.words.saying import sentence


async def explain(shop: Shop, request: Request) -> Response:
    """Show how each reading moved a suspect."""
    seen = shop.visit(request)
    speaker = shop.speaker_for(seen)
    asked = request.query_params.get("suspect", "")
    by = judging_by(shop.given)
    key = f"{seen.id}:{seen.key}:why:{asked}:{shop.manner}:{by.key}"
    task = Task(seen.id, key, reasons_of, (seen.visit, asked, speaker, by.estimates))
    found = await shop.worked_out(task)
    deciding = [sentence(decides(each, speaker)) for each in found.deciding]
    values = {
        "seen": seen,
        "title": shop.name_of(seen),
        "percent": _percent(found.probability),
        "head": sentence(speaker.tell("web-why-head", fault=found.fault, share=found.probability)),
        "repair": speaker.tell("web-why-repair", remedy=found.remedy),
        "before": speaker.tell("why-before", share=found.before),
        "steps": list(_steps(seen.visit, found, speaker)),
        "rivals": [_rival(each, speaker) for each in found.rivals if each.probability >= LISTED],
        "deciding": deciding or [speaker.tell("why-nothing-decides")],
    }
    return shop.page(request, "why.html", speaker, values)


def reasons_of(memory: Memory, visit: Visit, asked: str, speaker: Speaker, estimates: Estimates) -> Reasons:
    """Return how each reading moved the suspect that an address asks for."""
    return why(visit, asked, speaker, estimates, memory=memory)


def _steps(visit: Visit, found: Reasons, speaker: Speaker) -> Iterator[dict[str, str]]:
    before = found.before
    for reason in found.readings:
        reading = visit.readings[reason.reading - 1]
        yield {
            "what": sentence(question_text(question_of(reading), speaker)),
            "value": value_text(reading, speaker),
            "foretold": foretold(reason, before, reading, speaker),
            "moved": moved(reason, before, speaker),
        }
        before = reason.probability


def _rival(each: Any, speaker: Speaker) -> dict[str, Any]:  # noqa: ANN401 - a rival of the reasons
    return {
        "fault": each.fault,
        "name": sentence(speaker.name("fault", each.fault)),
        "odds": speaker.translated(odds(each.probability)),
        "percent": _percent(each.probability),
    }


def _percent(share: float) -> float:
    return max(1.0, round(100 * share, 1))
