"""One point of a sensor check: what it says, what it said before, and the form that corrects it or takes it out."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.check_pages import CheckSeen, PointSeen
from steadyhead.service.record.checks import correct_point
from steadyhead.visit.nearest import shown
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.sensor_setup import problems_of
from steadyhead.web.pages.shared import Shop, go_to, local_moment
from steadyhead.web.views.point_entry import point_row, typed_from, typed_of
from steadyhead.web.views.sensor_check import PointFields, point_fields, point_said


async def point(shop: Shop, request: Request) -> Response:
    """Show a point with its history."""
    seen = shop.check(request)
    values = _values(shop, seen, _point(seen, request), None, None)
    return shop.page(request, "sensor_point.html", shop.speaker_of_check(seen), values)


async def correct(shop: Shop, request: Request) -> Response:
    """Keep other figures of a point, take it out, or let it count again."""
    seen, form = shop.check(request), await read_form(request)
    one = _point(seen, request)
    try:
        correct_point(shop.given, seen.id, one.id, _changes(one, form), token=form.fact())
    except InputError as error:
        values = _values(shop, seen, one, form, error)
        return shop.refused(request, "sensor_point.html", shop.speaker_of_check(seen), values)
    return go_to(f"/sensor-checks/{seen.id}")


def _changes(one: PointSeen, form: Form) -> dict[str, Any] | None:
    """Return what a form changes: all figures, those of one of two heads, or None where the point goes."""
    if form.text("out"):
        return None
    if form.text("back"):
        return {}
    head = form.text("head")
    if head.isdigit() and int(head) < len(one.heads):
        return dict(one.heads[int(head)])
    return point_row(form)


def _point(seen: CheckSeen, request: Request) -> PointSeen:
    id_ = str(request.path_params["point"])
    found = next((each for each in seen.points if each.id == id_), None)
    if found is None:
        raise NotFoundError(message("check-point-not-here", got=shown(id_)))
    return found


def _values(
    shop: Shop, seen: CheckSeen, one: PointSeen, form: Form | None, error: InputError | None
) -> dict[str, Any]:
    speaker = shop.speaker_of_check(seen)
    view: PointFields = point_fields(seen, speaker)
    direction, cycle = str(one.body.get("direction", "up")), int(one.body.get("cycle", 1))
    return {
        "seen": seen,
        "title": seen.name or speaker.tell("web-nameless"),
        "point": one,
        "said": point_said(one.body),
        "at": local_moment(one.at, seen.zone, speaker),
        "heads": [point_said(body) for body in one.heads],
        "history": [point_said(body) for body in one.history],
        "view": view,
        "typed": typed_of(form, view.fields, direction, cycle) if form else typed_from(one.body, view.fields),
        "problems": problems_of(error, speaker) if error else (),
    }
