"""``steadyhead tank``: text and JSON, what is refused, and that every question is an option."""

from __future__ import annotations

import inspect
import json

import pytest

from steadyhead.cli import tank_command
from steadyhead.water.tank import QUESTIONS
from tests.cli.terminal import Terminal

pytestmark = pytest.mark.laptop

EXAMPLE = ("--volume", "85 gal", "--precharge", "28 psi", "--wake", "30 psi", "--stop", "50 psi")


def test_every_question_is_an_option() -> None:
    """One table: the questions against the command's parameters."""
    taken = set(inspect.signature(tank_command.run).parameters) - {"unit", "as_json", "region"}
    assert taken == {each.key for each in QUESTIONS}


def test_what_it_gives_stands_first(terminal: Terminal) -> None:
    """A trade journal's worked example: 25.1 gal."""
    ended = terminal.run("tank", *EXAMPLE)
    assert (ended.code, ended.err) == (0, "")
    assert ended.out.startswith("From 50 psi down to 30 psi the pressure tank gives about 25 gal.")


def test_json_has_si_figures_with_their_formulas(terminal: Terminal) -> None:
    """25.1 gal at the book's 14.7 psi of air; 0.003785411784 m3 a gallon."""
    found = json.loads(terminal.run("tank", *EXAMPLE, "--json").out)
    (drawn,) = [each for each in found["figures"] if each["name"] == "tank-drawdown"]
    assert drawn["value"] == pytest.approx(25.1 * 0.003785411784, rel=2e-3)
    assert drawn["formula"].startswith("tank-volume * (precharge + barometer)")


def test_all_wrong_options_are_named_and_nothing_is_printed(terminal: Terminal) -> None:
    """The house's way with wrong input: exit code 2, stdout empty."""
    ended = terminal.run("tank", "--volume", "85", "--precharge", "28 psi", "--wake", "30 psi")
    assert (ended.code, ended.out) == (2, "")
    assert "--volume" in ended.err
    assert "--stop" in ended.err
