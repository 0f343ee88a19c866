"""A report leaves by the person's own hand in a real browser: copied, shared, saved."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Opener
from tests.browser.taps import button

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: A browser that shares and copies, and tells what it was given.
HANDS = """() => { window.given = [];
  navigator.canShare = () => true;
  navigator.share = async ({ files: [file] }) => { window.given.push([file.name, await file.text()]); };
  Object.defineProperty(navigator, "clipboard", { value: { writeText: async (text) => window.given.push(text) } }); }"""


def test_the_whole_report_is_shared_copied_and_saved_as_it_is_shown(opened: Opener, tmp_path: Path) -> None:
    """Three ways, one text; without a tap nothing is handed to anybody."""
    page = opened()
    page.add_init_script(f"({HANDS})()")
    page.goto("/settings")
    page.get_by_role("link", name="Report a problem").click()
    page.get_by_label("What did you do, and what happened?").fill("It hung, twice.")
    button(page, "Put my words in").tap()
    shown = page.locator("pre.report")
    expect(shown).to_contain_text("It hung, twice.")
    text = shown.evaluate("e => e.textContent")
    assert page.evaluate("window.given") == []
    button(page, "Share it").tap()
    page.wait_for_function("() => window.given.length === 1")
    button(page, "Copy it").tap()
    expect(button(page, "Copied.")).to_be_visible()
    assert page.evaluate("window.given") == [["steadyhead-report.txt", text], text]
    for _ in range(2):  # a file can be saved again
        with page.expect_download() as saved:
            button(page, "Save it as a file").tap()
        saved.value.save_as(tmp_path / "report.txt")
        assert (tmp_path / "report.txt").read_text(encoding="utf-8") == text


def test_without_scripts_a_report_is_read_and_saved(opened: Opener, tmp_path: Path) -> None:
    """Forms alone; no button that could do nothing."""
    page = opened(scripts=False)
    page.goto("/report")
    page.get_by_label("What did you do, and what happened?").fill("It hung.")
    button(page, "Put my words in").click()
    text = page.locator("pre.report").inner_text()
    assert text.startswith("It hung.")
    expect(button(page, "Share it")).to_be_hidden()
    with page.expect_download() as saved:
        button(page, "Save it as a file").click()
    saved.value.save_as(tmp_path / "report.txt")
    assert (tmp_path / "report.txt").read_text(encoding="utf-8").strip() == text.strip()
