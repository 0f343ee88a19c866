"""Pages that everyone can use: checked by axe-core in both themes, targets and the drawing's texts measured."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from steadyhead.loop.vocabulary import ARRANGEMENTS
from tests.browser.conftest import Opener
from tests.browser.taps import VISIT

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: Pages of the invented visit, after its address; the first is today's.
DEAD = "/read?arrangement=dead-both-free&red=wire.signal&black=wire.common"
AFTER = (
    "", "/read", DEAD, "/call", "/papers", "/papers/office", "/papers/reading-card", "/papers/tag", "/temporary",
    "/tonight", "/tonight?go=yes&serves=house", "/plate", "/range",
)  # fmt: skip
TOUCH = 48
#: Every hook-up that a signal in volts can stand in.
LOOP = [id_ for id_, each in ARRANGEMENTS.items() if not each.water_side and id_ != "meter-in-signal"]

BROKEN = "axe.run().then(r => r.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 120))]))"
#: A figure of a paper is a link in running text (WCAG 2.2, 2.5.8, exception "inline"): it cannot be a thumb high.
SMALL = """touch => [...document.querySelectorAll('a, button, input, select, textarea, summary')]
  .filter(e => e.type !== 'hidden' && !e.matches('.skip, .hide, .paper a.figure') && e.checkVisibility())
  .map(e => [e, (e.closest('a.point') ? e.querySelector('rect') : e).getBoundingClientRect()])
  .filter(([e, box]) => box.height < touch - 0.5 || box.width < touch - 0.5)
  .map(([e, box]) => `${e.tagName} ${e.innerText || e.name || e.ariaLabel} ${box.width}x${box.height}`)"""

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


#: Pages of a sensor check, after its address.
AFTER_CHECK = ("", "/setup", "/table", "/figures", "/figures?figure=12")


def every_page(page: Page, reasons: str, checked: str) -> list[str]:
    """Return the addresses of every page."""
    visit = visit_address(page)
    page.goto(checked)
    point = str(page.locator(".readings th a").first.get_attribute("href"))
    of_check = [f"{visit}/sensor-check", point, *(checked + after for after in AFTER_CHECK)]
    page.goto(visit)
    links = [page.locator(".readings th a").first, page.locator(".ways a").first]
    beside = [str(link.get_attribute("href")) for link in links]
    return ["/", reasons, *(visit + after for after in AFTER), *beside, *of_check]


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing_on_any_page(opened: Opener, axe: str, reasons: str, checked: str, theme: str) -> None:
    """axe-core, every rule of WCAG 2.2 AA and its best practices; contrast is computed as the browser paints it."""
    page = opened(theme=theme)
    found: dict[str, Any] = {}
    for address in every_page(page, reasons, checked):
        page.goto(address)
        page.evaluate(axe)
        broken = page.evaluate(BROKEN)
        if broken:
            found[address] = broken
    assert found == {}


def test_every_target_is_48_pixels_and_no_page_is_wider_than_the_phone(
    opened: Opener, reasons: str, checked: str
) -> None:
    """Measured as the browser lays it out, 360 pixels wide."""
    page = opened()
    found = {}
    for address in every_page(page, reasons, checked):
        page.goto(address)
        small = page.evaluate(SMALL, TOUCH)
        wide = page.evaluate("document.documentElement.scrollWidth")
        if small or wide > 360:
            found[address] = (wide, small)
    assert found == {}


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
