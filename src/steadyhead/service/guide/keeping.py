"""What an answer does to the file: one edit of its text, kept with the text before it, so that it can be taken back.

Rules
-----
1. Every edit goes through `VisitFile`: comments stay, and what the file's rules refuse is raised and changes nothing.
2. After an edit the old diagnosis no longer holds; it is kept as the one before.
"""

from __future__ import annotations

from dataclasses import replace

from steadyhead.diagnosis.observing import Question
from steadyhead.messages import Message, Value, message
from steadyhead.service.guide.rows import declined_rows, reading_row, row_again
from steadyhead.service.guide.state import Guide, Take, Thinking, Turn
from steadyhead.visit import VisitFile, parse_visit
from steadyhead.visit.record import Reading, Word


def kept(guide: Guide, file: VisitFile, *said: Message) -> Turn:
    """Return the turn that keeps another text of the file."""
    earlier = (*guide.earlier, guide.known.text)
    before = guide.answer or guide.before
    held = replace(guide, file=file, answer=None, before=before, earlier=earlier, asks=Thinking())
    return Turn(guide=held, said=said, text=file.text)


def with_reading(guide: Guide, take: Take, text: str) -> Turn:
    """Keep a reading.

    Raises
    ------
    VisitFileError
        The file's rules refuse it.
    """
    file = guide.known.with_reading(reading_row(take.check, text, guide.known.visit))
    left = frozenset(q for q in guide.left if q != take.check.question)
    return kept(replace(guide, left=left), file, message("guide-kept", **reading_values(file.visit.readings[-1])))


def without_check(guide: Guide, question: Question, why: str) -> Turn:
    """Keep that a check can't be done here.

    Raises
    ------
    VisitFileError
        The file's rules refuse it.
    """
    file = guide.known
    for row in declined_rows(question, file.visit, why):
        file = file.with_declined(row)
    whole = file.visit.declined[-1].red is None and question.arrangement != "connected"
    if whole:
        return kept(guide, file, message("guide-declined-hook-up", arrangement=question.arrangement))
    return kept(guide, file, message("guide-declined"))


def with_action(guide: Guide, remedy: str) -> Turn:
    """Keep that a repair was made."""
    file = guide.known
    for part in remedy.split("+"):
        file = file.with_action({"remedy": part})
    held = replace(guide, left=frozenset(), trusted=frozenset())
    turn = kept(held, file, message("guide-done", remedy=remedy))
    return replace(turn, guide=replace(turn.guide, before=None))


def with_other_value(guide: Guide, number: int, text: str) -> Turn:
    """Keep another value of a reading.

    Raises
    ------
    VisitFileError
        There is no such reading, or the value is refused.
    """
    file = guide.known.with_reading_replaced(number, row_again(guide.known, number, text))
    return kept(guide, file, message("guide-corrected", **reading_values(file.visit.readings[number - 1])))


def without_reading(guide: Guide, number: int) -> Turn:
    """Take a reading out: it could not be made after all.

    Raises
    ------
    VisitFileError
        There is no such reading.
    """
    said = message("guide-taken-out", **reading_values(guide.known.visit.readings[number - 1]))
    return kept(guide, guide.known.without_reading(number), said)


def taken_back(guide: Guide) -> Turn:
    """Return the file as it was before the last answer of this sitting."""
    file = parse_visit(guide.earlier[-1], guide.name)
    held = replace(
        guide, file=file, answer=None, before=None, earlier=guide.earlier[:-1], asks=Thinking(),
        left=frozenset(), trusted=frozenset(),
    )  # fmt: skip
    return Turn(guide=held, said=(message("guide-taken-back"),), text=file.text)


def reading_values(reading: Reading) -> dict[str, Value]:
    """Return what a message about a reading needs: its number, what was read, what came out."""
    return {
        "number": reading.number, "measure": reading.named, "red": reading.red, "black": reading.black,
        "item": reading.item, "arrangement": reading.arrangement, "figure": figure_of(reading),
    }  # fmt: skip


def figure_of(reading: Reading) -> str:
    """Return what came out, as it was written."""
    return reading.value.word if isinstance(reading.value, Word) else reading.value.as_written
