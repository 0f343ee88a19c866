"""Phones on the local network: at this machine who joined and the code for the next one; on a phone, the door.

Rules
-----
1. The code and who joined are shown at this machine alone (`steadyhead.web.joining` keeps everybody else away).
2. What a phone typed is shown again but for the code; what is wrong with it is not told.
3. The secret that lets a phone in is new with every joining, and told to that phone's browser alone.
"""

from __future__ import annotations

import secrets
from datetime import UTC, datetime

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response

from steadyhead.documents.qr import qr_svg
from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.given import LONGEST_NAME
from steadyhead.service.record.phones import HOURS, Phone, leave, phones
from steadyhead.service.record.phones import join as let_in
from steadyhead.web.forms import read_form
from steadyhead.web.joining import COOKIE, DIGITS, SECRET_BYTES, Joining, client_of, grouped
from steadyhead.web.pages.shared import Shop, go_to, local_moment


async def join(shop: Shop, request: Request) -> Response:
    """Show the address and the code for the next phone, and who joined."""
    speaker = shop.speaker
    if shop.joining is None:
        off = {"head": speaker.tell("join-off-head"), "says": speaker.tell("join-off"), "back": "/settings"}
        return shop.page(request, "problem.html", speaker, off)
    code = shop.joining.code()
    values = {
        "address": shop.joining.address,
        "plain": not shop.joining.address.startswith("https:"),
        "code": grouped(code),
        "holds": speaker.tell("join-holds", minutes=shop.joining.minutes_left()),
        "drawn": Markup(qr_svg(f"{shop.joining.address}#{code}")),  # noqa: S704 - made of squares alone
        "phones": [(each.id, *_said(each, shop)) for each in phones(shop.given)],
    }
    return shop.page(request, "join.html", speaker, values)


def _said(phone: Phone, shop: Shop) -> tuple[str, str]:
    """Return whose phone it is, and since when it has joined."""
    at = datetime.fromtimestamp(phone.joined / 1000, UTC).isoformat()
    since = shop.speaker.tell("join-since", when=local_moment(at, shop.given.zone, shop.speaker), hours=HOURS)
    return phone.name or shop.speaker.tell("join-nameless"), since


async def renew(shop: Shop, request: Request) -> Response:
    """Make a new code."""
    await read_form(request)
    _open(shop).renew()
    return go_to("/join")


async def revoke(shop: Shop, request: Request) -> Response:
    """Let a phone in no more."""
    form = await read_form(request)
    leave(shop.given, form.text("phone"))
    return go_to("/join")


async def ask(shop: Shop, request: Request) -> Response:
    """Ask whoever has not joined for the code; a joined phone is told where that page is for."""
    if shop.who:
        speaker = shop.speaker
        values = {"head": speaker.tell("join-here-only-head"), "says": speaker.tell("join-here-only"), "back": "/"}
        return shop.renderer.page(request, "problem.html", speaker, values, 403)
    return _asked(shop, request, "", "")


def _asked(shop: Shop, request: Request, name: str, problem: str) -> Response:
    values = {"name_typed": name, "problem": problem, "longest": LONGEST_NAME, "digits_asked": DIGITS}
    return shop.renderer.page(request, "ask_code.html", shop.speaker, values, 403)


async def enter(shop: Shop, request: Request) -> Response:
    """Let in the phone that sends the code."""
    form, joining = await read_form(request), _open(shop)
    name = form.text("name")
    if not joining.enter(form.text("code"), client_of(request)):
        return _asked(shop, request, name, shop.speaker.tell("join-wrong"))
    if shop.who:
        leave(shop.given, shop.who)
    secret = secrets.token_urlsafe(SECRET_BYTES)
    let_in(shop.given, name, secret)
    answer = go_to("/")
    secure = request.url.scheme == "https"
    answer.set_cookie(COOKIE, secret, max_age=HOURS * 3600, secure=secure, httponly=True, samesite="strict")
    return answer


async def leave_here(shop: Shop, request: Request) -> Response:
    """Let this phone in no more: it says so itself."""
    await read_form(request)
    leave(shop.given, shop.who)
    answer = go_to("/")
    answer.delete_cookie(COOKIE, httponly=True, samesite="strict")
    return answer


def _open(shop: Shop) -> Joining:
    """Return how phones join.

    Raises
    ------
    NotFoundError
        They can't.
    """
    if shop.joining is None:
        raise NotFoundError(message("join-off"))
    return shop.joining
