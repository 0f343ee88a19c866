"""The terminal of the commands' tests."""

import pytest

from tests.cli.terminal import Terminal


@pytest.fixture
def terminal(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """Return a terminal."""
    return Terminal(capsys, monkeypatch)
