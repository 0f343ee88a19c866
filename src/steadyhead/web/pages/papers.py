"""Papers of a visit: which there are, each as a page to be read and printed, and as a file to be shared.

Rules
-----
1. A paper's page is the paper itself: it says its own cautions, and the page's foot says none again.
2. Where a home has no PDF, the page offers itself to be printed, and an address of a PDF says so.
3. The file is a PDF where this home can, else the page as one file that any browser opens; sharing it notes nothing. An
   address with `for` saves it; without, a browser shows a PDF.
4. How a paper is set stands in its address (`sheet`, `decimal`, `trace`), so that it can be passed on.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from steadyhead.documents.html import article, page
from steadyhead.documents.laid import SHEETS, Values
from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.at_work import Task, alone
from steadyhead.service.papers.kinds import KINDS, OF_A_CHECK, SIGNS
from steadyhead.service.papers.printed import logo_named, pictures_of
from steadyhead.service.record.check_pages import CheckLine, checks_of
from steadyhead.service.record.letterhead import letterhead
from steadyhead.service.record.times import judging_by
from steadyhead.service.record.views import VisitSeen
from steadyhead.web.assets import paper_style
from steadyhead.web.pages.shared import Shop, local_time
from steadyhead.web.views.paper_laid import PaperAsked, laid

TRACED = "yes"
LOGO = "/settings/logo/picture"
NO_PHOTOS: Mapping[str, str] = MappingProxyType({})


async def report(shop: Shop, request: Request) -> Response:
    """Lead from where the one report of a visit once stood to its papers."""
    shop.visit(request)
    return RedirectResponse(f"{request.url.path.removesuffix('report')}papers", 303)


async def choose(shop: Shop, request: Request) -> Response:
    """Show which papers there are."""
    seen = shop.visit(request)
    speaker = shop.speaker_for(seen)
    listed = [
        (kind, speaker.name("paper", kind), speaker.name("paper-for", kind), f"/visits/{seen.id}/papers/{kind}")
        for kind in KINDS
    ]
    name = speaker.name("paper", OF_A_CHECK)
    listed += [
        (OF_A_CHECK, name, _which(each, seen.zone), f"/sensor-checks/{each.id}/certificate")
        for each in checks_of(shop.given, system=seen.system_id)
        if each.visit == seen.id
    ]
    values = {"seen": seen, "title": shop.name_of(seen), "papers": listed, "can": shop.given.pdf is not None}
    return shop.page(request, "papers.html", speaker, values)


def _which(each: CheckLine, zone: str) -> str:
    """Return which sensor check a certificate is of."""
    return " ".join(filter(None, (each.serial, local_time(each.began, zone, "%Y-%m-%d %H:%M"))))


async def paper(shop: Shop, request: Request) -> Response:
    """Show a paper."""
    seen = shop.visit(request)
    address = f"/visits/{seen.id}/papers"
    made = await _laid(shop, seen, request)
    return shown(shop, request, made, f"{address}/{request.path_params['kind']}", address, photos=_photos(seen))


async def pdf(shop: Shop, request: Request) -> Response:
    """Return a paper as PDF, or say that this home has none."""
    seen = shop.visit(request)
    made = await _laid(shop, seen, request)
    return await as_pdf(shop, request, made, seen.id)


async def file(shop: Shop, request: Request) -> Response:
    """Return a paper as one file that any browser opens."""
    return as_file(shop, await _laid(shop, shop.visit(request), request))


def _photos(seen: VisitSeen) -> dict[str, str]:
    """Return the address of each photo of a visit, by the SHA-256 of its bytes."""
    return {str(photo.body.get("sha256", "")): f"/visits/{seen.id}/photos/{photo.id}/picture" for photo in seen.photos}


def shown(
    shop: Shop, request: Request, laid: Values, address: str, back: str, *, photos: Mapping[str, str] = NO_PHOTOS
) -> Response:
    """Return the page of a paper.

    Parameters
    ----------
    shop, request
        The app, and what is answered.
    laid
        The paper in words.
    address
        Its own address.
    back
        Where one comes from.
    photos
        Where each photo is, by the SHA-256 of its bytes.
    """
    ending = "html" if shop.given.pdf is None else "pdf"
    values: dict[str, Any] = {
        "laid": laid,
        "title": laid["subject"],
        "article": article(laid, {**photos, laid["logo"]: LOGO}),
        "pdf": f"{address}.pdf?{_query(laid)}" if shop.given.pdf is not None else "",
        "file": f"{address}.{ending}?{_query(laid)}&for=file",
        "file_name": f"{laid['number']}.{ending}",
        "media_type": "text/html" if shop.given.pdf is None else "application/pdf",
        "ways": list(_ways(laid, address)),
        "back": back,
    }
    return shop.page(request, "paper.html", shop.speaker, values)


async def as_pdf(shop: Shop, request: Request, made: Values, about: str) -> Response:
    """Return a paper as PDF; where this home has none, a page that says so and leads to the paper itself.

    Parameters
    ----------
    shop, request
        The app, and what is answered.
    made
        The paper in words.
    about
        The visit or the sensor check that it is of.
    """
    if shop.given.pdf is None:
        values = {"head": shop.speaker.tell("web-no-pdf-head"), "says": shop.speaker.tell("web-no-pdf")}
        back = request.url.path.removesuffix(".pdf")
        return shop.renderer.page(request, "problem.html", shop.speaker, {**values, "back": back}, 404)
    key = f"{about}:pdf:{hashlib.sha256(json.dumps(made, sort_keys=True).encode()).hexdigest()}"
    set_as_pdf = await shop.worked_out(Task(about, key, alone, (shop.given.pdf, made, pictures_of(shop.given, made))))
    way = "attachment" if "for" in request.query_params else "inline"
    headers = {"Content-Disposition": f'{way}; filename="{made["number"]}.pdf"'}
    return Response(set_as_pdf, media_type="application/pdf", headers=headers)


def as_file(shop: Shop, made: Values) -> Response:
    """Return a paper in words as one file, its styles, typefaces and pictures inside."""
    whole = page(made, paper_style(), pictures_of(shop.given, made))
    return Response(
        whole, media_type="text/html", headers={"Content-Disposition": f'attachment; filename="{made["number"]}.html"'}
    )


def setting_asked(shop: Shop, request: Request) -> dict[str, Any]:
    """Return how a paper is set: as its address asks, under this device's letterhead."""
    asked = request.query_params
    sheet, decimal = asked.get("sheet", ""), asked.get("decimal", "")
    over = {"issuer": letterhead(shop.given), "logo": logo_named(shop.given)}
    return {"sheet": sheet, "decimal": decimal, "trace": asked.get("trace") == TRACED, **over}


async def _laid(shop: Shop, seen: VisitSeen, request: Request) -> Values:
    """Return the paper that an address asks for, in words."""
    kind = str(request.path_params["kind"])
    if kind not in KINDS:
        raise NotFoundError(message("web-no-paper"))
    found = await shop.think(seen)
    asked = PaperAsked(kind=kind, manner=shop.manner, judging=judging_by(shop.given), **setting_asked(shop, request))
    return await shop.worked_out(
        Task(seen.id, f"{seen.id}:{seen.key}:paper:{asked.key}", laid, (seen, found.answer, asked))
    )


def _query(laid: Values, **changed: str) -> str:
    """Return the part of an address that says how a paper is set."""
    now = {"sheet": laid["sheet"], "decimal": laid["decimal"], "trace": TRACED if laid["trace"] else ""}
    return urlencode({name: value for name, value in {**now, **changed}.items() if value})


def _ways(laid: Values, address: str) -> Any:  # noqa: ANN401 - rows of a template
    """Yield the other ways of setting a paper: which key, its value, its address, whether it is this one."""
    for sheet in SHEETS:
        yield "sheet", sheet, f"{address}?{_query(laid, sheet=sheet)}", sheet == laid["sheet"]
    for sign in SIGNS:
        yield "decimal", sign, f"{address}?{_query(laid, decimal=sign)}", sign == laid["decimal"]
    for trace in ("", TRACED):
        yield "trace", trace, f"{address}?{_query(laid, trace=trace)}", bool(trace) == laid["trace"]
