"""The quick guide: the help of every page on one page, to print, and as a file to be kept.

Rules
-----
1. The page, the PDF and the file say the same words; where a home has no PDF, the page is offered as one file.
"""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.documents.laid import Values
from steadyhead.service.papers.kinds import look_of
from steadyhead.service.papers.quick_guide import KIND, guide_in_words, quick_guide
from steadyhead.web.pages.papers import as_file, as_pdf, setting_asked
from steadyhead.web.pages.shared import Shop
from steadyhead.web.render import help_of
from steadyhead.words.help_names import GUIDE_PAGE, HELP_PAGES


async def guide(shop: Shop, request: Request) -> Response:
    """Show what each page is for and what to do there."""
    speaker, can = shop.speaker, shop.given.pdf is not None
    told = [(speaker.name("help-page", id_), help_of(id_, speaker)) for id_ in HELP_PAGES if id_ != GUIDE_PAGE]
    ending = "pdf" if can else "html"
    values = {
        "told": told, "pdf": "/guide.pdf" if can else "", "file": f"/guide.{ending}?for=file",
        "file_name": f"{KIND}.{ending}", "media_type": "application/pdf" if can else "text/html",
    }  # fmt: skip
    return shop.page(request, "guide.html", speaker, values)


async def pdf(shop: Shop, request: Request) -> Response:
    """Return the guide as PDF, or say that this home has none."""
    return await as_pdf(shop, request, _laid(shop, request), KIND)


async def file(shop: Shop, request: Request) -> Response:
    """Return the guide as one file that any browser opens."""
    return as_file(shop, _laid(shop, request))


def _laid(shop: Shop, request: Request) -> Values:
    made = quick_guide()
    return guide_in_words(made, shop.manner, look_of(made, shop.manner, **setting_asked(shop, request)))
