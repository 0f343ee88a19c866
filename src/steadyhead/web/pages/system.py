"""A system's page: what two devices disagree on, what it is, its visits, photos of plates, checks, and every change.

Rules
-----
1. What must be settled stands first; what it is and what happened here come before anything to fill in.
2. The long form of plates and labels is a page of its own (`steadyhead.web.pages.system_plate`).
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.service.record.check_pages import checks_of
from steadyhead.service.record.pages import system_page
from steadyhead.service.record.photos import photos_of_system
from steadyhead.service.record.system_changes import (
    found_in,
    put_back,
    settle_system,
    system_changes,
    unsettled,
)
from steadyhead.service.record.views import SystemSeen
from steadyhead.web.forms import read_form
from steadyhead.web.pages.photos import photo_line
from steadyhead.web.pages.shared import Shop, check_lines, go_to, local_whole
from steadyhead.web.pages.system_plate import back_to
from steadyhead.web.pages.today import visit_line
from steadyhead.web.views.system_history import change_view, clash_view, known_rows
from steadyhead.words.web_names import SEEN

#: Photos of plates on the page; each visit has all of its own.
MOST_PHOTOS = 6
#: Changes that stand open on the page; the rest opens.
FIRST_CHANGES = 3


async def system(shop: Shop, request: Request) -> Response:
    """Show a system with its history."""
    seen = system_page(shop.given, str(request.path_params["system"]))
    visit = request.query_params.get("visit", "")
    return shop.page(request, "system.html", shop.speaker, _values(shop, seen, visit))


async def settle(shop: Shop, request: Request) -> Response:
    """Keep which of two devices is right."""
    system_, form = str(request.path_params["system"]), await read_form(request)
    settle_system(shop.given, system_, form.text("key"), form.text("head"), token=form.fact())
    return go_to(back_to(system_, form.text("visit")))


async def back(shop: Shop, request: Request) -> Response:
    """Put a change back."""
    system_, form = str(request.path_params["system"]), await read_form(request)
    put_back(shop.given, system_, form.text("change"), token=form.fact())
    return go_to(back_to(system_, form.text("visit")))


def _values(shop: Shop, seen: SystemSeen, visit: str) -> dict[str, Any]:
    speaker, zone = shop.speaker, shop.given.zone
    every = system_changes(shop.given, seen.id)
    changes = [change_view(each, local_whole(each.at, zone, speaker), speaker) for each in every]
    return {
        "system": seen,
        "title": seen.name or speaker.tell("web-nameless"),
        "visit": visit if visit.isalnum() else "",
        "back": f"/visits/{visit}" if visit.isalnum() else "/",
        "site": str(seen.site.get("name", "")),
        "rows": known_rows(seen, speaker),
        "clashes": [clash_view(each, speaker) for each in unsettled(shop.given, seen.id)],
        "visits": _visits(shop, seen),
        "photos": _photos(shop, seen.id),
        "photo_visit": visit if visit.isalnum() else next((each.id for each in seen.visits), ""),
        "checks": check_lines(checks_of(shop.given, system=seen.id), shop),
        "changes": changes[:FIRST_CHANGES],
        "older": changes[FIRST_CHANGES:],
        "complaints": [(id_, speaker.name("seen", id_)) for id_ in SEEN],
    }


def _visits(shop: Shop, seen: SystemSeen) -> list[dict[str, Any]]:
    """Return the visits of a system as its page shows them, with what was found."""
    found = found_in(shop.given, (each.id for each in seen.visits))
    speaker = shop.speaker
    return [
        {
            **visit_line(each, shop),
            "found": speaker.tell("system-found", faults=tuple(found[each.id].split("+"))) if each.id in found else "",
        }
        for each in seen.visits
    ]


def _photos(shop: Shop, system_: str) -> list[dict[str, str]]:
    """Return the photos of plates of all visits, those of the last visit first."""
    every = photos_of_system(shop.given, system_)
    plates = [(visit, photo) for visit, photo in every if photo.body.get("shows") == "plate"]
    return [photo_line(visit, shop.given.zone, photo, shop.speaker) for visit, photo in plates[:MOST_PHOTOS]]
