"""An app that is opened again: the page seen last at once; run by ``python3 scripts/offline.py --prove``."""

from __future__ import annotations

import json
import statistics
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.offline.handed import Handed
from tests.offline.killed import ZONE, Killable
from tests.offline.shown import app_of, begin, marks, read, tell, until, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

SLOWER = 4
AGAIN = 3
#: Python's memory is kept, whole, and so is the page that is shown, with these words.
KEPT = """async words => { const name = (await caches.keys()).find(each => each.startsWith('steadyhead-snapshot'));
  const memory = name && (await (await caches.open(name)).keys()).length;
  const page = await caches.match(new URL('as-it-was', location.href));
  return Boolean(memory && page && (await page.text()).includes(words)); }"""
#: Chance of every kind, as it is drawn right after a start, and the zone.
CHANCE = """() => self.python.runPython(`
import json, os, random, secrets, tempfile, uuid
from steadyhead.bootstrap import local_zone, system_clock
from steadyhead.visit.ids import Ids
drawn = [random.random(), random.getrandbits(64), secrets.token_hex(16), str(uuid.uuid4()), os.urandom(16).hex()]
json.dumps([[*drawn, Ids(lambda: 0, secrets.randbits).new()], local_zone(os.environ)])`)"""


def reopened(page: Page, address: str) -> dict[str, float]:
    """Open the app again, and return how long things took [ms]."""
    page.goto("about:blank")
    page.goto(address)
    app = app_of(page)
    expect(values(app)).to_have_text(["48 psi"])
    return marks(page, "kept-shown", "engine-ready", "page-shown")


def test_the_page_seen_last_is_there_at_once_and_chance_is_never_repeated(handed: Handed, browser: Killable) -> None:
    """It is the visit; the app follows at the same page, and draws other numbers than at any start before."""
    page = browser.start()
    page.goto(handed.address)
    app = app_of(page)
    begin(app)
    tell("first start, cold", **marks(page, "engine-ready", "page-shown"))
    read(app, "48")
    expect(values(app)).to_have_text(["48 psi"])
    until(page, KEPT, "48 psi")
    handed.stop()
    drawn: list[Any] = []
    times = []
    for _ in range(AGAIN):
        times.append(reopened(page, handed.address))
        found, zone = json.loads(page.workers[0].evaluate(CHANCE))
        drawn += found
        assert zone == ZONE
    assert len(drawn) == len(set(drawn))
    tell("opened again", **{name: statistics.median(each[name] for each in times) for name in times[0]})
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    tell(f"opened again, {SLOWER} times slower", **reopened(page, handed.address))


def opened_again(handed: Handed, browser: Killable, spoils: str) -> Page:
    """Begin a visit, let a script spoil what is kept of Python's memory, and open the app again; return its page."""
    page = browser.start()
    page.goto(handed.address)
    begin(app_of(page))
    until(page, KEPT, "Gauge")
    handed.stop()
    page.evaluate(spoils)
    page.goto("about:blank")
    page.goto(handed.address)
    return page


def test_what_is_tapped_while_python_wakes_is_followed_once_it_is_awake(handed: Handed, browser: Killable) -> None:
    """A link on the kept page leads on; a form is not sent, and says so. A memory that is no memory is thrown away."""
    page = opened_again(handed, browser, SPOILT)
    kept = page.frame_locator("#kept")
    expect(page.locator("#waking")).to_contain_text("As it was kept")
    expect(kept.get_by_role("heading", name="Gauge", exact=True)).to_be_visible()
    kept.get_by_role("button", name="Keep this reading").click()
    expect(page.locator("#waking")).to_contain_text("tap again then")
    kept.locator("a.up").first.click()
    expect(page.locator("#waking")).to_contain_text("Then it opens")
    expect(app_of(page).get_by_role("button", name="Display and gauge disagree")).to_be_visible()
    assert page.evaluate(EMPTY)
    browser.complaints.clear()


def test_a_memory_that_was_written_half_is_made_anew(handed: Handed, browser: Killable) -> None:
    """As where the browser was killed meanwhile: the app starts without it, and the next start has a whole one."""
    page = opened_again(handed, browser, HALVED)
    expect(app_of(page).get_by_role("heading", name="Gauge", exact=True)).to_be_visible()
    until(page, MADE_ANEW)


#: What is kept of Python's memory is overwritten by as many zeros.
SPOILT = """async () => { const name = (await caches.keys()).find(each => each.startsWith('steadyhead-snapshot'));
  const cache = await caches.open(name), [request] = await cache.keys();
  await cache.put(request, new Response(new Uint8Array(1e6), { headers: { 'x-length': 1e6 } })); }"""
#: Half of it is there, as where the browser was killed while it wrote.
HALVED = """async () => { const name = (await caches.keys()).find(each => each.startsWith('steadyhead-snapshot'));
  const cache = await caches.open(name), [request] = await cache.keys(), whole = await cache.match(request);
  const half = (await whole.arrayBuffer()).slice(0, 2e7);
  await cache.put(request, new Response(half, { headers: whole.headers })); }"""
MADE_ANEW = """async () => { const name = (await caches.keys()).find(each => each.startsWith('steadyhead-snapshot'));
  const cache = await caches.open(name), [request] = await cache.keys();
  return Boolean(request) && (await (await cache.match(request)).arrayBuffer()).byteLength > 2e7; }"""
EMPTY = """async () => { const name = (await caches.keys()).find(each => each.startsWith('steadyhead-snapshot'));
  const cache = await caches.open(name), [request] = await cache.keys();
  return (await (await cache.match(request)).arrayBuffer()).byteLength === 0; }"""
