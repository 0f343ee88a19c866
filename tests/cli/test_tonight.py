"""``steadyhead tonight``: text and JSON, what is refused, and that every question is an option."""

from __future__ import annotations

import inspect
import json

import pytest

from steadyhead.cli import tonight_command
from steadyhead.water.known import QUESTIONS, field_of
from tests.cli.terminal import Terminal
from tests.water.answered import WELL

pytestmark = pytest.mark.laptop


def options(answers: dict[str, str]) -> list[str]:
    """Return answers as a command's options."""
    return [word for key, text in answers.items() for word in (f"--{key}", text)]


def test_every_question_is_an_option() -> None:
    """One table: the questions against the command's parameters."""
    taken = set(inspect.signature(tonight_command.run).parameters) - {"unit", "as_json", "region"}
    assert taken == {field_of(each.key) for each in QUESTIONS}


def test_the_best_way_stands_first_with_its_limits(terminal: Terminal) -> None:
    """The worked example by hand: 42.7 Hz, 90 psi."""
    ended = terminal.run("tonight", *options(WELL))
    assert ended.code == 0
    assert ended.out.index("42.7 Hz  Never faster than") < ended.out.index("90 psi  Gauge never above")
    assert max(map(len, ended.out.splitlines())) <= 80


def test_json_has_ids_si_figures_and_sentences(terminal: Terminal) -> None:
    """42.7 Hz; 90 psi by the printed factor."""
    found = json.loads(terminal.run("tonight", *options(WELL), "--json").out)
    assert found["best"] == "fixed-speed"
    limits = {each["name"]: each for each in found["ways"][3]["limits"]}
    assert limits["tonight-most"]["value"] == pytest.approx(42.7)
    assert limits["tonight-limit"]["value"] == pytest.approx(90 * 6894.757)
    assert limits["tonight-limit"]["formula"]


def test_all_wrong_options_are_named_and_nothing_is_printed(terminal: Terminal) -> None:
    """The house's way with wrong input: exit code 2, stdout empty."""
    ended = terminal.run("tonight", "--lift", "100", "--serves", "nobody")
    assert (ended.code, ended.out) == (2, "")
    assert "--lift" in ended.err
    assert "--serves" in ended.err


def test_a_fire_pump_is_refused_in_words(terminal: Terminal) -> None:
    """Nothing but the refusal."""
    ended = terminal.run("tonight", *options({**WELL, "serves": "fire"}))
    assert "nothing temporary is worked out" in ended.out.replace("\n", " ")
    assert "Hz" not in ended.out
