"""Arriving in a real browser: a photo that lies on its side and says where it was taken, the first minute, cautions."""

from __future__ import annotations

from base64 import b64decode
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Opener
from tests.browser.taps import VISIT, button, three_taps
from tests.service.photos.made import SECRETS, segment, tiff

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Draws a photo of so many pixels, as a camera's JPEG.
DRAW = """([wide, high]) => { const c = document.createElement('canvas'); c.width = wide; c.height = high;
  const g = c.getContext('2d'); g.fillStyle = '#567'; g.fillRect(0, 0, wide, high); g.fillStyle = '#cec';
  g.fillRect(wide / 4, high / 4, wide / 2, high / 2); return c.toDataURL('image/jpeg', 0.9).split(',')[1]; }"""
SIZE = "image => image.decode().then(() => [image.naturalWidth, image.naturalHeight])"


def photo(page: Page, wide: int, high: int, folder: Path, orientation: int = 1) -> Path:
    """Return a photo as a phone leaves it: drawn by the browser, with an Exif block that says everything."""
    drawn = b64decode(page.evaluate(DRAW, [wide, high]))
    file = folder / "IMG_0001.JPG"
    file.write_bytes(drawn[:2] + segment(0xE1, b"Exif\0\0" + tiff(orientation)) + drawn[2:])
    return file


@pytest.mark.parametrize("scripts", [True, False])
def test_a_photo_comes_upright_and_says_nothing_of_its_place(opened: Opener, tmp_path: Path, scripts: bool) -> None:
    """Chromium is the outside reader: 600 x 400 turned by a quarter (Exif 6) is 400 wide and 600 high."""
    page = opened(scripts=scripts)
    visit = three_taps(page)
    page.goto(f"{visit}/photos")
    page.locator("input[data-shrink]").first.set_input_files(photo(opened(), 600, 400, tmp_path, orientation=6))
    if not scripts:
        button(page, "Keep the photo").click()
    picture = page.locator(".photos img")
    expect(picture).to_have_count(1)
    assert picture.evaluate(SIZE) == ([213, 320] if scripts else [400, 600])
    picture.click()
    picture = page.locator(".photo img")
    assert picture.evaluate(SIZE) == [400, 600]
    kept = page.request.get(f"{page.url.partition('/visits')[0]}{picture.get_attribute('src')}").body()
    assert [secret for secret in SECRETS if secret in kept] == []


def test_a_large_photo_is_made_small_before_it_is_sent(opened: Opener, tmp_path: Path) -> None:
    """4000 x 3000 to a longest side of 2048: 2048 x 1536; in the list, of 320: 320 x 240."""
    page = opened()
    page.goto(f"{three_taps(page)}/photos")
    page.locator("input[data-shrink]").first.set_input_files(photo(page, 4000, 3000, tmp_path))
    picture = page.locator(".photos img")
    expect(picture).to_have_count(1)
    assert picture.evaluate(SIZE) == [320, 240]
    picture.click()
    assert page.locator(".photo img").evaluate(SIZE) == [2048, 1536]


def test_what_is_no_photo_is_told_and_the_next_one_is_kept(opened: Opener, tmp_path: Path) -> None:
    """A wrong file: the page says so, and the same field takes another."""
    page = opened()
    page.goto(f"{three_taps(page)}/photos")
    (tmp_path / "plan.pdf").write_bytes(b"%PDF-1.7 not a photo")
    page.locator("input[data-shrink]").first.set_input_files(tmp_path / "plan.pdf")
    expect(page.get_by_role("alert").filter(has_text="no photo that can be kept")).to_be_visible()
    page.locator("input[data-shrink]").first.set_input_files(photo(page, 60, 40, tmp_path))
    expect(page.locator(".photos img")).to_have_count(1)


def test_a_picture_that_is_too_large_is_told_so_and_not_sent(opened: Opener) -> None:
    """13 MB that this browser cannot draw, so cannot make small; the way to choose another stays open."""
    page = opened()
    page.goto(f"{three_taps(page)}/photos")
    sent: list[str] = []
    page.on("request", lambda request: sent.append(request.method))
    page.locator("input[data-shrink]").last.set_input_files(
        {"name": "IMG_0002.HEIC", "mimeType": "image/heic", "buffer": bytes(13_000_000)}
    )
    expect(page.get_by_text("Not sent: this picture has 13 MB, and at most 12 MB can be kept.")).to_be_visible()
    assert "POST" not in sent


def test_the_first_minute_by_thumb(opened: Opener, tmp_path: Path) -> None:
    """Photo, fault, past the history, set pressure by the keypad; then to the checks, where it is not offered again."""
    page = opened()
    visit = three_taps(page)
    page.get_by_role("link", name="Take the first minute").tap()
    page.locator("input[data-shrink]").first.set_input_files(photo(page, 60, 40, tmp_path))
    expect(page.get_by_role("heading", name="Fault shown now")).to_be_visible()
    button(page, "Low signal").tap()
    expect(page.get_by_role("heading", name="Fault history")).to_be_visible()
    page.get_by_role("link", name="Not seen").tap()
    expect(page.get_by_role("heading", name="Set pressure")).to_be_visible()
    for key in ("6", "0"):
        page.locator(f".key[data-text='{key}']").tap()
    button(page, "Keep and go on").tap()
    expect(page.get_by_role("heading", name="Hours", exact=True)).to_be_visible()
    button(page, "To the checks").tap()
    expect(page).to_have_url(VISIT)
    assert page.url == visit
    expect(page.get_by_role("link", name="Take the first minute")).to_have_count(0)


def test_cautions_are_read_with_one_tap_and_what_was_typed_stays(opened: Opener) -> None:
    """A figure that was typed before the tap stands in the field after it."""
    page = opened()
    visit = three_taps(page)
    page.goto(f"{visit}/read?arrangement=sensor-unplugged&red=controller.signal&black=controller.common")
    page.locator("#said").fill("0.02")
    button(page, "Read. I'll heed them").tap()
    expect(page.locator("details.care")).to_be_visible()
    expect(page.locator("#said")).to_have_value("0.02")
    page.locator("details.care summary").tap()
    expect(page.get_by_text("Stop the drive first, start command taken away")).to_be_visible()
