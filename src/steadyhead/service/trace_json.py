"""The steps that led to an answer as the JSON key `trace` (see `answer_1.json`)."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from steadyhead.diagnosis.course import Stage
from steadyhead.diagnosis.trace import Trace, Valued
from steadyhead.service.answer_json import question_json


def trace_json(found: Trace, *, current: bool) -> dict[str, Any]:
    """Return the steps as plain JSON values; `current` tells whether a source is told in milliamperes."""
    return {
        "readings": [{"reading": r.reading, "weighed": r.weighed, "misfit": r.misfit} for r in found.readings],
        "course": course_json(found.course),
        "cells": found.cells,
        "alive": found.alive,
        "heaviest": [
            {"fault": h.fault, "place": h.place, "severity": h.severity, "unit": h.unit, "share": min(h.share, 1.0)}
            for h in found.heaviest
        ],
        "stopping_minutes": found.stopping,
        "going_on_minutes": found.going_on,
        "checks": [_valued(each, current=current) for each in found.checks],
    }


def course_json(stages: Iterable[Stage]) -> list[dict[str, Any]]:
    """Return which suspect led before the first reading and after each, and which were ruled out by it."""
    return [
        {"reading": s.reading, "leads": s.leads, "probability": s.probability, "ruled_out": list(s.ruled_out)}
        for s in stages
    ]


def _valued(each: Valued, *, current: bool) -> dict[str, Any]:
    return {
        **question_json(each.question, current=current),
        "minutes": each.minutes,
        "saves_minutes": each.saves,
        "fate": each.fate,
    }
