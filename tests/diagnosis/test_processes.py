"""The same file gets the same answer in another process, whatever order that process gives its sets."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.diagnosis.visits import text_of
from tests.support import ROOT

pytestmark = pytest.mark.laptop

_COMMAND = "import sys; from steadyhead.cli.entry import main; sys.argv[0] = 'steadyhead'; sys.exit(main())"


def told(file: Path, seed: str) -> str:
    """Return what the command prints for a file in a fresh process."""
    env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT / "src")}
    command = [sys.executable, "-c", _COMMAND, "diagnose", str(file), "--json"]
    done = subprocess.run(command, check=True, capture_output=True, env=env, encoding="utf-8")
    assert done.stderr == ""
    return done.stdout


def test_another_process_with_another_hash_seed_gives_the_same_answer(tmp_path: Path) -> None:
    """The contract: the same answer every time."""
    file = tmp_path / "visit.toml"
    file.write_text(text_of("loop-too-low"), encoding="utf-8")
    assert told(file, "1") == told(file, "4242")
