"""What on the van will do in a visit: the list, best first; each opened to its reasons, settings, pins and error.

Rules
-----
1. What has to be heeded before a sensor is changed stands above what is entered and wired.
2. A part that will not do has its reasons and no button.
3. The tap that says that one was fitted keeps it with the repair, and leads back to the visit and its proof.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.van_fitted import (
    OnVan,
    fit_from_van,
    parts_of_visit,
    take_out,
    take_over,
    what_will_do_in,
)
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.van_told import (
    before_changing,
    error_message,
    in_short,
    left_text,
    menu_unit,
    ordered,
    pin_rows_told,
    plate_text,
    settings_rows,
    stretched_rows,
)
from steadyhead.setup.finding import CHECK, NO
from steadyhead.setup.lasting import PERMANENT, TEMPORARY
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, go_to
from steadyhead.web.views.caring import care_view
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence


async def show(shop: Shop, request: Request) -> Response:
    """Show what on the van will do here, the best first, and what was fitted from it."""
    seen = shop.visit(request)
    speaker = shop.speaker_for(seen)
    found = what_will_do_in(shop.given, seen.visit)
    values = {
        "seen": seen, "title": shop.name_of(seen), "lines": [_line(each, speaker) for each in found],
        "none": bool(found) and all(each.match.grade == NO for each in found), "fitted": _fitted(shop, seen, speaker),
    }  # fmt: skip
    return shop.page(request, "van_here.html", speaker, values)


def _line(one: OnVan, speaker: Speaker) -> dict[str, Any]:
    return {
        "id": one.stock.id, "name": one.stock.name, "what": plate_text(one.stock),
        "left": left_text(one.stock, speaker), "grade": speaker.name("van-grade", one.match.grade),
        "good": one.match.grade not in {NO, CHECK}, "short": in_short(one.match, speaker),
    }  # fmt: skip


def _fitted(shop: Shop, seen: VisitSeen, speaker: Speaker) -> list[dict[str, Any]]:
    return [
        {
            "id": each.id, "name": each.name, "serial": each.serial, "taken_over": each.taken_over,
            "lasts": sentence(speaker.name("van-lasts", each.lasts)) if each.lasts else "",
            "temporary": each.lasts == TEMPORARY,
        }
        for each in parts_of_visit(shop.given, seen.id)
    ]  # fmt: skip


async def change(shop: Shop, request: Request) -> Response:
    """Take out what was not fitted after all, or let the system have the plate of what was."""
    seen, form = shop.visit(request), await read_form(request)
    if form.text("out"):
        take_out(shop.given, seen.id, form.text("out"), token=form.fact())
    elif form.text("over"):
        take_over(shop.given, seen.id, form.text("over"), entered=True, token=form.fact())
    return go_to(f"/visits/{seen.id}/van")


async def ask(shop: Shop, request: Request) -> Response:
    """Show one part against this system."""
    seen = shop.visit(request)
    one = _asked_for(shop, request, seen)
    speaker = shop.speaker_for(seen)
    return shop.page(request, "van_match.html", speaker, _values(shop, seen, one, speaker))


async def fit(shop: Shop, request: Request) -> Response:
    """Keep that a part was fitted."""
    seen, form = shop.visit(request), await read_form(request)
    one = _asked_for(shop, request, seen)
    fit_from_van(
        shop.given, seen.id, one.stock.id, serial=form.text("serial"), lasts=form.text("lasts") or TEMPORARY,
        entered=bool(form.text("entered")), token=form.fact(),
    )  # fmt: skip
    return go_to(f"/visits/{seen.id}")


def _asked_for(shop: Shop, request: Request, seen: VisitSeen) -> OnVan:
    id_ = str(request.path_params["stock"])
    found = next((each for each in what_will_do_in(shop.given, seen.visit) if each.stock.id == id_), None)
    if found is None:
        raise NotFoundError(message("van-not-stock", got=id_))
    return found


def _values(shop: Shop, seen: VisitSeen, one: OnVan, speaker: Speaker) -> Mapping[str, Any]:
    match = one.match
    made = None if match.grade == NO else match.settings
    unit = menu_unit(one, seen.visit)
    stretched = stretched_rows(made, speaker, unit) if made else []
    own = {"kind": made.kind, "was_low": made.was_low, "was_high": made.was_high} if made else {}
    reasons = [
        {"says": speaker.say(each.why), "grade": each.grade, "about": speaker.name("van-aspect", each.aspect)}
        for each in ordered(match)
    ]
    return {
        "seen": seen, "title": shop.name_of(seen), "stock": one.stock, "what": plate_text(one.stock),
        "left": left_text(one.stock, speaker), "grade": speaker.name("van-grade", match.grade),
        "short": in_short(match, speaker), "may": match.grade != NO, "reasons": reasons,
        "settings": settings_rows(made, speaker, unit) if made else [], "stretched": stretched,
        "stretched_head": speaker.tell("van-set-stretched", **own) if stretched else "",
        "pins": pin_rows_told(match, speaker) if made else [],
        "error": speaker.say(error_message(match.error)) if made and match.error else "",
        "parts": _parts(one, speaker) if made else [],
        "lasts": sentence(speaker.name("van-lasts", match.lasts)), "because": [speaker.say(e) for e in match.because],
        "stays": match.lasts == PERMANENT, "care": care_view(before_changing(seen.visit), seen.cautions, speaker),
    }  # fmt: skip


def _parts(one: OnVan, speaker: Speaker) -> list[tuple[str, str]]:
    """Return the parts of the error, the largest first."""
    error = one.match.error
    parts = {} if error is None else error.parts
    largest = sorted(parts.items(), key=lambda each: -each[1])
    return [
        (sentence(speaker.name("error-part", part)), speaker.tell("van-figure-pressure", pressure=value))
        for part, value in largest
    ]
