"""The screen of one suspect: how each reading moved it, what speaks for and against it most, and what would decide.

Rules
-----
1. Odds are words and hatching; a factor is told as "about 6 times", rounded, and no finer than it is known.
2. Beside what was read stands what this suspect foretold, and what its strongest rival of that moment did.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.cli.page import bar, paragraph
from steadyhead.diagnosis.reasons import Reasons
from steadyhead.service.guide.keeping import reading_values
from steadyhead.service.reason_words import LISTED, decides, foretold, moved
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker
from steadyhead.words.odds import odds
from steadyhead.words.saying import sentence


def why_screen(visit: Visit, found: Reasons, speaker: Speaker, wide: int) -> list[str]:
    """Return the lines of the screen, none longer than `wide`."""
    head = speaker.tell("why-head", fault=found.fault, share=found.probability, remedy=found.remedy)
    parts = [
        paragraph(f"{sentence(head)} [{found.fault}]", wide),
        list(_readings(visit, found, speaker, wide)),
        list(_strongest(found, speaker, wide)),
        list(_rivals(found, speaker, wide)),
        list(_deciding(found, speaker, wide)),
    ]
    return [line for part in parts if part for line in (*part, "")][:-1]


def _readings(visit: Visit, found: Reasons, speaker: Speaker, wide: int) -> Iterator[str]:
    yield from paragraph(speaker.tell("why-before", share=found.before), wide)
    if found.unused:
        yield from paragraph(speaker.tell("why-unused", list=", ".join(map(str, found.unused))), wide)
    before = found.before
    for reason in found.readings:
        reading = visit.readings[reason.reading - 1]
        yield from paragraph(speaker.tell("guide-list-reading", **reading_values(reading)), wide, "  ", "     ")
        expected = foretold(reason, before, reading, speaker)
        if expected:
            yield from paragraph(expected, wide, "     ")
        yield from paragraph(moved(reason, before, speaker), wide, "     ")
        before = reason.probability


def _strongest(found: Reasons, speaker: Speaker, wide: int) -> Iterator[str]:
    if found.strongest_for is not None:
        yield from paragraph(speaker.tell("why-most-for", number=found.strongest_for.reading), wide)
    if found.strongest_against is not None:
        yield from paragraph(speaker.tell("why-most-against", number=found.strongest_against.reading), wide)


def _rivals(found: Reasons, speaker: Speaker, wide: int) -> Iterator[str]:
    listed = [rival for rival in found.rivals if rival.probability >= LISTED]
    if not listed:
        return
    yield speaker.tell("why-rivals-head")
    words = [speaker.translated(odds(rival.probability)) for rival in listed]
    broad = max(map(len, words))
    for rival, word in zip(listed, words, strict=True):
        name = sentence(speaker.name("fault", rival.fault))
        yield from paragraph(name, wide, f"  {word:<{broad}}  {bar(rival.probability)}  ")


def _deciding(found: Reasons, speaker: Speaker, wide: int) -> Iterator[str]:
    if not found.deciding:
        yield from paragraph(speaker.tell("why-nothing-decides"), wide)
        return
    yield speaker.tell("why-deciding-head")
    for each in found.deciding:
        yield from paragraph(sentence(decides(each, speaker)), wide, "  ", "    ")
