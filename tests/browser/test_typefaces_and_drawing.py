"""The drawing's texts and the typefaces, as the browser lays them out."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from steadyhead.loop.vocabulary import ARRANGEMENTS
from tests.browser.conftest import Opener
from tests.browser.taps import VISIT

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Every hook-up that a signal in volts can stand in.
LOOP = [id_ for id_, each in ARRANGEMENTS.items() if not each.water_side and id_ != "meter-in-signal"]

TEXTS = """() => { const svg = document.querySelector('.drawing svg'), edge = svg.getBoundingClientRect();
  const all = [...svg.querySelectorAll('text:not(.tip)')].map(t => [t.textContent, t.getBoundingClientRect()]);
  const out = all.filter(([, b]) => b.left < edge.left || b.right > edge.right)
    .concat(all.filter(([, b]) => b.top < edge.top || b.bottom > edge.bottom));
  const over = all.flatMap(([s, a], k) => all.slice(k + 1)
    .filter(([, b]) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 6 && b.top < a.bottom - 6)
    .map(([t]) => `${s} / ${t}`));
  return [...out.map(([s]) => s), ...over]; }"""


def visit_address(page: Page) -> str:
    """Return the address of the invented visit."""
    page.goto("/")
    page.get_by_role("link", name="Fernhill Row").first.click()
    expect(page).to_have_url(VISIT)
    return page.url


def test_no_text_of_the_drawing_lies_on_another_or_past_its_edge(opened: Opener) -> None:
    """Measured in the real typeface, for every hook-up."""
    page = opened()
    visit = visit_address(page)
    found = {}
    for arrangement in LOOP:
        page.goto(f"{visit}/read?arrangement={arrangement}")
        page.evaluate("document.fonts.ready")
        bad = page.evaluate(TEXTS)
        if bad:
            found[arrangement] = bad
    assert found == {}


def test_the_typefaces_are_ours_and_have_the_trades_signs(opened: Opener) -> None:
    """Ohm, micro, delta and the rest are drawn by our own face: a fallback would be as wide as its own font."""
    page = opened()
    page.goto("/")
    loaded = page.evaluate(
        "Promise.all(['400 17px Next', '700 17px Next', '700 17px Figures'].map(f => document.fonts.load(f, 'Ωµ√')))"
        ".then(all => all.map(faces => faces.length))"
    )
    assert loaded == [1, 1, 1]
