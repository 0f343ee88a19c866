"""A Chromium of its own process, on a profile that stays, which can be killed as a flat battery does it."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import threading
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from tests.browser.conftest import NAMES, QUIET
from tests.support import cannot_run

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Playwright

LISTENING = "DevTools listening on "
#: Without a window, a session to restore, or a bubble that says that it was killed.
BARE = ("--headless=new", "--remote-debugging-port=0", "--hide-crash-restore-bubble", "--disable-dev-shm-usage")
#: With a page of its own instead (a new tab's), a driver waits for seconds, now and then for ever.
FIRST = "about:blank"
#: Where it believes to be, unlike whoever runs it.
ZONE = "Africa/Nairobi"
THERE = os.environ | {"TZ": ZONE}


@dataclass
class Killable:
    """A browser on a profile, driven through its own debugging port."""

    driver: Playwright
    profile: Path
    complaints: list[str] = field(default_factory=list)
    more: tuple[str, ...] = ()
    _process: subprocess.Popen[str] | None = field(default=None, repr=False)
    _context: BrowserContext | None = field(default=None, repr=False)
    _listener: threading.Thread = field(default_factory=threading.Thread, repr=False)

    def start(self) -> Page:
        """Start it and return a page; without a Chromium skip, and in CI fail."""
        found = next(filter(None, map(shutil.which, NAMES)), None)
        if found is None:
            cannot_run("Chromium is not installed")
        command = [found, *QUIET, *BARE, *self.more, f"--user-data-dir={self.profile}", FIRST]
        self._process = subprocess.Popen(
            command, stderr=subprocess.PIPE, encoding="utf-8", start_new_session=True, env=THERE
        )  # fmt: skip
        self._listener = threading.Thread(target=_drain, args=(self._process,))
        address = _address(self._process)
        self._listener.start()
        self._context = self.driver.chromium.connect_over_cdp(address).contexts[0]
        return self.another()

    def another(self) -> Page:
        """Return another page of the browser that runs."""
        assert self._context is not None
        page = self._context.new_page()
        page.on("console", self._hear)
        return page

    def crash(self, page: Page) -> None:
        """Let the process behind a page die, and clear the page away."""
        from playwright.sync_api import Error as PlaywrightError  # noqa: PLC0415 - a browser's Python reads this file too

        with page.expect_event("crash"), suppress(PlaywrightError):
            page.goto("chrome://crash")
        page.close()

    def _hear(self, said: ConsoleMessage) -> None:
        if said.type == "error":
            self.complaints.append(said.text)

    @property
    def group(self) -> int:
        """The processes of the browser that runs, as the system numbers them together."""
        assert self._process is not None
        return self._process.pid

    def kill(self) -> None:
        """Kill it with all that it started, in the middle of whatever it does."""
        if self._process is not None:
            os.killpg(self.group, signal.SIGKILL)
            self._process.wait()
            self._listener.join()
            self._process = None


def _address(process: subprocess.Popen[str]) -> str:
    """Return where the browser listens, as it says on stderr."""
    assert process.stderr is not None
    said = next(line for line in process.stderr if line.startswith(LISTENING))
    return said.removeprefix(LISTENING).strip()


def _drain(process: subprocess.Popen[str]) -> None:
    """Let a browser talk on until it ends."""
    assert process.stderr is not None
    with process.stderr as said:
        for _ in said:
            pass
