"""The two taps after the first: which sensor, which range; unknown is an answer."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.service.guide.opening import new_file, range_typed, signal_typed
from steadyhead.service.record.systems import set_system
from steadyhead.service.record.views import VisitSeen
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.words.speaker import Speaker
from steadyhead.words.web_names import SIGNALS

#: The usual ranges (common practice), in the units of either side of the sea.
RANGES = ("0..100 psi", "0..150 psi", "0..200 psi", "0..300 psi", "0..6 bar", "0..10 bar", "0..16 bar", "0..25 bar")
UNKNOWN, OWN = "unknown", "own"
THREE = " three"


async def ask_signal(shop: Shop, request: Request) -> Response:
    """Ask which sensor it is."""
    return _signal_page(shop, request, shop.visit(request))


async def keep_signal(shop: Shop, request: Request) -> Response:
    """Keep which sensor it is, and ask for its range; unknown leads straight to the visit."""
    seen, form = shop.visit(request), await read_form(request)
    choice = form.text("choice")
    if choice == UNKNOWN:
        return go_to(f"/visits/{seen.id}")
    try:
        signal = signal_typed(form.text("own") if choice == OWN else choice.removesuffix(THREE))
        row = {"signal": signal, **({"wires": "three"} if choice.endswith(THREE) else {})}
        set_system(shop.given, seen.system_id, {"sensor": row}, token=form.fact())
    except InputError as error:
        return _signal_page(shop, request, seen, form, error)
    return go_to(f"/visits/{seen.id}/range")


async def ask_range(shop: Shop, request: Request) -> Response:
    """Ask for the range."""
    return _range_page(shop, request, shop.visit(request))


async def keep_range(shop: Shop, request: Request) -> Response:
    """Keep the range."""
    seen, form = shop.visit(request), await read_form(request)
    choice = form.text("choice")
    if choice == UNKNOWN:
        return go_to(f"/visits/{seen.id}")
    signal = str(seen.tables.get("sensor", {}).get("signal", "4..20 mA"))
    try:
        range_ = range_typed(form.text("own") if choice == OWN else choice, signal)
        new_file(signal, range_, "")
        set_system(shop.given, seen.system_id, {"sensor": {"range": range_}}, token=form.fact())
    except InputError as error:
        return _range_page(shop, request, seen, form, error)
    return go_to(f"/visits/{seen.id}")


def _signal_page(
    shop: Shop, request: Request, seen: VisitSeen, form: Form | None = None, error: InputError | None = None
) -> Response:
    speaker = shop.speaker
    values = {
        "head": speaker.tell("web-which-sensor"),
        "note": speaker.tell("web-which-sensor-note"),
        "own": speaker.tell("web-signal-own"),
        "choices": [(id_, speaker.name("signal", id_)) for id_ in SIGNALS],
    }
    return _page(shop, request, seen, values, (form, error))


def _range_page(
    shop: Shop, request: Request, seen: VisitSeen, form: Form | None = None, error: InputError | None = None
) -> Response:
    speaker = shop.speaker
    values = {
        "head": speaker.tell("web-which-range"),
        "note": speaker.tell("web-which-range-note"),
        "own": speaker.tell("web-range-own"),
        "choices": [(range_, _range_choice(range_, speaker)) for range_ in RANGES],
    }
    return _page(shop, request, seen, values, (form, error))


def _range_choice(range_: str, speaker: Speaker) -> str:
    """Return a range as a person says it: ``0 to 100 psi``."""
    low, _, high = range_.partition("..")
    return speaker.tell("web-range-choice", low=low, high=high)


def _page(
    shop: Shop,
    request: Request,
    seen: VisitSeen,
    values: dict[str, Any],
    sent: tuple[Form | None, InputError | None],
) -> Response:
    form, error = sent
    whole = {
        **values,
        "seen": seen,
        "title": shop.name_of(seen),
        "action": request.url.path,
        "visit": seen.id,
        "typed": form.text("own") if form else "",
        "problem": says(error, shop.speaker) if error else "",
    }
    if error:
        return shop.refused(request, "plate.html", shop.speaker, whole)
    return shop.page(request, "plate.html", shop.speaker, whole)
