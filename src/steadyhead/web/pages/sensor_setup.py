"""Where a sensor check begins, and what it is compared with: plate, gauge, meter; a few taps where it is known.

Rules
-----
1. What is known stands in the fields already; an empty field is unknown.
2. What cannot be read is told beside the head, nothing of the form is kept, and what was typed stays.
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, RefusedFileError
from steadyhead.service.record.check_pages import new_check
from steadyhead.service.record.checks import begin_check, set_check
from steadyhead.service.record.pages import system_page
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.views.check_form import body_of, field_of_problem, groups
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence


async def ask_new(shop: Shop, request: Request) -> Response:
    """Show what a new check begins with."""
    return shop.page(request, "sensor_setup.html", shop.speaker, _new_values(shop, request, None, None))


async def begin(shop: Shop, request: Request) -> Response:
    """Begin a check, and go to its first point."""
    form = await read_form(request)
    system, visit = _where(shop, request)
    try:
        check = begin_check(shop.given, body_of(form), system=system, visit=visit, token=form.fact())
    except InputError as error:
        return shop.refused(request, "sensor_setup.html", shop.speaker, _new_values(shop, request, form, error))
    return go_to(f"/sensor-checks/{check}")


async def ask(shop: Shop, request: Request) -> Response:
    """Show what a check is compared with."""
    seen = shop.check(request)
    values = _values(shop.speaker_of_check(seen), seen.body, None, None)
    return shop.page(request, "sensor_setup.html", shop.speaker_of_check(seen), {**values, **_of_check(shop, seen)})


async def keep(shop: Shop, request: Request) -> Response:
    """Keep what a check is compared with."""
    seen, form = shop.check(request), await read_form(request)
    speaker = shop.speaker_of_check(seen)
    try:
        set_check(shop.given, seen.id, body_of(form), token=form.fact())
    except InputError as error:
        values = {**_values(speaker, seen.body, form, error), **_of_check(shop, seen)}
        return shop.refused(request, "sensor_setup.html", speaker, values)
    return go_to(f"/sensor-checks/{seen.id}")


def _where(shop: Shop, request: Request) -> tuple[str, str | None]:
    """Return the system and the visit that an address names."""
    if "visit" in request.path_params:
        seen = shop.visit(request)
        return seen.system_id, seen.id
    return system_page(shop.given, str(request.path_params["system"])).id, None


def _new_values(shop: Shop, request: Request, form: Form | None, error: InputError | None) -> dict[str, Any]:
    system, visit = _where(shop, request)
    name = shop.visit(request).name if visit else system_page(shop.given, system).name
    return {
        **_values(shop.speaker, new_check(shop.given, system=system, visit=visit), form, error),
        "title": name or shop.speaker.tell("web-nameless"),
        "head": shop.speaker.tell("sensor-begin-head"),
        "note": shop.speaker.tell("sensor-begin-note"),
        "button": shop.speaker.tell("sensor-begin"),
        "action": request.url.path,
        "back": request.url.path.rpartition("/")[0],
    }


def _of_check(shop: Shop, seen: Any) -> dict[str, Any]:  # noqa: ANN401 - a check as the shop returns it
    return {
        "title": seen.name or shop.speaker.tell("web-nameless"),
        "head": shop.speaker.tell("sensor-setup"),
        "note": shop.speaker.tell("web-unknown-is-normal"),
        "button": shop.speaker.tell("sensor-setup-keep"),
        "action": f"/sensor-checks/{seen.id}/setup",
        "back": f"/sensor-checks/{seen.id}",
    }


def _values(speaker: Speaker, body: Any, form: Form | None, error: InputError | None) -> dict[str, Any]:  # noqa: ANN401
    return {"groups": list(groups(body, form, speaker)), "problems": problems_of(error, speaker) if error else ()}


def problems_of(error: InputError, speaker: Speaker) -> list[dict[str, str]]:
    """Return what was refused, each problem with what its field is called."""
    if not isinstance(error, RefusedFileError):
        return [{"key": "", "says": says(error, speaker)}]
    return [{"key": _called(each.key, speaker), "says": speaker.say(each.message)} for each in error.problems]


def _called(key: str, speaker: Speaker) -> str:
    name = field_of_problem(key)
    point = key.removeprefix("check-point.")
    if name:
        return sentence(speaker.name("check-field", name))
    return sentence(speaker.name("point-field", point)) if point in {"reference", "signal", "supply", "shown"} else ""
