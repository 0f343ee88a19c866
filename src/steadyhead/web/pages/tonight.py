"""Water tonight: what can run until the part comes. Its form keeps nothing: its answers stand in the address."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import AnswersError
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.tonight import known_of, work_out
from steadyhead.web.forms import LONGEST
from steadyhead.web.pages.shared import Shop
from steadyhead.web.views.tonight import answers_of, group_views, way_views
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

GO = "go"


async def tonight(shop: Shop, request: Request) -> Response:
    """Ask what is known; once it is sent, show what can run, or name every answer that cannot be used."""
    seen = shop.visit(request)
    speaker = shop.speaker_for(seen)
    sent = {key: text[:LONGEST] for key, text in request.query_params.items()}
    answers = answers_of(sent) if GO in sent else known_before(seen)
    values: dict[str, Any] = {
        "seen": seen, "title": shop.name_of(seen), "problems": [], "ways": [], "told": [],
        "who": bool(answers.get("serves")),
    }  # fmt: skip
    try:
        found = work_out(answers)
    except AnswersError as error:
        wrong = [each.key for each in error.problems]
        more = {"problems": _wrong(error, speaker), "groups": group_views(answers, None, speaker, wrong)}
        return shop.refused(request, "tonight.html", speaker, {**values, **more})
    if GO not in sent:
        groups = group_views(answers, None, speaker)
        return shop.page(request, "tonight.html", speaker, {**values, "groups": groups})
    told = (found.refused,) if found.refused else found.tell
    more = {
        "told": [speaker.say(line) for line in told], "ways": way_views(seen.id, answers, found, speaker),
        "groups": group_views(answers, found, speaker),
    }  # fmt: skip
    return shop.page(request, "tonight.html", speaker, {**values, **more})


def _wrong(error: AnswersError, speaker: Speaker) -> list[dict[str, str]]:
    """Return each answer that cannot be used, by what was asked."""
    return [
        {"key": sentence(speaker.name("tonight-ask", each.key)), "says": speaker.say(each.message)}
        for each in error.problems
    ]


def known_before(seen: VisitSeen) -> dict[str, str]:
    """Return what the visit has already, and what was answered when something was left temporary before."""
    last = seen.temporary[-1].body.get("known", {}) if seen.temporary else {}
    return {**known_of(seen.visit), **{str(key): str(text) for key, text in dict(last).items()}}
