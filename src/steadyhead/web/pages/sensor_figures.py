"""The door: every figure of a sensor check, its budget, the setting that would suit it; a click tells its descent.

Rules
-----
1. The address says by which rule it is decided, whether the lower end of the setting stays, and whether a Monte Carlo
   run is asked for; without a word the rule is the guard band, and nothing is drawn.
2. A figure's address has the same words, so that its number means the same figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Any, get_args
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import NotFoundError, UnknownWordError
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.conformity import RuleKind
from steadyhead.sensorcheck.second_opinion import SecondOpinion
from steadyhead.service.at_work import Task, alone
from steadyhead.service.record.check_pages import CheckSeen, earlier_checks, found_before
from steadyhead.service.sensorcheck.looking import Looked
from steadyhead.visit.nearest import shown
from steadyhead.web.pages.shared import Shop
from steadyhead.web.views.check_figures import figures_view, step_view
from steadyhead.web.views.check_thought import Beside, changes_of, drawn_for, drawn_of, drift_of, look_by
from steadyhead.words import Speaker

RULES: tuple[RuleKind, ...] = get_args(RuleKind)
USUAL: RuleKind = "guard-band"


@dataclass(frozen=True, slots=True)
class Asked:
    """What an address asks for: the rule, whether the lower end of the setting stays, whether to draw."""

    rule: RuleKind
    keep_low: bool
    draw: bool

    def query(self, **other: Any) -> str:  # noqa: ANN401 - any of its own fields
        """Return the words of an address that asks the same, but for what is told."""
        now = {"rule": self.rule, "low": "kept" if self.keep_low else "", "drawn": "yes" if self.draw else ""}
        said = {key: value for key, value in {**now, **other}.items() if value and value != USUAL}
        return f"?{urlencode(said)}" if said else ""


async def figures(shop: Shop, request: Request) -> Response:
    """Show all figures, or the one that the address names with its descent."""
    seen, asked = shop.check(request), _asked(request)
    speaker = shop.speaker_of_check(seen)
    key = f"{seen.id}:{seen.key}:{asked.rule}:{asked.keep_low}"
    do = partial(look_by, keep_low=asked.keep_low)
    looked = await shop.worked_out_here(Task(seen.id, key, alone, (do, seen.told, asked.rule)))
    values = {"seen": seen, "title": seen.name or speaker.tell("web-nameless"), "asked": asked, "problem": ""}
    number = request.query_params.get("figure", "")
    if isinstance(looked, Message):
        if number:
            raise NotFoundError(message("web-no-figure", got=shown(number)))
        empty = {"view": None, "problem": speaker.say(looked) if seen.told.points else ""}
        return shop.page(request, "sensor_figures.html", speaker, {**values, **empty})
    drawn = await _drawn(shop, seen, looked, asked) if asked.draw and not number else None
    beside = _beside(shop, seen, drawn)
    if number:
        found = step_view(looked, beside, number, speaker)
        if found is None:
            raise NotFoundError(message("web-no-figure", got=shown(number)))
        return shop.page(request, "sensor_figure.html", speaker, {**values, "view": found})
    menu = seen.told.set_unit or ("" if seen.told.assumed else seen.told.plate_unit)
    more = {"view": figures_view(looked, beside, speaker, menu), "rules": _rules(asked, speaker)}
    return shop.page(request, "sensor_figures.html", speaker, {**values, **more})


def _asked(request: Request) -> Asked:
    """Return what an address asks for.

    Raises
    ------
    UnknownWordError
        A rule that there is none of.
    """
    said = request.query_params
    rule = next((each for each in RULES if each == said.get("rule", USUAL)), None)
    if rule is None:
        raise UnknownWordError(message("web-no-rule", got=shown(said["rule"])))
    return Asked(rule, said.get("low") == "kept", said.get("drawn") == "yes")


def _rules(asked: Asked, speaker: Speaker) -> list[tuple[str, str, bool]]:
    return [(asked.query(rule=each), speaker.name("decision-rule", each), each == asked.rule) for each in RULES]


async def _drawn(shop: Shop, seen: CheckSeen, looked: Looked, asked: Asked) -> tuple[SecondOpinion, ...] | Message:
    """Return what a Monte Carlo run says: it is drawn beside the pages, and judged here, since no model travels."""
    key = f"{seen.id}:{seen.key}:{asked.rule}:drawn"
    return drawn_of(looked, await shop.worked_out(Task(seen.id, key, alone, (drawn_for, seen.told, asked.rule))))


def _beside(shop: Shop, seen: CheckSeen, drawn: tuple[SecondOpinion, ...] | Message | None) -> Beside:
    serial = seen.told.run.serial
    runs = [each.run for each in earlier_checks(shop.given, serial)] if serial else []
    before = found_before(shop.given, seen.told)
    return Beside(
        drift=drift_of(runs, serial),
        changes=changes_of(before.run if before else None, seen.told.run),
        drawn=drawn,
    )
