"""Leave something temporary: what, why, until when, who watches, what protects no longer; then its tag.

Rules
-----
1. A way that was worked out comes with its answers, in the address and then in the form; its limits are worked out here
   again, and what it takes from protection is ticked.
2. What is lacking is named all at once, and marked.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.service.record.temporary import leave_temporary
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.tonight import KEPT, Chosen, way_of
from steadyhead.visit.fact_kinds import PROTECTIONS
from steadyhead.water.limits import HAND_FIGURES
from steadyhead.water.tonight import Way
from steadyhead.web.forms import LONGEST, read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.views.tonight import answers_of, limits_of
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

FIELDS = ("what", "why", "until", "watch")
MODE = "mode"
#: Answers of a way have this before their keys in the form: `watch` is asked by both.
KNOWN = "known."


async def ask(shop: Shop, request: Request) -> Response:
    """Ask what is left temporary, beginning with the way that was worked out, or with what was said last."""
    seen = shop.visit(request)
    speaker = shop.speaker_for(seen)
    chosen = _chosen({key: text[:LONGEST] for key, text in request.query_params.items()})
    last = seen.temporary[-1].body if seen.temporary else {}
    typed = {key: str(last.get(key, "")) for key in FIELDS}
    if chosen is None:
        lost = {str(each) for each in last.get("lost", ())}
        return shop.page(request, "temporary.html", speaker, _values(shop, seen, typed, lost))
    way = way_of(chosen)
    typed |= {"what": _what(way, speaker), "until": ""}
    return shop.page(request, "temporary.html", speaker, _values(shop, seen, typed, set(way.lost), chosen))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep it, and show its tag; or say what is lacking."""
    seen, form = shop.visit(request), await read_form(request)
    typed = {key: form.text(key) for key in FIELDS}
    lost = tuple(word for word in PROTECTIONS if form.text(f"lost.{word}") == word)
    sent = {key.removeprefix(KNOWN): form.text(key) for key in form.fields if key.startswith(KNOWN) or key == MODE}
    chosen = _chosen(sent)
    try:
        leave_temporary(shop.given, seen.id, typed, lost, chosen=chosen, token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = _values(shop, seen, typed, set(lost), chosen)
        lacks = error.message.values.get("lacks", ())
        values |= {"problem": says(error, speaker), "lacks": lacks}
        return shop.refused(request, "temporary.html", speaker, values)
    return go_to(f"/visits/{seen.id}/papers/tag")


def _chosen(sent: Mapping[str, str]) -> Chosen | None:
    return Chosen(sent[MODE], answers_of(sent)) if sent.get(MODE) else None


def _what(way: Way, speaker: Speaker) -> str:
    """Return what a way is called on the tag, in this reader's words."""
    most, limit = (next((f.value for f in way.limits if f.name == name), None) for name in HAND_FIGURES)
    if most is None or limit is None:
        return speaker.tell("temporary-what", mode=way.mode)
    return speaker.tell("temporary-what-hand", mode=way.mode, most=most, limit=limit)


def _values(
    shop: Shop, seen: VisitSeen, typed: dict[str, str], lost: set[str], chosen: Chosen | None = None
) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    rows = [(key, sentence(speaker.name("temporary-key", key)), typed[key]) for key in FIELDS]
    choices = [(word, sentence(speaker.name("protection", word)), word in lost) for word in PROTECTIONS]
    return {
        "seen": seen, "title": shop.name_of(seen), "rows": rows, "choices": choices, "problem": "", "lacks": (),
        **_way_values(seen, chosen, speaker),
    }  # fmt: skip


def _way_values(seen: VisitSeen, chosen: Chosen | None, speaker: Speaker) -> dict[str, Any]:
    """Return the chosen way with its limits, and its answers as the form carries them."""
    if chosen is None:
        return {"way": None, "answers": []}
    carried = [(MODE, chosen.mode), *((f"{KNOWN}{key}", text) for key, text in chosen.answers.items())]
    again = f"/visits/{seen.id}/tonight?{urlencode({'go': 'yes', **chosen.answers})}"
    try:
        way = way_of(chosen)
    except InputError:  # told as the form's own problem, above it
        return {"way": None, "answers": carried}
    told = {
        "mode": way.mode, "limits": limits_of(way, speaker, only=KEPT.values()), "again": again,
        "watch": speaker.tell("tonight-watched", watch=way.watch),
    }  # fmt: skip
    return {"way": told, "answers": carried}
