"""Kills a phone's app at random moments while it keeps facts, and looks whether anything that it answered for is gone.

Rules
-----
1. What is killed is the browser with all its processes, the tab, or the tab's renderer; how, and when, is drawn from a
   seed: after so many answered forms, and so many milliseconds into what comes next.
2. All kills hit one record, which grows. Nobody serves the app after its first start.
3. After each kill the app is opened again: every visit that was answered for must be there, and SQLite must find the
   database whole.
4. What is killed is a program, not the machine: what the system had in its memory still reaches the disk.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.offline.shown import app_of

if TYPE_CHECKING:
    from playwright.sync_api import ConsoleMessage, Page

    from tests.offline.handed import Handed
    from tests.offline.killed import Killable

WAYS = ("browser", "tab", "renderer")
MOST_ANSWERS, MOST_MS = 6, 60
#: Begins one visit after the other, as fast as it can, and says which was answered for.
LOAD = """async () => { const frame = document.getElementById('app').contentWindow;
  for (;;) { const page = await (await frame.fetch('/')).text();
    const form = new DOMParser().parseFromString(page, 'text/html').querySelector('form[action$="/visits"]');
    const fields = new URLSearchParams(new FormData(form)); fields.set('complaint', 'reads-wrong');
    const answer = await frame.fetch(form.getAttribute('action'), { method: 'POST', body: fields });
    console.log('kept ' + new URL(answer.url).pathname.match('/visits/([0-9A-Z]{26})')[1]); } }"""
KEPT = "kept "
#: Asked of the engine's own Python: is the database whole, and which visits are in it.
INSIDE = """() => self.python.runPython(`
import json, sqlite3
record = sqlite3.connect("/data/app.db")
json.dumps([[row[0] for row in record.execute("PRAGMA integrity_check")],
            [row[0] for row in record.execute("SELECT DISTINCT about FROM fact WHERE kind = 'visit'")]])`)"""


@dataclass(frozen=True)
class Outcome:
    """What was seen after one kill: how, visits answered for so far, those of them that are gone, what SQLite said."""

    way: str
    told: int
    gone: int
    found: tuple[str, ...]

    @property
    def fine(self) -> bool:
        """Whether nothing was lost and the database is whole."""
        return not self.gone and self.found == ("ok",)


@dataclass
class Kills:
    """Kills the app again and again."""

    browser: Killable
    handed: Handed
    seed: int
    told: set[str] = field(default_factory=set)

    def often(self, times: int) -> Iterator[Outcome]:
        """Kill it so often, and yield what was seen after each kill."""
        drawn = random.Random(self.seed)  # noqa: S311 - moments, no secrets
        page = self._opened(self.browser.start())
        self.handed.stop()
        for time in range(times):
            way = WAYS[time % len(WAYS)]
            self._killed(page, way, drawn.randint(1, MOST_ANSWERS), drawn.uniform(0.0, MOST_MS))
            page = self._opened(self.browser.start() if way == "browser" else self.browser.another())
            found, there = json.loads(page.workers[0].evaluate(INSIDE))
            yield Outcome(way, len(self.told), len(self.told - set(there)), tuple(found))

    def _opened(self, page: Page) -> Page:
        page.goto(self.handed.address)
        expect(app_of(page).locator("footer")).to_be_visible()
        return page

    def _killed(self, page: Page, way: str, answers: int, more_ms: float) -> None:
        """Let it keep so many visits, and kill it a moment later."""
        heard: list[str] = []

        def hear(said: ConsoleMessage) -> None:
            heard.extend([said.text.removeprefix(KEPT)] if said.text.startswith(KEPT) else [])

        page.on("console", hear)
        with page.expect_event("console", lambda _: len(heard) >= answers):
            page.evaluate(f"() => {{ ({LOAD})(); }}")
        page.wait_for_timeout(more_ms)  # the moment itself is random: nothing is waited for
        self._kill(page, way)
        self.told |= set(heard)

    def _kill(self, page: Page, way: str) -> None:
        if way == "browser":
            self.browser.kill()
        elif way == "tab":
            page.close(run_before_unload=False)
        else:
            self.browser.crash(page)
