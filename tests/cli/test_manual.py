"""The manual and the help know every command and every option."""

from __future__ import annotations

import inspect
from pathlib import Path

import pytest

from steadyhead.cli.app import app
from steadyhead.service.lists import tables_json
from tests.cli.terminal import Terminal

pytestmark = pytest.mark.laptop

MANUAL = (Path(__file__).resolve().parents[2] / "docs" / "commands.md").read_text(encoding="utf-8")
COMMANDS = {str(c.name or c.callback.__name__): c.callback for c in app.registered_commands if c.callback is not None}


@pytest.mark.parametrize("command", COMMANDS)
def test_the_manual_has_every_command(command: str) -> None:
    """The program's own list of commands."""
    assert f"`steadyhead {command}" in MANUAL


@pytest.mark.parametrize("command", COMMANDS)
def test_the_help_of_a_command_has_an_example_and_every_option(terminal: Terminal, command: str) -> None:
    """The command's own parameters, and the house rule that help shows an example."""
    said = terminal.run(command, "--help").out
    assert f"Example: steadyhead {command}" in said
    assert "--json" in said
    named = {"region", "pressure", "company", "trace", "undo", "data", "rebuild", "bundle"}
    options = set(inspect.signature(COMMANDS[command]).parameters) & named
    assert all(f"--{option}" in said for option in options)


@pytest.mark.parametrize(
    "option",
    [
        "--json", "--region", "--pressure", "--company", "--trace", "--dry-run", "--undo", "--data", "--rebuild",
        "--bundle", "--help", "--install-completion",
    ],
)
def test_the_manual_has_every_option(option: str) -> None:
    """The options of all commands."""
    assert option in MANUAL


def test_the_shell_is_taught_to_complete(terminal: Terminal) -> None:
    """The switch that prints the completion's script exists."""
    assert "--show-completion" in terminal.run("--help").out


def test_the_manual_names_a_table_that_exists() -> None:
    """The published catalogue."""
    assert any(f"tables {table['table']}" in MANUAL for table in tables_json())
