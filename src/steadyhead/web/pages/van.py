"""The van: which sensors are on it, and the page that puts one on the list, ordinary choices first.

Everything that affects which fields of a sensor on the van stand on its page lives in this file.

Rules
-----
1. Signal and range are one tap each; another one is typed as it is printed. All else may stay unknown.
2. A line without a name is called by its range and its signal.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, RecordError
from steadyhead.messages import message
from steadyhead.published.pipe_threads import WORDS as THREADS
from steadyhead.service.record.van import (
    StockSeen,
    add_stock,
    set_stock,
    stock_on_van,
    stock_page,
    withdraw_stock,
)
from steadyhead.service.van_told import left_text, plate_text
from steadyhead.visit.keys import PLUGS
from steadyhead.visit.stock_keys import APPROVALS, NO_APPROVAL
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.plate import RANGES, THREE
from steadyhead.web.pages.shared import Shop, go_to, problems_told
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence
from steadyhead.words.web_names import SIGNALS

NEW, HOME = "new", "/van"
#: Fields that are typed, with what they may look like.
TYPED: Mapping[str, str] = {
    "sensor.accuracy": "1 %", "sensor.supply": "9..30 V", "build.stands": "300 psi", "pins.supply": "1",
    "pins.signal": "2", "pins.common": "3", "count": "2", "name": "", "note": "",
}  # fmt: skip
#: Fields that are chosen from a list.
CHOSEN: Mapping[str, tuple[str, ...]] = {
    "build.thread": THREADS, "build.plug": PLUGS, "sensor.reference": ("gauge", "sealed", "absolute"),
}  # fmt: skip
#: What stands in each part of the page, in the order in which a plate, a thread and a plug are looked at.
PARTS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("van-plate-head", ("sensor.accuracy", "sensor.supply", "sensor.reference")),
    ("van-fit-head", ("build.thread", "build.plug", "build.stands")),
    ("van-pins-head", ("pins.supply", "pins.signal", "pins.common")),
    ("van-list-head", ("count", "name", "note")),
)
MOST_COUNT = 6  #: digits of a count


async def show(shop: Shop, request: Request) -> Response:
    """Show what is on the van."""
    lines = [_line(each, shop) for each in stock_on_van(shop.given)]
    return shop.page(request, "van.html", shop.speaker, {"lines": lines})


def _line(each: StockSeen, shop: Shop) -> dict[str, Any]:
    speaker = shop.speaker
    odd = [speaker.tell("van-unread", problem=speaker.say(told.message)) for told in each.problems]
    odd += [speaker.tell("van-conflict", list=each.conflicts)] if each.conflicts else []
    return {
        "id": each.id, "name": each.name, "what": plate_text(each), "left": left_text(each, speaker),
        "none": each.left == 0, "odd": odd,
    }  # fmt: skip


async def ask(shop: Shop, request: Request) -> Response:
    """Show one line of the list, or an empty one."""
    seen = _asked_for(shop, request)
    return shop.page(request, "van_line.html", shop.speaker, _values(shop, seen, None, ()))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep a line of the list; or say what cannot be read."""
    seen, form = _asked_for(shop, request), await read_form(request)
    try:
        if seen.id and form.text("withdraw"):
            withdraw_stock(shop.given, seen.id, token=form.fact())
        elif seen.id:
            set_stock(shop.given, seen.id, _body(form), token=form.fact())
        else:
            add_stock(shop.given, _body(form), token=form.fact())
    except InputError as error:
        values = _values(shop, seen, form, problems_told(error, shop.speaker))
        return shop.refused(request, "van_line.html", shop.speaker, values)
    return go_to(HOME)


def _asked_for(shop: Shop, request: Request) -> StockSeen:
    id_ = str(request.path_params["stock"])
    return StockSeen(id="") if id_ == NEW else stock_page(shop.given, id_)


def _body(form: Form) -> dict[str, Any]:
    """Return what a form says as a body; an empty field is unknown.

    Raises
    ------
    RecordError
        ``van-count-wrong``.
    """
    body: dict[str, Any] = {"sensor": _plate(form), "build": {}, "pins": {}}
    for field in (*TYPED, *CHOSEN):
        table, _, key = field.rpartition(".")
        row = body.setdefault(table, {}) if table else body
        row[key] = form.text(field) or None
    body["build"]["approval"] = [each for each in (*APPROVALS, NO_APPROVAL) if form.text(f"approval.{each}")]
    body["build"]["adapters"] = [each for each in THREADS if form.text(f"adapters.{each}")]
    body["count"] = _count(form.text("count"))
    plate = body["sensor"]
    body["name"] = body["name"] or ", ".join(str(plate[key]) for key in ("range", "signal") if plate.get(key))
    return body


def _plate(form: Form) -> dict[str, Any]:
    """Return signal, range and wires; what is typed comes before what was tapped."""
    signal = form.text("sensor.signal.own") or form.text("sensor.signal")
    wires = "three" if signal.endswith(THREE) else None
    return {
        "signal": signal.removesuffix(THREE) or None, "wires": wires,
        "range": form.text("sensor.range.own") or form.text("sensor.range") or None,
    }  # fmt: skip


def _count(text: str) -> int | None:
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and len(text) <= MOST_COUNT):
        raise RecordError(message("van-count-wrong", got=text[:20]))
    return int(text)


def _values(shop: Shop, seen: StockSeen, form: Form | None, problems: Any) -> dict[str, Any]:  # noqa: ANN401 - rows
    speaker = shop.speaker
    known = _known(seen)
    typed = {name: form.text(name) if form else known.get(name, "") for _, names in PARTS for name in names}
    parts = [(speaker.tell(head), [_field(name, typed[name], speaker) for name in names]) for head, names in PARTS]
    return {
        "stock": seen, "title": seen.name or speaker.tell("van-add"), "problems": problems,
        "signals": _taps("sensor.signal", [(word, speaker.name("signal", word)) for word in SIGNALS], form, known),
        "ranges": _taps("sensor.range", [(word, word) for word in RANGES], form, known),
        "parts": parts,
        "approvals": _boxes("approval", (*APPROVALS, NO_APPROVAL), form, seen, speaker),
        "adapters": _boxes("adapters", THREADS, form, seen, speaker),
    }  # fmt: skip


def _known(seen: StockSeen) -> dict[str, str]:
    """Return what is known of a line, field by field, as it was typed."""
    found = {"count": "" if seen.left is None else str(seen.left), "name": seen.name}
    found["note"] = str(seen.body.get("note", ""))
    for table in ("sensor", "build", "pins"):
        row = seen.body.get(table, {})
        found |= {f"{table}.{key}": str(value) for key, value in row.items() if isinstance(value, str)}
    if found.get("sensor.wires") == "three" and f"{found.get('sensor.signal')}{THREE}" in SIGNALS:
        found["sensor.signal"] += THREE
    return found


def _taps(name: str, choices: list[tuple[str, str]], form: Form | None, known: Mapping[str, str]) -> dict[str, Any]:
    """Return the taps of a field and what is typed beside them."""
    value = form.text(name) if form else known.get(name, "")
    own = form.text(f"{name}.own") if form else "" if value in dict(choices) else value
    return {"name": name, "choices": [(word, text, word == value) for word, text in choices], "own": own}


def _field(name: str, value: str, speaker: Speaker) -> dict[str, Any]:
    words = CHOSEN.get(name, ())
    return {
        "name": name, "says": sentence(speaker.name("van-field", name)), "value": value,
        "example": TYPED.get(name, ""), "choices": [(word, speaker.name("choice", word)) for word in words],
        "whole": name == "count",
    }  # fmt: skip


def _boxes(
    key: str, words: tuple[str, ...], form: Form | None, seen: StockSeen, speaker: Speaker
) -> list[tuple[str, str, bool]]:
    known = seen.body.get("build", {}).get(key, ())
    names = {word: speaker.name("approval", word) if key == "approval" else word for word in words}
    return [(w, names[w], bool(form.text(f"{key}.{w}")) if form else w in known) for w in words]
