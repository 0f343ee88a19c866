"""The steps that led to an answer, for whoever doubts it: plain, in the words of the theory.

Rules
-----
1. It stands below the answer, never in its place.
2. What was thought of and lost is shown too, up to `MOST_LOST`; `--json` has all of it.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.cli.course_screen import course_lines
from steadyhead.cli.page import paragraph
from steadyhead.diagnosis.trace import Heavy, Trace, Used, Valued
from steadyhead.service.check_words import question_text
from steadyhead.service.guide.keeping import reading_values
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker

MOST_LOST, MOST_CHOSEN = 12, 8
#: Deviations up to which a reading fits, and up to which it fits badly.
FITS, FITS_BADLY = 2.0, 4.5


def trace_screen(visit: Visit, found: Trace, speaker: Speaker, wide: int) -> list[str]:
    """Return the lines of the section, none longer than `wide`."""
    parts = [
        [speaker.tell("trace-head"), *_readings(visit, found, speaker, wide)],
        [speaker.tell("trace-course-head"), *course_lines(found.course, speaker, wide)],
        list(_cells(found, speaker, wide)),
        paragraph(speaker.tell("trace-prices", stopping=found.stopping, going_on=found.going_on), wide),
        list(_checks(found, speaker, wide)),
    ]
    return [line for part in parts if part for line in (*part, "")][:-1]


def _readings(visit: Visit, found: Trace, speaker: Speaker, wide: int) -> Iterator[str]:
    for used in found.readings:
        said = speaker.tell("guide-list-reading", **reading_values(visit.readings[used.reading - 1]))
        yield from paragraph(f"{said}. {_fit(used, speaker)}", wide, "  ", "     ")


def _fit(used: Used, speaker: Speaker) -> str:
    """Return in plain words how well a reading fits what the others say."""
    if not used.weighed:
        return speaker.tell("trace-before-repair")
    if used.misfit is None:
        return speaker.tell("trace-counted")
    off = f"{used.misfit:.1f}"
    if used.misfit < FITS:
        return speaker.tell("trace-fits", off=off)
    return speaker.tell("trace-fits-badly", off=off) if used.misfit < FITS_BADLY else speaker.tell("trace-odd", off=off)


def _cells(found: Trace, speaker: Speaker, wide: int) -> Iterator[str]:
    yield from paragraph(speaker.tell("trace-cells", count=found.cells, alive=found.alive), wide)
    for heavy in found.heaviest:
        yield from paragraph(_heavy(heavy, speaker), wide, f"  {100 * heavy.share:4.1f} %  ")


def _heavy(heavy: Heavy, speaker: Speaker) -> str:
    """Return a cell: its fault's id, its place, its size."""
    known = heavy.severity is not None and heavy.unit is not None
    size = speaker.tell("severity", value=heavy.severity, unit=heavy.unit) if known else ""
    return ", ".join(part for part in (heavy.fault, heavy.place, size) if part)


def _checks(found: Trace, speaker: Speaker, wide: int) -> Iterator[str]:
    chosen = [each for each in found.checks if each.fate == "chosen"]
    lost = [each for each in found.checks if each.fate != "chosen"]
    yield speaker.tell("trace-chosen-head") if chosen else speaker.tell("trace-none-chosen")
    for each in chosen[:MOST_CHOSEN]:
        yield from paragraph(_check(each, speaker), wide, "  ", "    ")
    yield speaker.tell("trace-lost-head", count=len(lost))
    for each in lost[:MOST_LOST]:
        yield from paragraph(_check(each, speaker), wide, "  ", "    ")


def _check(each: Valued, speaker: Speaker) -> str:
    question = each.question
    what = question_text(question, speaker)
    return speaker.tell(
        "trace-check", what=what, arrangement=question.arrangement, minutes=f"{each.minutes:.1f}",
        saves=f"{each.saves:.1f}",
    )  # fmt: skip
