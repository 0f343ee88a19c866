"""A phone on its side, 640 by 360: on no page of a visit is what it asks for, or a field, behind what stays there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import PATIENCE
from tests.browser.every_page import PAGES, prepared
from tests.browser.served import Served

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: What a thumb would hit in the middle of the main action once it is scrolled to, and which fields cannot be seen once
#: they have the focus (WCAG 2.2, 2.4.11: focus not obscured).
HIDDEN = """() => {
  const hit = (e) => { const box = e.getBoundingClientRect();
    const there = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    return there && (e === there || e.contains(there) || there.contains(e) && there.matches("label")); };
  const bad = [];
  for (const e of document.querySelectorAll("main .act:not(.quiet)")) {
    if (!e.checkVisibility()) continue;
    e.scrollIntoView({ block: "nearest" });
    if (!hit(e)) bad.push("act " + e.innerText);
  }
  for (const e of document.querySelectorAll("main input, main select, main textarea")) {
    if (e.type === "hidden" || !e.checkVisibility()) continue;
    if (e.matches(".hide, .shot input, .chips input, .units input")) continue;
    e.focus();
    if (!hit(e)) bad.push("field " + e.name);
  }
  return bad; }"""
#: How much of the screen what stays in place may take [pixels].
MOST_STAYS = 90
STAYS = """() => [...document.querySelectorAll("*")]
  .filter((e) => ["fixed", "sticky"].includes(getComputedStyle(e).position) && e.checkVisibility())
  .map((e) => e.getBoundingClientRect().height)"""


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Served, dict[str, str]]]:
    """Return an app with a record that every page shows something of."""
    app = Served(tmp_path_factory.mktemp("side") / "steadyhead.db", program=("tests.browser.with_phones",))
    app.start()
    yield app, prepared(app.address)
    app.stop()


def test_no_page_of_a_visit_hides_its_action_or_a_field(chromium: Browser, home: tuple[Served, dict[str, str]]) -> None:
    """Where a thumb would tap, and where the focus is, as the browser lays them out."""
    app, made = home
    context = chromium.new_context(
        base_url=app.address, viewport={"width": 640, "height": 360}, is_mobile=True, has_touch=True
    )
    context.set_default_timeout(4 * PATIENCE)
    page, found, looked_at = context.new_page(), {}, 0
    for route, faces in PAGES.items():
        if not route.startswith(("/visits/", "/sensor-checks/", "/systems/")):
            continue
        for address in (each.format_map(made) for each in faces):
            page.goto(address)
            bad = page.evaluate(HIDDEN)
            bad += [f"stays {high}" for high in page.evaluate(STAYS) if high > MOST_STAYS]
            looked_at += 1
            if bad:
                found[address.replace(made["demo"], "demo")] = bad
    context.close()
    assert found == {}
    assert looked_at > 40
