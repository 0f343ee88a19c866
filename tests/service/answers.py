"""The examples, each diagnosed once for all tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.service.answer_json import answer_json
from steadyhead.service.diagnosis import speaker_of
from steadyhead.visit import load_visit
from steadyhead.visit.record import Visit

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.toml"))
#: A visit of two readings, quick to diagnose.
BRIEF = """schema = 1
[sensor]
signal = "4..20 mA"
range = "0..10 bar"
[[reading]]
measure = "gauge-pressure"
value = "4 bar"
[[reading]]
measure = "displayed-pressure"
value = "-2.5 bar"
"""
NAMES = [path.stem for path in EXAMPLES]


@cache
def visit(name: str) -> Visit:
    """Return the visit of an example."""
    return load_visit(next(path for path in EXAMPLES if path.stem == name)).visit


@cache
def answer(name: str) -> Answer:
    """Return the answer to an example."""
    return diagnose(visit(name))


def as_json(name: str) -> dict[str, Any]:
    """Return the answer to an example as JSON values."""
    found = visit(name)
    return answer_json(answer(name), speaker_of(found), current=found.sensor.signal.kind == "current")
