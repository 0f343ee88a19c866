"""An engine that a browser ended in the background, or that hangs; run by ``scripts/offline.py --prove``."""

from __future__ import annotations

import time

import pytest
from playwright.sync_api import Page, expect

from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.shown import FRONT, STILL, app_of, dies, hangs, read, tell, unserved, until, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: The page comes to the front twice a second.
AGAIN_AND_AGAIN = """() => { window.cameToTheFront = 0; setInterval(() => { window.cameToTheFront += 1;
  document.dispatchEvent(new Event('visibilitychange')); }, 500); }"""


def visited(handed: Handed, browser: Killable) -> Page:
    """Begin a visit with a reading; then nobody serves any more."""
    page = browser.start()
    unserved(handed, page)
    return page


def comes_back(page: Page, began: float, what: str) -> None:
    """The same page has another engine, and the visit is as it was and goes on."""
    expect(page.locator("body")).to_have_attribute("data-state", "starting")
    app = app_of(page)
    expect(values(app)).to_have_text(["48 psi"])
    tell(what, back=1000 * (time.monotonic() - began))
    assert page.evaluate(STILL)
    read(app, "47")
    expect(values(app)).to_have_count(2)


def test_a_dead_engine_is_noticed_when_the_page_comes_to_the_front(handed: Handed, browser: Killable) -> None:
    """Before anything is tapped; the page as it was kept stands there meanwhile."""
    page = visited(handed, browser)
    dies(page)
    began = time.monotonic()
    page.evaluate(FRONT)
    expect(page.frame_locator("#kept").get_by_text("48 psi").first).to_be_visible()
    comes_back(page, began, "dead, seen at the front")


@pytest.mark.rare
def test_a_dead_engine_is_noticed_while_a_tap_waits(handed: Handed, browser: Killable) -> None:
    """The page was at the front all the time; what was typed and not answered is not kept."""
    page = visited(handed, browser)
    dies(page)
    began = time.monotonic()
    read(app_of(page), "46")
    comes_back(page, began, "dead, seen by a tap that waits")
    browser.complaints.clear()  # the request that died with it


@pytest.mark.rare
def test_an_engine_that_hangs_is_ended_when_the_page_comes_to_the_front(handed: Handed, browser: Killable) -> None:
    """It holds its lock, and is silent for two seconds though nothing is asked of it."""
    page = visited(handed, browser)
    hangs(page)
    began = time.monotonic()
    page.evaluate(FRONT)
    comes_back(page, began, "hanging, seen at the front")


@pytest.mark.rare
def test_an_engine_at_work_is_left_alone(handed: Handed, browser: Killable) -> None:
    """It works out a next check while the page comes to the front, again and again; no other one is started."""
    page = visited(handed, browser)
    worker = page.workers[0]
    read(app_of(page), "47")
    page.evaluate(AGAIN_AND_AGAIN)
    until(page, "async () => window.cameToTheFront >= 8")
    expect(values(app_of(page))).to_have_count(2)
    assert page.workers == [worker]
