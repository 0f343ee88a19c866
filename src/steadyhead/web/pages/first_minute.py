"""The first minute: what the display still knows before anything is reset, one step at a time, each kept at once.

Rules
-----
1. Every step may be left out. A step that was kept leads to the next, the last one to the checks.
2. What is wrong is told on the step's own page, with what was typed; nothing else is lost, it was kept before.
3. What the complaint said at other keys stays as it was.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, UnknownWordError
from steadyhead.messages import message
from steadyhead.service.guide.entries import unit_asked
from steadyhead.service.record.beside import add_note
from steadyhead.service.record.doubts import Doubtful
from steadyhead.service.record.first_minute import end_first_minute
from steadyhead.service.record.readings import Cannot, add_reading
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.record.visits import set_complaint
from steadyhead.visit.fact_kinds import AS_FOUND, FIRST_MINUTES
from steadyhead.visit.nearest import shown
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.pages.storage import room_here
from steadyhead.web.views.first_minute import READS, STEPS, TAPS, WHOSE, first_open, first_view, next_step
from steadyhead.words.complaint_names import COMPLAINT

TAKEN, SKIPPED = FIRST_MINUTES
PHOTO = "photo"
#: What a form holds that was not kept: nothing.
NOTHING: Mapping[str, Any] = {"typed": "", "unit": "", "problem": "", "doubt": None, "whose": WHOSE[0], "settings": ""}


async def ask(shop: Shop, request: Request) -> Response:
    """Show the step that the address names, or the first that nobody has seen to."""
    seen = shop.visit(request)
    step = request.query_params.get("at") or first_open(seen)
    return shop.page(request, "first_minute.html", shop.speaker_for(seen), _values(shop, seen, _known(step)))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep what a step's form says, and lead to the next; or keep how the first minute ended."""
    seen, form = shop.visit(request), await read_form(request)
    if form.text("end"):
        end_first_minute(shop.given, seen.id, form.text("end"), token=form.fact())
        return go_to(f"/visits/{seen.id}")
    step = _known(form.text("check"))
    try:
        doubt = _keep_step(shop, seen, step, form)
    except InputError as error:
        return _again(shop, request, seen, (step, form), {"problem": says(error, shop.speaker_for(seen))})
    if doubt is not None:
        return _again(shop, request, seen, (step, form), {"doubt": doubt})
    return _onward(shop, seen, step)


def _onward(shop: Shop, seen: VisitSeen, step: str) -> Response:
    """Lead to the step after one; after the last the first minute was taken."""
    after = next_step(step)
    if after:
        return go_to(f"/visits/{seen.id}/first-minute?at={after}")
    if not seen.first_minute:
        end_first_minute(shop.given, seen.id, TAKEN)
    return go_to(f"/visits/{seen.id}")


def _keep_step(shop: Shop, seen: VisitSeen, step: str, form: Form) -> dict[str, str] | None:
    """Keep what a step's form says; return what must be asked first."""
    if step in READS:
        return _keep_reading(shop, seen, step, form)
    if step in TAPS:
        _keep_taps(shop, seen, step, form)
    return None


def _keep_reading(shop: Shop, seen: VisitSeen, step: str, form: Form) -> dict[str, str] | None:
    """Keep a reading, marked as found; an empty form keeps none."""
    measure = READS[step]
    sure = form.text("instead") or form.text("confirmed")
    text = sure or form.text("key") or form.text("said")
    if not text:
        raise InputError(message("guide-nothing-typed"))
    body = {"measure": measure, "value": _with_unit(text, form.text("unit"), seen, measure), "stage": AS_FOUND}
    if form.text("whose") in WHOSE and step == "gauge":
        body["whose"] = form.text("whose")
    certain = bool(sure) or bool(seen.assumed) or step in {"setpoint", "hours", "starts"}
    kept = add_reading(shop.given, seen.id, body, token=form.fact(), confirmed=certain)
    if isinstance(kept, Cannot):
        return None  # "can't" on a step that may be left out: it is left out
    if not isinstance(kept, Doubtful):
        return None
    return {"typed": kept.typed, "meant": kept.meant or "", "says": _asks(kept, shop, seen)}


def _with_unit(text: str, unit: str, seen: VisitSeen, measure: str) -> str:
    """Return what was typed with the unit that was chosen beside it, where it has none of its own."""
    plain = not any(sign.isalpha() or sign == "%" for sign in text.replace(" to ", ".."))
    return f"{text} {unit}" if unit and unit != unit_asked(measure, seen.visit) and plain else text


def _asks(doubt: Doubtful, shop: Shop, seen: VisitSeen) -> str:
    speaker = shop.speaker_for(seen)
    if doubt.meant is None:
        return speaker.tell("web-far-off", typed=doubt.typed)
    return speaker.tell("web-did-you-mean", typed=doubt.typed, meant=doubt.meant)


def _keep_taps(shop: Shop, seen: VisitSeen, step: str, form: Form) -> None:
    """Keep the words that were tapped, and a line about settings; nothing tapped keeps nothing."""
    row = {**seen.tables.get("complaint", {})}
    for key, several in TAPS[step].items():
        words = [id_.partition(":")[2] for id_ in COMPLAINT if id_.startswith(f"{key}:")]
        chosen = [word for word in words if form.text(f"{key}.{word}" if several else key) == word]
        row[key] = chosen if several else next(iter(chosen), None)
    if form.text("settings"):
        add_note(shop.given, seen.id, form.text("settings"))
    set_complaint(shop.given, seen.id, row, token=form.fact())


def _known(step: str) -> str:
    """Return a step.

    Raises
    ------
    UnknownWordError
        There is no such step.
    """
    if step not in STEPS:
        raise UnknownWordError(message("first-no-step", got=shown(step)))
    return step


def _values(shop: Shop, seen: VisitSeen, step: str) -> dict[str, Any]:
    view = first_view(seen, step, shop.speaker_for(seen))
    room = room_here(shop) if step == PHOTO else None
    return {"seen": seen, "title": shop.name_of(seen), "view": view, "ended": TAKEN, "room": room, **NOTHING}


def _again(
    shop: Shop, request: Request, seen: VisitSeen, sent: tuple[str, Form], why: Mapping[str, Any]
) -> Response:
    """Return the step again, with what was typed and why it was not kept."""
    step, form = sent
    held = {
        "typed": form.text("said") or form.text("key"), "unit": form.text("unit"),
        "whose": form.text("whose"), "settings": form.text("settings"),
    }  # fmt: skip
    values = {**_values(shop, seen, step), **held, **why}
    return shop.refused(request, "first_minute.html", shop.speaker_for(seen), values)
