"""The app that stops answering while somebody types, and comes back."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Opener
from tests.browser.served import Served
from tests.browser.taps import field, keep, three_taps, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]


def test_nothing_typed_is_lost_when_the_app_is_gone_and_it_is_kept_when_it_is_back(
    opened: Opener, tmp_path: Path
) -> None:
    """A banner says so; the same form is good after the restart, its key being the browser's own."""
    app = Served(tmp_path / "steadyhead.db")
    app.start()
    try:
        page = opened(address=app.address)
        three_taps(page)
        app.stop()
        field(page).fill("48")
        keep(page)
        expect(page.locator("#lost")).to_be_visible()
        expect(field(page)).to_have_value("48")
        app.start()
        keep(page)
        expect(values(page)).to_have_text(["48 psi"])
        expect(page.locator("#lost")).to_be_hidden()
    finally:
        app.stop()
