"""What is known of a visit: suspects as bars, readings with their healthy bands, the verdict and what mends it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from steadyhead.diagnosis.answer import Answer, Band, Suspect
from steadyhead.diagnosis.observing import question_of
from steadyhead.service.answer_words import LISTED, because_text, others_text, suspect_text
from steadyhead.service.check_words import question_text
from steadyhead.service.guide.keeping import figure_of
from steadyhead.service.record.views import RowSeen, VisitSeen
from steadyhead.service.repair_cautions import cautions_for
from steadyhead.visit.measures import MEASURE
from steadyhead.visit.record import Reading, Visit, Word
from steadyhead.web.views.asking import Thought
from steadyhead.web.views.bands import BandView, band_view
from steadyhead.web.views.caring import CareView, care_view
from steadyhead.words import Speaker
from steadyhead.words.odds import odds
from steadyhead.words.saying import sentence

MOST_SUSPECTS = 5
#: A suspect is told with its place and size from this share on.
TOLD_WHOLE = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class SuspectView:
    """A likely cause: its id for the address of its reasons, its name, its odds in words, its share in percent."""

    fault: str
    name: str
    odds: str
    percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingView:
    """A reading of the list."""

    id: str
    number: int
    what: str
    hook_up: str
    notes: Sequence[str]
    value: str
    band: BandView | None
    odd: str
    counted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideView:
    """A reading that is no evidence, and why; `odd` where somebody must settle it."""

    id: str
    what: str
    why: str
    odd: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictView:
    """Where the diagnosis stands: its state, in words, why, and what mends it."""

    state: str
    says: str
    because: str
    besides: Sequence[str]
    remedy: str
    remedy_name: str
    care: CareView


def suspects(answer: Answer, speaker: Speaker) -> tuple[list[SuspectView], str]:
    """Return the likely causes, and what is said of the rest."""
    listed = [suspect for suspect in answer.suspects if suspect.probability >= LISTED][:MOST_SUSPECTS]
    rest = answer.suspects[len(listed) :]
    shown = [
        SuspectView(
            fault=suspect.fault,
            name=_named(suspect, speaker),
            odds=speaker.translated(odds(suspect.probability)),
            percent=max(1.0, round(100 * suspect.probability, 1)),
        )
        for suspect in listed
    ]
    said = others_text(len(rest), sum(suspect.probability for suspect in rest), speaker) if rest else ""
    return shown, sentence(said)


def _named(suspect: Suspect, speaker: Speaker) -> str:
    """Return a suspect's name; where it is, and how large, only where it is likely enough for that to help."""
    if suspect.probability < TOLD_WHOLE:
        return sentence(speaker.name("fault", suspect.fault))
    return suspect_text(suspect, speaker)


def readings(seen: VisitSeen, found: Thought, speaker: Speaker) -> list[ReadingView]:
    """Return the readings in their order, each with its healthy band and what is odd about it."""
    visit, answer = seen.visit, found.answer
    odd = {s.reading: sentence(speaker.say(s.text)) for s in answer.surprises} if answer else {}
    mended = max((action.after_reading for action in visit.actions), default=0)
    rows = {row.number: row for row in seen.rows if row.number is not None}
    around = (found.bands, odd, mended, visit)
    return [_reading(reading, rows.get(reading.number), around, speaker) for reading in visit.readings]


def _reading(
    reading: Reading,
    row: RowSeen | None,
    around: tuple[Mapping[int, Band], Mapping[int, str], int, Visit],
    speaker: Speaker,
) -> ReadingView:
    bands, odd, mended, visit = around
    number = reading.number
    hook_up = "" if reading.arrangement == "connected" else speaker.name("arrangement", reading.arrangement)
    notes = (
        hook_up,
        speaker.tell("web-corrected") if row and row.history else "",
        "" if number > mended else speaker.tell("web-before-repair"),
    )
    return ReadingView(
        id=row.id if row else "",
        number=number,
        what=sentence(question_text(question_of(reading), speaker)),
        hook_up=hook_up,
        notes=[note for note in notes if note],
        value=value_text(reading, speaker),
        band=band_view(bands.get(number), reading.value, visit.pressure_unit, speaker),
        odd=odd.get(number, ""),
        counted=number > mended,
    )


def beside(seen: VisitSeen, speaker: Speaker) -> list[BesideView]:
    """Return the readings that are no evidence: two devices disagree on it, it was taken out, or cannot be used."""
    return [_beside(row, speaker) for row in seen.rows if row.number is None]


def _beside(row: RowSeen, speaker: Speaker) -> BesideView:
    if row.conflict:
        why = speaker.tell("web-disagree", list=tuple(head.value for head in row.heads))
    else:
        why = speaker.tell("web-taken-out") if row.withdrawn else speaker.tell("web-set-aside")
    return BesideView(id=row.id, what=row_text(row, speaker), why=why, odd=not row.withdrawn)


def row_text(row: RowSeen, speaker: Speaker) -> str:
    """Return what a row reads, as far as this version knows its words."""
    measure = str(row.body.get("measure"))
    return sentence(speaker.name("measure", measure) if measure in MEASURE else measure)


def value_text(reading: Reading, speaker: Speaker) -> str:
    """Return what came out, as it was written; a word by its name."""
    if isinstance(reading.value, Word):
        return speaker.name("displayed" if reading.measure == "displayed-fault" else "found", reading.value.word)
    return speaker.printable(figure_of(reading))


def verdict(visit: Visit, answer: Answer, speaker: Speaker, read: Collection[str]) -> VerdictView:
    """Return where the diagnosis stands; `read` are the cautions that were read before."""
    found = answer.verdict
    share = next(remedy.probability for remedy in answer.remedies if remedy.remedy == found.remedy)
    if found.state == "proved":
        says, because = speaker.tell("verdict-proved", remedy=found.remedy), because_text(visit, answer, speaker)
    elif found.state == "best-guess":
        says, because = speaker.say(found.because), ""
    else:
        says, because = speaker.tell("verdict-open", remedy=found.remedy, share=share), ""
    mends = found.settled and found.remedy not in {"none", "look-further"}
    return VerdictView(
        state=found.state,
        says=says,
        because=because,
        besides=[speaker.say(told) for told in answer.besides] if found.state != "open" else (),
        remedy=found.remedy if mends else "",
        remedy_name=sentence(speaker.name("remedy", found.remedy)),
        care=care_view(cautions_for(found.remedy, visit) if mends else (), read, speaker),
    )
