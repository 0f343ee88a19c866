"""The program is killed while it writes; what it said it kept is there."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from benchmarks.kills import kill_often

pytestmark = pytest.mark.laptop

#: Ten where everything must run, three on a laptop; `benchmarks/kills.py` makes two hundred.
KILLS = 10 if os.environ.get("CI") else 3


def test_no_fact_that_was_told_is_lost_however_the_program_ends(tmp_path: Path) -> None:
    """The promise of a commit, told by the program itself after each one."""
    seen = list(kill_often(tmp_path / "record.db", KILLS, seed=7))
    assert [outcome for outcome in seen if not outcome.fine] == []
    assert len({outcome.told for outcome in seen}) == KILLS
