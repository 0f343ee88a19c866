"""No page is forgotten: each route that shows something is among those that are looked at."""

from __future__ import annotations

from steadyhead.web import app
from tests.browser.every_page import FILES, LEADS, PAGES


def test_every_route_that_shows_something_can_be_opened_with_a_prepared_record() -> None:
    """The app's own table; none is left, and none is there that the app has no more."""
    assert {path for path, show, _ in app.PAGES if show} == {*PAGES, *FILES, *LEADS}
