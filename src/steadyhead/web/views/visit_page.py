"""A visit's page: the drawing, the next check, what is known; and the page that takes a reading between two points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from steadyhead.diagnosis.answer import Suspect
from steadyhead.diagnosis.observing import Question
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.guide.thinking import would_prove
from steadyhead.service.record.first_minute import first_minute_offered
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.fact_kinds import DEPENDENTS
from steadyhead.web.questions import key_of
from steadyhead.web.views import known
from steadyhead.web.views.asking import Thought, take_of
from steadyhead.web.views.checks import CheckView, OtherCheck, check_view, others, told_before
from steadyhead.web.views.loop_drawn import drawn_loop, links_to_read
from steadyhead.words import Manner, Speaker

#: What the guide says to somebody who types; here there are buttons.
TYPED = frozenset(("guide-asks-close", "guide-prove-it", "guide-all-skipped", "guide-closed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitView:
    """Everything that the page of a visit shows."""

    drawing: Markup
    speaker: Speaker
    check: CheckView | None
    others: Sequence[tuple[str, Sequence[OtherCheck]]]
    suspects: Sequence[known.SuspectView]
    rest: str
    readings: Sequence[known.ReadingView]
    beside: Sequence[known.BesideView]
    proves: str
    verdict: known.VerdictView | None
    said: Sequence[str]
    close: str
    close_name: str
    remedies: Sequence[tuple[str, str]]
    assumed: Sequence[str]
    former: Sequence[str]
    call: Sequence[str]
    defaults: str
    first_minute: bool
    depends: str


def visit_view(seen: VisitSeen, found: Thought, picked: Question | None, manner: Manner) -> VisitView:
    """Return the page of a visit; `picked` is the check that the technician chose instead of the best."""
    speaker = speaker_of(seen.visit, manner)
    take = take_of(found, picked) if picked else found.take
    question = take.check.question if take else None
    answer = found.answer
    shown, rest = known.suspects(answer, speaker) if answer else ([], "")
    suspects: Sequence[Suspect] = answer.suspects if answer else ()
    arrangement = question.arrangement if question else "connected"
    links = links_to_read(seen.visit, f"/visits/{seen.id}/read", {"arrangement": arrangement}, speaker)
    return VisitView(
        drawing=drawn_loop(seen.visit, question, suspects, speaker, links),
        speaker=speaker,
        check=check_view(seen, take, speaker) if take else None,
        others=others(answer, question, speaker),
        suspects=shown,
        rest=rest,
        readings=known.readings(seen, found, speaker),
        beside=known.beside(seen, speaker),
        proves=key_of(proof) if (proof := would_prove(found.guide)) else "",
        verdict=known.verdict(seen.visit, answer, speaker, told_before(seen)) if answer else None,
        said=[speaker.say(said) for said in found.said if said.id not in TYPED],
        close=found.close,
        close_name=speaker.name("fault", found.close) if found.close else "",
        remedies=remedies(found, speaker),
        assumed=seen.assumed,
        former=[speaker.say(told) for told in answer.former] if answer else (),
        call=[speaker.say(told) for told in answer.complaint] if answer else (),
        defaults=_defaults(found, speaker),
        first_minute=first_minute_offered(seen),
        depends=_depends(seen, speaker),
    )


def remedies(found: Thought, speaker: Speaker) -> list[tuple[str, str]]:
    """Return the repairs that may have been made, the likeliest first."""
    likely = [r.remedy for r in found.answer.remedies if r.probability > 0.01] if found.answer else []
    usual = ["repair-cable", "replace-sensor", "correct-wiring", "correct-setting", "replace-board", "open-cock"]
    offered = dict.fromkeys(remedy for remedy in [*likely[:4], *usual] if remedy not in {"none", "look-further"})
    return [(remedy, speaker.name("remedy", remedy)) for remedy in offered]


def _depends(seen: VisitSeen, speaker: Speaker) -> str:
    """Return who is told before the water goes off, as far as this version knows their words."""
    named = [speaker.name("dependent", word) for word in seen.depends if word in DEPENDENTS]
    return speaker.tell("before-depends-here", list=", ".join(named)) if named else ""


def _defaults(found: Thought, speaker: Speaker) -> str:
    told = found.answer.defaults if found.answer else ()
    said = [speaker.tell("default-told", **each.values) for each in told]
    return speaker.tell("assumed", list="; ".join(said)) if said else ""
