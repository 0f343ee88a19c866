"""The screen of a diagnosis: what we know, where it stands, what to do next.

Rules
-----
1. What a person needs first stands first: the likely causes, the verdict, one next check.
2. Cautions stand before the step that they belong to.
3. Odds are words and hatching; no decimals, no colour.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.cli.after_screen import after_lines
from steadyhead.cli.check_box import check_box, other_checks
from steadyhead.cli.page import bar, paragraph
from steadyhead.diagnosis.answer import Answer
from steadyhead.service.answer_words import (
    LISTED,
    because_text,
    others_text,
    reading_text,
    suspect_text,
    system_line,
)
from steadyhead.service.repair_cautions import cautions_for
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker
from steadyhead.words.odds import odds

MOST_SUSPECTS = 6


def diagnose_screen(visit: Visit, answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return the lines of the screen, none longer than `wide`."""
    parts = [
        list(_header(visit, wide, speaker)),
        known_lines(answer, speaker, wide),
        surprise_lines(visit, answer, speaker, wide),
        verdict_lines(visit, answer, speaker, wide),
        before_mending(visit, answer, speaker, wide),
        after_lines(visit, answer, speaker, wide),
    ]
    if answer.next_checks:
        parts.append(check_box(visit, answer, speaker, wide))
        parts.append(other_checks(answer, speaker, wide))
    parts += [_former(answer, speaker, wide), _call(answer, speaker, wide), _defaults(answer, speaker, wide)]
    return [line for part in parts if part for line in (*part, "")][:-1]


def _header(visit: Visit, wide: int, speaker: Speaker) -> Iterator[str]:
    if visit.site.name:
        yield from paragraph(speaker.printable(visit.site.name), wide)
    yield from paragraph(system_line(visit, speaker), wide)
    if visit.complaint.text:
        yield from paragraph(f'"{speaker.printable(visit.complaint.text)}"', wide)


def known_lines(answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return what is known: the likely causes with their odds."""
    return [speaker.tell("known-head"), *_suspects(answer, speaker, wide)]


def _suspects(answer: Answer, speaker: Speaker, wide: int) -> Iterator[str]:
    listed = [suspect for suspect in answer.suspects if suspect.probability >= LISTED][:MOST_SUSPECTS]
    words = [speaker.translated(odds(suspect.probability)) for suspect in listed]
    broad = max(map(len, words))
    for suspect, word in zip(listed, words, strict=True):
        first = f"  {word:<{broad}}  {bar(suspect.probability)}  "
        yield from paragraph(suspect_text(suspect, speaker), wide, first)
    rest = len(answer.suspects) - len(listed)
    left = sum(suspect.probability for suspect in answer.suspects[len(listed) :])
    if rest:
        yield from paragraph(others_text(rest, left, speaker), wide, "  ")


def surprise_lines(visit: Visit, answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return the readings that don't fit."""
    lines: list[str] = []
    for surprise in answer.surprises:
        reading = visit.readings[surprise.reading - 1]
        lines += paragraph(f"{reading_text(reading, speaker)}: {speaker.say(surprise.text)}.", wide, "? ")
    return lines


def verdict_lines(visit: Visit, answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return where the diagnosis stands, and why."""
    verdict = answer.verdict
    if verdict.state == "open":
        share = next(r.probability for r in answer.remedies if r.remedy == verdict.remedy)
        return paragraph(speaker.tell("verdict-open", remedy=verdict.remedy, share=share), wide)
    besides = [line for told in answer.besides for line in paragraph(speaker.say(told), wide)]
    if verdict.state == "best-guess":
        return [*paragraph(speaker.say(verdict.because), wide), *besides]
    proved = paragraph(speaker.tell("verdict-proved", remedy=verdict.remedy), wide)
    return [*proved, *paragraph(because_text(visit, answer, speaker), wide), *besides]


def before_mending(visit: Visit, answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return the standing line, and the cautions of the repair where it comes next."""
    cautions = cautions_for(answer.verdict.remedy, visit) if answer.verdict.settled else ()
    if not cautions:
        return paragraph(speaker.tell("local-codes-first"), wide)
    told = [line for each in cautions for line in paragraph(speaker.say(each), wide, "! ")]
    return [*paragraph(speaker.tell("before-mending"), wide), *told]


def _former(answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return what an earlier visit left open, and how far it counts here."""
    return [line for told in answer.former for line in paragraph(speaker.say(told), wide)]


def _call(answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return what the complaint did to the odds."""
    if not answer.complaint:
        return []
    said = [line for told in answer.complaint for line in paragraph(speaker.say(told), wide, "  ", "    ")]
    return [*paragraph(speaker.tell("complaint-head"), wide), *said]


def _defaults(answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    if not answer.defaults:
        return []
    said = [speaker.tell("default-told", **told.values) for told in answer.defaults]
    return paragraph(speaker.tell("assumed", list="; ".join(said)), wide)
