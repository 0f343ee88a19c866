"""A repair: made with one tap, or with where, which parts and who said yes; corrected; and that the fault came back.

Rules
-----
1. One tap keeps a repair. What else is said of it can be said before, with it, or at any time after.
2. Where the fault came back, one tap says so, and the search goes on with every reading.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import count
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, UnknownWordError
from steadyhead.messages import message
from steadyhead.service.record.readings import record_action
from steadyhead.service.record.repairs import PART_KEYS, TEXTS, RepairSeen, correct_repair, details_of, repair_page
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.repair_cautions import REPAIR_CAUTIONS, repair_cautions
from steadyhead.visit.fact_kinds import MENDED_AT
from steadyhead.visit.nearest import shown
from steadyhead.visit.remedies import REMEDIES
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, local_moment, says
from steadyhead.web.views.repaired import done_text, place_text
from steadyhead.web.views.visit_page import remedies
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

#: Parts that a form has room for; as many as a repair has, where it has more.
ROWS = 3
#: What is replaced is a part that is called so.
REPLACED = {"replace-sensor": "sensor", "replace-board": "board", "replace-gauge": "gauge"}


async def ask(shop: Shop, request: Request) -> Response:
    """Ask for a repair with all that may be said of it."""
    seen = shop.visit(request)
    remedy = request.query_params.get("remedy", "")
    return shop.page(request, "repair.html", shop.speaker_for(seen), await _asked(shop, seen, remedy, {}))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep that a repair was made."""
    seen, form = shop.visit(request), await read_form(request)
    remedy = form.text("remedy")
    try:
        if not remedy or any(part not in REMEDIES for part in remedy.split("+")):
            raise UnknownWordError(message("repair-which", got=shown(remedy)))
        record_action(shop.given, seen.id, remedy, _details(form), token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**await _asked(shop, seen, remedy, dict(form.fields)), "problem": says(error, speaker)}
        return shop.refused(request, "repair.html", speaker, values)
    return go_to(f"/visits/{seen.id}")


async def one(shop: Shop, request: Request) -> Response:
    """Show a repair with what was said of it before."""
    seen = shop.visit(request)
    found = repair_page(shop.given, seen.id, str(request.path_params["repair"]))
    return shop.page(request, "repair.html", shop.speaker_for(seen), _values(shop, seen, found, _held(found)))


async def correct(shop: Shop, request: Request) -> Response:
    """Keep what else is said of a repair: its details, that it came back, that it was not made after all."""
    seen, form = shop.visit(request), await read_form(request)
    found = repair_page(shop.given, seen.id, str(request.path_params["repair"]))
    try:
        correct_repair(shop.given, seen.id, found.id, _changes(form, found), token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**_values(shop, seen, found, dict(form.fields)), "problem": says(error, speaker)}
        return shop.refused(request, "repair.html", speaker, values)
    return go_to(f"/visits/{seen.id}")


def _changes(form: Form, found: RepairSeen) -> dict[str, Any]:
    """Return what a form changes: one flag, or all details."""
    flag = form.text("flag")
    if flag in {"came_back", "holds", "withdrawn", "made"}:
        key = "came_back" if flag in {"came_back", "holds"} else "withdrawn"
        held = {name: value for name, value in found.body.items() if name in {*TEXTS, "parts", "tugged"}}
        return {**held, key: flag == key}
    return _details(form)


def _details(form: Form) -> dict[str, Any]:
    parts = [{key: form.text(f"{key}.{row}") for key in PART_KEYS} for row in range(_rows(form.fields))]
    texts = {key: form.text(key) for key in TEXTS}
    texts["place"] = form.text("place") or form.text("place.words")
    return details_of(texts, parts, tugged=bool(form.text("tugged")))


def _held(found: RepairSeen) -> dict[str, str]:
    """Return what the fields of a repair's form hold."""
    body = found.body
    held = {key: str(body.get(key, "")) for key in TEXTS} | {"tugged": "yes" if body.get("tugged") else ""}
    for row, part in enumerate(body.get("parts") or ()):
        held |= {f"{key}.{row}": str(part.get(key, "")) for key in PART_KEYS}
    return held


async def _asked(shop: Shop, seen: VisitSeen, remedy: str, typed: dict[str, str]) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    offered = remedies(await shop.think(seen), speaker)
    chosen = remedy if remedy in REPAIR_CAUTIONS else ""
    usual = {"part.0": _part(chosen, speaker)}
    return {
        **_fields(seen, {**usual, **typed}, speaker),
        "title": shop.name_of(seen),
        "head": speaker.tell("repair-head"),
        "action": f"/visits/{seen.id}/repairs",
        "remedies": [(id_, sentence(text), id_ == remedy) for id_, text in offered],
        "cautions": [speaker.say(each) for each in repair_cautions(chosen)] if chosen else (),
        "repair": None,
        "history": (),
    }


def _values(shop: Shop, seen: VisitSeen, found: RepairSeen, held: dict[str, str]) -> dict[str, Any]:
    speaker, remedy = shop.speaker_for(seen), str(found.body.get("remedy", ""))
    usual = {} if found.body.get("parts") else {"part.0": _part(remedy, speaker)}
    return {
        **_fields(seen, {**held, **{key: held.get(key) or text for key, text in usual.items()}}, speaker),
        "title": shop.name_of(seen),
        "head": done_text(remedy, speaker),
        "action": f"/visits/{seen.id}/repairs/{found.id}",
        "remedies": (),
        "cautions": (),
        "repair": found,
        "history": [_earlier(each.body, (each.at, each.author), seen, speaker) for each in found.history],
    }


def _earlier(body: Any, when: tuple[str, str], seen: VisitSeen, speaker: Speaker) -> dict[str, str]:  # noqa: ANN401
    """Return what a repair said before, in a line."""
    parts = [" ".join(str(value) for value in part.values()) for part in body.get("parts") or ()]
    told = [place_text(str(body.get("place", "")), speaker), *(str(body.get(key, "")) for key in TEXTS[1:]), *parts]
    return {
        "at": local_moment(when[0], seen.zone, speaker),
        "author": when[1],
        "value": "; ".join(text for text in told if text) or speaker.tell("repair-nothing-said"),
    }


def _fields(seen: VisitSeen, typed: dict[str, str], speaker: Speaker) -> dict[str, Any]:
    place = typed.get("place", "")
    known = place in MENDED_AT
    return {
        "seen": seen,
        "problem": "",
        "typed": {key: typed.get(key, "") for key in (*TEXTS, "tugged")},
        "places": [(id_, sentence(speaker.name("mended-at", id_)), id_ == place) for id_ in MENDED_AT],
        "place_words": typed.get("place.words", "") or ("" if known else place),
        "parts": [{key: typed.get(f"{key}.{row}", "") for key in PART_KEYS} for row in range(_rows(typed))],
        "needed": [sentence(speaker.name("repair-key", key)) for key in PART_KEYS],
    }


def _rows(typed: Mapping[str, str]) -> int:
    """Return how many parts a form has rows for: a command may have told more than a new form asks for."""
    return next(row for row in count(ROWS) if not any(f"{key}.{row}" in typed for key in PART_KEYS))


def _part(remedy: str, speaker: Speaker) -> str:
    """Return what a part is called that a repair replaces; empty where it replaces none."""
    return next((speaker.name("part", REPLACED[each]) for each in remedy.split("+") if each in REPLACED), "")
