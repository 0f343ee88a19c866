"""A check in words: how it is brought about, what is asked, what its outcomes and a healthy system would show.

Rules
-----
1. What stands already, after the last reading, is not set up again.
2. Outcomes that an eye could not tell apart go together.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.diagnosis.answer import Answer, NextCheck, Outcome
from steadyhead.diagnosis.checks import standing
from steadyhead.diagnosis.observing import Question
from steadyhead.messages import message
from steadyhead.service.after_repair import Proof, band_shown
from steadyhead.service.figures import band, band_said, same
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker
from steadyhead.words.takes import reading_of


def how_text(check: NextCheck, visit: Visit, speaker: Speaker) -> str:
    """Return how a check is brought about, without the leads, which stand in lines of their own.

    What stands already, after the last reading, is not set up again.
    """
    question = check.question
    stands = question.arrangement == standing(visit).arrangement != "connected"
    if stands and question.source is None and question.item is None:
        return speaker.tell("how-as-it-stands", arrangement=question.arrangement, measure=question.measure)
    values = {name: value for name, value in check.how.values.items() if name not in {"red", "black"}}
    return speaker.say(message(check.how.id, **values))


def grouped(outcomes: tuple[Outcome, ...]) -> Iterator[list[Outcome]]:
    """Yield outcomes that look the same together, the most probable first."""
    left = list(outcomes)
    while left:
        group = [outcome for outcome in left if same(left[0], outcome)]
        yield group
        left = [outcome for outcome in left if outcome not in group]


def outcome_said(outcome: Outcome, question: Question, speaker: Speaker) -> str:
    """Return an outcome as it is said: a band in its unit, or the word of a look or a display."""
    if outcome.value is None:
        return band((outcome.low, outcome.high), outcome.unit or "", speaker)
    return speaker.name("displayed" if question.measure == "displayed-fault" else "found", outcome.value)


def healthy_of(answer: Answer | None, question: Question, speaker: Speaker) -> str:
    """Return what a healthy system would show, where the answer says it."""
    stands = (question.measure, question.arrangement, question.black)
    if answer is None or stands != ("volts", "connected", "controller.common"):
        return ""
    known = answer.expected.get(question.red or "")
    return speaker.tell("healthy-band", band=band_said(known, speaker)) if known else ""


def question_text(question: Question, speaker: Speaker) -> str:
    """Return what is asked: ``volts DC, SIG to COM``."""
    if question.item:
        return speaker.name("item", question.item)
    values = {"measure": question.named, "red": question.red, "black": question.black}
    what = reading_of(speaker, values, "measure")
    return what if question.source is None else speaker.tell("with-source", what=what, source=question.source)


def proof_band(proof: Proof, pressure_unit: str, speaker: Speaker) -> str:
    """Return the band of a proof in the unit of its instrument; empty where it has none."""
    shown = band_shown(proof.band, pressure_unit)
    return band((shown["low"], shown["high"]), shown["unit"], speaker) if shown["unit"] else ""
