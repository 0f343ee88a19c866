"""The app in a browser with nobody serving it: run by ``python3 scripts/offline.py --prove``, which builds it first."""

from __future__ import annotations

import json
import statistics
from typing import Any

import pytest
from playwright.sync_api import ConsoleMessage, Page, expect
from playwright.sync_api import Error as PlaywrightError

from steadyhead import diagnose_text
from tests.browser.taps import VISIT
from tests.diagnosis.figures import EXAMPLES, differences, figures
from tests.offline.handed import Handed
from tests.offline.killed import ZONE, Killable
from tests.offline.shown import app_of, asked, begin, marks, read, tap, tell, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

MANY = 20
#: After so many forms that were kept the browser is killed.
ANSWERS = 5
#: How long the page of a visit takes, from asking for it to its last byte.
TIMES = """async many => { const took = [];
  for (let k = 0; k < many; k++) { const from = performance.now();
    await (await fetch(location.href)).text(); took.push(performance.now() - from); }
  return took; }"""
#: How long it takes from sending a reading to the last byte of the page with the next check.
SENT = """async said => { const form = document.querySelector('form.reading'), fields = new FormData(form);
  fields.set('said', said); const from = performance.now();
  const answer = await fetch(form.action, { method: 'POST', body: new URLSearchParams(fields) });
  const page = await answer.text(); return [answer.status, performance.now() - from, page]; }"""
#: Begins one visit after the other, as fast as it can, and says which was answered for.
LOAD = """async () => { for (;;) { const page = await (await fetch('/')).text();
  const form = new DOMParser().parseFromString(page, 'text/html').querySelector('form[action="/visits"]');
  const fields = new FormData(form); fields.set('complaint', 'reads-wrong');
  const answer = await fetch('/visits', { method: 'POST', body: new URLSearchParams(fields) });
  console.log('kept ' + new URL(answer.url).pathname.match('/visits/[0-9A-Z]{26}')[0]); } }"""
SOUND = """() => self.python.runPython(
  'import sqlite3; str(sqlite3.connect("/data/app.db").execute("PRAGMA integrity_check").fetchall())')"""
ZONE_THERE = """() => self.python.runPython(
  'import os; from steadyhead.bootstrap import local_zone; local_zone(os.environ)')"""
DIAGNOSED = """text => { self.python.globals.set('text', text);
  return self.python.runPython('import json, steadyhead; json.dumps(steadyhead.diagnose_text(text))'); }"""


def started(page: Page) -> dict[str, float]:
    """Return how long after it was asked for the page had its engine, and the app's first page."""
    return marks(page, "engine-ready", "page-shown")


def measure(page: Page) -> None:
    """Print how long a page of the visit and the next check take; keep one more reading for that."""
    frame = page.frames[1]
    tell("the visit's page", median=statistics.median(frame.evaluate(TIMES, MANY)))
    status, took, text = frame.evaluate(SENT, "31")
    assert (status, "31 psi" in text) == (200, True)
    tell("the next check after a reading", once=took)


def test_a_visit_outlives_the_server_and_the_browser(handed: Handed, browser: Killable) -> None:
    """What was typed before, as it was typed; the next check, word for word."""
    page = browser.start()
    page.goto(handed.address)
    app = app_of(page)
    begin(app)
    assert page.locator("#app").evaluate("e => e.getBoundingClientRect().height === innerHeight")
    tell("first start, cold", **started(page))
    read(app, "48")
    expect(values(app)).to_have_text(["48 psi"])
    expect(app.get_by_role("heading", name="Pressure on the display")).to_be_visible()
    expect(page).to_have_url(VISIT)
    before, visit = asked(app), page.url

    handed.stop()
    assert not handed.answers()
    browser.kill()

    page = browser.start()
    page.goto(visit)
    app = app_of(page)
    expect(values(app)).to_have_text(["48 psi"])
    assert asked(app) == before
    assert not handed.answers()
    tell("another browser, nobody serving", **started(page))
    measure(page)


def test_a_browser_killed_while_it_writes_loses_nothing_it_answered_for(handed: Handed, browser: Killable) -> None:
    """Killed right after so many answers, in the middle of what comes next: all are there, the database is sound."""
    page = browser.start()
    page.goto(handed.address)
    expect(app_of(page).locator("footer")).to_be_visible()  # or the frame would go from under the script
    handed.stop()
    kept: list[str] = []

    def hear(said: ConsoleMessage) -> None:
        kept.append(said.text.removeprefix("kept "))
        if len(kept) == ANSWERS:
            browser.kill()

    page.on("console", hear)
    with pytest.raises(PlaywrightError):
        page.frames[1].evaluate(LOAD)
    page = browser.start()
    page.goto(handed.address)
    app = app_of(page)
    expect(app.locator("footer")).to_be_visible()
    listed = app.locator("ul.cards a").evaluate_all("all => all.map(each => each.getAttribute('href'))")
    assert len(kept) >= ANSWERS
    assert set(kept) <= set(listed)
    assert page.workers[0].evaluate(SOUND) == "[('ok',)]"


def test_the_service_worker_may_be_stopped_at_any_time(handed: Handed, browser: Killable) -> None:
    """As browsers do with idle ones: the next page comes all the same, of an app in whose clock the zone is right."""
    page = browser.start()
    page.goto(handed.address)
    app = app_of(page)
    expect(app.locator("footer")).to_be_visible()
    handed.stop()
    session = page.context.new_cdp_session(page)
    for command in ("enable", "stopAllWorkers"):
        session.send(f"ServiceWorker.{command}")
    tap(app, "Display and gauge disagree")
    expect(app.get_by_role("button", name="5 volts, three wires")).to_be_visible()
    assert page.workers[0].evaluate(ZONE_THERE) == ZONE


def test_the_engine_answers_every_example_as_on_a_laptop(handed: Handed, browser: Killable) -> None:
    """What this very Python says of the same files: every figure of the answers, to 1e-9."""
    page = browser.start()
    page.goto(handed.address)
    app_of(page)
    handed.stop()
    off = []
    for example in EXAMPLES:
        text = example.read_text(encoding="utf-8")
        found: Any = json.loads(page.workers[0].evaluate(DIAGNOSED, text))
        off += differences(figures(example.stem, diagnose_text(text)), figures(example.stem, found))
    assert len(EXAMPLES) > 10
    assert off == []


def test_only_one_tab_writes_and_another_can_take_over(handed: Handed, browser: Killable) -> None:
    """The record is never open twice; who asks for it gets it, and is no other tab to itself when opened anew."""
    first = browser.start()
    first.goto(handed.address)
    app = app_of(first)
    tap(app, "Display and gauge disagree")
    tap(app, "5 volts, three wires")
    expect(app.get_by_role("heading", name="What range")).to_be_visible()
    second = first.context.new_page()
    second.goto(first.frames[1].url)  # the tab's own address follows a moment later
    expect(second.locator("body")).to_have_attribute("data-state", "locked")
    second.get_by_role("button", name="Use it here").click()
    expect(app_of(second).get_by_role("heading", name="What range")).to_be_visible()
    expect(first.locator("body")).to_have_attribute("data-state", "moved")
    second.goto(f"{handed.address}/visits/nothing")
    expect(app_of(second).get_by_text("There is no such page")).to_be_visible()
