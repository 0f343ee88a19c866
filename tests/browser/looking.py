"""Looks at pages in a real browser as they are painted: what axe-core finds, what is too small, too wide, or moves."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from playwright.sync_api import Browser, BrowserContext, Page

TOUCH = 48
NARROW, REFLOW = 360, 320
#: Every rule of WCAG 2.2 AA and axe-core's best practices.
BROKEN = "axe.run().then(r => r.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 160))]))"
CONTRAST = BROKEN.replace("axe.run()", "axe.run({runOnly: ['color-contrast']})")
#: A figure of a paper is a link in running text (WCAG 2.2, 2.5.8, exception "inline"): it cannot be a thumb high.
SMALL = """touch => [...document.querySelectorAll('a, button, input, select, textarea, summary')]
  .filter(e => e.type !== 'hidden' && !e.matches('.skip, .hide, .paper a.figure') && e.checkVisibility())
  .map(e => [e, (e.closest('a.point') ? e.querySelector('rect') : e).getBoundingClientRect()])
  .filter(([e, box]) => box.height < touch - 0.5 || box.width < touch - 0.5)
  .map(([e, box]) => `${e.tagName} ${e.innerText || e.name || e.ariaLabel} ${box.width}x${box.height}`)"""
#: How wide the page is, and what reaches past the screen: a wide table may scroll in a box (WCAG 2.2, 1.4.10).
WIDTH = """() => {
  const scrolls = e => e && (['auto', 'scroll'].includes(getComputedStyle(e).overflowX) || scrolls(e.parentElement));
  return [document.documentElement.scrollWidth, [...document.querySelectorAll('main *, header *, footer *')]
  .filter(e => e.getBoundingClientRect().right > innerWidth + 1 && e.checkVisibility())
  .filter(e => !e.closest('svg') && !scrolls(e))
  .slice(0, 3).map(e => e.outerHTML.slice(0, 120))]; }"""
#: Headings of the first rank that can be seen, and landmarks.
FRAME = """() => ({h1: [...document.querySelectorAll('h1')].filter(e => e.checkVisibility()).length,
  main: document.querySelectorAll('main').length, banner: document.querySelectorAll('body > header').length,
  foot: document.querySelectorAll('body > footer').length, title: document.title !== '',
  lang: document.documentElement.lang})"""
#: What would move: every element's own transition or animation that takes longer than nothing.
MOVES = """() => [...document.querySelectorAll('*')].filter(e => { const s = getComputedStyle(e);
  return [s.transitionDuration, s.animationName === 'none' ? '0s' : s.animationDuration]
    .some(each => each.split(', ').some(time => parseFloat(time) > 0)); }).map(e => e.outerHTML.slice(0, 100))"""


@dataclass
class Found:
    """What was found on pages, by what it is, each with the page's address."""

    broken: dict[str, Any] = field(default_factory=dict)
    small: dict[str, Any] = field(default_factory=dict)
    wide: dict[str, Any] = field(default_factory=dict)
    frame: dict[str, Any] = field(default_factory=dict)
    moving: dict[str, Any] = field(default_factory=dict)
    looked_at: int = 0


def a_phone(chromium: Browser, address: str, language: str) -> BrowserContext:
    """Return a phone's browser that asks for a language, and for nothing that moves."""
    return chromium.new_context(
        base_url=address, viewport={"width": NARROW, "height": 740}, has_touch=True, is_mobile=True,
        locale={"en": "en-US", "es": "es-CL"}[language], reduced_motion="reduce",
    )  # fmt: skip


Theme = Literal["light", "dark"]


def look(page: Page, axe: str, theme: Theme, found: Found, at: str) -> None:
    """Look at the page that is open: wholly in one theme, and, from the light one, at the dark one's contrast too."""
    page.emulate_media(color_scheme=theme)
    page.evaluate(axe)
    broken = page.evaluate(BROKEN)
    if theme == "light":
        page.emulate_media(color_scheme="dark")
        broken += page.evaluate(CONTRAST)
    for store, bad in ((found.broken, broken), (found.small, page.evaluate(SMALL, TOUCH))):
        if bad:
            store[at] = bad
    if bad := page.evaluate(MOVES):
        found.moving[at] = bad
    for width in (NARROW, REFLOW):
        page.set_viewport_size({"width": width, "height": 740})
        is_wide, what = page.evaluate(WIDTH)
        if is_wide > width or what:
            found.wide[f"{at} at {width}"] = (is_wide, what)
    page.set_viewport_size({"width": NARROW, "height": 740})
    found.frame[at] = page.evaluate(FRAME)
    found.looked_at += 1
