"""What the customer's card brings back from a night: entered, judged in plain words, and what is done with it.

Rules
-----
1. Two pressures and two times are needed; everything else may be unknown.
2. What the night tells stands with its figures, and leads to the next step: close the visit, or go on with it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.documents.made import Made, Teller
from steadyhead.errors import InputError, NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.ending import PROVED, Ending, end_with
from steadyhead.service.record.follow_ups import what_waits
from steadyhead.service.record.night import Card, keep_night, night_of
from steadyhead.service.record.views import Beside, VisitSeen
from steadyhead.visit.fact_kinds import ANSWERS, SHUT
from steadyhead.visit.pending import NIGHT
from steadyhead.water.night import judge
from steadyhead.web.forms import Form, read_form
from steadyhead.web.keypad import units
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence
from steadyhead.words.water_said import water_unit

CHOICES = ("pump_off", "waited", "holds")
USUAL = {"evening": "22:00", "morning": "06:00", "pump_off": "unknown", "waited": "unknown", "holds": "unknown"}
VOLUMES = ("gal", "L", "m3", "ft3")
#: Fields with a unit beside them, and of what kind.
MEASURED = {"start": "pressure", "end": "pressure", "charge": "pressure", "meter_from": "", "meter_to": "", "tank": ""}


async def ask(shop: Shop, request: Request) -> Response:
    """Show what a night gave, or ask for it; a visit without a night test is ended first."""
    seen = shop.visit(request)
    try:
        waits = _waits(seen)
    except NotFoundError:
        return go_to(f"/visits/{seen.id}/end")
    speaker = shop.speaker_for(seen)
    asked = "again" in request.query_params or night_of(seen) is None
    return shop.page(request, "night.html", speaker, _values(shop, seen, _held(waits, seen), asked=asked))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep what a night gave; or say what cannot be read."""
    seen, form = shop.visit(request), await read_form(request)
    waits = _waits(seen)
    try:
        keep_night(shop.given, seen.id, waits.id, _card(form), token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**_values(shop, seen, form.fields, asked=True), "problem": says(error, speaker)}
        return shop.refused(request, "night.html", speaker, values)
    return go_to(f"/visits/{seen.id}/night")


async def close(shop: Shop, request: Request) -> Response:
    """Close a visit that its night has proved; what was found at fault stays."""
    seen, form = shop.visit(request), await read_form(request)
    closed = seen.visit.closed
    ending = Ending(state=PROVED, says=seen.ending, fault=closed.fault or "", proved=closed.proved)
    end_with(shop.given, seen.id, ending, token=form.fact())
    return go_to(f"/visits/{seen.id}/papers")


def _waits(seen: VisitSeen) -> Beside:
    """Return the visit's night test.

    Raises
    ------
    NotFoundError
        It has none.
    """
    found = [each for each in seen.follow_ups if each.body.get("kind") == NIGHT]
    if not found:
        raise NotFoundError(message("follow-up-not-here", got=seen.id))
    return found[-1]


def _card(form: Form) -> Card:
    figures = {key: _with_unit(form, key) for key in MEASURED}
    more = {key: figures[key] for key in ("meter_from", "meter_to", "tank", "charge")}
    more |= {key: form.text(key) for key in ("shut", *CHOICES)}
    evening, morning = form.text("evening"), form.text("morning")
    return Card(start=figures["start"], end=figures["end"], evening=evening, morning=morning, more=more)


def _with_unit(form: Form, key: str) -> str:
    """Return what was typed, with the unit that was chosen where it has none of its own."""
    text, unit = form.text(key), form.text(f"{key}.unit") or form.text("meter.unit")
    return f"{text} {unit}" if text and not any(sign.isalpha() for sign in text) else text


def _held(waits: Beside, seen: VisitSeen) -> dict[str, str]:
    """Return what the form's fields hold: what was kept before, else what is usual."""
    kept = {key: str(value) for key, value in waits.body.items() if isinstance(value, str)}
    row = next((row.body for row in seen.rows if row.id == kept.get("reading")), {})
    return {**USUAL, "shut": SHUT[0], **kept, "start": str(row.get("from", "")), "end": str(row.get("to", ""))}


def _values(shop: Shop, seen: VisitSeen, typed: Mapping[str, str], *, asked: bool) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    pressure, volume = units("gauge-pressure", seen.visit.pressure_unit, "V"), _volumes(seen)
    waits = what_waits(shop.given, seen.id)
    answers = [(word, sentence(speaker.name("answer", word))) for word in ANSWERS]
    heads = (speaker.tell("night-pump"), speaker.tell("night-waited"), speaker.tell("night-holds"))
    return {
        "seen": seen,
        "title": shop.name_of(seen),
        "typed": defaultdict(str, {"meter.unit": volume[0], **typed}),
        "pressure_units": pressure,
        "volume_units": volume,
        "shut": [(word, sentence(speaker.name("shut", word))) for word in SHUT],
        "choices": list(zip(CHOICES, heads, strict=True)),
        "answers": answers,
        "found": None if asked else _found(seen, speaker),
        "about": next((each.pending.about for each in waits if each.pending.kind == NIGHT), ""),
        "problem": "",
    }


def _volumes(seen: VisitSeen) -> list[str]:
    first = water_unit("volume", seen.visit.pressure_unit)
    return [first, *(unit for unit in VOLUMES if unit != first)]


def _found(seen: VisitSeen, speaker: Speaker) -> dict[str, Any] | None:
    """Return what a night tells, with the making of its figures."""
    night = night_of(seen)
    if night is None:
        return None
    found = judge(night)
    made = Made()
    for figure in (found.fall, found.per_hour, found.needs_no_leak, found.loss, *filter(None, (found.lost,))):
        made.number(figure)
    units_shown = {"pressure": seen.visit.pressure_unit, "volume": _volumes(seen)[0]}
    teller = Teller(say=speaker.say, units=units_shown, decimal="," if speaker.decimal == "," else ".")
    return {
        "tight": found.tight,
        "says": [speaker.say(each) for each in found.says],
        "made": made.lines(teller),
    }
