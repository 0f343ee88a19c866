"""Hand over to the laptop: its address and code, how far it has come, and what went and came.

Rules
-----
1. A form's answer takes at most `SLICE_MS` and a request that is under way: other pages are served in between. The page
   goes on by itself where scripts run, by a button where not.
2. A home without a network of its own to speak over says by which command it hands over.
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.came import Came, came, keep_came
from steadyhead.service.sync.courier import Courier, address_of, last_address
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.pages.taking import came_values

SLICE_MS = 1200
LONGEST_ADDRESS = 200
COMMAND, HOST = "steadyhead sync ADDRESS", "steadyhead app --host"


async def ask(shop: Shop, request: Request) -> Response:
    """Show the form, and how the sync stands that is under way or was the last."""
    typed = {"address": last_address(shop.given) or _own(request), "code": "", "photos": "yes"}
    found = came(shop.given, request.query_params.get("came", ""))
    return shop.page(request, "sync.html", shop.speaker, _values(shop, typed, found))


async def keep(shop: Shop, request: Request) -> Response:
    """Begin a sync, or go on with the one that is under way.

    Raises
    ------
    NotFoundError
        This home has no network to speak over.
    """
    form, courier = await read_form(request), _courier(shop)
    token = form.fact()
    if form.text("go") != "on":
        typed = {key: form.text(key) for key in ("address", "code", "photos")}
        try:
            address = address_of(typed["address"])
            await courier.begin(shop.given, address, typed["code"], photos=bool(typed["photos"]), token=token)
        except InputError as error:
            values = {**_values(shop, typed, None), "problem": says(error, shop.speaker), "told": ()}
            return shop.refused(request, "sync.html", shop.speaker, values)
    await courier.go_on(shop.given, shop.given.clock, SLICE_MS)
    if courier.under_way:
        return go_to("/sync")
    keep_came(shop.given, courier.token, courier.tally.came)
    return go_to(f"/sync?came={courier.token}")


def _courier(shop: Shop) -> Courier:
    if shop.courier is None:
        raise NotFoundError(message("web-page-gone"))
    return shop.courier


def _own(request: Request) -> str:
    """Return where these pages came from: a phone's site that was fetched from the laptop is handed over to there."""
    return f"{request.url.scheme}://{request.url.netloc}"


def _values(shop: Shop, typed: dict[str, str], found: Came | None) -> dict[str, Any]:
    speaker, courier = shop.speaker, shop.courier
    said = came_values(found if found is not None and not found.done.nothing else None, shop)
    values = {
        "typed": typed, "longest": LONGEST_ADDRESS, "problem": "", "can": courier is not None, "going": False,
        "told": (), "notes": speaker.tell("sync-note", command=HOST),
        "by_command": speaker.tell("sync-by-command", command=COMMAND), **said,
    }  # fmt: skip
    if courier is None or not courier.token:
        return values
    tally = courier.tally
    told = [
        speaker.tell("sync-went", facts=tally.sent, photos=tally.photos_sent),
        speaker.tell("sync-came", facts=tally.came.new, photos=tally.came.photos),
        speaker.tell("sync-clashed", count=tally.collisions) if tally.collisions else "",
        speaker.tell("sync-under-way") if courier.under_way else "",
        speaker.tell("sync-done") if courier.done else "",
    ]
    problem = speaker.say(courier.problem) if courier.problem is not None else ""
    return {**values, "told": [each for each in told if each], "going": courier.under_way, "problem": problem}
