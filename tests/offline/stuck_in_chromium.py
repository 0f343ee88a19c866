"""A start that gets nowhere says so and begins anew by itself; run by ``scripts/offline.py --prove``.

What stands still, or gets lost, is taken from the page that stays before its own script runs; and of what it waits for
longer than seconds, it waits a twentieth.
"""

from __future__ import annotations

import socket

import pytest
from playwright.sync_api import Page, expect

from tests.offline.handed import HERE, Handed
from tests.offline.killed import Killable
from tests.offline.shown import app_of, begin

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: In the page that stays alone, never in the app's frame.
IN_THE_SHELL = "if (self === top) { %s }"
SOON = """const wait = setTimeout.bind(self);
  self.setTimeout = (act, ms, ...more) => wait(act, ms >= 10000 ? ms / 20 : ms, ...more);"""
#: Nothing is heard of the first engine, as where it hangs.
DEAF = """let engines = 0; const Real = Worker;
  self.Worker = class extends Real {
    constructor(...given) { super(...given); this.first = !engines++; }
    set onmessage(hear) { super.onmessage = this.first ? () => {} : hear; }
    get onmessage() { return super.onmessage; } };"""
#: The first engine hears of no request.
IDLE = """let engines = 0; const Real = Worker;
  self.Worker = class extends Real {
    constructor(...given) { super(...given); this.first = !engines++; }
    postMessage(said, ...more) { if (!this.first || said.type !== 'request') super.postMessage(said, ...more); } };"""
#: What the service worker asks of the page for the app's first pages goes another way, so many times.
GOES_ASTRAY = """let asked = 0; navigator.serviceWorker.addEventListener('message', (event) => {
  if (event.data?.type !== 'request' || asked++ >= %d) return;
  event.stopImmediatePropagation();
  const [port] = event.ports;
  %s });"""
REFUSED, LOST = "port.postMessage({ notHere: true });", ""
#: A look for a new build is under way, which no network answers.
LOOKS = "async () => { (await navigator.serviceWorker.getRegistration()).update().catch(() => {}); }"


def visited(handed: Handed, browser: Killable) -> str:
    """Begin a visit, end the server and kill the browser; return the visit's address."""
    page = browser.start()
    page.goto(handed.address)
    begin(app_of(page))
    visit = page.frames[1].url
    handed.stop()
    browser.kill()
    return visit


def opened(browser: Killable, visit: str, *before: str) -> Page:
    """Open the visit in another browser, whose page that stays has scripts that come before its own."""
    page = browser.start()
    page.add_init_script(IN_THE_SHELL % "\n".join(before))
    page.goto(visit)
    return page


def shows_the_visit(page: Page) -> None:
    """The visit stands there, and no word that it takes long."""
    expect(app_of(page).get_by_role("heading", name="Gauge", exact=True)).to_be_visible()
    expect(page.locator("main")).to_be_hidden()
    expect(page.locator("body")).not_to_have_attribute("data-late", "yes")


def test_an_engine_that_is_never_heard_of_is_begun_anew(handed: Handed, browser: Killable) -> None:
    """It says that it takes long, and that it begins anew; then the visit is there, with nothing tapped."""
    page = opened(browser, visited(handed, browser), SOON, DEAF)
    expect(page.get_by_text("it begins anew by itself").locator("visible=true")).to_be_visible()
    shows_the_visit(page)


@pytest.mark.rare
def test_an_engine_that_does_not_answer_for_the_first_page_is_begun_anew(handed: Handed, browser: Killable) -> None:
    """Words stand there instead of an empty page, until the visit does."""
    page = opened(browser, visited(handed, browser), SOON, IDLE)
    expect(page.get_by_text("opening the page").locator("visible=true")).to_be_visible()
    expect(page.get_by_text("it begins anew by itself").locator("visible=true")).to_be_visible()
    shows_the_visit(page)


@pytest.mark.parametrize("way", [REFUSED, pytest.param(LOST, marks=pytest.mark.rare)], ids=["refused", "lost"])
def test_a_first_page_that_does_not_come_is_asked_for_again(handed: Handed, browser: Killable, way: str) -> None:
    """The service worker finds nobody, or hears nothing: the page is asked for once more, by itself."""
    page = opened(browser, visited(handed, browser), GOES_ASTRAY % (1, way))
    shows_the_visit(page)
    browser.complaints.clear()  # the page that was refused


@pytest.mark.rare
def test_where_no_page_ever_comes_it_is_said(handed: Handed, browser: Killable) -> None:
    """After some times in vain there are words, and a button that tries it all again."""
    page = opened(browser, visited(handed, browser), GOES_ASTRAY % (1000, REFUSED))
    expect(page.get_by_text("The app could not start")).to_be_visible()
    expect(page.get_by_role("button", name="Try again")).to_be_visible()
    browser.complaints.clear()  # the pages that were refused


@pytest.mark.rare
def test_a_network_that_never_answers_does_not_hold_up_a_start(handed: Handed, browser: Killable) -> None:
    """Where a look for a new build hangs, as in a pump house with a thin signal, the app opens all the same."""
    visit = visited(handed, browser)
    with socket.create_server((HERE, handed.port)):  # takes connections, and says nothing
        page = opened(browser, visit)
        shows_the_visit(page)
        page.evaluate(LOOKS)
        page.reload()
        shows_the_visit(page)
