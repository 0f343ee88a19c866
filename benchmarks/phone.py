"""How long the app in a phone's browser takes to start, to open again, for a page and a check; a bare Python beside it.

Run
---
::

    python3 scripts/offline.py
    python benchmarks/phone.py
    python benchmarks/phone.py --slower 4

Rules
-----
1. A browser of its own process on an empty profile takes the site once from a server; then nobody serves.
2. ``--slower N``: every process of the browser is stopped and let go again by turns, so that it runs a part of N of the
   time. The browser's own throttling slows its pages' scripts only, and Python runs in a worker.
3. Beside it stands a bare engine in the same browser: the same Pyodide without any app, started, and one line run. It
   tells how much of a start is Python's own.
4. What is said is a median where several were taken; nothing hangs on it.
"""

from __future__ import annotations

import argparse
import os
import shutil
import signal
import statistics
import sys
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from playwright.sync_api import Frame, Page, expect, sync_playwright

from tests.browser.conftest import PATIENCE
from tests.offline.conftest import FOLDER
from tests.offline.handed import Handed
from tests.offline.in_chromium import SENT, TIMES
from tests.offline.killed import Killable
from tests.offline.reopened_in_chromium import KEPT
from tests.offline.shown import app_of, begin, marks, read, until, values

MARKS = ("kept-shown", "engine-ready", "page-shown")
PAGES, AGAIN = 20, 5
SLICE_S = 0.02  #: how long the browser runs at a time where it is slowed
READINGS = ("31", "32", "30")
#: A page with the engine's own files and nothing of the app; it marks when Python answered first.
BARE = """<!doctype html><script type="module">
import { loadPyodide } from "./engine/pyodide.mjs";
const python = await loadPyodide();
document.title = String(python.runPython("6 * 7"));
performance.mark("bare");
</script>"""


@contextmanager
def slowed(browser: Killable, slower: float) -> Iterator[None]:
    """Let a browser run a part of `slower` of the time only."""
    if slower <= 1:
        yield
        return
    over = threading.Event()

    def turns() -> None:
        while not over.wait(SLICE_S):
            os.killpg(browser.group, signal.SIGSTOP)
            over.wait(SLICE_S * (slower - 1))
            os.killpg(browser.group, signal.SIGCONT)

    turning = threading.Thread(target=turns)
    turning.start()
    try:
        yield
    finally:
        over.set()
        turning.join()


def say(what: str, **took: float) -> None:
    """Print one line of figures [ms]."""
    print(f"{what:<38}" + "  ".join(f"{name} {value:8.0f} ms" for name, value in took.items()), flush=True)


def inside(page: Page) -> Frame:
    """Return the frame that the app is in."""
    found = page.locator("#app").element_handle().content_frame()
    if found is None:
        raise LookupError(page.url)
    return found


def opened(page: Page, address: str) -> dict[str, float]:
    """Open the app where it stood, and return when what was seen."""
    page.goto("about:blank")
    page.goto(address)
    expect(values(app_of(page)).first).to_be_visible()
    return marks(page, *MARKS)


def measure(browser: Killable, site: Path, slower: float) -> None:
    """Print every figure."""
    handed = Handed(site)
    page = browser.start()
    with slowed(browser, slower):
        page.goto(f"{handed.address}/bare.html")
        page.wait_for_function("document.title === '42'")
        say("bare Python, no app", started=marks(page, "bare")["bare"])
        page.goto(handed.address)
        begin(app_of(page))
        say("first start", **marks(page, "engine-ready", "page-shown"))
        took = inside(page).evaluate("performance.getEntriesByType('navigation')[0].duration")
        say("first answer for a new system", page=took)
        read(app_of(page), "48")
        expect(values(app_of(page))).to_have_text(["48 psi"])
        until(page, KEPT, "48 psi")
        handed.stop()
        again = [opened(page, handed.address) for _ in range(AGAIN)]
        say("opened again", **{name: statistics.median(each[name] for each in again) for name in again[0]})
    address = page.url
    browser.kill()
    page = browser.start()
    with slowed(browser, slower):
        say("another browser", **opened(page, address))
        app = inside(page)
        say("a tap to its page", median=statistics.median(app.evaluate(TIMES, PAGES)))
        checks = [app.evaluate(SENT, said)[1] for said in READINGS]
        say("next check after a reading", median=statistics.median(checks), slowest=max(checks))


def main() -> int:
    """Measure."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--slower", type=float, default=1.0, metavar="N", help="run it a part of N of the time")
    asked = parser.parse_args()
    expect.set_options(timeout=4 * PATIENCE)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        site = Path(folder) / "site"
        shutil.copytree(FOLDER, site)
        (site / "bare.html").write_text(BARE, encoding="utf-8")
        browser = Killable(driver, Path(folder) / "profile")
        try:
            measure(browser, site, asked.slower)
        finally:
            browser.kill()
    return 0


if __name__ == "__main__":
    sys.exit(main())
