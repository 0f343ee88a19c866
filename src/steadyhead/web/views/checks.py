"""The next check as its card shows it: cautions, what to do, where the leads go, why, and the form for the reading."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from steadyhead.diagnosis.answer import Answer, NextCheck
from steadyhead.diagnosis.cautions import cautions
from steadyhead.diagnosis.observing import Question, question_of
from steadyhead.diagnosis.system import System
from steadyhead.service.after_repair import GAUGE, Proof
from steadyhead.service.check_words import grouped, how_text, outcome_said, proof_band, question_text
from steadyhead.service.guide.state import Take
from steadyhead.service.healthy import healthy_band
from steadyhead.service.record.views import VisitSeen
from steadyhead.visit.record import Visit
from steadyhead.web import keypad
from steadyhead.web.questions import key_of
from steadyhead.web.views.bands import BandView, band_view
from steadyhead.web.views.caring import CareView, care_view
from steadyhead.web.views.stops import STOPS, stop_of
from steadyhead.words import Speaker
from steadyhead.words.points import label
from steadyhead.words.saying import sentence

MOST_MEANINGS, MOST_NAMES = 4, 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Lead:
    """A lead of the meter: its side, the point that it goes on, and the wire that is there."""

    side: str
    point: str
    wire: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """The form for one reading.

    `words` are the buttons of a reading that is a word (value and name); else `units` and `keys` stand beside a field.
    """

    check: str
    asks: str
    words: Sequence[tuple[str, str]] = ()
    units: Sequence[str] = ()
    keys: Sequence[keypad.Key] = ()
    band: BandView | None = None
    must: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckView:
    """A check, ready to be laid out."""

    title: str
    minutes: str
    drive: str
    how: str
    why: str
    leads: Sequence[Lead]
    care: CareView
    meanings: Sequence[tuple[str, str]]
    while_there: str
    entry: Entry


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherCheck:
    """A check that could be made instead: its key, what it is, its minutes."""

    check: str
    title: str
    minutes: str


def check_view(seen: VisitSeen, take: Take, speaker: Speaker) -> CheckView:
    """Return a check as its card shows it."""
    visit, check, question = seen.visit, take.check, take.check.question
    return CheckView(
        title=title(question, speaker),
        minutes=speaker.tell("next-check", minutes=check.minutes),
        drive=sentence(speaker.name("state", check.drive)),
        how=how_text(check, visit, speaker),
        why=_why(take, speaker),
        leads=leads(question, speaker),
        care=care_view(check.cautions, told_before(seen), speaker),
        meanings=_meanings(check, speaker),
        while_there=_while_there(check, speaker),
        entry=entry_view(visit, question, speaker, proof=take.proof),
    )


def entry_view(visit: Visit, question: Question, speaker: Speaker, *, proof: Proof | None = None) -> Entry:
    """Return the form for the reading of a check; `proof` is what it must show after a repair."""
    band = proof.band if proof is not None else healthy_band(visit, question)
    signal = "mA" if visit.sensor.signal.kind == "current" else "V"
    kind = "displayed" if question.measure == "displayed-fault" else "found"
    return Entry(
        check=key_of(question),
        asks=speaker.name("asks", _asks(question)),
        words=[(word, sentence(speaker.name(kind, word))) for word in keypad.ANSWERS.get(question.measure, ())],
        units=keypad.units(question.measure, visit.pressure_unit, signal),
        keys=keypad.keys(question.measure),
        band=band_view(band, None, visit.pressure_unit, speaker),
        must=_must(proof, visit, speaker) if proof is not None else "",
    )


def title(question: Question, speaker: Speaker) -> str:
    """Return a check's head: what is read, and in which hook-up."""
    what = question_text(question, speaker)
    if question.arrangement == "connected":
        return sentence(what)
    return sentence(speaker.tell("web-check-title", arrangement=question.arrangement, what=what))


def leads(question: Question, speaker: Speaker) -> list[Lead]:
    """Return where the leads go, red first; in series they lie at the lifted wire and its terminal."""
    if question.measure == "milliamps":
        pairs: tuple[tuple[str, str | None], ...] = (("red", "wire.signal"), ("black", "controller.signal"))
    else:
        pairs = (("red", question.red), ("black", question.black))
    return [_lead(side, point, speaker) for side, point in pairs if point]


def _lead(side: str, point: str, speaker: Speaker) -> Lead:
    where, _, core = point.partition(".")
    wire = label(f"wire.{core}", speaker) if where == "controller" else None
    name = speaker.tell("web-wire-there", what=wire) if wire else ""
    return Lead(side=side, point=speaker.name("point", point), wire=name)


def others(answer: Answer | None, asked: Question | None, speaker: Speaker) -> list[tuple[str, list[OtherCheck]]]:
    """Return every check that is worth its minutes but the one that is asked, by the stop where it is made."""
    checks = [check for check in (answer.next_checks if answer else ()) if check.question != asked]
    found = [
        (speaker.name("stop", stop), [_other(check, speaker) for check in checks if stop_of(check.question) == stop])
        for stop in STOPS
    ]
    return [(stop, made_there) for stop, made_there in found if made_there]


def _other(check: NextCheck, speaker: Speaker) -> OtherCheck:
    return OtherCheck(
        check=key_of(check.question),
        title=title(check.question, speaker),
        minutes=speaker.tell("web-minutes", minutes=check.minutes),
    )


def told_before(seen: VisitSeen) -> frozenset[str]:
    """Return the ids of the cautions that were read in a visit: by a tap, or with a reading that was kept."""
    system, readings = System(seen.visit), seen.visit.readings
    return seen.cautions.union(told.id for reading in readings for told in cautions(system, question_of(reading)))


def _why(take: Take, speaker: Speaker) -> str:
    if take.proof is not None:
        return speaker.tell("guide-proof-why")
    return speaker.say(take.check.why) if take.check.why else ""


def _must(proof: Proof, visit: Visit, speaker: Speaker) -> str:
    if proof.question == GAUGE:
        return speaker.tell("guide-must-hold")
    text = proof_band(proof, visit.pressure_unit, speaker)
    return speaker.tell("guide-must-read", band=text) if text else speaker.tell("guide-must-agree")


def _meanings(check: NextCheck, speaker: Speaker) -> list[tuple[str, str]]:
    """Return what each outcome would mean, those that look the same together."""
    found = []
    for group in list(grouped(check.outcomes))[:MOST_MEANINGS]:
        names = [speaker.name("fault", outcome.fault) for outcome in group[:MOST_NAMES]]
        more = len(group) - len(names)
        named = "; ".join([*names, speaker.tell("outcomes-more", count=more)] if more else names)
        found.append((outcome_said(group[0], check.question, speaker), sentence(named)))
    return found


def _while_there(check: NextCheck, speaker: Speaker) -> str:
    said = [question_text(question, speaker) for question in check.while_there]
    return speaker.tell("while-there", list="; ".join(said)) if said else ""


def _asks(question: Question) -> str:
    if question.measure in {"inspection", "displayed-fault", "gauge-pressure"}:
        return question.measure
    return "display" if question.measure.startswith("displayed-") else "meter"
