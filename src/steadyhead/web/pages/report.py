"""The report of a visit in its first form: found, done, read, not to be done here, and which cautions held."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.diagnosis.cautions import cautions
from steadyhead.diagnosis.observing import question_of
from steadyhead.diagnosis.system import System
from steadyhead.messages import Message, message
from steadyhead.service.answer_words import system_line
from steadyhead.service.record.views import VisitSeen
from steadyhead.service.repair_cautions import REPAIR_CAUTIONS, repair_cautions
from steadyhead.visit.record import Action, Visit
from steadyhead.web.pages.shared import Shop, local_time
from steadyhead.web.views import known
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence


async def report(shop: Shop, request: Request) -> Response:
    """Show a visit as its record."""
    seen = shop.visit(request)
    speaker = shop.speaker_for(seen)
    found = shop.think(seen)
    answer, visit = found.answer, seen.visit
    verdict = known.verdict(visit, answer, speaker) if answer else None
    likely = known.suspects(answer, speaker)[0] if answer and answer.verdict.state != "proved" else ()
    values = {
        "seen": seen,
        "title": shop.name_of(seen),
        "when": local_time(seen.at, seen.zone, "%d %B %Y, %H:%M"),
        "system": "" if seen.assumed else system_line(visit, speaker),
        "complaint": speaker.printable(visit.complaint.text or ""),
        "verdict": verdict.says if verdict else _unjudged(seen, speaker),
        "because": verdict.because if verdict else "",
        "closed": speaker.tell("web-report-closed", fault=visit.closed.fault) if visit.closed.fault else "",
        "actions": [_done(action, speaker) for action in visit.actions],
        "readings": known.readings(seen, found, speaker),
        "suspects": likely,
        "declined": _declined(visit, speaker),
        "cautions": [speaker.say(told) for told in _told(visit)],
        "defaults": _assumed(answer.defaults if answer else (), speaker),
    }
    return shop.page(request, "report.html", speaker, values)


def _done(action: Action, speaker: Speaker) -> str:
    return sentence(speaker.tell("web-report-repair", remedy=action.remedy, after=action.after_reading))


def _unjudged(seen: VisitSeen, speaker: Speaker) -> str:
    return speaker.tell("web-report-open") if seen.assumed else speaker.tell("guide-mended")


def _declined(visit: Visit, speaker: Speaker) -> list[str]:
    """Return what could not be done here, and why where somebody said it."""
    found = []
    for each in visit.declined:
        values = {"measure": each.measure, "red": each.red, "black": each.black, "item": each.item}
        said = speaker.tell("guide-list-declined", arrangement=each.arrangement, **values)
        found.append(f"{said} ({speaker.printable(each.why)})" if each.why else said)
    return found


def _told(visit: Visit) -> Iterator[Message]:
    """Yield every caution of the checks and the repairs that were made, each once, the standing line first."""
    system = System(visit)
    every = [message("local-codes-first")]
    every += [told for reading in visit.readings for told in cautions(system, question_of(reading))]
    every += [told for action in visit.actions for part in action.remedy.split("+") if part in REPAIR_CAUTIONS
              for told in repair_cautions(part)]  # fmt: skip
    yield from {told.id: told for told in every}.values()


def _assumed(defaults: Any, speaker: Speaker) -> str:  # noqa: ANN401 - an answer's own messages
    said = [f"{speaker.name('key', str(each.values['key']))} {each.values['value']}" for each in defaults]
    return speaker.tell("assumed", list="; ".join(said)) if said else ""
