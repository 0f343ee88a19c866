"""A phone's app that is killed at random moments loses nothing; run by ``python3 scripts/offline.py --prove``."""

from __future__ import annotations

import pytest

from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.kills import WAYS, Kills

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

TIMES = 10


def test_nothing_answered_for_is_lost_however_the_app_is_killed(handed: Handed, browser: Killable) -> None:
    """Ten kills; a hundred are made by benchmarks/phone_kills.py."""
    seen = list(Kills(browser, handed, seed=7).often(TIMES))
    assert [outcome for outcome in seen if not outcome.fine] == []
    assert {outcome.way for outcome in seen} == set(WAYS)
    assert seen[-1].told >= TIMES
