"""Search: anything of the record by some words."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.service.record.finding import find
from steadyhead.web.pages.shared import Shop
from steadyhead.web.pages.today import system_named, visit_line

LONGEST = 200


async def search(shop: Shop, request: Request) -> Response:
    """Show what some words find."""
    text = " ".join(request.query_params.get("words", "")[:LONGEST].split())
    found, speaker = find(shop.given, text), shop.speaker
    values: dict[str, Any] = {
        "typed": text,
        "nothing": bool(text) and found.nothing,
        "systems": [(f"/systems/{each.id}", system_named(each, speaker)) for each in found.systems],
        "visits": [visit_line(each, shop) for each in found.visits],
        "instruments": [
            (f"/instruments/{each.id}", each.name or speaker.tell("web-nameless")) for each in found.instruments
        ],
    }
    return shop.page(request, "search.html", speaker, values)
