"""The command as a process of its own: started as a module, piped, stopped."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

import steadyhead

pytestmark = pytest.mark.laptop

SOURCE = str(Path(steadyhead.__file__).parent.parent)


def run(*words: str, **variables: str) -> subprocess.CompletedProcess[bytes]:
    """Run ``python -m steadyhead`` with these words."""
    environment = {**os.environ, "PYTHONPATH": SOURCE, **variables}
    command = [sys.executable, "-m", "steadyhead", *words]
    return subprocess.run(command, check=False, capture_output=True, env=environment, stdin=subprocess.DEVNULL)


def test_a_pipe_gets_plain_text_whatever_the_terminal_wants() -> None:
    """No escape codes in a pipe, also where colour is asked for."""
    ended = run("checks", FORCE_COLOR="1", CLICOLOR_FORCE="1", TERM="xterm-256color")
    assert ended.returncode == 0
    assert b"\x1b" not in ended.stdout + ended.stderr


def test_a_terminal_that_knows_no_such_sign_gets_another() -> None:
    """A path with a letter that this terminal's encoding lacks."""
    ended = run("check-file", "caf\u00e9\u4e2d.toml", PYTHONIOENCODING="ascii", PYTHONUTF8="1")
    assert ended.returncode == 2
    assert b"Traceback" not in ended.stderr


def test_the_version_needs_nothing_heavy() -> None:
    """Of the modules that are imported none is typer, tomlkit or a part of the engine."""
    code = "import sys; from steadyhead.cli.entry import main; main(['--version']); print(sorted(sys.modules))"
    environment = {**os.environ, "PYTHONPATH": SOURCE}
    ended = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, env=environment, text=True)
    heavy = ("typer", "tomlkit", "rich", "steadyhead.diagnosis", "steadyhead.visit", "steadyhead.words")
    assert [name for name in heavy if f"'{name}'" in ended.stdout] == []


def test_a_help_in_english_needs_no_words() -> None:
    """Help stands with the commands; only another language is asked of the words."""
    code = (
        "import sys; from steadyhead.cli.entry import main; main(['paper', '--help']); "
        "print('steadyhead.words' in sys.modules)"
    )
    environment = {**os.environ, "PYTHONPATH": SOURCE}
    environment.pop("STEADYHEAD_LANGUAGE", None)
    ended = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, env=environment, text=True)
    assert ended.stdout.rstrip().endswith("False")


def test_json_and_errors_need_no_rich() -> None:
    """Rich costs its time only where it is used, and nothing here uses it."""
    code = (
        "import sys; from steadyhead.cli.entry import main; main(['tables', '--json']); main(['nonsense']); "
        "print('rich' in sys.modules)"
    )
    environment = {**os.environ, "PYTHONPATH": SOURCE}
    ended = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, env=environment, text=True)
    assert ended.stdout.rstrip().endswith("False")
