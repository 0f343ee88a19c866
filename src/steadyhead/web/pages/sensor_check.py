"""A sensor check's page: what can be decided, what comes next, the picture, the points, and what its forms do.

Rules
-----
1. What was typed is never lost: a page that refuses it shows it again, with why.
2. A form that is sent twice keeps one point; sent again with another figure, it corrects that point.
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.service.at_work import Task, alone
from steadyhead.service.record.check_pages import CheckSeen
from steadyhead.service.record.checks import add_point, finish_check, withdraw_check
from steadyhead.visit.check_keys import CHECK_STATES, FINISHED
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.sensor_setup import problems_of
from steadyhead.web.pages.shared import Shop, go_to, local_time
from steadyhead.web.render import large_query
from steadyhead.web.views import sensor_check as views
from steadyhead.web.views.check_thought import CheckThought, thought
from steadyhead.web.views.point_entry import point_row, typed_of

OUT = "out"


async def check(shop: Shop, request: Request) -> Response:
    """Show a check: what to do next, and what is known."""
    seen = shop.check(request)
    values = await check_values(shop, seen, None, None)
    return shop.page(request, "sensor_check.html", shop.speaker_of_check(seen), values)


async def keep(shop: Shop, request: Request) -> Response:
    """Keep the point that a form sends, or say why not."""
    seen, form = shop.check(request), await read_form(request)
    try:
        add_point(shop.given, seen.id, point_row(form), token=form.fact())
    except InputError as error:
        speaker = shop.speaker_of_check(seen)
        return shop.refused(request, "sensor_check.html", speaker, await check_values(shop, seen, form, error))
    return go_to(f"/sensor-checks/{seen.id}{large_query(request)}")


async def state(shop: Shop, request: Request) -> Response:
    """Finish a check, take it up again, or take it out."""
    seen, form = shop.check(request), await read_form(request)
    if form.text(OUT):
        withdraw_check(shop.given, seen.id, token=form.fact())
        return go_to(f"/visits/{seen.told.visit}" if seen.told.visit else "/")
    word = form.text("state")
    finish_check(shop.given, seen.id, word if word in CHECK_STATES else "", token=form.fact())
    return go_to(f"/sensor-checks/{seen.id}")


async def think_of_check(shop: Shop, seen: CheckSeen) -> CheckThought:
    """Return what was worked out of a check, once for each of its states."""
    return await shop.worked_out_here(Task(seen.id, f"{seen.id}:{seen.key}", alone, (thought, seen.told)))


async def check_values(shop: Shop, seen: CheckSeen, form: Form | None, error: InputError | None) -> dict[str, Any]:
    """Return what the template of a check needs; with a form, what it holds, and why it was not kept."""
    speaker = shop.speaker_of_check(seen)
    view = views.check_view(seen, await think_of_check(shop, seen), speaker)
    return {
        "seen": seen,
        "title": seen.name or speaker.tell("web-nameless"),
        "saved": local_time(seen.saved, seen.zone),
        "view": view,
        "typed": typed_of(form, view.fields, view.direction, view.cycle),
        "problems": problems_of(error, speaker) if error else (),
        "finished": seen.told.state == FINISHED,
    }
