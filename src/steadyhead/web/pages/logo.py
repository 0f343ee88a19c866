"""The logo over every paper: seen, kept, taken away."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.letterhead import LARGEST_LOGO, drop_logo, logo, set_logo
from steadyhead.web.forms import read_file
from steadyhead.web.pages.shared import Shop, go_to, says

KILOBYTE = 1024


async def ask(shop: Shop, request: Request) -> Response:
    """Show the logo, and the form for another one."""
    kept = request.query_params.get("kept", "") == "yes"
    return shop.page(request, "logo.html", shop.speaker, {**_values(shop), "kept": kept})


async def keep(shop: Shop, request: Request) -> Response:
    """Keep a logo, take it away, or say why not."""
    sent = await read_file(request)
    try:
        if sent.form.text("out"):
            drop_logo(shop.given)
        else:
            set_logo(shop.given, sent.table)
    except InputError as error:
        values = {**_values(shop), "problem": says(error, shop.speaker)}
        return shop.refused(request, "logo.html", shop.speaker, values)
    return go_to("/settings/logo?kept=yes")


async def picture(shop: Shop, request: Request) -> Response:
    """Return the logo's bytes.

    Raises
    ------
    NotFoundError
        There is none.
    """
    _ = request
    found = logo(shop.given)
    if found is None:
        raise NotFoundError(message("web-page-gone"))
    return Response(found.data, media_type=found.media_type)


def _values(shop: Shop) -> dict[str, Any]:
    return {"problem": "", "kept": False, "there": logo(shop.given) is not None, "size": LARGEST_LOGO // KILOBYTE}
