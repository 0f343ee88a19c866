"""What tests share of the engine's work is the engine's own."""

from __future__ import annotations

from pathlib import Path
from typing import NoReturn

from steadyhead.diagnosis.diagnose import Diagnosed, diagnose
from steadyhead.diagnosis.trace import trace
from steadyhead.visit import parse_visit
from tests.once import Answered, afresh, answered, answers, beliefs
from tests.service.answers import BRIEF

VISIT = parse_visit(BRIEF).visit


def nothing() -> NoReturn:
    """Work out nothing."""
    raise AssertionError


def test_a_kept_answer_is_the_one_that_the_engine_gives_afresh() -> None:
    """A property of an answer: it hangs on the visit and the estimates alone."""
    answered(VISIT)
    kept = answered(VISIT)
    assert isinstance(kept, Answered)
    with afresh():
        whole = answered(VISIT)
        assert isinstance(whole, Diagnosed)
        assert kept.answer == whole.answer == diagnose(VISIT)
        assert [cell.fault for cell in kept.suspected] == [cell.fault for cell in whole.suspected]
        assert trace(whole).heaviest == trace(kept).heaviest  # type: ignore[arg-type]


def test_what_another_worker_left_is_found_whole(tmp_path: Path) -> None:
    """To the last digit; and what nobody left is worked out."""
    with afresh():
        answer = diagnose(VISIT)
    one, other, stranger = answers(), answers(), beliefs()
    one.folder = other.folder = tmp_path
    assert one.of("this visit", lambda: answer) == answer
    assert other.of("this visit", nothing) == answer
    assert other.of("another one", lambda: answer) == answer
    assert stranger.of("this visit", lambda: "its own") == "its own"


def test_the_oldest_is_let_go() -> None:
    """Two at the most."""
    kept = beliefs(2)
    assert [kept.of(name, lambda name=name: name) for name in "abab"] == [*"abab"]  # type: ignore[misc]
    assert [kept.of("c", lambda: "new"), kept.of("b", nothing), kept.of("a", lambda: "again")] == ["new", "b", "again"]
