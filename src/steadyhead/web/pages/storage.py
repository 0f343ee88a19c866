"""What is kept where: the record's size, the room left, and, on a phone, whether its browser promised to keep it.

Rules
-----
1. What Python knows (the record's size, a computer's disk) is said without scripts. What a browser alone knows (the
   room that it grants, its promise, whether it was installed) a script puts in, in words that stand in the page.
2. The browser is asked for its promise by a person's tap, never by opening a page.
3. Where a browser may erase what it keeps once it was not opened for days, the page says so beside the way to a copy.
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.web.pages.shared import Shop
from steadyhead.web.views.room import Room, bytes_said, room_view


async def storage(shop: Shop, request: Request) -> Response:
    """Show what is kept here, and how safely."""
    size, decimal = shop.given.size and shop.given.size(), shop.speaker.decimal
    values: dict[str, Any] = {"phone": shop.phone, "joined": bool(shop.who), "copies": False, "record": "", "room": ""}
    values |= {"photos": 0, "of_photos": ""}
    values["copies"] = shop.given.copy is not None and not shop.who
    if size is not None:
        values["record"] = bytes_said(size.total, decimal)
        values |= {"photos": size.photos, "of_photos": bytes_said(size.of_photos, decimal)}
        values["room"] = "" if size.room is None or shop.phone else bytes_said(size.room, decimal)
    return shop.page(request, "storage.html", shop.speaker, values)


def room_here(shop: Shop) -> Room | None:
    """Return how many photos still fit, or what the page's script needs to count them; None where nobody can tell."""
    return room_view(shop.given.size() if shop.given.size else None, phone=shop.phone)
