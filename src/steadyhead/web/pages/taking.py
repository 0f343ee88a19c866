"""Taking in: a file of another home is chosen, brought together with what stands here, and what came is shown.

Rules
-----
1. The page says what came, of the record as it stands when it is looked at; the same file again brings nothing new.
2. A file that cannot be used is refused in words and changes nothing.
3. A visit that was never here and came whole was handed over already: there is nothing to hand back.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.service.record.came import Came, Disagreed, came, keep_came
from steadyhead.service.record.coming import Imported
from steadyhead.service.record.exchange import import_visit
from steadyhead.service.record.given import Given
from steadyhead.service.record.handed import came_so
from steadyhead.web.forms import read_file
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.policy import MOST_TAKEN_MB, TAKE_IN


async def ask(shop: Shop, request: Request) -> Response:
    """Show the form, and what came last where an address asks for it."""
    found = came(shop.given, request.query_params.get("came", ""))
    return shop.page(request, "take_in.html", shop.speaker, {**_values(found, shop), "problem": ""})


async def keep(shop: Shop, request: Request) -> Response:
    """Take a file in, or say why not."""
    sent = await read_file(request)
    token = sent.form.fact()
    problem = "" if sent.table else shop.speaker.tell("taking-none")
    if sent.table:
        try:
            keep_came(shop.given, token, taken(shop.given, sent.table, sent.name or shop.speaker.tell("taking-file")))
        except InputError as error:
            problem = says(error, shop.speaker)
    if problem:
        return shop.refused(request, "take_in.html", shop.speaker, {**_values(None, shop), "problem": problem})
    return go_to(f"{TAKE_IN}?came={token}")


def taken(given: Given, data: bytes, name: str) -> Imported:
    """Bring a file in, and note of the visits that it brought whole that nobody need hand them over.

    Raises
    ------
    InputError
        The file cannot be used; nothing was changed.
    """
    done = import_visit(given, data, name)
    with given.reading() as work:
        whole = [id_ for id_, count in done.of.items() if len(work.facts(visit=id_)) == count]
    came_so(given, whole)
    return done


def came_values(found: Came | None, shop: Shop) -> dict[str, Any]:
    """Return what the part of a page needs that says what came; `came` is None where nothing is to be said."""
    speaker = shop.speaker
    if found is None:
        return {"came": None}
    done = found.done
    lines = [
        speaker.tell("came-nothing") if done.nothing else "",
        speaker.tell("came-new", count=done.new) if done.new else "",
        speaker.tell("came-photos", count=done.photos) if done.photos else "",
        speaker.tell("came-erased", count=done.erased) if done.erased else "",
        speaker.tell("came-late", count=done.late) if done.late else "",
        speaker.tell("came-newer", list=done.newer) if done.newer else "",
        speaker.tell("came-parts", list=done.unknown) if done.unknown else "",
        speaker.tell("import-collisions", count=len(done.collisions)) if done.collisions else "",
    ]
    nameless = speaker.tell("web-nameless")
    visits = [(each.id, each.name or nameless, speaker.tell("came-visit", count=each.new)) for each in found.visits]
    conflicts = [
        (_where(each), each.name or nameless, line) for each in found.conflicts for line in _lines(each, shop)
    ]
    return {"came": {"lines": [line for line in lines if line], "visits": visits, "conflicts": conflicts}}


def _values(found: Came | None, shop: Shop) -> dict[str, Any]:
    command = "steadyhead import FILE"
    limit = shop.speaker.tell("taking-limit", megabytes=MOST_TAKEN_MB, command=command)
    return {**came_values(found, shop), "limit": limit}


def _where(each: Disagreed) -> str:
    """Return where a conflict is seen and settled."""
    if each.kind == "reading" and each.visit:
        return f"/visits/{each.visit}/readings/{each.about}"
    if each.visit:
        return f"/visits/{each.visit}"
    return {"system": f"/systems/{each.about}", "instrument": f"/instruments/{each.about}"}.get(each.kind, "/")


def _lines(each: Disagreed, shop: Shop) -> Iterable[str]:
    """Yield what two devices say of each key, as it was typed; of what is no text, only that they differ."""
    for values in each.values.values():
        texts = list(dict.fromkeys(str(value) for value in values if isinstance(value, str)))
        if len(texts) > 1:
            first, *others = [shop.speaker.printable(text) for text in texts]
            yield shop.speaker.tell("came-conflict", first=first, second=", ".join(others))
        else:
            yield shop.speaker.tell("web-two-devices")


