"""What ``steadyhead why`` says: of one suspect how each reading moved it, of none how the belief went."""

from __future__ import annotations

from typing import Any

from steadyhead import __version__
from steadyhead.cli.course_screen import course_screen
from steadyhead.cli.manner import manner
from steadyhead.cli.page import width
from steadyhead.cli.why_screen import why_screen
from steadyhead.diagnosis.course import course
from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.system import System
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.trace_json import course_json
from steadyhead.service.why import why, why_json
from steadyhead.visit.record import Visit

#: What a command prints: for programs, and for people.
Said = tuple[dict[str, Any], list[str]]


def reasons_said(visit: Visit, fault: str, region: str, estimates: Estimates) -> Said:
    """Return how each reading moved one suspect.

    Raises
    ------
    UnknownWordError
        There is no such suspect, or no such region.
    """
    speaker = speaker_of(visit, manner(region))
    found = why(visit, fault, speaker, estimates)
    current = visit.sensor.signal.kind == "current"
    return why_json(found, current=current), why_screen(visit, found, speaker, width())


def course_said(visit: Visit, region: str, estimates: Estimates) -> Said:
    """Return what led after each reading, and what each ruled out.

    Raises
    ------
    UnknownWordError
        There is no such region.
    """
    stages = course(System(visit, estimates))
    values = {"schema": 1, "engine": __version__, "course": course_json(stages)}
    return values, course_screen(visit, stages, speaker_of(visit, manner(region)), width())
