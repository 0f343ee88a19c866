"""A second tab waits for its turn and takes nothing; run by ``scripts/offline.py --prove``."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.shown import FRONT, address_of, app_of, begin, dies, read, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Longer than a tab whose turn came waits for whoever may only be opened anew [ms].
LONGER_MS = 8000
#: A tab that nobody looks at, or that somebody looks at again.
HIDDEN = """hidden => { Object.defineProperty(document, 'hidden', { value: hidden, configurable: true });
  document.dispatchEvent(new Event('visibilitychange')); }"""
#: The locks answer in the order in which they are asked: what a timer asked before has its answer then.
ALL_ANSWERED = "async () => { for (let k = 0; k < 10; k += 1) await navigator.locks.query(); }"
AFTER_IT = "async () => (await navigator.locks.query()).pending.length"


def two_tabs(handed: Handed, browser: Killable) -> tuple[Page, Page]:
    """Begin a visit with a reading in one tab, open it in another one, and let nobody serve any more."""
    first = browser.start()
    first.goto(handed.address)
    begin(app_of(first))
    read(app_of(first), "48")
    expect(values(app_of(first))).to_have_text(["48 psi"])
    second = browser.another()
    second.clock.install()
    second.goto(address_of(first))
    locked(second)
    handed.stop()
    return first, second


def locked(page: Page) -> None:
    """It says that another tab has the record, and what will come."""
    expect(page.locator("body")).to_have_attribute("data-state", "locked")
    expect(page.get_by_text("opens by itself once the other is closed")).to_be_visible()


def later(page: Page) -> None:
    """Once more time has passed than a tab waits whose turn came, it still waits: all that was to come has come."""
    page.clock.run_for(LONGER_MS)
    page.evaluate(ALL_ANSWERED)
    locked(page)


def shows(page: Page) -> None:
    """The visit stands there."""
    expect(values(app_of(page))).to_have_text(["48 psi"])


def test_a_second_tab_comes_to_life_once_the_first_is_closed(handed: Handed, browser: Killable) -> None:
    """With nothing tapped, and at the very page that it was opened for."""
    first, second = two_tabs(handed, browser)
    first.close()
    shows(second)


@pytest.mark.rare
def test_a_tab_that_gave_the_record_away_comes_to_life_once_the_other_is_closed(
    handed: Handed, browser: Killable
) -> None:
    """The second took it over by a tap; the first shows the visit again when the second is gone."""
    first, second = two_tabs(handed, browser)
    second.get_by_role("button", name="Use it here").click()
    shows(second)
    expect(first.locator("body")).to_have_attribute("data-state", "moved")
    second.close()
    shows(first)


def test_a_waiting_tab_takes_nothing_from_one_that_is_opened_anew(handed: Handed, browser: Killable) -> None:
    """Loaded anew, and its engine dead and started anew: the first has the record each time, the second still waits."""
    first, second = two_tabs(handed, browser)
    first.reload()
    shows(first)
    later(second)
    dies(first)
    first.evaluate(FRONT)
    expect(first.locator("body")).to_have_attribute("data-state", "starting")
    shows(first)
    later(second)
    first.close()
    shows(second)


@pytest.mark.rare
def test_a_tab_that_nobody_looks_at_stands_in_no_line(handed: Handed, browser: Killable) -> None:
    """A browser may set it aside with the lock in its hands; looked at again, it comes to life."""
    first, second = two_tabs(handed, browser)
    expect(second.locator("body")).to_have_attribute("data-state", "locked")
    assert first.evaluate(AFTER_IT) == 1
    second.evaluate(HIDDEN, True)
    assert first.evaluate(AFTER_IT) == 0
    first.close()
    later(second)
    second.evaluate(HIDDEN, False)
    shows(second)
