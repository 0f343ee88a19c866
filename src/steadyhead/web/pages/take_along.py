"""Tells how a phone takes the whole app along, and, where it cannot from this address, why and what to do instead.

Rules
-----
1. A phone's browser keeps an app only from a secure address (Secure Contexts, W3C): https, or the device itself.
2. Who asks from a phone is told what is so for that phone; who sits at the computer, what is so for its phones.
3. What cannot work is not offered: no button leads to an app that the browser would forget.
"""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.web.pages.shared import Shop
from steadyhead.web.phone_site import PREFIX


async def show(shop: Shop, request: Request) -> Response:
    """Show what can be done from where the page is looked at."""
    at = _where(shop, request)
    phones = shop.joining.address if shop.joining else ""
    secure = phones.startswith("https:")
    values = {
        "at": at,
        "there": PREFIX,
        "mb": f"{shop.site.sent_mb:.0f}" if shop.site else "",
        "phones": f"{phones.rstrip('/')}{PREFIX}" if secure else "",
        "ways": at == "plain" or (at == "tried" and not secure),
    }
    return shop.page(request, "take_along.html", shop.speaker, values)


def _where(shop: Shop, request: Request) -> str:
    """Return what the page is about: the phone's own app, nothing made ready, kept here, tried here, or plain http."""
    if shop.phone:
        return "phone"
    if shop.site is None:
        return "nowhere"
    if not shop.who:
        return "tried"
    return "kept" if request.url.scheme == "https" else "plain"
