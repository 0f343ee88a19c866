"""What a person sees and taps of the app inside its shell, and how long things took."""

from __future__ import annotations

import sys

from playwright.sync_api import FrameLocator, Locator, Page, expect

from tests.browser.conftest import PATIENCE
from tests.offline.handed import Handed

#: Asks again and again until something holds, or so long [ms] that it never will.
UNTIL = """async ([given, patience]) => { const holds = %s, from = performance.now();
  while (!await holds(given)) {
    if (performance.now() - from > patience) throw new Error('it never held');
    await new Promise(done => setTimeout(done, 20)); } }"""
#: Words that stay in a page only as long as nobody starts it anew.
STAYS, STILL = "() => { window.sameShell = true; }", "() => window.sameShell === true"
#: The engine's worker goes without a word, as where a browser wants its memory; or it hangs for ever, as it tells a
#: moment before to a page that hears it.
DIES = "() => { setTimeout(() => close()); }"
HANGS = "() => { setTimeout(() => { new BroadcastChannel('hangs').postMessage(true); for (;;); }); }"
HEARS = "() => { window.hung = new Promise(done => { new BroadcastChannel('hangs').onmessage = () => done(true); }); }"
GONE = """async () => !(await navigator.locks.query()).held.some(each => each.name.startsWith('steadyhead-engine'))"""
FRONT = "() => document.dispatchEvent(new Event('visibilitychange'))"
MARK = "name => performance.getEntriesByName(name).at(-1)?.startTime ?? NaN"


def app_of(page: Page) -> FrameLocator:
    """Return the app inside its shell, once it runs."""
    expect(page.locator("body")).to_have_attribute("data-state", "running")
    return page.frame_locator("#app")


def until(page: Page, holds: str, given: object = None) -> None:
    """Wait until an asynchronous function of the page says yes: Playwright's own way takes its promise for a yes."""
    page.evaluate(UNTIL % holds, [given, 2 * PATIENCE])


def dies(page: Page) -> None:
    """Let the engine's worker go, and wait until it is gone."""
    page.workers[0].evaluate(DIES)
    until(page, GONE)


def hangs(page: Page) -> None:
    """Let the engine's worker hang, and wait until it does."""
    page.evaluate(HEARS)
    page.workers[0].evaluate(HANGS)
    assert page.evaluate("() => window.hung")


def address_of(page: Page) -> str:
    """Return the address of what the app shows; the tab's own follows a moment later."""
    frame = page.locator("#app").element_handle().content_frame()
    assert frame is not None
    return frame.url


def tap(app: FrameLocator, name: str) -> None:
    """Tap a button."""
    app.get_by_role("button", name=name).click()


def read(app: FrameLocator, said: str) -> None:
    """Type a reading, and keep it."""
    app.locator("#said").fill(said)
    tap(app, "Keep this reading")


def begin(app: FrameLocator) -> None:
    """Begin a visit by three taps."""
    tap(app, "Display and gauge disagree")
    tap(app, "5 volts, three wires")
    tap(app, "0 to 100 psi")
    expect(app.get_by_role("heading", name="Gauge", exact=True)).to_be_visible()


def values(app: FrameLocator) -> Locator:
    """Return the values of the readings that are listed."""
    return app.locator(".readings td.v.figures")


def unserved(handed: Handed, page: Page) -> None:
    """Begin a visit with a reading; then nobody serves any more, and the page remembers that it is this one."""
    page.goto(handed.address)
    begin(app_of(page))
    read(app_of(page), "48")
    expect(values(app_of(page))).to_have_text(["48 psi"])
    handed.stop()
    page.evaluate(STAYS)


def asked(app: FrameLocator) -> str:
    """Return the whole text of the next check."""
    return app.locator("section.next").first.inner_text()


def tell(what: str, **figures_ms: float) -> None:
    """Print what was measured; nothing hangs on it."""
    sys.stdout.write(f"\n{what}: " + ", ".join(f"{name} {ms:.0f} ms" for name, ms in figures_ms.items()))


def marks(page: Page, *names: str) -> dict[str, float]:
    """Return how long after it was asked for the page had come so far."""
    return {name: page.evaluate(MARK, name) for name in names}
