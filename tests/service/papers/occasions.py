"""Occasions for papers: the examples, each diagnosed once for all tests."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any, TypeVar

from steadyhead.documents.laid import Look, Values
from steadyhead.documents.paper import Paper
from steadyhead.service.papers.kinds import in_words, look_of, paper_of
from steadyhead.service.papers.occasion import Occasion, Thinking, of_file, thinking
from steadyhead.visit import VisitFile, load_visit, parse_visit
from steadyhead.words import USUAL, Manner
from tests.service.answers import EXAMPLES, answer

#: A system of which only the plate and the labels are known, in each kind of signal and unit.
SYSTEM = """schema = 1
[site]
name = "{name}"
[sensor]
signal = "{signal}"
range = "{range}"
accuracy = "1 %"
[controller]
supply = "{supply}"
{more}
[labels]
"controller.signal" = "AI 1"
"controller.common" = "0V"
"controller.supply" = "PWR"
[instruments]
gauge = {{ range = "{range}", grade = "B" }}
[[reading]]
measure = "gauge-pressure"
value = "{reading}"
"""


#: Thinks each thing once for all tests, by the readings and the repairs of a visit.
THOUGHT: dict[object, Any] = {}
T = TypeVar("T")


def _once(key: object, think: Callable[[], T]) -> T:
    if key not in THOUGHT:
        THOUGHT[key] = think()
    kept: T = THOUGHT[key]
    return kept


_REAL = thinking()
ENGINE = Thinking(
    answer=lambda visit: _once((visit.readings, visit.actions), lambda: _REAL.answer(visit)),
    reasons=lambda visit, fault: _once((visit.readings, fault), lambda: _REAL.reasons(visit, fault)),
)


@cache
def example(name: str) -> Occasion:
    """Return the occasion of an example."""
    file = load_visit(next(path for path in EXAMPLES if path.stem == name))
    return of_file(file, answer(name), ENGINE)


def system(signal: str, range_: str, supply: str, reading: str, more: str = "") -> VisitFile:
    """Return a visit file of a system with one gauge reading."""
    told = {"signal": signal, "range": range_, "supply": supply, "reading": reading, "more": more, "name": "Mill Lane"}
    return parse_visit(SYSTEM.replace("{range}", range_).format(**told))


def card_of(file: VisitFile) -> Paper:
    """Return the reading card of a file; nothing is diagnosed for it."""
    return paper_of("reading-card", of_file(file, None))


def worded(paper: Paper, seen: Occasion, manner: Manner = USUAL, look: Look | None = None) -> Values:
    """Return a paper in words."""
    return in_words(paper, seen, manner, look or look_of(paper, manner))


def text_of(laid: Values) -> str:
    """Return every text of a paper in words, without its making."""
    return _texts({key: laid[key] for key in ("title", "subject", "dated", "blocks")})


def _texts(value: object) -> str:
    if isinstance(value, str):
        return value
    if isinstance(value, dict):
        inner = (one for key, one in value.items() if key not in {"is", "svg", "pad", "align", "tone"})
        return " ".join(filter(None, map(_texts, inner)))
    return " ".join(filter(None, map(_texts, value))) if isinstance(value, list) else ""


def fresh(seen: Occasion) -> Occasion:
    """Return an occasion whose figures nobody has made yet."""
    return replace(seen, figures={})
