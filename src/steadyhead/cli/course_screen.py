"""How the belief went, reading by reading, on a screen: what led after each, and what it ruled out."""

from __future__ import annotations

from collections.abc import Iterable

from steadyhead.cli.page import paragraph
from steadyhead.diagnosis.course import Stage
from steadyhead.messages import message
from steadyhead.service.guide.keeping import reading_values
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker

MOST_NAMED = 6


def course_screen(visit: Visit, stages: Iterable[Stage], speaker: Speaker, wide: int) -> list[str]:
    """Return every reading with what led after it and what it ruled out, none of the lines longer than `wide`."""
    lines: list[str] = []
    for stage in stages:
        if stage.reading:
            values = reading_values(visit.readings[stage.reading - 1])
            lines += paragraph(speaker.tell("guide-list-reading", **values), wide, "", "   ")
            lines += paragraph(stage_text(stage, speaker), wide, "   ")
        else:
            lines += paragraph(f"{speaker.tell('course-before')} {stage_text(stage, speaker)}", wide)
    return [*lines, "", *paragraph(speaker.tell("course-one-suspect"), wide)]


def course_lines(stages: Iterable[Stage], speaker: Speaker, wide: int) -> list[str]:
    """Return one entry for each reading, by its number alone."""
    return [
        line
        for stage in stages
        for line in paragraph(stage_text(stage, speaker), wide, f"  {stage.reading or '-'}  ")
    ]


def stage_text(stage: Stage, speaker: Speaker) -> str:
    """Return what leads after a reading, and what that reading ruled out."""
    leads = speaker.tell("trace-leads", fault=stage.leads, share=stage.probability)
    named, more = stage.ruled_out[:MOST_NAMED], len(stage.ruled_out) - MOST_NAMED
    if not named:
        return leads
    gone = message("guide-rules-out", faults=named)
    if more > 0:
        gone = message("guide-rules-out-more", faults=named, count=more)
    return f"{leads} {speaker.say(gone)}"
