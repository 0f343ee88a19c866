"""What repair, night, photo and birth do and say: for programs, and for people."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from steadyhead.cli.exchange_work import LAST, Said, last_visit, record
from steadyhead.cli.manner import manner, usual_speaker
from steadyhead.cli.page import columns as in_columns
from steadyhead.cli.page import paragraph
from steadyhead.errors import FileUnreadableError, NotFoundError, RecordError, UnknownWordError
from steadyhead.messages import message
from steadyhead.service.answer_json import message_json
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.record.births import keep_birth, youth_of
from steadyhead.service.record.follow_ups import what_waits
from steadyhead.service.record.given import Given
from steadyhead.service.record.night import Card, keep_night, night_of
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.photos import add_photo
from steadyhead.service.record.readings import record_action
from steadyhead.service.record.repairs import details_of
from steadyhead.service.repair_cautions import REPAIR_CAUTIONS, repair_cautions
from steadyhead.visit.births import NUMBERS
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.pending import NIGHT
from steadyhead.visit.remedies import REMEDIES
from steadyhead.water.night import judge
from steadyhead.words.saying import sentence

Texts = Mapping[str, str]
#: Parts, their serial numbers and those of the old ones, each in order.
Fitted = Mapping[str, Sequence[str]]
REGION = "north-america"
#: What can be mended: every remedy but to mend nothing, and to look further.
MENDED = tuple(each for each in REMEDIES if each not in {"none", "look-further"})


def _named(given: Given, visit: str) -> str:
    return last_visit(given) if visit == LAST else visit


def _known(got: str, allowed: Sequence[str]) -> None:
    """Refuse a word that is none of a list.

    Raises
    ------
    UnknownWordError
        ``word-unknown``.
    """
    if got not in allowed:
        ordered, nearest = nearest_first(got, allowed)
        raise UnknownWordError(message("word-unknown", got=shown(got), must_be=ordered, nearest=nearest))


def repaired(
    visit: str, remedy: str, told: tuple[Texts, Fitted, bool], data: str | None, columns: int
) -> Said:
    """Keep that a repair was made, with all its parts; its cautions are said first.

    Raises
    ------
    NotFoundError
        There is no such visit.
    UnknownWordError
        There is no such remedy.
    RecordError
        It is not plain which number belongs to which part.
    """
    parts = remedy.split("+")
    for each in parts:
        _known(each, MENDED)
    texts, fitted, tugged = told
    details = details_of(texts, _parts(fitted), tugged=tugged)
    with record(data) as given:
        visit = _named(given, visit)
        record_action(given, visit, remedy, details)
        seen = visit_page(given, visit)
    speaker = speaker_of(seen.visit, manner(REGION))
    cautions = [each for part in parts if part in REPAIR_CAUTIONS for each in repair_cautions(part)]
    lines = [line for each in cautions for line in paragraph(speaker.say(each), columns, "! ", "  ")]
    kept = speaker.tell("kept-repair", remedy=remedy, visit=visit)
    found = {
        "schema": 1, "visit": visit, "remedy": remedy, "after": len(seen.visit.readings), **details,
        "cautions": [message_json(each, speaker) for each in cautions],
    }  # fmt: skip
    return found, [*lines, *paragraph(kept, columns)]


def _parts(fitted: Fitted) -> list[Texts]:
    """Return what was fitted, part by part; of what was given once or not at all, one part.

    Raises
    ------
    RecordError
        ``kept-parts-unequal``: not as many numbers as parts.
    """
    given = {key: list(texts) for key, texts in fitted.items() if texts}
    count = max((len(texts) for texts in given.values()), default=0)
    for key, texts in {"part": fitted["part"], **given}.items():
        if len(texts) != count and count > 1:
            raise RecordError(message("kept-parts-unequal", key=f"--{key}", got=len(texts), must_be=count))
    return [{key: texts[at] for key, texts in given.items()} for at in range(count)]


def night_kept_and_told(visit: str, card: Card, data: str | None, columns: int) -> Said:
    """Keep what a night gave, and say what it tells.

    Raises
    ------
    NotFoundError
        There is no such visit, or it waits for no night.
    InputError
        A figure, a time or a word of the card cannot be read.
    """
    with record(data) as given:
        visit = _named(given, visit)
        nights = [each.pending.about for each in what_waits(given, visit) if each.pending.kind == NIGHT]
        if not nights:
            visit_page(given, visit)
            raise NotFoundError(message("kept-no-night", got=visit))
        keep_night(given, visit, nights[-1], card)
        seen = visit_page(given, visit)
    speaker, night = speaker_of(seen.visit, manner(REGION)), night_of(seen)
    told = judge(night) if night else None
    says = told.says if told else ()
    found = {
        "schema": 1, "visit": visit, "verdict": told.verdict if told else None,
        "says": [message_json(each, speaker) for each in says],
    }  # fmt: skip
    return found, [line for each in says for line in paragraph(speaker.say(each), columns)]


def photo_kept(visit: str, file: str, told: Texts, data: str | None, columns: int) -> Said:
    """Keep a photo.

    Raises
    ------
    FileUnreadableError
        The file cannot be read.
    InputError
        There is no such visit; it is no photo that is taken; a word is none of its list.
    """
    try:
        picture = Path(file).read_bytes()
    except OSError as error:
        raise FileUnreadableError(message("file-unreadable", file=file, reason=str(error.strerror))) from error
    with record(data) as given:
        visit = _named(given, visit)
        of = visit_page(given, visit).system_id if told["shows"] == "plate" else None
        id_ = add_photo(
            given, visit, picture, of=of, says=told["says"], shows=told["shows"], stage=told["stage"]
        )
    return {"schema": 1, "visit": visit, "photo": id_}, paragraph(
        usual_speaker().tell("kept-photo", file=file, visit=visit), columns
    )


def birth_kept_or_shown(visit: str, pairs: Sequence[str], data: str | None, columns: int) -> Said:
    """Keep a system's numbers; without any, show those that it is held against.

    Raises
    ------
    NotFoundError
        There is no such visit.
    InputError
        A number is none of the list, or its figure cannot be read.
    """
    typed = dict(_pair(each) for each in pairs)
    with record(data) as given:
        visit = _named(given, visit)
        system = visit_page(given, visit).system_id
        if typed:
            keep_birth(given, visit, typed)
        youth = youth_of(given, system)
    speaker = usual_speaker()
    numbers = {} if youth is None else {id_: str(row.get("value", "")) for id_, row in youth.numbers.items()}
    head = "kept-birth" if typed else "kept-birth-shown" if numbers else "kept-birth-none"
    lines = paragraph(speaker.tell(head, count=len(typed), visit=visit, known=NUMBERS), columns)
    rows = [(text, sentence(speaker.name("birth-number", id_))) for id_, text in numbers.items()]
    found = {"schema": 1, "visit": visit, "kept": youth.id if youth else None, "numbers": numbers}
    return found, [*lines, *in_columns(rows)]


def _pair(text: str) -> tuple[str, str]:
    """Return a number's id and its figure, of ``NUMBER=FIGURE``.

    Raises
    ------
    UnknownWordError
        No such number, or no figure behind it.
    """
    number, equals, figure = text.partition("=")
    if not equals or not figure.strip():
        raise UnknownWordError(message("kept-birth-pair", got=shown(text), must_be=NUMBERS))
    _known(number.strip(), NUMBERS)
    return number.strip(), figure.strip()
