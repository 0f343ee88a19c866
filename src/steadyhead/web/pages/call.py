"""The call: what was said, since when, when it shows, what came before; by taps."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.record.visits import set_complaint
from steadyhead.visit.record import Complaint
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.words import Speaker
from steadyhead.words.complaint_names import COMPLAINT
from steadyhead.words.saying import sentence

#: Keys of [complaint] that are tapped, and whether several may be.
KEYS = {"shown": True, "since": False, "when": False, "changed": True}


async def call(shop: Shop, request: Request) -> Response:
    """Show what was said."""
    seen = shop.visit(request)
    said = seen.visit.complaint
    return shop.page(request, "call.html", shop.speaker_for(seen), {**_values(shop, seen, said), "problem": ""})


async def keep_call(shop: Shop, request: Request) -> Response:
    """Keep what was said."""
    seen, form = shop.visit(request), await read_form(request)
    row = call_row(form)
    try:
        set_complaint(shop.given, seen.id, row, token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**_values(shop, seen, seen.visit.complaint), "text": form.text("text")}
        return shop.refused(request, "call.html", speaker, {**values, "problem": says(error, speaker)})
    return go_to(f"/visits/{seen.id}")


def call_row(form: Form) -> dict[str, Any]:
    """Return what a form says of the call; what is empty is left out."""
    row: dict[str, Any] = {"text": form.text("text")}
    for key, several in KEYS.items():
        words = [word for word in _words(key) if form.text(f"{key}.{word}" if several else key) == word]
        row[key] = words if several else next(iter(words), None)
    return {key: value for key, value in row.items() if value}


def _words(key: str) -> list[str]:
    return [id_.partition(":")[2] for id_ in COMPLAINT if id_.startswith(f"{key}:")]


def _values(shop: Shop, seen: VisitSeen, said: Complaint) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    return {
        "seen": seen, "title": shop.name_of(seen), "text": said.text or "", "groups": call_groups(said, speaker, None),
    }  # fmt: skip


def call_groups(said: Complaint, speaker: Speaker, form: Form | None) -> list[dict[str, Any]]:
    """Return the taps that tell of a call, as they were kept; with a form, as it was sent."""
    sent = call_row(form) if form else None
    return [_group(key, speaker, getattr(said, key) if sent is None else sent.get(key, ())) for key in KEYS]


def _group(key: str, speaker: Speaker, chosen: Collection[str] | str | None) -> dict[str, Any]:
    several = KEYS[key]
    held = (chosen,) if isinstance(chosen, str) else chosen or ()
    heads = {
        "shown": speaker.tell("web-call-shown"),
        "since": speaker.tell("web-call-since"),
        "when": speaker.tell("web-call-when"),
        "changed": speaker.tell("web-call-changed"),
    }
    return {
        "name": key,
        "head": heads[key],
        "kind": "checkbox" if several else "radio",
        "choices": [
            (word, sentence(speaker.name("complaint", f"{key}:{word}")), word in held)
            for word in _words(key)
        ],
    }
