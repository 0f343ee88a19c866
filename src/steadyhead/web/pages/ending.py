"""How a visit ends: one tap each, with the one or two facts that each ending needs; and a visit that is opened again.

Rules
-----
1. Every ending can be chosen at any time: what is not proved is said to be so, and nobody is kept here for it.
2. Where an ending can hurt somebody, its caution stands before its button.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.messages import Message, message
from steadyhead.service.after_repair import missing, reads_right
from steadyhead.service.guide.asides import fault_typed
from steadyhead.service.record.ending import (
    COMES_BACK,
    DECLINED,
    ENDINGS,
    MADE_SAFE,
    NIGHT_PENDING,
    PROVED,
    WATCHING,
    Ending,
    end_with,
    settle_ending,
)
from steadyhead.service.record.follow_ups import day_after, what_waits
from steadyhead.service.record.left_open import believed_of
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.record.visits import end_visit
from steadyhead.visit.fact_kinds import NOTES, OFF, OPEN, SHUT
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.web.views.asking import Thought
from steadyhead.web.views.ended import ended_view
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

#: Texts and flags that a form of this page may send.
TEXTS = ("note", "told", "by", "offered")
FLAGS = ("locked", "risk_told")
#: A cause is offered as what was at fault, and kept with a watch, from this share on; so many at most.
LIKELY, MOST = 0.05, 4
NO_FAULTS = frozenset(("", "none", "none-of-these"))
CAUTIONS: Mapping[str, tuple[Message, ...]] = {
    PROVED: (message("starts-by-itself"),),
    NIGHT_PENDING: (message("water-is-off"), message("ending-pump-off")),
    WATCHING: (message("starts-by-itself"),),
    MADE_SAFE: (message("water-is-off"), message("ending-freeze"), message("ending-signal-back")),
    DECLINED: (message("ending-unsafe-stays-off"),),
}


async def ask(shop: Shop, request: Request) -> Response:
    """Show how the visit may end."""
    seen = shop.visit(request)
    picked = request.query_params.get("as", "")
    return shop.page(request, "end.html", shop.speaker_for(seen), await _values(shop, seen, picked, {}))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep how the visit ends; or say what is lacking."""
    seen, form = shop.visit(request), await read_form(request)
    state = form.text("state")
    try:
        end_with(shop.given, seen.id, await _ending(shop, seen, form), token=form.fact())
    except InputError as error:
        speaker = shop.speaker_for(seen)
        values = {**await _values(shop, seen, state, form.fields), "problem": says(error, speaker)}
        return shop.refused(request, "end.html", speaker, values)
    after = {WATCHING: "", NIGHT_PENDING: "/papers/night-card"}
    return go_to(f"/visits/{seen.id}{after.get(state, '/papers')}")


async def reopen(shop: Shop, request: Request) -> Response:
    """Open a visit again: every reading still counts."""
    seen, form = shop.visit(request), await read_form(request)
    end_visit(shop.given, seen.id, OPEN, token=form.fact())
    return go_to(f"/visits/{seen.id}")


async def settle(shop: Shop, request: Request) -> Response:
    """Keep which of two endings holds."""
    seen, form = shop.visit(request), await read_form(request)
    settle_ending(shop.given, seen.id, form.text("state"), token=form.fact())
    return go_to(f"/visits/{seen.id}")


async def _ending(shop: Shop, seen: VisitSeen, form: Form) -> Ending:
    """Return the ending that a form says."""
    state, found = form.text("state"), await shop.think(seen)
    told: dict[str, Any] = {key: form.text(key) for key in TEXTS}
    told |= {key: True for key in FLAGS if form.text(key)}
    told["off"] = [word for word in OFF if form.text(f"off.{word}") == word]
    told["notes"] = [word for word in NOTES if form.text(f"notes.{word}") == word]
    if state == WATCHING:
        told["likely"] = [fault for fault, _ in _faults(found, shop.speaker_for(seen))]
        told["believed"] = believed_of(found.answer)
    typed = form.text("fault")
    fault = fault_typed(found.guide, typed) if typed else ""
    proved = bool(fault) and state == PROVED and reads_right(seen.visit)
    night = {key: form.text(key) for key in ("shut", "ring") if form.text(key)}
    due = form.text("due") if state in COMES_BACK else ""
    return Ending(
        state=state, says=told, fault=fault, proved=proved, due=due, night=night if state == NIGHT_PENDING else {}
    )


async def _values(shop: Shop, seen: VisitSeen, picked: str, typed: Mapping[str, str]) -> dict[str, Any]:
    speaker, found = shop.speaker_for(seen), await shop.think(seen)
    right = reads_right(seen.visit)
    chosen = picked if picked in ENDINGS else PROVED if right else ""
    return {
        "seen": seen,
        "title": shop.name_of(seen),
        "sections": [_section(state, chosen, seen, speaker) for state in ENDINGS],
        "typed": defaultdict(str, _typed(shop, speaker, found, typed)),
        "faults": _faults(found, speaker),
        "fault": found.close,
        "unproved": _unproved(seen, speaker),
        "notes": [(word, sentence(speaker.name("ending-note", word))) for word in NOTES],
        "off": [(word, sentence(speaker.name("ending-off", word))) for word in OFF],
        "shut": [(word, sentence(speaker.name("shut", word))) for word in SHUT],
        "ended": ended_view(seen, what_waits(shop.given, seen.id), speaker) if seen.state != OPEN else None,
        "problem": "",
    }


def _section(state: str, chosen: str, seen: VisitSeen, speaker: Speaker) -> dict[str, Any]:
    """Return one ending: its name, what it means, its cautions, whether its form stands open."""
    started = message("starts-by-itself")
    told = [each for each in CAUTIONS[state] if each != started or seen.visit.controller.auto_restart is not False]
    return {
        "state": state,
        "name": sentence(speaker.name("ending", state)),
        "means": speaker.name("ending-means", state),
        "cautions": [speaker.say(each) for each in told],
        "open": state == chosen,
    }


def _typed(shop: Shop, speaker: Speaker, found: Thought, typed: Mapping[str, str]) -> dict[str, str]:
    """Return what the forms hold: what was sent, else what is usual."""
    usual = {f"due.{state}": day_after(shop.given, days) for state, (_, days) in COMES_BACK.items()}
    usual |= {"notes.photo": "photo", "notes.time": "time", "shut": SHUT[0], "offered": _offer(found, speaker)}
    if typed:
        sent = {**typed, f"due.{typed.get('state', '')}": typed.get("due", "")}
        return {**{key: value for key, value in usual.items() if key.startswith("due.")}, **sent}
    return usual


def _offer(found: Thought, speaker: Speaker) -> str:
    """Return the repair that is likeliest: it will have been offered."""
    if found.answer is None or found.answer.verdict.remedy in {"none", "look-further"}:
        return ""
    return sentence(speaker.name("remedy", found.answer.verdict.remedy))


def _faults(found: Thought, speaker: Speaker) -> list[tuple[str, str]]:
    """Return what may have been at fault, the likeliest first."""
    likely = [each.fault for each in found.answer.suspects if each.probability >= LIKELY] if found.answer else []
    offered = [each for each in dict.fromkeys((found.close, *likely)) if each not in NO_FAULTS]
    return [(fault, sentence(speaker.name("fault", fault))) for fault in offered[:MOST]]


def _unproved(seen: VisitSeen, speaker: Speaker) -> str:
    """Return what is lacking for a proof; empty where nothing is."""
    if reads_right(seen.visit):
        return ""
    if not seen.visit.actions:
        return speaker.tell("ending-no-repair")
    left = [proof.question.measure for proof in missing(seen.visit)]
    if left:
        return speaker.tell("ending-not-read", list=tuple(speaker.name("measure", each) for each in left))
    return speaker.tell("ending-reads-wrong")
