"""Instruments: which there are, how good each is and when it is due; which are on the van, which a visit uses.

Everything that affects which fields of an instrument stand on its page lives in this file.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, NotFoundError
from steadyhead.loop.vocabulary import INSTRUMENTS
from steadyhead.messages import message
from steadyhead.service.record.instruments import (
    TABLES,
    TEXTS,
    InstrumentSeen,
    add_instrument,
    instrument_page,
    instruments,
    on_van,
    put_on_van,
    set_instrument,
)
from steadyhead.service.record.visits import set_instruments
from steadyhead.visit.fact_kinds import GAUGE_KIND, METER_KIND
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, problems_told
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

#: The fields of a kind, in the order in which a person reads them off the thing itself.
FIELDS: Mapping[str, tuple[str, ...]] = {
    GAUGE_KIND: ("name", "range", "grade", "accuracy", "serial", "certificate", "due"),
    METER_KIND: ("name", "volts", "milliamps", "ohms", "serial", "certificate", "due"),
}
EXAMPLES: Mapping[str, str] = {
    "range": "0..160 psi", "grade": "2A", "accuracy": "0.5 %", "volts": "0.5 % + 2 x 0.01 V",
    "milliamps": "1 % + 2 x 0.01 mA", "ohms": "1 % + 2 x 0.1 ohm", "certificate": "27-4410", "due": "2027-03-14",
}  # fmt: skip


async def show(shop: Shop, request: Request) -> Response:
    """Show the instruments, and what is on the van."""
    van = on_van(shop.given)
    values = {"lines": _lines(shop), "have": _have(van.have, shop.speaker)}
    return shop.page(request, "instruments.html", shop.speaker, values)


async def keep_van(shop: Shop, request: Request) -> Response:
    """Keep what a new visit takes."""
    form = await read_form(request)
    ids = [each.id for each in instruments(shop.given) if form.text(f"use.{each.id}")]
    put_on_van(shop.given, ids, _have_typed(form))
    return go_to("/instruments")


async def ask(shop: Shop, request: Request) -> Response:
    """Show one instrument, or an empty form of a kind."""
    seen = _asked_for(shop, request)
    return shop.page(request, "instrument.html", shop.speaker, _values(shop, seen, None, ()))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep an instrument; a new one goes on the van."""
    seen, form = _asked_for(shop, request), await read_form(request)
    spec = {key: form.text(key) or None for key in FIELDS[seen.kind]}
    try:
        if seen.id:
            set_instrument(shop.given, seen.id, {**spec, **_put_away(form)}, token=form.fact())
        else:
            _new(shop, seen.kind, spec, form.fact())
    except InputError as error:
        values = _values(shop, seen, form, problems_told(error, shop.speaker))
        return shop.refused(request, "instrument.html", shop.speaker, values)
    return go_to("/instruments")


async def of_visit(shop: Shop, request: Request) -> Response:
    """Show which instruments a visit uses."""
    seen = shop.visit(request)
    used, have = set(seen.instruments), seen.tables.get("instruments", {}).get("have")
    lines = [{**line, "on": line["id"] in used} for line in _lines(shop) if line["id"] in used or not line["withdrawn"]]
    values = {"seen": seen, "title": shop.name_of(seen), "lines": lines, "have": _have(have, shop.speaker)}
    return shop.page(request, "visit_instruments.html", shop.speaker_for(seen), values)


async def keep_of_visit(shop: Shop, request: Request) -> Response:
    """Keep which instruments a visit uses."""
    seen, form = shop.visit(request), await read_form(request)
    ids = tuple(each.id for each in instruments(shop.given) if form.text(f"use.{each.id}"))
    set_instruments(shop.given, seen.id, ids, _have_typed(form), token=form.fact())
    return go_to(f"/visits/{seen.id}")


def _put_away(form: Form) -> dict[str, Any]:
    """Return whether the form puts an instrument away or takes it back, if either."""
    if form.text("withdraw"):
        return {"withdrawn": True}
    return {"withdrawn": None} if form.text("back") else {}


def _new(shop: Shop, kind: str, spec: Mapping[str, Any], token: str) -> None:
    """Keep a new instrument, and put it on the van in the place of nothing."""
    id_ = add_instrument(shop.given, kind, {key: value for key, value in spec.items() if value}, token=token)
    van = on_van(shop.given)
    put_on_van(shop.given, dict.fromkeys((id_, *van.instruments)), van.have)


def _asked_for(shop: Shop, request: Request) -> InstrumentSeen:
    """Return the instrument that an address names; ``new-gauge`` and ``new-meter`` are of no instrument yet.

    Raises
    ------
    NotFoundError
        There is no such instrument, or no such kind has a page.
    """
    id_ = str(request.path_params["instrument"])
    if id_.startswith("new-"):
        seen = InstrumentSeen(id="", kind=id_.removeprefix("new-"))
    else:
        seen = instrument_page(shop.given, id_)
    if seen.kind not in TABLES:
        raise NotFoundError(message("visit-unknown", got=id_))
    return seen


def _lines(shop: Shop) -> list[dict[str, Any]]:
    speaker = shop.speaker
    return [
        {
            "id": each.id,
            "name": each.name or speaker.tell("instrument-nameless", kind=_word(each.kind)),
            "what": _accuracy(each),
            "due": _due_told(each, speaker),
            "past": each.due == "past",
            "on": each.on_van,
            "withdrawn": each.withdrawn,
        }
        for each in instruments(shop.given)
    ]


def _accuracy(each: InstrumentSeen) -> list[str]:
    """Return what says how good it is, as it was typed."""
    return [str(each.body[key]) for key in FIELDS.get(each.kind, ()) if key not in TEXTS and each.body.get(key)]


def _word(kind: str) -> str:
    return {"meter": "multimeter"}.get(kind, kind if kind in INSTRUMENTS else "gauge")


def _title(seen: InstrumentSeen, speaker: Speaker) -> str:
    if seen.id:
        return seen.name or speaker.tell("instrument-nameless", kind=_word(seen.kind))
    return speaker.tell("instrument-new-gauge" if seen.kind == GAUGE_KIND else "instrument-new-meter")


def _due_told(each: InstrumentSeen, speaker: Speaker) -> str:
    return speaker.tell(f"instrument-due-{each.due}", day=str(each.body["due"])) if each.due else ""


def _have(have: Any, speaker: Speaker) -> list[tuple[str, str, bool]]:  # noqa: ANN401 - a list of words, or None
    chosen = set(have or ())
    return [(word, sentence(speaker.name("instrument", word)), word in chosen) for word in INSTRUMENTS]


def _have_typed(form: Form) -> tuple[str, ...] | None:
    """Return what is said to be at hand; nothing marked says nothing."""
    return tuple(word for word in INSTRUMENTS if form.text(f"have.{word}")) or None


def _values(shop: Shop, seen: InstrumentSeen, form: Form | None, problems: Any) -> dict[str, Any]:  # noqa: ANN401 - rows of a template
    speaker = shop.speaker
    fields = [
        {
            "name": key,
            "says": speaker.name("instrument-field", key),
            "value": form.text(key) if form else str(seen.body.get(key, "")),
            "example": EXAMPLES.get(key, ""),
        }
        for key in FIELDS[seen.kind]
    ]
    return {
        "instrument": seen,
        "title": _title(seen, speaker),
        "fields": fields,
        "problems": problems,
        "due": _due_told(seen, speaker),
    }
