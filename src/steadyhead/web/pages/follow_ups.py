"""What comes back by itself: all of it by its day; one of it with its next step; one more of it."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.follow_ups import (
    Waits,
    add_follow_up,
    change_follow_up,
    day_after,
    what_waits,
)
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.pending import PART, SERVICE, TEMPORARY_END
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.views.ended import wait_view
from steadyhead.words.saying import sentence

#: What is asked for by hand, and after how many days it is due where nobody says when (common practice).
BY_HAND = {PART: 3, SERVICE: 365}


async def every(shop: Shop, request: Request) -> Response:
    """Show everything that comes back, what is due first first."""
    lines = [wait_view(each, shop.speaker) for each in what_waits(shop.given)]
    return shop.page(request, "follow_ups.html", shop.speaker, {"lines": lines})


async def ask(shop: Shop, request: Request) -> Response:
    """Ask what is to come back."""
    seen = shop.visit(request)
    return shop.page(request, "come_back.html", shop.speaker_for(seen), _asked(shop, seen, PART, {}))


async def add(shop: Shop, request: Request) -> Response:
    """Keep one more thing that comes back; or say why not."""
    seen, form = shop.visit(request), await read_form(request)
    row = {key: form.text(key) for key in ("kind", "due", "what")}
    try:
        add_follow_up(shop.given, seen.id, row, token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**_asked(shop, seen, row["kind"], row), "problem": says(error, speaker)}
        return shop.refused(request, "come_back.html", speaker, values)
    return go_to(f"/visits/{seen.id}")


def _asked(shop: Shop, seen: VisitSeen, kind: str, typed: dict[str, str]) -> dict[str, Any]:
    kinds = [(id_, sentence(shop.speaker.name("follow-up", id_)), id_ == kind) for id_ in BY_HAND]
    usual = {"due": day_after(shop.given, BY_HAND.get(kind, 1)), "what": ""}
    return {"seen": seen, "title": shop.name_of(seen), "kinds": kinds, "typed": {**usual, **typed}, "problem": ""}


async def one(shop: Shop, request: Request) -> Response:
    """Show one thing that comes back, with its next step."""
    seen = shop.visit(request)
    found = _one(shop, seen, str(request.path_params["about"]))
    return shop.page(request, "follow_up.html", shop.speaker_for(seen), _values(shop, seen, found))


async def change(shop: Shop, request: Request) -> Response:
    """Keep that it is done, needed no more, or due on another day."""
    seen, form = shop.visit(request), await read_form(request)
    found = _one(shop, seen, str(request.path_params["about"]))
    changes = {"ended": form.text("ended")} if form.text("ended") else {"due": form.text("due")}
    try:
        change_follow_up(shop.given, seen.id, found.pending.about, changes, token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**_values(shop, seen, found), "due": form.text("due"), "problem": says(error, speaker)}
        return shop.refused(request, "follow_up.html", speaker, values)
    return go_to("/")


def _one(shop: Shop, seen: VisitSeen, about: str) -> Waits:
    """Return what is waited for.

    Raises
    ------
    NotFoundError
        Nothing of that address is, or no longer.
    """
    found = next((each for each in what_waits(shop.given, seen.id) if each.pending.about == about), None)
    if found is None:
        raise NotFoundError(message("follow-up-not-here", got=about))
    return found


def _values(shop: Shop, seen: VisitSeen, found: Waits) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    return {
        "seen": seen,
        "title": shop.name_of(seen),
        "about": found.pending.about,
        "line": wait_view(found, speaker),
        "step": speaker.name("follow-up-step", found.pending.kind),
        "temporary": found.pending.kind == TEMPORARY_END,
        "service": found.pending.kind == SERVICE,
        "due": found.pending.due,
        "problem": "",
    }
