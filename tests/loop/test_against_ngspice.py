"""The proof against ngspice, in a process of its own.

ngspice can be started once in a process, and the benchmark's tests start it too. What is proved stands in
`proof_against_ngspice.py`; `python -m pytest tests/loop/proof_against_ngspice.py -s` shows its figures.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.support import require_tool

pytestmark = [pytest.mark.ngspice, pytest.mark.laptop]

PROOF = Path(__file__).with_name("proof_against_ngspice.py")


def test_the_solver_agrees_with_ngspice() -> None:
    """By ngspice: 2,000 random loops of each kind of sensor, and 300 voltmeters hung into them."""
    require_tool("ngspice")
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", str(PROOF)]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", check=False, cwd=PROOF.parents[2])
    assert done.returncode == 0, done.stdout[-4000:] + done.stderr[-2000:]
    assert "5 passed" in done.stdout
