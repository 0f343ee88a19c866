"""The examples' figures on this Python are those of another one, to 1e-9: CPython's, where this is a browser's."""

from __future__ import annotations

import json
import os
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests.diagnosis.figures import differences, figures
from tests.diagnosis.visits import named
from tests.service.answers import NAMES

#: File with another Python's figures; `scripts/in_pyodide.py` names it.
ANOTHER = os.environ.get("STEADYHEAD_FIGURES")


@cache
def another() -> dict[str, dict[str, Any]]:
    """Return the figures of another Python."""
    assert ANOTHER is not None
    found: dict[str, dict[str, Any]] = json.loads(Path(ANOTHER).read_text(encoding="utf-8"))
    return found


@pytest.mark.skipif(ANOTHER is None, reason="compares with CPython inside Pyodide: python3 scripts/in_pyodide.py")
@pytest.mark.parametrize("name", NAMES)
def test_the_figures_are_those_of_another_python(name: str) -> None:
    """The contract: the same file gives the same answer everywhere, to 1e-9; written in the same run by CPython."""
    assert differences(another()[name], figures(name, named(name))) == []


def test_a_word_a_missing_figure_and_one_that_is_off_are_told() -> None:
    """By hand; a whole number is not the same as a word or a true, and a large figure may be off by its size."""
    one = {"p": 0.5, "n": 3, "w": "cable", "t": True, "big": 1e6}
    assert differences(one, {**one, "p": 0.5 + 5e-10, "big": 1e6 + 5e-4}) == []
    assert differences(one, {**one, "p": 0.5 + 2e-9, "big": 1e6 + 5e-3}) == [
        "big: 1000000.0 and 1000000.005", "p: 0.5 and 0.500000002",
    ]  # fmt: skip
    assert differences(one, {**one, "w": "sensor", "t": 1, "n": 4}) == [
        "n: 3 and 4", "t: True and 1", "w: cable and sensor",
    ]  # fmt: skip
    assert differences({"p": 0.5}, {}) == ["p: 0.5 and nothing"]


def test_every_figure_of_an_answer_is_compared() -> None:
    """The example's own suspects and checks, counted."""
    found = named(NAMES[0])
    ways = figures("x", found)
    probabilities = [way for way in ways if way.startswith("x suspects") and way.endswith("probability")]
    assert len(probabilities) == len(found["suspects"])
    assert sum(way.endswith("saves_minutes") for way in ways) == len(found["next_checks"])
