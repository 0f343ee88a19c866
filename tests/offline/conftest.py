"""What the proofs in a real Chromium share; its driver is imported by whoever asks for it alone."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import axe  # noqa: F401 - a fixture here too
from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.support import ROOT

if TYPE_CHECKING:
    from playwright.sync_api import Playwright

FOLDER = ROOT / "build" / "offline"


@pytest.fixture
def driver() -> Iterator[Playwright]:
    """Return what drives a browser."""
    from playwright.sync_api import expect, sync_playwright  # noqa: PLC0415 - a browser's Python reads this file too

    from tests.browser.conftest import PATIENCE  # noqa: PLC0415 - as above

    expect.set_options(timeout=2 * PATIENCE)
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture
def handed() -> Iterator[Handed]:
    """Return the folder's server."""
    server = Handed(FOLDER)
    yield server
    server.stop()


@pytest.fixture
def browser(driver: Playwright, tmp_path: Path) -> Iterator[Killable]:
    """Return a browser that was never here before; it may complain of nothing."""
    browser = Killable(driver, tmp_path / "profile")
    yield browser
    browser.kill()
    assert browser.complaints == []
