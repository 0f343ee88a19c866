"""The quick guide: the help of every page on one page, to print."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.web.pages.shared import Shop
from steadyhead.web.render import help_of
from steadyhead.words.help_names import HELP_PAGES


async def guide(shop: Shop, request: Request) -> Response:
    """Show what each page is for and what to do there."""
    speaker = shop.speaker
    told = [(speaker.name("help-page", id_), help_of(id_, speaker)) for id_ in HELP_PAGES if id_ != "guide"]
    return shop.page(request, "guide.html", speaker, {"told": told})
