"""Answers about a system: read from text, all that is wrong named at once, unknown being normal."""

from __future__ import annotations

from dataclasses import fields

import pytest

from steadyhead.errors import AnswersError
from steadyhead.water.known import QUESTIONS, Known, field_of, known_from


def test_every_question_fills_a_field_and_every_field_has_a_question() -> None:
    """One table: the questions against the fields."""
    assert {field_of(each.key) for each in QUESTIONS} == {each.name for each in fields(Known)}


def test_nothing_known_is_an_answer() -> None:
    """Unknown is normal."""
    assert known_from({}) == known_from({"lift": "  "}) == Known()


def test_a_figure_comes_with_its_unit_and_may_have_two_ends() -> None:
    """By the units' definitions: 100 ft is 30.48 m, 1 bar is 100 kPa."""
    known = known_from({"lift": "80..100 ft", "relief-set": "6 bar", "incoming": "1 bar"})
    assert known.lift == pytest.approx((24.384, 30.48))
    assert known.relief_set == pytest.approx(600e3)
    assert known.incoming == (100e3, 100e3)


def test_all_that_is_wrong_is_named_at_once_by_its_key() -> None:
    """A bare number, an unknown word, a figure below zero, a question that does not exist."""
    with pytest.raises(AnswersError, match="tonight-refused") as refused:
        known_from({"lift": "100", "pump": "jet engine", "weakest": "-5 psi", "weather": "fine"})
    assert [each.key for each in refused.value.problems] == ["lift", "pump", "weakest", "weather"]


@pytest.mark.parametrize(
    ("answers", "key"),
    [
        ({"shut-off": "100 ft", "duty-head": "120 ft"}, "duty-head"),
        ({"draws": "well", "incoming": "30 psi"}, "incoming"),
        ({"draws": "main", "lift": "30 ft"}, "lift"),
        ({"rated-hertz": "60 Hz", "test-hertz": "6 Hz"}, "test-hertz"),
    ],
)
def test_answers_that_cannot_stand_beside_each_other_are_refused(answers: dict[str, str], key: str) -> None:
    """The trade's own facts: a curve falls, a well has no pressure, a main no lift."""
    with pytest.raises(AnswersError) as refused:
        known_from(answers)
    assert [each.key for each in refused.value.problems] == [key]
