"""What the first request of each page would pay for is done before: modules imported, templates compiled."""

from __future__ import annotations

import asyncio
import json
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, TypeVar

import jinja2
import pytest

from steadyhead.documents import html
from steadyhead.service.at_work import Here
from steadyhead.service.record.given import Given
from steadyhead.web.app import SOON_S, UNASKED_S, make_app
from tests.support import ROOT
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


@pytest.mark.laptop
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


@pytest.mark.laptop
@pytest.mark.parametrize("page", ["call", "before", "photos"])
def test_nothing_is_imported_while_a_page_of_a_visit_is_made(page: str) -> None:
    """In a Python of its own, that has shown the first page alone: what is new while the page is made.

    The page's own module and what the shop needs were imported before, where the home can do that beside the others.
    """
    found = subprocess.run(
        [sys.executable, "-c", ALONE, page], check=True, capture_output=True, encoding="utf-8", cwd=ROOT
    )
    assert json.loads(found.stdout) == []


#: Shows the first page of an app, then one of its invented visit's; prints what was imported by that last, but for the
#: loading itself.
ALONE = """
import json, sys
sys.path[:0] = ["src", "."]
from steadyhead.service.at_work import Here
from steadyhead.service.record.lists import today
from steadyhead.service.record.demo import begin_demo, example_text
from steadyhead.web.app import make_app
from tests.support import ROOT
from tests.web.client import Browser
from tests.record.device import Device

class Loads(Here):
    before = frozenset()

    async def beside(self, do):
        found = do()
        self.before = frozenset(sys.modules)
        return found

loads, given = Loads(), Device().given
begin_demo(given, example_text())
browser = Browser(make_app(given, thinker=loads))
browser.get("/")
assert browser.get(f"/visits/{today(given).visits[0].id}/{sys.argv[1]}").status == 200
print(json.dumps(sorted(each for each in set(sys.modules) - loads.before if each.startswith("steadyhead"))))
"""
