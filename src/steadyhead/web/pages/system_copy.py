"""Copy from a similar system: choose it by a tap, see what would be filled, and copy."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.service.record.copying import copy_system, would_copy
from steadyhead.service.record.lists import find_systems
from steadyhead.service.record.pages import system_page
from steadyhead.service.record.views import SystemSeen
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.pages.system_plate import back_to
from steadyhead.web.pages.today import system_named
from steadyhead.web.views.system_history import table_rows

#: Systems that are offered, the last changed first; the search narrows them.
MOST = 12


async def ask(shop: Shop, request: Request) -> Response:
    """Show the other systems, or what one of them would fill."""
    seen = system_page(shop.given, str(request.path_params["system"]))
    query = request.query_params
    values = _values(shop, seen, (query.get("visit", ""), query.get("like", ""), query.get("words", "")))
    return shop.page(request, "system_copy.html", shop.speaker, {**values, "problem": ""})


async def keep(shop: Shop, request: Request) -> Response:
    """Copy what is unknown here."""
    seen, form = system_page(shop.given, str(request.path_params["system"])), await read_form(request)
    visit, like = form.text("visit"), form.text("like")
    try:
        copy_system(shop.given, seen.id, like, token=form.fact())
    except InputError as error:
        values = {**_values(shop, seen, (visit, "", "")), "problem": says(error, shop.speaker)}
        return shop.refused(request, "system_copy.html", shop.speaker, values)
    return go_to(back_to(seen.id, visit))


def _values(shop: Shop, seen: SystemSeen, asked: tuple[str, str, str]) -> dict[str, Any]:
    speaker = shop.speaker
    visit, like, words = asked
    source = system_page(shop.given, like) if like else None
    others = [each for each in find_systems(shop.given, words) if each.id != seen.id]
    return {
        "system": seen,
        "title": seen.name or speaker.tell("web-nameless"),
        "visit": visit if visit.isalnum() else "",
        "back": back_to(seen.id, visit),
        "words": words,
        "others": [(each.id, system_named(each, speaker)) for each in others[:MOST]],
        "like": "" if source is None else source.id,
        "source": "" if source is None else source.name or speaker.tell("web-nameless"),
        "rows": [] if source is None else table_rows(would_copy(shop.given, seen.id, source.id), speaker),
    }
