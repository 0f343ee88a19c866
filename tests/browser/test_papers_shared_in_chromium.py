"""A paper leaves by the phone's own sheet in a real browser, as the file that the link beside it saves."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Opener
from tests.browser.taps import button, three_taps

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: A browser that shares files, and tells what it was given.
HANDS = """() => { window.given = [];
  navigator.canShare = ({ files: [file] }) => ["text/html", "application/pdf"].includes(file.type);
  navigator.share = async ({ files: [file] }) => { window.given.push([file.name, file.size]); }; }"""
GIVEN = "() => window.given.length === 1"


def test_a_paper_is_shared_as_the_file_that_the_link_saves(opened: Opener, tmp_path: Path) -> None:
    """One name, one content; the page stays where it is, since sharing a paper notes nothing."""
    page = opened()
    page.add_init_script(f"({HANDS})()")
    page.goto(f"{three_taps(page)}/papers/reading-card?decimal=,")
    before = page.url
    button(page, "Share the file").tap()
    page.wait_for_function(GIVEN)
    [(name, size)] = page.evaluate("window.given")
    with page.expect_download() as saved:
        page.get_by_role("link", name="Save the file").click()
    saved.value.save_as(tmp_path / "paper")
    assert name == saved.value.suggested_filename
    assert size == (tmp_path / "paper").stat().st_size
    assert page.url == before


def test_a_browser_that_shares_no_files_has_the_link_alone(opened: Opener) -> None:
    """No button that could do nothing."""
    page = opened()
    page.add_init_script("navigator.canShare = () => false;")
    page.goto(f"{three_taps(page)}/papers/customer")
    expect(button(page, "Share the file")).to_be_hidden()
    expect(page.get_by_role("link", name="Save the file")).to_be_visible()
