"""A page whose app runs inside the shell's frame, looked at as if it were the page itself.

Rules
-----
1. What looks and acts (locators, `goto`, `evaluate`) goes into the frame; what is the tab's (its history, keyboard,
   address, context) stays the tab's. The shell keeps the tab's address that of the frame.
2. The page is handed over once the app runs; an address that is asked for is opened in the frame.
"""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import urljoin

from tests.offline.shown import app_of

if TYPE_CHECKING:
    from playwright.sync_api import Page

#: What of a page is asked of the frame instead.
INTO_THE_FRAME = (
    "locator", "get_by_role", "get_by_text", "get_by_label", "get_by_placeholder", "get_by_alt_text", "get_by_title",
    "evaluate", "evaluate_handle", "eval_on_selector", "content", "title", "wait_for_function", "wait_for_load_state",
    "add_script_tag", "fill", "click", "inner_text",
)  # fmt: skip


def as_phone(page: Page, address: str) -> Page:
    """Open the shell in a tab, wait until the app runs, and let the tab be looked at as the app."""
    page.goto(address)
    _look_inside(page)
    return page


def _look_inside(page: Page) -> None:
    app_of(page)
    frame = page.locator("#app").element_handle().content_frame()
    assert frame is not None

    def go(where: str) -> None:
        with frame.expect_navigation():
            frame.evaluate("where => { location.href = where; }", urljoin(frame.url, where.replace("/#/", "/")))

    def again() -> None:
        for name in (*INTO_THE_FRAME, "goto", "reload"):
            delattr(page, name)
        page.reload()
        _look_inside(page)

    for name in INTO_THE_FRAME:
        setattr(page, name, getattr(frame, name))
    page.goto = go  # type: ignore[method-assign, assignment] # this tab alone
    page.reload = again  # type: ignore[method-assign, assignment] # as above
    frame.wait_for_load_state()
