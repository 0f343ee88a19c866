"""Takes a screenshot of every page, narrow and wide, light and dark: run by ``python3 scripts/screens.py``.

Rules
-----
1. A picture is called by its page's number and name, then ``-360`` or ``-1280``, ``-light`` or ``-dark``, and its
   language where that is not English.
2. The record is the one in which every page shows something (`tests.browser.every_page`), and the whole page is taken.
"""

from __future__ import annotations

import argparse
import re
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from tests.browser.conftest import NAMES, PATIENCE, QUIET
from tests.browser.every_page import PAGES, prepared
from tests.browser.served import Served

WIDTHS = (360, 1280)
#: In a picture of a whole page what sticks to the screen would lie on what is under it.
STILL = ".sticky, .drawing { position: static !important; }"
LOCALES = {"en": "en-US", "es": "es-CL"}


def named(made: dict[str, str], only: str) -> Iterator[tuple[str, str]]:
    """Return each page's name and address."""
    for number, (route, of_page) in enumerate(PAGES.items(), start=1):
        words = re.sub(r"\{(\w+)\}", "", route).replace("/", " ").split()
        for face, address in enumerate(of_page):
            name = f"{number:02}{'abcdefgh'[face]}-{'-'.join(words) or 'today'}"
            if only in name:
                yield name, address.format_map(made)


def take(browser: Browser, address: str, pages: list[tuple[str, str]], folder: Path, language: str) -> int:
    """Take every page's pictures in one language; return how many."""
    for width in WIDTHS:
        context = browser.new_context(
            base_url=address, viewport={"width": width, "height": 800}, locale=LOCALES[language],
            is_mobile=width == WIDTHS[0], has_touch=width == WIDTHS[0], reduced_motion="reduce",
        )  # fmt: skip
        context.set_default_timeout(4 * PATIENCE)
        page = context.new_page()
        for name, at in pages:
            page.goto(at)
            for theme in ("light", "dark"):
                page.emulate_media(color_scheme="dark" if theme == "dark" else "light")
                end = f"{width}-{theme}" + ("" if language == "en" else f"-{language}")
                page.screenshot(path=folder / f"{name}-{end}.png", full_page=True, animations="disabled", style=STILL)
        context.close()
    return len(pages) * len(WIDTHS) * 2


def main() -> int:
    """Take them, say how many; return the exit code."""
    parser = argparse.ArgumentParser(description="Screenshots of every page.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--language", choices=tuple(LOCALES), default="en")
    parser.add_argument("--only", default="", metavar="PART", help="pages whose name holds this")
    asked = parser.parse_args()
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        sys.stderr.write("Chromium is not installed.\n")
        return 1
    asked.folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as place, sync_playwright() as driver:
        app = Served(Path(place) / "steadyhead.db", program=("tests.browser.with_phones",))
        app.start()
        try:
            pages = list(named(prepared(app.address), asked.only))
            browser = driver.chromium.launch(executable_path=found, args=QUIET)
            count = take(browser, app.address, pages, asked.folder, asked.language)
            browser.close()
        finally:
            app.stop()
    sys.stdout.write(f"{count} pictures of {len(pages)} faces of {len(PAGES)} pages in {asked.folder}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
