"""The commands speak the language of the environment; their help and their refusals are in `test_help_in_spanish`."""

from __future__ import annotations

import pytest

from tests.cli.terminal import Terminal
from tests.support import ROOT

EXAMPLE = str(ROOT / "examples" / "booster-reversed-loop.toml")


@pytest.fixture
def spanish(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """Return a terminal whose environment asks for Spanish."""
    monkeypatch.setenv("STEADYHEAD_LANGUAGE", "es")
    return terminal


@pytest.mark.laptop  # reads an example of the checkout
def test_a_visit_is_told_in_the_language_of_the_environment(spanish: Terminal) -> None:
    """Words of the trade, the region's own, and a decimal comma."""
    said = spanish.run("expect", EXAMPLE, "--region", "elsewhere").out
    assert "Sensor 0..10 bar" in said
    assert "," in said


@pytest.mark.laptop  # reads an example of the checkout
def test_what_is_wrong_with_the_environment_is_said(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    """A language that nobody wrote."""
    monkeypatch.setenv("STEADYHEAD_LANGUAGE", "xx")
    ended = terminal.run("expect", EXAMPLE)
    assert ended.code != 0
    assert "There is no language xx here. The languages: en, es." in ended.err


def test_nothing_set_is_english(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    """An empty word counts as none."""
    for word in ("", "en"):
        monkeypatch.setenv("STEADYHEAD_LANGUAGE", word)
        assert "looks:" in terminal.run("faults").out
    monkeypatch.setenv("STEADYHEAD_LANGUAGE", "es")
    assert "se ve:" in terminal.run("faults").out


def test_the_worked_example_speaks_the_language_of_the_environment(spanish: Terminal) -> None:
    """What is typed next stays as it is typed."""
    ended = spanish.run()
    assert (ended.code, ended.err) == (0, "")
    assert "Lo que sabemos" in ended.out
    assert "steadyhead diagnose FILE" in ended.out
    assert [line for line in ended.out.splitlines() if len(line) > 80] == []
