"""Answers as texts: each comes back the same, and what is no answer is none."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.answer_text import DIAGNOSIS, answer_of, plain, text_of
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.visit import parse_visit
from tests.diagnosis.visits import BARE_HOUSE, BOOSTER, HOUSE, VAN, gauge, reading, supply

VISITS = (
    BARE_HOUSE,
    BOOSTER + VAN + gauge("50 psi") + reading("displayed-signal", "7.0 mA") + supply("24.0 V"),
    HOUSE + VAN + gauge("50 psi") + reading("displayed-fault", "low-signal") + supply("OL"),
)


@pytest.mark.parametrize("text", VISITS)
def test_an_answer_comes_back_the_same_to_the_last_digit(text: str) -> None:
    """A round trip: equal, and alike in every figure and kind of value, which ``repr`` tells."""
    answer = diagnose(parse_visit(text).visit)
    again = answer_of(text_of(answer), DIAGNOSIS)
    assert again == answer
    assert repr(again) == repr(answer)


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", '"word"', '{"is":"Path"}', '{"is":"Answer"}', '{"is":"Question","measure":"volts"}', '{"has":1}'],
)
def test_what_is_no_answer_is_none(text: str) -> None:
    """Nothing but the values of an answer is made of a text, and nothing is raised."""
    assert answer_of(text, DIAGNOSIS) is None


def test_equal_values_are_plain_alike_in_whatever_order_they_were_made() -> None:
    """A property: a key must not hang on the order of a set or of a mapping."""
    assert plain({"b": frozenset(("y", "x")), "a": 1}) == plain({"a": 1, "b": frozenset(("x", "y"))})
