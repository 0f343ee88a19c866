"""An engine that hangs while the app is used, long after its start; run by ``scripts/offline.py --prove``.

Of what takes the page that stays longer than seconds, it waits a twentieth: half a minute is a second and a half.
"""

from __future__ import annotations

import pytest
from playwright.sync_api import FrameLocator, Page, expect

from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.shown import STILL, address_of, app_of, hangs, read, tap, unserved, values
from tests.offline.stuck_in_chromium import IN_THE_SHELL, SOON

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: The engine gets into a loop without end with the next question: before anything of it is kept, or after.
BEFORE = """() => self.python.runPython(`
from steadyhead.offline.host import Host
async def answer(*given):
    while True:
        pass
Host.answer = answer`)"""
AFTER = """() => self.python.runPython(`
from steadyhead.diagnosis import diagnose
def _diagnosed(*given):
    while True:
        pass
diagnose._diagnosed = _diagnosed`)"""
SAID = "It may still be worked out"


def visited(handed: Handed, browser: Killable, then: str | None = None) -> Page:
    """Begin a visit with a reading, let nobody serve any more, and do `then` in the engine; return the visit's page."""
    page = browser.start()
    page.add_init_script(IN_THE_SHELL % SOON)
    unserved(handed, page)
    if then is not None:
        page.workers[0].evaluate(then)
    return page


def begun_anew(page: Page) -> FrameLocator:
    """Tap where it is offered, and return the app once another engine runs in the same page."""
    expect(page.get_by_text(SAID).locator("visible=true")).to_be_visible()
    page.get_by_role("button", name="Begin anew").click()
    expect(page.locator("body")).to_have_attribute("data-state", "starting")
    app = app_of(page)
    assert page.evaluate(STILL)
    expect(page.get_by_text(SAID)).to_be_hidden()
    return app


def test_what_was_typed_for_an_engine_that_hangs_is_there_after_it_was_begun_anew(
    handed: Handed, browser: Killable
) -> None:
    """It is said that it takes long; nothing was kept, so what was typed stands in its field, to be tapped."""
    page = visited(handed, browser, BEFORE)
    read(app_of(page), "24")
    app = begun_anew(page)
    expect(values(app)).to_have_text(["48 psi"])
    expect(app.locator("#said")).to_have_value("24")
    tap(app, "Keep this reading")
    expect(values(app)).to_have_text(["48 psi", "24 psi"])
    browser.complaints.clear()  # the request that ended with it


@pytest.mark.rare
def test_what_was_kept_before_the_engine_hung_is_kept_once(handed: Handed, browser: Killable) -> None:
    """The reading is in the record, its diagnosis never comes; begun anew, it is there once, and the visit goes on."""
    page = visited(handed, browser, AFTER)
    read(app_of(page), "24")
    app = begun_anew(page)
    expect(values(app)).to_have_text(["48 psi", "24 psi"])
    expect(app.locator("#said")).to_have_value("")
    browser.complaints.clear()  # as above


def test_one_that_hangs_with_nothing_to_do_is_found_out_by_the_next_tap(handed: Handed, browser: Killable) -> None:
    """It does not hear of the tap, though it has nothing else to do: it is begun anew by itself, within seconds."""
    page = visited(handed, browser)
    hangs(page)
    read(app_of(page), "24")
    expect(page.locator("body")).to_have_attribute("data-state", "starting")
    app = app_of(page)
    assert page.evaluate(STILL)
    expect(values(app)).to_have_text(["48 psi"])
    expect(app.locator("#said")).to_have_value("24")
    browser.complaints.clear()  # as above


@pytest.mark.rare
def test_one_that_is_at_work_for_long_is_waited_for(handed: Handed, browser: Killable) -> None:
    """The words come, nobody taps, the answer comes, and the words go; no other engine was started."""
    page = visited(handed, browser, SLOWLY)
    worker = page.workers[0]
    read(app_of(page), "24")
    expect(page.get_by_text(SAID).locator("visible=true")).to_be_visible()
    expect(values(app_of(page))).to_have_text(["48 psi", "24 psi"])
    expect(page.get_by_text(SAID)).to_be_hidden()
    assert page.workers == [worker]


@pytest.mark.rare
def test_another_tab_gets_the_record_from_one_whose_engine_hangs(handed: Handed, browser: Killable) -> None:
    """Whoever taps "Use it here" has decided: nobody is asked in the tab that hangs, and nothing is lost."""
    page = visited(handed, browser, BEFORE)
    second = browser.another()
    second.goto(address_of(page))
    expect(second.locator("body")).to_have_attribute("data-state", "locked")
    read(app_of(page), "24")
    expect(page.get_by_text(SAID).locator("visible=true")).to_be_visible()
    second.get_by_role("button", name="Use it here").click()
    expect(values(app_of(second))).to_have_text(["48 psi"])
    expect(page.locator("body")).to_have_attribute("data-state", "moved")
    browser.complaints.clear()  # as above


#: It takes six seconds over the next diagnosis.
SLOWLY = """() => self.python.runPython(`
import time
from steadyhead.diagnosis import diagnose
_as_it_was = diagnose._diagnosed
def _diagnosed(*given):
    until = time.monotonic() + 6.0
    while time.monotonic() < until:
        pass
    return _as_it_was(*given)
diagnose._diagnosed = _diagnosed`)"""
