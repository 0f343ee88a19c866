"""One diagnosis for each state of a file, however many tests come by it."""

from __future__ import annotations

import pytest

from tests.service.guide.talks import remembered


@pytest.fixture(autouse=True)
def diagnosed_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep the answers of the real diagnosis."""
    monkeypatch.setattr("steadyhead.service.guide.thinking.diagnose", remembered)
