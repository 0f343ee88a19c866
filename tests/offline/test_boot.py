"""The start inside a browser, here on a file of the laptop's: the same app, the same record, the same first visit."""

from __future__ import annotations

import asyncio
import json
import os
import random
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import anyio.to_thread
import pytest
from starlette.types import ASGIApp

from steadyhead.bootstrap import local_zone
from steadyhead.diagnosis import diagnose as diagnosing
from steadyhead.offline import boot
from steadyhead.offline.host import Host
from steadyhead.service.at_work import Thinker
from steadyhead.service.record.given import Given
from steadyhead.service.sync.courier import Reach
from steadyhead.store.places import Place
from steadyhead.store.shelf import Shelf
from steadyhead.visit.record import Visit
from steadyhead.web.app import make_app
from tests.offline.spoken import ORIGIN
from tests.web.client import Page, parsed

pytestmark = pytest.mark.laptop  # a browser's Python can't stand still until its event loop is done

#: Starts twice on one record, each time in a Python of its own; prints what the second one imports after `load`.
AGAIN = """
import asyncio, json, sys
from pathlib import Path
from steadyhead.offline import boot
from steadyhead.store.places import Place
from steadyhead.web.render import _environment
boot.load()
before, compiled = set(sys.modules), len(_environment().cache)
async def start():
    host = await boot.start(Place(Path(sys.argv[1]) / "app.db", Path(sys.argv[1]), "truncate"), "https://example.org")
    answer = await host.answer("GET", "https://example.org/", [])
    await host.stop()
    return answer.status
assert asyncio.run(start()) == 200
heavy = ("steadyhead", "sqlalchemy", "alembic")
ours = [name for name in sorted(set(sys.modules) - before) if name.partition(".")[0] in heavy]
print(json.dumps([ours, len(_environment().cache) - compiled]))
"""


@pytest.fixture(autouse=True)
def _threads_come_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """Undo, after each test, that threads run in place."""
    monkeypatch.setattr("anyio.to_thread.run_sync", anyio.to_thread.run_sync)


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Place:
    """Put the record into a folder of the test's own."""
    place = Place(tmp_path / "app.db", tmp_path, "truncate")
    monkeypatch.setattr(boot, "RECORD", place)
    return place


async def today(host: Host) -> Page:
    """Return the first page."""
    return parsed((await host.answer("GET", f"{ORIGIN}/", [])).body.decode())


async def booted() -> Host:
    """Return a host that started."""
    host = await boot.boot(ORIGIN)
    assert isinstance(host, Host)
    return host


@pytest.mark.usefixtures("place")
def test_a_new_record_begins_with_the_invented_visit_as_on_a_laptop() -> None:
    """`steadyhead app` shows the same."""

    async def whole() -> Page:
        host = await booted()
        page = await today(host)
        await host.stop()
        return page

    assert any("Fernhill Row" in word for word in asyncio.run(whole()).words)


@pytest.mark.usefixtures("place")
def test_what_a_form_kept_is_there_at_the_next_start() -> None:
    """The name that is asked once is not asked again."""

    async def whole() -> list[list[str]]:
        asked = []
        for _ in range(2):
            host = await booted()
            forms = (await today(host)).forms
            asked.append([form.action for form in forms])
            body = urlencode(forms[0].filled(author="Ana")).encode()
            kind = [("content-type", "application/x-www-form-urlencoded")]
            assert (await host.answer("POST", f"{ORIGIN}/name", kind, body)).status == 303
            await host.stop()
        return asked

    first, second = asyncio.run(whole())
    assert "/name" in first
    assert "/name" not in second


@pytest.mark.usefixtures("place")
def test_the_app_hears_no_other_host() -> None:
    """421: this address is not served here (RFC 9110, 15.5.20)."""

    async def whole() -> int:
        host = await booted()
        elsewhere = Host(host._app, "https://elsewhere.example")
        answer = await elsewhere.answer("GET", "https://elsewhere.example/", [])
        await host.stop()
        return answer.status

    assert asyncio.run(whole()) == 421


@pytest.mark.usefixtures("place")
def test_the_app_is_told_that_its_home_is_a_phones_browser(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pages that need a folder, a printer or a network say something else there; a laptop's app is told nothing."""
    told: list[bool] = []

    def made(
        given: Given, *, hosts: Iterable[str], thinker: Thinker, phone: bool = False, reach: Reach | None = None
    ) -> ASGIApp:
        told.append(phone and reach is not None)
        return make_app(given, hosts=hosts, thinker=thinker, phone=phone, reach=reach)

    async def whole() -> None:
        await (await booted()).stop()

    monkeypatch.setattr(boot, "make_app", made)
    asyncio.run(whole())
    assert told == [True]


def test_a_reopened_phone_works_nothing_out_again(place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same visit's page, twice, by two starts of the app: the second asks the engine for nothing."""
    worked: list[Visit] = []

    def counted(visit: Visit, *more: Any) -> diagnosing.Diagnosed:  # noqa: ANN401 - as it is called
        worked.append(visit)
        return diagnosed(visit, *more)

    async def whole() -> str:
        host = await booted()
        address = next(link for link in (await today(host)).links.values() if link.startswith("/visits/"))
        shown = (await host.answer("GET", ORIGIN + address, [])).body.decode()
        await host.stop()
        return shown

    diagnosed = diagnosing.diagnosed
    monkeypatch.setattr(diagnosing, "diagnosed", counted)
    first = asyncio.run(whole())
    assert len(worked) == 1
    second = asyncio.run(whole())
    assert len(worked) == 1
    assert parsed(second).words == parsed(first).words
    assert place.file.with_name("thoughts.db").stat().st_size > 0


def test_an_app_that_ends_lets_go_of_the_answers_that_it_keeps(monkeypatch: pytest.MonkeyPatch) -> None:
    """A browser's files are closed right after; a newer Python tells every connection that was left open."""
    closed: list[Path] = []
    monkeypatch.setattr(Shelf, "close", lambda shelf: closed.append(shelf._file))

    async def whole() -> None:
        host = await booted()
        assert not closed
        await host.stop()

    asyncio.run(whole())
    assert [file.name for file in closed] == ["thoughts.db"]


def test_a_memory_that_was_kept_draws_other_numbers_and_knows_where_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    """Python's own chance stands in that memory as it was (pyodide#4652), and so does the environment."""
    monkeypatch.setenv("TZ", "Europe/Madrid")
    kept = random.getstate()
    before = random.getrandbits(64)
    random.setstate(kept)
    boot.woken("Africa/Nairobi")
    assert random.getrandbits(64) != before
    assert local_zone(os.environ) == "Africa/Nairobi"


def test_what_stands_in_the_way_is_told_in_words(place: Place) -> None:
    """A file that is no database: nothing of it is changed."""
    place.file.write_bytes(b"no database at all, but long enough to be taken for one" * 20)
    before = place.file.read_bytes()
    told = asyncio.run(boot.boot(ORIGIN))
    assert isinstance(told, str)
    assert "is no database of this program" in told
    assert place.file.read_bytes() == before


def test_a_start_with_a_kept_memory_imports_and_compiles_nothing_more_for_the_first_page(tmp_path: Path) -> None:
    """What the memory holds (`load`) is all that a start on a record imports, and each template of the first page."""
    told = [_said_by_a_start(tmp_path) for _ in range(2)]
    assert told[1] == [[], 0]


def _said_by_a_start(folder: Path) -> Any:  # noqa: ANN401 - read from JSON
    command = [sys.executable, "-c", AGAIN, str(folder)]
    done = subprocess.run(command, check=True, capture_output=True, encoding="utf-8")
    return json.loads(done.stdout)
