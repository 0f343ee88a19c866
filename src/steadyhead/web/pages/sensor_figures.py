"""The door: every figure of a sensor check, its budget, the setting that would suit it; a click tells its descent."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.record.check_pages import CheckSeen, earlier_checks
from steadyhead.visit.nearest import shown
from steadyhead.web.pages.sensor_check import think_of_check
from steadyhead.web.pages.shared import Shop
from steadyhead.web.views.check_figures import figures_view, step_view
from steadyhead.web.views.check_thought import drift_of
from steadyhead.words import Speaker


async def figures(shop: Shop, request: Request) -> Response:
    """Show all figures, or the one that the address names with its descent."""
    seen = shop.check(request)
    speaker = shop.speaker_of_check(seen)
    asked = request.query_params.get("figure", "")
    template = "sensor_figure.html" if asked else "sensor_figures.html"
    values = _one(shop, seen, asked, speaker) if asked else _all(shop, seen, speaker)
    title = seen.name or speaker.tell("web-nameless")
    return shop.page(request, template, speaker, {"seen": seen, "title": title, **values})


def _all(shop: Shop, seen: CheckSeen, speaker: Speaker) -> dict[str, object]:
    found = think_of_check(shop, seen)
    problems = [speaker.say(each) for each in found.problems]
    if found.looked is None:
        return {"view": None, "problems": problems}
    serial = seen.told.run.serial
    runs = [each.run for each in earlier_checks(shop.given, serial)] if serial else []
    return {"view": figures_view(found.looked, drift_of(runs, serial), speaker), "problems": problems}


def _one(shop: Shop, seen: CheckSeen, asked: str, speaker: Speaker) -> dict[str, object]:
    looked = think_of_check(shop, seen).looked
    number = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 7 else 0
    found = None if looked is None else step_view(looked, number, speaker)
    if found is None:
        raise NotFoundError(message("web-not-found", what="figure", got=shown(asked)))
    return {"view": found}
