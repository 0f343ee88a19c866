"""A paper as the browser prints it: on its own sheet, without the app about it, one page where it is made for one."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Opener, phone
from tests.browser.taps import button, three_taps
from tests.browser.test_arriving_in_chromium import photo
from tests.browser.test_typefaces_and_drawing import visit_address
from tests.support import require_tool

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Sheets in points: ISO 216 A6 is 105 mm by 148 mm, A4 210 mm by 297 mm; 72 points an inch of 25.4 mm.
SHEETS = {"a6": (105 / 25.4 * 72, 148 / 25.4 * 72), "a4": (210 / 25.4 * 72, 297 / 25.4 * 72)}
IMAGE = b"/Subtype /Image"


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


def words(page: Page, file: Path) -> list[str]:
    """Return the words of what the browser prints, read by another program (poppler's pdftotext)."""
    page.pdf(path=file, prefer_css_page_size=True)
    done = subprocess.run([require_tool("pdftotext"), "-raw", str(file), "-"], check=True, capture_output=True)
    return done.stdout.decode().split()


@pytest.mark.parametrize("what", ["paper", "guide"])
def test_what_is_longer_than_a_screen_is_printed_to_its_last_word(opened: Opener, tmp_path: Path, what: str) -> None:
    """The words of the page itself, in our own face: a paper with every figure's making, and the quick guide."""
    page, file = opened(), tmp_path / "printed.pdf"
    page.goto(f"{visit_address(page)}/papers/office?trace=yes" if what == "paper" else "/guide")
    page.evaluate("document.fonts.ready")
    shown = page.evaluate("document.querySelector('.paper, .told').innerText").split()
    printed = words(page, file)
    assert len(shown) > 500
    assert printed[-12:] == shown[-12:]
    assert len(set(shown) - set(printed)) <= 1  # a word may be broken at a line's end
    assert "Save the file" not in " ".join(printed)
    faces = set(re.findall(rb"/FontName /[A-Z]{6}\+(\S+)", file.read_bytes()))
    assert {b"AtkinsonHyperlegibleNext-Regular", b"AtkinsonHyperlegibleNext-Bold"} <= faces
    assert not any(b"DejaVu" in face for face in faces)


def test_a_papers_photos_are_printed_with_it(opened: Opener, tmp_path: Path) -> None:
    """The pictures that stand in the browser's own PDF, which has none where the visit has none."""
    page = opened()
    visit = three_taps(page)
    page.goto(f"{visit}/papers/office")
    without = page.pdf().count(IMAGE)
    page.goto(f"{visit}/photos")
    page.locator("input[data-shrink]").first.set_input_files(photo(page, 600, 400, tmp_path))
    expect(page.locator(".photos img")).to_have_count(1)
    page.goto(f"{visit}/papers/office")
    page.locator(".paper .pictures img").evaluate("image => image.decode()")
    assert (without, page.pdf().count(IMAGE)) == (0, 1)


def test_a_print_leaves_the_page_where_it_was(opened: Opener) -> None:
    """Nothing of it stays behind, and who had read down to a line is still there."""
    page = opened()
    page.goto(f"{visit_address(page)}/papers/office?trace=yes")
    page.evaluate("window.scrollTo(0, 700)")
    page.pdf()
    assert page.evaluate("window.scrollY") == 700
    assert page.main_frame.evaluate("document.getElementById('printed')?.childElementCount ?? 0") == 0
    assert page.main_frame.evaluate("document.adoptedStyleSheets.length") == 0


@pytest.mark.parametrize("where", ["papers/reading-card", "guide"])
def test_a_home_without_pdf_has_a_button_that_prints_the_page_itself(opened: Opener, where: str) -> None:
    """The very page, not the one about it; where there is a PDF, that is what one prints."""
    page = opened()
    page.add_init_script("window.print = () => { window.askedFor = document.title; };")
    page.goto(f"/{where}" if where == "guide" else f"{visit_address(page)}/{where}")
    if not phone():
        expect(page.get_by_role("link", name="PDF")).to_be_visible()
        expect(button(page, "Print")).to_have_count(0)
        return
    button(page, "Print").tap()
    assert page.evaluate("window.askedFor") == page.title()
    assert page.main_frame.evaluate("window.askedFor ?? ''") == ""


def test_a_click_on_a_figure_leads_to_how_it_was_made(opened: Opener) -> None:
    """The line of that figure is where the browser stands afterwards."""
    page = opened()
    page.goto(f"{visit_address(page)}/papers/reading-card")
    figure = page.locator(".paper table a.figure").first
    target = str(figure.get_attribute("href"))
    figure.click()
    assert page.evaluate("location.hash") == target
    assert page.locator(target).bounding_box() is not None
