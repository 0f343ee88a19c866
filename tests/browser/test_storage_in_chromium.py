"""What only a browser knows of room and keeping, as a script puts it into the pages; the browser's answers are set."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from steadyhead.web.views.room import RESERVE, USUAL_PHOTO
from tests.browser.conftest import Opener
from tests.browser.conftest import phone as in_a_phone
from tests.browser.served import Served
from tests.browser.taps import three_taps
from tests.offline.handed import Handed

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: What the browser is made to answer: how much it grants and holds, whether it promised, and what it says if asked.
ANSWERS = """([quota, usage, kept, grants]) => {
  let promised = kept; window.asked = 0;
  Object.defineProperty(navigator, "storage", { configurable: true, value: {
    estimate: async () => ({ quota, usage }), persisted: async () => promised,
    persist: async () => { window.asked += 1; promised = grants; return grants; } } }); }"""
APPLE = "() => Object.defineProperty(navigator, 'vendor', { get: () => 'Apple Computer, Inc.' })"
INSTALLED = """() => { const real = window.matchMedia.bind(window);
  window.matchMedia = (asked) => asked.includes("standalone") ? { matches: true } : real(asked); }"""


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory, served: Served | Handed) -> Iterator[str]:
    """Return the address of an app whose home is a phone's browser: the very one where these tests run in it."""
    if in_a_phone():
        yield served.address
        return
    app = Served(tmp_path_factory.mktemp("phone") / "steadyhead.db", program=("tests.browser.as_a_phone",))
    app.start()
    yield app.address
    app.stop()


def answering(page: Page, quota: int, usage: int = 0, *, kept: bool = False, grants: bool = True) -> None:
    """Have the browser answer so from the next page on."""
    told = str([quota, usage, kept, grants]).lower()
    page.add_init_script(f"({ANSWERS})({told})")


def test_room_and_promise_are_said_in_words_and_asked_for_by_a_tap_alone(opened: Opener, phone: str) -> None:
    """50 GB granted, 19 of them taken: 31 GB."""
    page = opened(address=phone)
    answering(page, 50_000_000_000, 19_000_000_000)
    page.goto("/settings/storage")
    expect(page.get_by_text("Room left: 31 GB")).to_be_visible()
    expect(page.get_by_text("Not promised: this browser may clear")).to_be_visible()
    assert page.evaluate("window.asked") == 0
    page.get_by_role("button", name="Ask it to promise").tap()
    expect(page.get_by_text("Yes: this browser promised")).to_be_visible()
    expect(page.get_by_role("button", name="Ask it to promise")).to_be_hidden()
    assert page.evaluate("window.asked") == 1


def test_a_browser_that_refuses_is_answered_for_and_may_be_asked_again(opened: Opener, phone: str) -> None:
    """What helps stands beside it."""
    page = opened(address=phone)
    answering(page, 10**9, grants=False)
    page.goto("/settings")
    page.get_by_role("link", name="What this device keeps").click()
    page.get_by_role("button", name="Ask it to promise").tap()
    expect(page.get_by_text("It did not promise.")).to_be_visible()
    expect(page.get_by_role("button", name="Ask it to promise")).to_be_visible()


@pytest.mark.parametrize(("apple", "installed"), [(True, False), (True, True), (False, False)])
def test_where_a_browser_erases_after_idle_days_the_page_warns_beside_a_copy(
    opened: Opener, phone: str, *, apple: bool, installed: bool
) -> None:
    """Safari's rule of seven days (webkit.org/blog/10218, from memory) spares what stands on the home screen."""
    page = opened(address=phone)
    answering(page, 10**9)
    for script in (APPLE if apple else "", INSTALLED if installed else ""):
        page.add_init_script(f"({script})()" if script else "")
    page.reload()  # the page around the app, too, hears of it
    page.goto("/settings/storage")
    expect(page.get_by_text("Room left: 1.0 GB")).to_be_visible()
    warns = page.locator("[data-kept=idle]")
    expect(warns).to_be_visible(visible=apple and not installed)
    expect(page.get_by_text("opened from the home screen. That")).to_be_visible(visible=installed)
    expect(page.get_by_text("tap the share sign")).to_be_visible(visible=not installed)
    if apple and not installed:
        expect(warns.get_by_role("link", name="Save a copy of everything")).to_be_visible()


@pytest.mark.parametrize(
    ("count", "says"),
    [(45, "Photos that still fit here: about 45."), (3, "Little room left."), (0, "no room left for a photo"),
     (900, "more than 500")],
)  # fmt: skip
def test_room_for_photos_is_said_before_one_is_taken(opened: Opener, phone: str, count: int, says: str) -> None:
    """Whole photos after what is kept back for readings; by a full load, and by the app's own way from page to page."""
    page = opened(address=phone)
    answering(page, RESERVE + count * USUAL_PHOTO + 100_000 + 5000, 5000)
    visit = three_taps(page)
    page.get_by_role("link", name="Photos", exact=True).click()
    expect(page.get_by_text(says)).to_be_visible()
    page.goto(f"{visit}/first-minute?at=photo")
    expect(page.get_by_text(says)).to_be_visible()


def test_a_browser_that_tells_nothing_is_said_to_tell_nothing(opened: Opener, phone: str) -> None:
    """No figure is made up, no button that could do nothing."""
    page = opened(address=phone)
    page.add_init_script("Object.defineProperty(navigator, 'storage', { value: undefined })")
    page.goto("/settings/storage")
    expect(page.get_by_text("this browser does not tell")).to_be_visible()
    expect(page.get_by_text("This browser makes no such promise")).to_be_visible()
    expect(page.get_by_role("button", name="Ask it to promise")).to_be_hidden()
