"""The form of what is known of a system: labels, colours, what its plates say; all of it may stay unknown.

Everything that affects which fields stand on the page, and in which order, lives in this file.

Rules
-----
1. What a technician sees stands first: labels and colours. What a plate or a menu says comes after.
2. An empty field is unknown. What cannot be read is told beside the head, and nothing of the form is kept.
3. The keys are the visit file's own, so that the page can hold whatever a file can.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.published.pipe_threads import WORDS as THREADS
from steadyhead.service.record.pages import system_page
from steadyhead.service.record.systems import set_site, set_system
from steadyhead.service.record.views import SystemSeen
from steadyhead.visit import keys as file_keys
from steadyhead.visit.measures import points_of_system
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, problems_told
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

_TABLES = (
    file_keys.LABELS, file_keys.SENSOR, file_keys.FITTING, file_keys.CABLE, file_keys.CONTROLLER, file_keys.PLACE,
    file_keys.SITE,
)  # fmt: skip
TABLES = {table.name: table for table in _TABLES}
#: Keys with a short list of words, or yes and no.
YES_NO = ("true", "false")
CHOICES: dict[str, tuple[str, ...]] = {
    "sensor.wires": ("two", "three"),
    "sensor.reference": ("gauge", "sealed", "absolute"),
    "cable.shield": YES_NO,
    "controller.reference": ("ratiometric", "fixed"),
    "controller.on_signal_loss": ("stop", "preset", "full", "hold"),
    "controller.auto_restart": YES_NO,
    "controller.display": ("open", "clamped"),
    "controller.loop_power": ("drive", "outside"),
    "controller.common_earthed": YES_NO,
    "place.cock": YES_NO,
    "fitting.thread": THREADS,
    "fitting.plug": file_keys.PLUGS,
    "fitting.water": ("drinking", "other"),
    "fitting.settable": YES_NO,
}
#: What a field may look like.
EXAMPLES: dict[str, str] = {
    "sensor.signal": "0.5..4.5 V ratiometric", "sensor.range": "0..100 psi", "sensor.accuracy": "1 %",
    "sensor.supply": "5 V", "cable.length": "12 m", "cable.conductor": "22 AWG", "cable.temperature": "20 degC",
    "controller.supply": "5 V", "controller.supply_limits": "4.5..5.25 V", "controller.input_resistance": "250 ohm",
    "controller.scaled": "0..100 psi", "controller.low_fault": "0.2 V", "controller.high_fault": "4.8 V",
    "fitting.highest": "125 psi", "place.walk": "2 min", "site.name": "Fernhill Row", "site.altitude": "310 m",
}  # fmt: skip


async def ask(shop: Shop, request: Request) -> Response:
    """Show the form of what is known of a system."""
    seen = system_page(shop.given, str(request.path_params["system"]))
    values = _values(shop, seen, request.query_params.get("visit", ""), None, None)
    return shop.page(request, "system_plate.html", shop.speaker, values)


async def keep(shop: Shop, request: Request) -> Response:
    """Keep what is known of a system."""
    seen, form = system_page(shop.given, str(request.path_params["system"])), await read_form(request)
    visit = form.text("visit")
    tables = {name: _row(name, form) for name in TABLES}
    site = tables.pop("site")
    try:
        set_system(shop.given, seen.id, tables, name=form.text("name"), token=form.fact())
        if any(site.values()) or seen.site:
            set_site(shop.given, seen.id, site)
    except InputError as error:
        return shop.refused(request, "system_plate.html", shop.speaker, _values(shop, seen, visit, form, error))
    return go_to(back_to(seen.id, visit))


def _row(table: str, form: Form) -> dict[str, Any]:
    """Return a table as the form says it: the keys that it has a field for, an empty one as None."""
    return {
        key.name: _value(form.text(f"{table}.{key.name}"), f"{table}.{key.name}")
        for key in TABLES[table].keys
        if f"{table}.{key.name}" in form.fields
    }


def _value(text: str, name: str) -> str | bool | None:
    if not text:
        return None
    return text == "true" if CHOICES.get(name) == YES_NO else text


def _values(
    shop: Shop, seen: SystemSeen, visit: str, form: Form | None, error: InputError | None
) -> dict[str, Any]:
    return {
        "system": seen,
        "title": seen.name or shop.speaker.tell("web-nameless"),
        "visit": visit if visit.isalnum() else "",
        "back": back_to(seen.id, visit),
        "name_typed": form.text("name") if form else seen.name,
        "groups": list(_groups(seen, form, shop.speaker)),
        "problems": problems_told(error, shop.speaker) if error else (),
    }


def back_to(system: str, visit: str) -> str:
    """Return the address of a system's page, with the visit that it was opened from."""
    return f"/systems/{system}?visit={visit}" if visit.isalnum() else f"/systems/{system}"


def _groups(seen: SystemSeen, form: Form | None, speaker: Speaker) -> Iterator[dict[str, Any]]:
    wires = 2 if "mA" in str(seen.tables.get("sensor", {}).get("signal", "")) else 3
    points = set(points_of_system(wires, shield=None)) - {"earth", "shield"}
    for number, (name, table) in enumerate(TABLES.items()):
        known: Mapping[str, Any] = seen.site if name == "site" else seen.tables.get(name, {})
        fields = [
            _field(f"{name}.{key.name}", known.get(key.name), form, speaker, number * 100 + place)
            for place, key in enumerate(table.keys)
            if name != "labels" or key.name in points
        ]
        yield {"head": speaker.name("table", name), "fields": fields}


def _field(name: str, known: Any, form: Form | None, speaker: Speaker, number: int) -> dict[str, Any]:  # noqa: ANN401 - a file's own value
    shown = str(known).lower() if isinstance(known, bool) else "" if known is None else str(known)
    table, _, key = name.partition(".")
    says = speaker.name("label-of", key) if table == "labels" else speaker.name("field", name)
    return {
        "id": number,
        "name": name,
        "says": sentence(says),
        "value": form.text(name) if form else shown,
        "example": EXAMPLES.get(name, ""),
        "choices": [(word, speaker.name("choice", word)) for word in CHOICES.get(name, ())],
    }
