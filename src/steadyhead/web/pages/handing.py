"""Handing over: a visit as a file, everything as a file, and which visits were not handed over since they ended.

Rules
-----
1. A file with everything is handed to whoever sits at this device, to nobody who joined from another.
2. A visit counts as handed over once its file was saved, or once sharing it has come to its end; a file that is fetched
   to be shared (`for=share`) counts only then.
3. Where scripts run and the browser shares such files, one tap opens the phone's own sheet; a link saves the file in
   any case.
"""

from __future__ import annotations

import re
import unicodedata
from functools import partial
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.everything import file_name, part_bytes, whole
from steadyhead.service.record.exchange import export_visit
from steadyhead.service.record.handed import EVERYTHING, FILE, SHARED, Handed, hand_over, handed, not_handed
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.nearest import shown
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, go_to, local_time, local_whole
from steadyhead.web.pages.today import visit_line

#: A file of a visit, or of many.
MEDIA_TYPE = "application/zip"


async def every(shop: Shop, request: Request) -> Response:
    """Show what was not handed over, and the ways in which all of it leaves this device."""
    found = await shop.thinker.beside(partial(whole, shop.given))
    values = {
        "missed": [visit_line(each, shop) for each in not_handed(shop.given)],
        "whole": found,
        "names": [file_name(shop.given, number, len(found.parts)) for number in range(1, len(found.parts) + 1)],
        "here": not shop.who,
        "phone": shop.phone,
        "media_type": MEDIA_TYPE,
    }
    return shop.page(request, "hand_over.html", shop.speaker, values)


async def every_noted(shop: Shop, request: Request) -> Response:
    """Note that everything was shared."""
    await read_form(request)
    hand_over(shop.given, EVERYTHING)
    return go_to("/hand-over")


async def everything(shop: Shop, request: Request) -> Response:
    """Return one file of everything.

    Raises
    ------
    NotFoundError
        There is no such part, or who asks joined from another device.
    """
    asked = str(request.path_params["part"])
    if shop.who or not (asked.isascii() and asked.isdigit()):
        raise NotFoundError(message("everything-no-part", got=shown(asked), count=0))
    number, count = int(asked[:9]), len((await shop.thinker.beside(partial(whole, shop.given))).parts)
    data = await shop.thinker.beside(partial(part_bytes, shop.given, number))
    if number == count and request.query_params.get("for") != "share":
        hand_over(shop.given, EVERYTHING)
    return _file(data, file_name(shop.given, number, count))


async def ask(shop: Shop, request: Request) -> Response:
    """Show how this visit is handed over, and whether it was."""
    seen = shop.visit(request)
    values = {"seen": seen, "title": shop.name_of(seen), "phone": shop.phone, **file_values(shop, seen)}
    return shop.page(request, "visit_file.html", shop.speaker_for(seen), values)


async def noted(shop: Shop, request: Request) -> Response:
    """Note that this visit was shared."""
    seen = shop.visit(request)
    await read_form(request)
    hand_over(shop.given, SHARED, seen.id)
    return go_to(f"/visits/{seen.id}/hand-over")


async def file(shop: Shop, request: Request) -> Response:
    """Return this visit as a file."""
    seen = shop.visit(request)
    data = export_visit(shop.given, seen.id)
    if request.query_params.get("for") != "share":
        hand_over(shop.given, FILE, seen.id)
    return _file(data, visit_file_name(seen))


def file_values(shop: Shop, seen: VisitSeen) -> dict[str, Any]:
    """Return what the part of a page needs that hands a visit over."""
    note = handed(shop.given, seen.id)
    return {"file_name": visit_file_name(seen), "media_type": MEDIA_TYPE, "handed": _said(note, shop)}


def _said(note: Handed | None, shop: Shop) -> str:
    """Return when and how a visit was handed over, in words."""
    if note is None:
        return shop.speaker.tell("handing-not")
    when = local_whole(note.at, shop.given.zone, shop.speaker)
    return shop.speaker.tell("handing-done", when=when, way=shop.speaker.name("handed-way", note.way))


def visit_file_name(seen: VisitSeen) -> str:
    """Return what a visit's file is called: where it was, in plain signs that every system takes, and its day."""
    plain = unicodedata.normalize("NFKD", seen.name).encode("ascii", "ignore").decode().lower()
    where = "-".join(re.findall("[a-z0-9]+", plain))[:40].strip("-") or "visit"
    return f"{where}-{local_time(seen.at, seen.zone, '%Y-%m-%d')}.visit"


def _file(data: bytes, name: str) -> Response:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(data, media_type=MEDIA_TYPE, headers=headers)
