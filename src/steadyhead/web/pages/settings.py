"""Settings: how the app speaks to the person who asks."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.service.record.lists import find_systems
from steadyhead.service.record.manners import set_manner
from steadyhead.service.record.vibrating import OFF, set_vibrates
from steadyhead.web.forms import read_form
from steadyhead.web.pages.keeping import kept_values
from steadyhead.web.pages.shared import Shop, go_to
from steadyhead.web.pages.today import system_named
from steadyhead.words import Manner
from steadyhead.words.settings_names import SETTING_CHOICES, SETTINGS
from steadyhead.words.speaker import languages


async def settings(shop: Shop, request: Request) -> Response:
    """Show how the app speaks, and what else it could do."""
    values = {"groups": _groups(shop), "kept": request.query_params.get("kept", "") == "yes"}
    values |= {"phone": bool(shop.who), "phone_name": shop.given.author or ""}
    values |= {"erased": request.query_params.get("erased", "") == "yes", **kept_values(shop)}
    values |= {"systems": [(each.id, system_named(each, shop.speaker)) for each in find_systems(shop.given, "")]}
    return shop.page(request, "settings.html", shop.speaker, values)


async def keep(shop: Shop, request: Request) -> Response:
    """Keep how the app speaks; another language brings its decimal sign along, unless that was chosen too."""
    form, now = await read_form(request), shop.manner.words()
    chosen = Manner(**{key: form.fields.get(key, now[key]) for key in now})
    if chosen.language != shop.manner.language and chosen.decimal == shop.manner.decimal:
        chosen = chosen.usual_in(chosen.language)
    set_manner(shop.given, shop.who, chosen)
    if form.text("vibration"):
        set_vibrates(shop.given, shop.who, on=form.text("vibration") != OFF)
    return go_to("/settings?kept=yes")


def _groups(shop: Shop) -> list[dict[str, Any]]:
    now, speaker = shop.manner.words(), shop.speaker
    return [
        {
            "name": key,
            "head": speaker.name("setting", key),
            "choices": [
                (id_.partition(":")[2], speaker.name("setting-choice", id_), id_ == f"{key}:{now[key]}")
                for id_ in SETTING_CHOICES
                if id_.partition(":")[0] == key and (key != "language" or id_.partition(":")[2] in languages())
            ],
        }
        for key in SETTINGS
    ]
