"""What is kept beside how the app speaks: the letterhead, a copy of the record, and a customer who is erased.

Rules
-----
1. A copy of everything is handed to whoever sits at this device, to nobody who joined from another.
2. A customer is erased at this device only, after a page that says what goes and a mark that says "sure".
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.erasing import erase_customer
from steadyhead.service.record.given import today_of
from steadyhead.service.record.letterhead import MOST, letterhead, set_letterhead
from steadyhead.service.record.pages import system_page
from steadyhead.service.record.views import SystemSeen
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, go_to

SQLITE = "application/vnd.sqlite3"


async def keep_letterhead(shop: Shop, request: Request) -> Response:
    """Keep the lines over every paper."""
    form = await read_form(request)
    set_letterhead(shop.given, tuple(form.text(f"line{number}") for number in range(1, MOST + 1)))
    return go_to("/settings?kept=yes")


async def backup(shop: Shop, request: Request) -> Response:
    """Return a copy of the record as a file.

    Raises
    ------
    NotFoundError
        This home makes none, or who asks joined from another device.
    """
    _ = request
    if shop.given.copy is None or shop.who:
        raise NotFoundError(message("keeping-none"))
    name = f"steadyhead-{today_of(shop.given).isoformat()}.db"
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(shop.given.copy(), media_type=SQLITE, headers=headers)


async def ask_erase(shop: Shop, request: Request) -> Response:
    """Say what goes with a system."""
    seen = _system(shop, request)
    return shop.page(request, "erase.html", shop.speaker, _values(shop, seen))


async def do_erase(shop: Shop, request: Request) -> Response:
    """Erase a system with all that hangs on it, once somebody is sure."""
    seen, form = _system(shop, request), await read_form(request)
    if form.text("sure") != "yes":
        values = {**_values(shop, seen), "problem": shop.speaker.tell("erase-not-sure")}
        return shop.refused(request, "erase.html", shop.speaker, values)
    erase_customer(shop.given, seen.id)
    return go_to("/settings?erased=yes")


def kept_values(shop: Shop) -> dict[str, Any]:
    """Return what the settings page shows of all this."""
    lines = (*letterhead(shop.given), *("",) * MOST)[:MOST]
    copies = shop.given.copy is not None and not shop.who and not shop.phone
    return {"lines": list(enumerate(lines, start=1)), "copies": copies, "here": not shop.who, "carried": shop.phone}


def _system(shop: Shop, request: Request) -> SystemSeen:
    """Return the system that an address names, to whoever sits at this device.

    Raises
    ------
    NotFoundError
        There is no such system, or who asks joined from another device.
    """
    if shop.who:
        raise NotFoundError(message("web-page-gone"))
    return system_page(shop.given, str(request.path_params["system"]))


def _values(shop: Shop, seen: SystemSeen) -> dict[str, Any]:
    name = seen.name or shop.speaker.tell("web-nameless")
    photos = sum(each.photos for each in seen.visits)
    return {"system": seen, "name": name, "visits": len(seen.visits), "photos": photos, "problem": ""}
