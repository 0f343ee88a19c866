"""What a reading's form does: keep it, ask about a likely slip first, refuse what cannot be read, note what can't be.

Rules
-----
1. What was typed is never lost: a page that refuses it shows it again, with why.
2. A likely slip is asked about once; the technician's word stands.
3. A form that is sent twice keeps one reading; sent again with another figure, it corrects that reading.
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.diagnosis.observing import Question
from steadyhead.errors import InputError
from steadyhead.messages import message
from steadyhead.service.guide.rows import declined_rows, reading_row
from steadyhead.service.record.doubts import Doubtful
from steadyhead.service.record.readings import Cannot, add_reading, decline_checks
from steadyhead.service.record.views import VisitSeen
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.points import read_values
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.pages.visit import visit_values
from steadyhead.web.questions import question_of_key
from steadyhead.web.render import large_query
from steadyhead.web.views.asking import take_of


async def keep(shop: Shop, request: Request) -> Response:
    """Keep the reading that a form sends, or say why not."""
    seen, form = shop.visit(request), await read_form(request)
    question = question_of_key(form.text("check"))
    fact = form.fact()
    try:
        return await _kept(shop, request, seen, (form, question, fact))
    except InputError as error:
        return await _again(shop, request, seen, (form, question), says(error, shop.speaker_for(seen)))


async def _kept(shop: Shop, request: Request, seen: VisitSeen, sent: tuple[Form, Question, str]) -> Response:
    form, question, fact = sent
    kept_there = go_to(f"/visits/{seen.id}{large_query(request)}")
    if form.text("cannot"):
        _decline(shop, seen, (question, fact), "")
        return kept_there
    take = take_of(await shop.think(seen), question)
    body = {**reading_row(take.check, _typed(form), seen.visit)}
    sure = bool(form.text("confirmed") or form.text("instead") or seen.assumed)
    kept = add_reading(shop.given, seen.id, body, token=fact, check=take.check, confirmed=sure)
    if isinstance(kept, Cannot):
        _decline(shop, seen, (question, fact), kept.why)
        return kept_there
    if isinstance(kept, Doubtful):
        return await _again(shop, request, seen, (form, question), kept)
    return kept_there


def _decline(shop: Shop, seen: VisitSeen, what: tuple[Question, str], why: str) -> None:
    """Keep that a check can't be done here, with all that falls with it."""
    question, fact = what
    decline_checks(shop.given, seen.id, declined_rows(question, seen.visit, why), token=fact)


def _typed(form: Form) -> str:
    """Return what was typed, with the unit that was chosen beside it where it has none of its own."""
    sure = form.text("instead") or form.text("confirmed")
    if sure:
        return sure
    text = form.text("key") or form.text("said")
    if not text:
        raise InputError(message("guide-nothing-typed"))
    unit = form.text("unit")
    plain = not any(sign.isalpha() or sign == "%" for sign in text.replace(" to ", ".."))
    return f"{text} {unit}" if unit and plain else text


def _asks(doubt: Doubtful, seen: VisitSeen, shop: Shop) -> str:
    """Return the question about a likely slip; its answers are buttons."""
    speaker = shop.speaker_for(seen)
    if doubt.meant is None:
        return speaker.tell("web-far-off", typed=doubt.typed)
    return speaker.tell("web-did-you-mean", typed=doubt.typed, meant=doubt.meant)


async def _again(
    shop: Shop, request: Request, seen: VisitSeen, sent: tuple[Form, Question], why: Doubtful | str
) -> Response:
    """Return the page that the form stood on, with what was typed and why it was not kept."""
    form, question = sent
    doubt = None if isinstance(why, str) else why
    held: dict[str, Any] = {
        "typed": form.text("said") or form.text("key"),
        "unit": form.text("unit"),
        "problem": why if isinstance(why, str) else "",
        "doubt": doubt and {"typed": doubt.typed, "meant": doubt.meant or "", "says": _asks(doubt, seen, shop)},
    }
    found = await shop.think(seen)
    planned = {check.question for check in found.answer.next_checks} if found.answer else set()
    mine = found.take is not None and found.take.check.question == question
    speaker = shop.speaker_for(seen)
    if mine or question in planned:
        values = await visit_values(shop, seen, None if mine else question)
        return shop.refused(request, "visit.html", speaker, {**values, **held})
    values = await read_values(shop, seen, question)
    return shop.refused(request, "read.html", speaker, {**values, **held})
