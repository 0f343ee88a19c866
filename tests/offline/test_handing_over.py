"""Files that leave a phone's home: by links that a service worker hears of, and under a phone's host in a folder."""

from __future__ import annotations

import asyncio
from pathlib import Path

import anyio.to_thread
import pytest

from steadyhead.offline import boot
from steadyhead.offline.exchange import Answer
from steadyhead.offline.host import Host
from steadyhead.store.places import Place
from tests.offline.spoken import ORIGIN
from tests.web.client import parsed

pytestmark = pytest.mark.laptop  # a browser's Python can't stand still until its event loop is done


@pytest.fixture(autouse=True)
def _threads_come_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """Undo, after each test, that threads run in place."""
    monkeypatch.setattr("anyio.to_thread.run_sync", anyio.to_thread.run_sync)


def test_the_file_of_everything_is_a_link_that_the_phones_own_app_answers(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A link with `download` is fetched past the service worker (seen in Chromium): nobody would answer it."""
    monkeypatch.setattr(boot, "RECORD", Place(tmp_path / "app.db", tmp_path, "truncate"))

    async def whole() -> tuple[str, Answer]:
        host = await boot.boot(f"{ORIGIN}/")
        assert isinstance(host, Host)
        page = (await host.answer("GET", f"{ORIGIN}/hand-over", [])).body.decode()
        file = await host.answer("GET", f"{ORIGIN}{parsed(page).links['Save everything in one file']}", [])
        await host.stop()
        return page, file

    page, file = asyncio.run(whole())
    assert [known for tag, known in parsed(page).tags if tag == "a" and "download" in known] == []
    assert file.status == 200
    assert dict(file.headers)["content-disposition"].startswith("attachment;")
    assert file.body.startswith(b"PK")
