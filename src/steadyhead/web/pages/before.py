"""Before the drive: what the caller says, who depends on the water, how to get in, what to load, what to ask of them.

Rules
-----
1. Everything may stay unknown. What is kept here is the visit's own: whoever arrives goes on from it.
2. What to load takes the engine a second or more: it is worked out once something was kept, or when it is asked for,
   by the times and costs that hold here, as the next checks are.
3. The form and what follows from it stand on one page, which can be printed; on paper the form is what it says.
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.service.at_work import Task
from steadyhead.service.record.before import set_place
from steadyhead.service.record.times import judging_by
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.record.visits import set_complaint, start_visit
from steadyhead.visit.fact_kinds import DEPENDENTS
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.call import KEYS, call_groups, call_row
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.views.before import LoadView, asked, load_view, packed
from steadyhead.words.saying import sentence


async def begin(shop: Shop, request: Request) -> Response:
    """Begin a visit with a call that came in; its place may have a name, or be a system that is known."""
    form = await read_form(request)
    system = form.text("system") or None
    visit = start_visit(shop.given, {}, system=system, name=form.text("name"), token=form.fact())
    return go_to(f"/visits/{visit}/before")


async def ask(shop: Shop, request: Request) -> Response:
    """Show what is known before the drive, and what follows from it."""
    seen = shop.visit(request)
    values = await _values(shop, seen, None)
    if request.query_params.get("load"):
        values["load"] = await _load(shop, seen)
    return shop.page(request, "before.html", shop.speaker_for(seen), values)


async def keep(shop: Shop, request: Request) -> Response:
    """Keep what the caller says, and show what follows."""
    seen, form = shop.visit(request), await read_form(request)
    depends = tuple(word for word in DEPENDENTS if form.text(f"depends.{word}") == word)
    try:
        set_place(
            shop.given, seen.system_id, depends=depends, access=form.text("access"), name=form.text("name")
        )
        set_complaint(shop.given, seen.id, call_row(form), token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**await _values(shop, seen, form), "problem": says(error, speaker)}
        return shop.refused(request, "before.html", speaker, values)
    return go_to(f"/visits/{seen.id}/before?load=yes#load")


async def _load(shop: Shop, seen: VisitSeen) -> LoadView:
    """Return what to load, worked out once for each state of a visit and of the estimates."""
    by = judging_by(shop.given)
    task = Task(seen.id, f"pack:{seen.id}:{seen.evidence}:{by.key}", packed, (seen.visit, by.estimates))
    return load_view(await shop.worked_out(task), seen.visit, shop.speaker_for(seen), assumed=bool(seen.assumed))


async def _values(shop: Shop, seen: VisitSeen, form: Form | None) -> dict[str, Any]:
    """Return what the template needs; with a form, what it holds."""
    speaker = shop.speaker_for(seen)
    said = seen.visit.complaint
    chosen = [word for word in DEPENDENTS if (form.text(f"depends.{word}") == word if form else word in seen.depends)]
    groups = call_groups(said, speaker, form)
    words = [text for group in groups for _, text, on in group["choices"] if on]
    return {
        "seen": seen,
        "title": shop.name_of(seen),
        "name": form.text("name") if form else seen.name,
        "text": form.text("text") if form else said.text or "",
        "access": form.text("access") if form else seen.access,
        "groups": groups,
        "keys": tuple(KEYS),
        "said": words,
        "depends": [(w, sentence(speaker.name("dependent", w)), w in chosen) for w in DEPENDENTS],
        "tell": [sentence(speaker.name("dependent", word)) for word in seen.depends if word in DEPENDENTS],
        "asked": asked(speaker),
        "load": None,
        "problem": "",
    }
