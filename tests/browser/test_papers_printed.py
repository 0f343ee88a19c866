"""A paper as the browser prints it: on its own sheet, without the app about it, one page where it is made for one."""

from __future__ import annotations

import re

import pytest

from tests.browser.conftest import Opener
from tests.browser.test_typefaces_and_drawing import visit_address

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Sheets in points: ISO 216 A6 is 105 mm by 148 mm, A4 210 mm by 297 mm; 72 points an inch of 25.4 mm.
SHEETS = {"a6": (105 / 25.4 * 72, 148 / 25.4 * 72), "a4": (210 / 25.4 * 72, 297 / 25.4 * 72)}


@pytest.mark.parametrize(("kind", "sheet"), [("reading-card", "a6"), ("tag", "a6"), ("customer", "a4")])
def test_a_paper_is_printed_on_one_sheet_of_its_own(opened: Opener, kind: str, sheet: str) -> None:
    """The sheet's size in the standard, and the pages that the browser's own PDF counts."""
    page = opened()
    page.goto(f"{visit_address(page)}/papers/{kind}?sheet={sheet}")
    page.evaluate("document.fonts.ready")
    made = page.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b(?!s)", made)) == 1
    box = re.search(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)", made)
    assert box is not None
    assert tuple(map(float, box.groups())) == pytest.approx(SHEETS[sheet], abs=1.5)  # the browser's whole pixels


def test_a_click_on_a_figure_leads_to_how_it_was_made(opened: Opener) -> None:
    """The line of that figure is where the browser stands afterwards."""
    page = opened()
    page.goto(f"{visit_address(page)}/papers/reading-card")
    figure = page.locator(".paper table a.figure").first
    target = str(figure.get_attribute("href"))
    figure.click()
    assert page.evaluate("location.hash") == target
    assert page.locator(target).bounding_box() is not None
