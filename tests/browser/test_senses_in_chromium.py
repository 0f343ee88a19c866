"""The phone's senses in a real browser: the screen that stays on, the buzz, large digits; upright and on its side."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Opener
from tests.browser.taps import button, field, keep, three_taps, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: A browser that keeps a screen on, and tells how often it was asked and let go.
LOCK = """() => { window.held = []; window.refuses = false;
  class Held extends EventTarget { constructor() { super(); this.released = false; window.held.push(this); }
    async release() { this.released = true; this.dispatchEvent(new Event("release")); } }
  Object.defineProperty(navigator, "wakeLock", { value: { request: async () => {
    if (window.refuses) throw new DOMException("no", "NotAllowedError");
    return new Held(); } } }); }"""
HELD = "() => [window.held.length, window.held.filter((each) => !each.released).length]"
#: What a browser does with a page that is hidden, and once it is seen again.
HIDE = """(hidden) => { Object.defineProperty(document, "visibilityState",
  { configurable: true, value: hidden ? "hidden" : "visible" });
  if (hidden) window.held.forEach((each) => each.release());
  document.dispatchEvent(new Event("visibilitychange")); }"""
BUZZ = "() => { window.buzzed = []; navigator.vibrate = (pattern) => { window.buzzed.push(pattern); return true; }; }"
ON, OFF = "The screen stays on. Tap to end that.", "Keep the screen on"


def with_(page: Page, script: str) -> Page:
    """Have a script run before each page's own."""
    page.add_init_script(f"({script})()")
    return page


def test_the_screen_stays_on_by_a_tap_until_the_next_and_is_asked_for_again_when_seen_again(opened: Opener) -> None:
    """Screen Wake Lock (W3C): a hidden page's lock is let go by the browser."""
    page = with_(opened(), LOCK)
    three_taps(page)
    assert page.evaluate(HELD) == [0, 0]
    button(page, OFF).tap()
    expect(button(page, ON)).to_have_attribute("aria-pressed", "true")
    assert page.evaluate(HELD) == [1, 1]
    page.evaluate(HIDE, True)
    assert page.evaluate(HELD) == [1, 0]
    page.evaluate(HIDE, False)
    expect(button(page, ON)).to_be_visible()
    assert page.evaluate(HELD) == [2, 1]
    button(page, ON).tap()
    expect(button(page, OFF)).to_have_attribute("aria-pressed", "false")
    assert page.evaluate(HELD) == [2, 0]


def test_it_stays_on_from_reading_to_reading_and_goes_dark_where_nothing_is_measured(opened: Opener) -> None:
    """One lock, let go on the way to the papers."""
    page = with_(opened(), LOCK)
    three_taps(page)
    button(page, OFF).tap()
    expect(button(page, ON)).to_be_visible()
    field(page).fill("48")
    keep(page)
    expect(values(page)).to_have_text(["48 psi"])
    expect(button(page, ON)).to_be_visible()
    assert page.evaluate(HELD) == [1, 1]
    page.get_by_role("link", name="Papers").first.click()
    expect(page.get_by_role("heading", name="Papers of this visit")).to_be_visible()
    assert page.evaluate(HELD) == [1, 0]


def test_a_phone_that_refuses_says_so_and_one_that_cannot_shows_no_button(opened: Opener) -> None:
    """A low battery; a browser without it."""
    page = with_(opened(), LOCK)
    three_taps(page)
    page.evaluate("window.refuses = true")
    button(page, OFF).tap()
    expect(page.get_by_text("The screen will go dark")).to_be_visible()
    other = with_(opened(), "() => Object.defineProperty(navigator, 'wakeLock', { value: undefined })")
    three_taps(other)  # a visit of its own: another phone has not this one's
    expect(field(other)).to_be_visible()
    expect(other.locator("[data-awake]")).to_be_hidden()


def test_a_kept_reading_buzzes_once_and_one_outside_healthy_twice(opened: Opener) -> None:
    """The invented visit: 2.42 V is healthy, 1.12 V is not; a refused one does not buzz."""
    page = with_(opened(), BUZZ)
    three_taps(page)
    field(page).fill("48")
    keep(page)
    expect(values(page)).to_have_text(["48 psi"])
    assert page.evaluate("window.buzzed") == [40]
    page.goto(f"{page.url}/read?red=controller.signal&black=controller.common")
    field(page).fill("forty")
    keep(page)
    expect(page.get_by_role("alert").filter(has_text="Not kept.")).to_be_visible()
    assert page.evaluate("window.buzzed") == []
    field(page).fill("1.12")
    keep(page)
    expect(values(page)).to_have_text(["48 psi", "1.12 V"])
    assert page.evaluate("window.buzzed") == [[120, 80, 120]]


def test_nothing_buzzes_for_whoever_wants_no_motion(opened: Opener) -> None:
    """The browser's own setting."""
    page = with_(opened(), BUZZ)
    page.emulate_media(reduced_motion="reduce")
    three_taps(page)
    field(page).fill("48")
    keep(page)
    expect(values(page)).to_have_text(["48 psi"])
    assert page.evaluate("window.buzzed") == []


@pytest.mark.parametrize(("wide", "high"), [(360, 640), (640, 360)])
@pytest.mark.parametrize("scripts", [True, False])
def test_large_digits_are_read_at_arm_s_length(opened: Opener, wide: int, high: int, *, scripts: bool) -> None:
    """At 70 cm, 22 minutes of arc (ISO 9241-303, from memory) are 4.5 mm; a digit of the band is half as high again.

    A pixel of a phone 360 of them and some 65 mm wide is 0.18 mm, a digit is 0.7 of its size: 54 pixels make 6.8 mm.
    """
    page = opened(scripts=scripts)
    page.set_viewport_size({"width": wide, "height": high})
    visit = three_taps(page)
    field(page).fill("48")
    keep(page)
    page.goto(f"{visit}/read?red=controller.signal&black=controller.common")
    page.get_by_role("link", name="Large digits").click()
    expect(page.get_by_role("link", name="Usual size")).to_be_visible()
    size = "e => parseFloat(getComputedStyle(e).fontSize)"
    assert page.locator(".healthy .figures").evaluate(size) >= 54
    assert field(page).evaluate(size) >= 54
    assert page.evaluate("document.documentElement.scrollWidth") <= wide
    field(page).fill("2.42")
    keep(page)
    expect(page.locator("main.large")).to_be_visible()
