"""The app in a folder of an address: every way from page to page stays in it (RFC 3986, 4.2: path-absolute)."""

from __future__ import annotations

import asyncio
import re
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import urlencode, urlsplit

import anyio.to_thread
import pytest

from steadyhead.offline import boot
from steadyhead.offline.exchange import Answer
from steadyhead.offline.folder import Folder
from steadyhead.offline.host import Host
from steadyhead.store.places import Place
from tests.offline.spoken import ORIGIN
from tests.web.client import parsed

pytestmark = pytest.mark.laptop  # a browser's Python can't stand still until its event loop is done

FOLDER = "/some/folder"
ID = re.compile(r"[0-9A-HJKMNP-TV-Z]{26}")
#: What holds no address to go to: a form's values come back to the app, a draft's name stays in the browser.
NO_ADDRESS = frozenset({"value", "content", "d", "data-draft"})


class _Rooted(HTMLParser):
    """Gathers every attribute of a page whose value begins at the root."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take an element's attributes in."""
        del tag
        rooted = ((name, value) for name, value in attrs if value and value.startswith("/"))
        self.found += [(name, value) for name, value in rooted if name not in NO_ADDRESS]


def answer(kind: str, body: bytes, **headers: str) -> Answer:
    """Return an answer of the app."""
    more = tuple((name.replace("_", "-"), value) for name, value in headers.items())
    return Answer(200, (("content-type", kind), *more), body)


def test_addresses_in_a_page_get_the_folder_and_what_a_form_carries_does_not() -> None:
    """Written out by hand."""
    page = b'<a href="/visits">/ "/x"</a><input value="/visits"><form action="/name"><a href="//e/"><a href="#a">'
    want = (
        b'<a href="/some/folder/visits">/ "/x"</a><input value="/visits"><form action="/some/folder/name">'
        b'<a href="//e/"><a href="#a">'
    )
    got = Folder(f"{FOLDER}/").outwards(answer("text/html; charset=utf-8", page, content_length=str(len(page))))
    assert got.body == want
    assert dict(got.headers)["content-length"] == str(len(want))


def test_a_styles_typefaces_and_where_to_look_next_get_it_too() -> None:
    """Written out by hand; a picture's bytes stay as they are."""
    folder = Folder(FOLDER)
    style = folder.outwards(answer("text/css", b'src: url("/assets/a.woff2")'))
    assert style.body == b'src: url("/some/folder/assets/a.woff2")'
    moved = folder.outwards(answer("text/plain", b"", location="/visits/1"))
    assert dict(moved.headers)["location"] == "/some/folder/visits/1"
    picture = answer("image/jpeg", b' href="/')
    assert folder.outwards(picture) == picture


def test_at_the_root_nothing_is_done() -> None:
    """The very same answer."""
    page = answer("text/html", b'<a href="/visits">')
    assert Folder("/").outwards(page) is page


def test_no_page_leads_out_of_the_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every kind of page that links lead to, from the first one on, and a form's way back."""
    monkeypatch.setattr("anyio.to_thread.run_sync", anyio.to_thread.run_sync)
    monkeypatch.setattr(boot, "RECORD", Place(tmp_path / "app.db", tmp_path, "truncate"))
    bad: list[str] = []
    seen: set[str] = set()

    async def ask(host: Host, path: str) -> None:
        got = await host.answer("GET", ORIGIN + path, [])
        kind = dict(got.headers).get("content-type", "")
        if got.status != 200:
            bad.append(f"{path}: {got.status}")
        if not kind.startswith("text/html"):
            return
        for name, value in _Rooted(got.body.decode()).found:
            shape = ID.sub("X", urlsplit(value).path)
            if not value.startswith(f"{FOLDER}/"):
                bad.append(f"{path}: {name}={value}")
            elif name in {"href", "src"} and shape not in seen:
                seen.add(shape)
                await ask(host, value)

    async def whole() -> str:
        host = await boot.boot(f"{ORIGIN}{FOLDER}/")
        assert isinstance(host, Host)
        await ask(host, f"{FOLDER}/")
        today = parsed((await host.answer("GET", f"{ORIGIN}{FOLDER}/", [])).body.decode())
        form = next(each for each in today.forms if each.action == f"{FOLDER}/name")
        body = urlencode(form.filled(author="Ana")).encode()
        kind = [("content-type", "application/x-www-form-urlencoded")]
        kept = await host.answer("POST", ORIGIN + form.action, kind, body)
        await host.stop()
        return dict(kept.headers)["location"]

    assert asyncio.run(whole()).startswith(f"{FOLDER}/")
    assert bad == []
    assert len(seen) > 20
