"""The tap that says that cautions were read: one for all that stood on the page, kept once a visit.

Rules
-----
1. What comes with a form is anybody's text: an id that is no caution's is refused, and so is a way back that leads out
   of this visit or this check.
"""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.service.record.beside import acknowledge_cautions
from steadyhead.visit.nearest import shown
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to
from steadyhead.words.names import NAMES

#: More cautions than any page shows.
MOST = 40


async def keep(shop: Shop, request: Request) -> Response:
    """Keep that the cautions of a visit's page were read."""
    seen, form = shop.visit(request), await read_form(request)
    acknowledge_cautions(shop.given, seen.id, _told(form))
    return go_to(_back(form, f"/visits/{seen.id}"))


async def keep_of_check(shop: Shop, request: Request) -> Response:
    """Keep that the cautions of a sensor check's page were read."""
    seen, form = shop.check(request), await read_form(request)
    acknowledge_cautions(shop.given, seen.told.visit or seen.id, _told(form))
    return go_to(_back(form, f"/sensor-checks/{seen.id}"))


def _told(form: Form) -> list[str]:
    """Return the cautions that a form names.

    Raises
    ------
    UnknownWordError
        One of them is none.
    """
    told = form.text("cautions").split()[:MOST]
    for each in told:
        if each not in NAMES["caution"]:
            raise UnknownWordError(message("care-unknown", got=shown(each)))
    return told


def _back(form: Form, home: str) -> str:
    """Return where the form stood, as far as that is a page of its own visit or check; else that itself.

    >>> _back(Form({"back": "/visits/1/read?red=a"}), "/visits/1"), _back(Form({"back": "//evil"}), "/visits/1")
    ('/visits/1/read?red=a', '/visits/1')
    """
    back = form.text("back")
    inside = back == home or back.startswith((f"{home}/", f"{home}?"))
    return back if inside and back.isascii() and back.isprintable() and "\\" not in back else home
