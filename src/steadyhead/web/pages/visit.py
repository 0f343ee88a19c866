"""A visit's page, and the tap that closes the visit once its repair reads right."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.diagnosis.observing import Question
from steadyhead.service.guide.asides import fault_typed
from steadyhead.service.record.follow_ups import what_waits
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.record.visits import count_former, end_visit
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, go_to, local_time
from steadyhead.web.questions import question_of_key
from steadyhead.web.views.ended import ended_view
from steadyhead.web.views.repaired import repaired_view
from steadyhead.web.views.visit_page import visit_view

#: How a visit ends whose repair reads right.
PROVED = "proved-on-site"
#: What the form holds that was not kept: nothing.
NOTHING: Mapping[str, Any] = {"typed": "", "unit": "", "problem": "", "doubt": None}


async def visit(shop: Shop, request: Request) -> Response:
    """Show a visit: what to do next, and what is known."""
    seen = shop.visit(request)
    key = request.query_params.get("check", "")
    picked = question_of_key(key) if key else None
    values = {**await visit_values(shop, seen, picked), **NOTHING}
    return shop.page(request, "visit.html", shop.speaker_for(seen), values)


async def visit_values(shop: Shop, seen: VisitSeen, picked: Question | None) -> dict[str, Any]:
    """Return what the template of a visit needs, but for what its form holds."""
    view = visit_view(seen, await shop.think(seen), picked, shop.manner)
    return {
        "seen": seen,
        "title": shop.name_of(seen),
        "view": view,
        "picked": picked is not None,
        "saved": local_time(seen.saved, seen.zone),
        "repaired": repaired_view(seen, shop.speaker_for(seen)),
        "ended": ended_view(seen, what_waits(shop.given, seen.id), shop.speaker_for(seen)),
    }


async def count_left_open(shop: Shop, request: Request) -> Response:
    """Keep whether what the visit before left open counts here."""
    seen, form = shop.visit(request), await read_form(request)
    count_former(shop.given, seen.id, counts=form.text("counts") == "yes", token=form.fact())
    return go_to(f"/visits/{seen.id}")


async def close(shop: Shop, request: Request) -> Response:
    """Close a visit as a fault that the repair has proved."""
    seen, form = shop.visit(request), await read_form(request)
    fault = fault_typed((await shop.think(seen)).guide, form.text("fault"))
    finding = {"fault": fault, "proved": True}
    end_visit(shop.given, seen.id, PROVED, finding=finding, token=form.fact())
    return go_to(f"/visits/{seen.id}/papers")
