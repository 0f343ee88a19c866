"""The page that stays as a person meets it: in each state, to axe-core; run by ``scripts/offline.py --prove``."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.looking import BROKEN, WIDTH, Theme
from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.shown import app_of, until

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

SIZES = ((360, 640), (640, 360))
THEMES: tuple[Theme, ...] = ("light", "dark")
#: What the page may say in a state; the first is the one that it has by itself.
STATES = "() => [...new Set([...document.querySelectorAll('[data-for]')].flatMap(e => e.dataset.for.split(' ')))]"
PUT = """marks => { delete document.body.dataset.kept;
  for (const [name, said] of Object.entries(marks)) document.body.dataset[name] = said; }"""
#: What stands beside the app while it runs, and at a start what stands beside the page as it was kept, or alone.
BESIDE: tuple[dict[str, str], ...] = (
    {},
    {"news": "ready"},
    {"store": "slow"},
    {"long": ""},
    {"back": "the record could not be brought to this version"},
    {"state": "opening", "store": "files", "kept": "shown", "step": "page", "queued": "form"},
    {"state": "starting", "kept": "shown", "step": "python", "late": "yes"},
    {"state": "starting", "late": "yes"},
)
#: Whether the page that is shown is kept already, which it is a moment after it is shown.
KEPT = "async () => Boolean(await caches.match(new URL('as-it-was', location.href)))"
#: The page as it was kept, in its own frame: as at a start, which goes by too fast to be looked at.
AS_IT_WAS = """() => new Promise(done => { const frame = document.getElementById('kept');
  frame.addEventListener('load', done, { once: true }); frame.src = 'as-it-was'; })"""


def broken(page: Page, axe: str) -> list[Any]:
    """Return what axe-core finds, in both themes, upright and on its side, frames and all; and what is too wide."""
    found = []
    for theme in THEMES:
        page.emulate_media(color_scheme=theme)
        for width, height in SIZES:
            page.set_viewport_size({"width": width, "height": height})
            for each in page.frames:
                each.evaluate(axe)
            found += [(theme, width, *each) for each in page.evaluate(BROKEN)]
            wide, what = page.evaluate(WIDTH)
            found += [(theme, width, wide, what)] if wide > width or what else []
    return found


def test_the_page_that_stays_is_for_everyone_in_each_of_its_states(handed: Handed, browser: Killable, axe: str) -> None:
    """While the app runs, whatever stands beside it, and with each thing that it says where the app is not there."""
    page = browser.start()
    page.goto(handed.address)
    expect(app_of(page).locator("footer")).to_be_visible()
    found = {}
    until(page, KEPT)
    page.evaluate(AS_IT_WAS)
    for marks in BESIDE:
        page.evaluate(PUT, marks)
        found[str(marks)] = broken(page, axe)
    states = page.evaluate(STATES)
    assert {"starting", "locked", "failed"} <= set(states)
    for state in states:
        page.evaluate(PUT, {"state": state})
        found[state] = broken(page, axe)
    assert {state: bad for state, bad in found.items() if bad} == {}


def test_a_second_tab_is_for_everyone(handed: Handed, browser: Killable, axe: str) -> None:
    """It says that the app is open in another one, and has a button."""
    page = browser.start()
    page.goto(handed.address)
    app_of(page)
    second = browser.another()
    second.goto(handed.address)
    expect(second.locator("body")).to_have_attribute("data-state", "locked")
    assert broken(second, axe) == []
