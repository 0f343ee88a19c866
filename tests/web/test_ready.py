"""What the first request of each page would pay for is done before: modules imported, templates compiled."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, TypeVar

import jinja2
import pytest

from steadyhead.documents import html
from steadyhead.service.at_work import Here
from steadyhead.service.record.given import Given
from steadyhead.web.app import SOON_S, UNASKED_S, make_app
from tests.web.client import Browser
from tests.web.test_joining import Served
from tests.web.test_sync import asked, key_of

Result = TypeVar("Result")


@dataclass
class Watched(Here):
    """Works tasks out here, and keeps what it was asked to load."""

    asked: list[tuple[Callable[[], object], float]] = field(default_factory=list)
    loads: int = 0

    def __post_init__(self) -> None:
        super().__init__()

    async def beside(self, do: Callable[[], Result]) -> Result:
        """Count it, and return what comes of a function."""
        self.loads += 1
        return do()

    def soon(self, load: Callable[[], object], wait_s: float) -> None:
        """Keep what was asked."""
        self.asked.append((load, wait_s))


def test_no_page_compiles_a_template_once_the_app_is_ready(given: Given, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every page of its own and a paper's templates, with a compiler that refuses; made ready by what was asked for."""
    watched = Watched()
    browser = Browser(make_app(given, thinker=watched))
    browser.get("/")
    load, wait_s = watched.asked[0]
    html._environment.cache_clear()
    load()
    monkeypatch.setattr(jinja2.Environment, "compile", _refuses)
    for address in ("/guide", "/settings", "/settings/times", "/instruments", "/van", "/hand-over", "/sync"):
        assert browser.get(address).status == 200
    assert html._environment().get_template("paper.html").name == "paper.html"
    assert wait_s == SOON_S


def _refuses(*_: object, **__: object) -> None:
    pytest.fail("a template is compiled while somebody waits for a page")


def test_a_page_is_imported_where_the_home_can_do_that_beside_the_others_and_once(given: Given) -> None:
    """By count: two pages, one of them twice."""
    watched = Watched()
    browser = Browser(make_app(given, thinker=watched))
    for address in ("/", "/guide", "/"):
        browser.get(address)
    assert watched.loads == 2


def test_a_served_app_is_made_ready_where_nobody_asks_for_a_page(given: Given) -> None:
    """Started as a server starts it: the later of the two times."""
    watched = Watched()
    said = asyncio.run(_started(make_app(given, thinker=watched)))
    assert said == ["lifespan.startup.complete", "lifespan.shutdown.complete"]
    assert [wait_s for _, wait_s in watched.asked] == [UNASKED_S]


async def _started(app: Any) -> list[str]:  # noqa: ANN401 - an ASGI app
    """Start an app and end it; return what it said."""
    asked, said = iter(["lifespan.startup", "lifespan.shutdown"]), []

    async def receive() -> dict[str, str]:
        return {"type": next(asked)}

    async def send(message: Any) -> None:  # noqa: ANN401 - as above
        said.append(message["type"])

    await app({"type": "lifespan", "asgi": {"version": "3.0"}, "state": {}}, receive, send)
    return said


def test_what_reads_a_large_record_is_done_beside_the_pages(given: Given) -> None:
    """By count: the page that hands over (and its module), a file of everything, what another home compares."""
    watched = Watched()
    served = Served(given, thinker=watched)
    browser = Browser(served.app, host="127.0.0.1:8240")
    browser.get("/hand-over")
    assert watched.loads == 2
    browser.get("/hand-over/everything/1")
    assert watched.loads == 5
    key = key_of(served)
    before = watched.loads
    assert asked(served, "compare", b'{"spans": []}', key=key).status == 200
    assert watched.loads == before + 1
