"""One reading: what it says, what it said before, and the form that corrects it or takes it out."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.diagnosis.observing import question_of
from steadyhead.errors import InputError, UnknownWordError
from steadyhead.messages import message
from steadyhead.service.check_words import question_text
from steadyhead.service.guide.entries import entry
from steadyhead.service.record.readings import correct_reading
from steadyhead.service.record.views import RowSeen, VisitSeen
from steadyhead.visit.nearest import shown
from steadyhead.visit.record import Reading
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, local_moment, says
from steadyhead.web.views.checks import entry_view
from steadyhead.web.views.known import row_text, value_text
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence


async def reading(shop: Shop, request: Request) -> Response:
    """Show a reading with its history."""
    seen = shop.visit(request)
    row, found = _row(seen, request.path_params["reading"])
    values = {**_values(shop, seen, row, found), "typed": "", "unit": "", "problem": ""}
    return shop.page(request, "reading.html", shop.speaker_for(seen), values)


async def correct(shop: Shop, request: Request) -> Response:
    """Keep another value of a reading, or take it out."""
    seen, form = shop.visit(request), await read_form(request)
    row, found = _row(seen, request.path_params["reading"])
    if form.text("out"):
        correct_reading(shop.given, seen.id, row.id, None, token=form.fact())
        return go_to(f"/visits/{seen.id}")
    try:
        changes = {"value": _value(form, row, found, seen)}
        correct_reading(shop.given, seen.id, row.id, changes, token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        held = {"typed": form.text("said"), "unit": form.text("unit"), "problem": says(error, speaker)}
        return shop.refused(request, "reading.html", speaker, {**_values(shop, seen, row, found), **held})
    return go_to(f"/visits/{seen.id}")


def _why_none(row: RowSeen, speaker: Speaker) -> str:
    """Return why a reading does not count."""
    if row.conflict:
        return " / ".join(head.value for head in row.heads)
    return speaker.tell("web-taken-out") if row.withdrawn else speaker.tell("web-set-aside")


def _value(form: Form, row: RowSeen, found: Reading | None, seen: VisitSeen) -> str:
    """Return the value that the form says; of two that disagree, the one that was chosen.

    Raises
    ------
    InputError
        It says none.
    """
    chosen = form.text("head")
    if chosen and chosen in {head.value for head in row.heads}:
        return chosen
    text = form.text("key") or form.text("said")
    if not text or found is None:
        raise InputError(message("guide-nothing-typed"))
    unit = form.text("unit")
    with_unit = f"{text} {unit}" if unit and not any(sign.isalpha() or sign == "%" for sign in text) else text
    said = entry(with_unit, found.measure, seen.visit)
    if said.kind == "cannot":
        raise InputError(message("guide-nothing-typed"))
    return said.text


def _row(seen: VisitSeen, id_: str) -> tuple[RowSeen, Reading | None]:
    """Return a reading of a visit, with its value where it stands.

    Raises
    ------
    UnknownWordError
        The visit has no such reading.
    """
    row = next((row for row in seen.rows if row.id == id_), None)
    if row is None:
        raise UnknownWordError(message("web-no-reading", got=shown(id_)))
    return row, None if row.number is None else seen.visit.readings[row.number - 1]


def _values(shop: Shop, seen: VisitSeen, row: RowSeen, found: Reading | None) -> dict[str, Any]:
    speaker = shop.speaker_for(seen)
    history = [
        {"at": local_moment(each.at, seen.zone, speaker), "author": each.author, "value": each.value}
        for each in row.history
    ]
    if found is None:
        what = {"what": row_text(row, speaker), "hook_up": "", "value": _why_none(row, speaker), "entry": None}
        gone: dict[str, Any] = {**what, "heads": [head.value for head in row.heads]}
        return {"seen": seen, "title": shop.name_of(seen), "row": row, "history": history, **gone}
    question = question_of(found)
    return {
        "heads": (),
        "seen": seen,
        "title": shop.name_of(seen),
        "row": row,
        "history": history,
        "what": sentence(question_text(question, speaker)),
        "hook_up": sentence(speaker.name("arrangement", found.arrangement)),
        "value": value_text(found, speaker),
        "entry": entry_view(seen.visit, question, speaker),
    }
