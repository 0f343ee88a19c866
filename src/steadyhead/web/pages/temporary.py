"""Leave something temporary: what, why, until when, who watches, what protects no longer; then its tag."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.service.record.temporary import leave_temporary
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.fact_kinds import PROTECTIONS
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.words.saying import sentence

FIELDS = ("what", "why", "until", "watch")


async def ask(shop: Shop, request: Request) -> Response:
    """Ask what is left temporary, beginning with what was said last."""
    seen = shop.visit(request)
    last = seen.temporary[-1].body if seen.temporary else {}
    typed = {key: str(last.get(key, "")) for key in FIELDS}
    lost = {str(each) for each in last.get("lost", ())}
    return shop.page(request, "temporary.html", shop.speaker_for(seen), _values(shop, seen, typed, lost))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep it, and show its tag; or say what is lacking."""
    seen, form = shop.visit(request), await read_form(request)
    typed = {key: form.text(key) for key in FIELDS}
    lost = tuple(word for word in PROTECTIONS if form.text(f"lost.{word}") == word)
    try:
        leave_temporary(shop.given, seen.id, typed, lost, token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**_values(shop, seen, typed, set(lost)), "problem": says(error, speaker)}
        return shop.refused(request, "temporary.html", speaker, values)
    return go_to(f"/visits/{seen.id}/papers/tag")


def _values(shop: Shop, seen: VisitSeen, typed: dict[str, str], lost: set[str]) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    rows = [(key, sentence(speaker.name("temporary-key", key)), typed[key]) for key in FIELDS]
    choices = [(word, sentence(speaker.name("protection", word)), word in lost) for word in PROTECTIONS]
    return {"seen": seen, "title": shop.name_of(seen), "rows": rows, "choices": choices, "problem": ""}
