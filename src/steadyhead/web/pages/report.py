"""Report a problem: what the app did of late and the person's own words, shown in full, sent by nobody but the person.

Rules
-----
1. The page shows all that the report would hold before anything leaves; nothing is sent by the app.
2. What was shown is what is saved: both hold the same events, up to the number that the form carries.
3. The person's words are redacted of what the record knows (`redacting`), and shown so; nothing of them is kept here.
"""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.service.record.redacting import names_known, redacted
from steadyhead.web.forms import LONGEST, Form, read_form
from steadyhead.web.pages.shared import Shop
from steadyhead.web.views.reported import browser_kind, report_text

NAME = "steadyhead-report.txt"


async def ask(shop: Shop, request: Request) -> Response:
    """Show what a report would hold, and ask for the person's words."""
    return _shown(shop, request, "", "", shop.events.count)


async def make(shop: Shop, request: Request) -> Response:
    """Show the whole report, with the person's words in it: to copy, to share, to save."""
    form = await read_form(request)
    return _shown(shop, request, _words(form), _redacted(shop, form), shop.events.count)


async def file(shop: Shop, request: Request) -> Response:
    """Return the report that was shown, as a file of text."""
    form = await read_form(request)
    until = int(form.text("until")) if form.text("until").isdecimal() else 0
    headers = {"Content-Disposition": f'attachment; filename="{NAME}"'}
    text = _text(shop, request, _redacted(shop, form), until)
    return Response(text, media_type="text/plain; charset=utf-8", headers=headers)


def _shown(shop: Shop, request: Request, words: str, told: str, until: int) -> Response:
    values = {"words": words, "text": _text(shop, request, told, until), "until": until, "longest": LONGEST}
    return shop.page(request, "report.html", shop.speaker, {**values, "file_name": NAME})


def _text(shop: Shop, request: Request, told: str, until: int) -> str:
    browser = browser_kind(request.headers.get("user-agent", ""))
    return report_text(told, shop.events.until(until), browser, phone=shop.phone)


def _words(form: Form) -> str:
    """Return what the person typed, in its lines, without signs that a terminal would obey."""
    lines = form.fields.get("words", "").splitlines()
    return "\n".join("".join(sign for sign in line if sign.isprintable()).rstrip() for line in lines).strip()


def _redacted(shop: Shop, form: Form) -> str:
    return redacted(_words(form), names_known(shop.given))
