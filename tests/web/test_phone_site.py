"""The phone's site as it is handed out: the right kinds, asked anew each time, nothing but what its list names."""

from __future__ import annotations

import asyncio
import gzip
import hashlib
import json
from pathlib import Path

import pytest
from starlette.types import Message, Receive, Scope, Send

from steadyhead.errors import InputError
from steadyhead.web.phone_site import Handout, read_site
from tests.web.client import Answer

HOSTS = frozenset({"127.0.0.1"})
FILES = {
    "index.html": b"<!doctype html><title>Steadyhead</title>" * 20, "sw.js": b"// the service worker\n" * 20,
    "engine/pyodide.asm.wasm": b"\0asm" * 200, "engine/pyodide.mjs": b"export {};" * 20,
    "engine/site.zip": b"PK\5\6" + bytes(18), "shell/manifest.webmanifest": b"{}",
}  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a site, and a file that is none of it."""
    for path, content in FILES.items():
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_bytes(content)
    (tmp_path / "notes.txt").write_text("not of the site", encoding="utf-8")
    digests = {path: hashlib.sha256(content).hexdigest() for path, content in FILES.items()}
    said = json.dumps({"schema": 1, "program": "steadyhead", "files": digests})
    (tmp_path / "build.json").write_text(said, encoding="utf-8")
    return tmp_path


async def app(_scope: Scope, _receive: Receive, send: Send) -> None:
    """Answer for the app beside the site."""
    await send({"type": "http.response.start", "status": 299, "headers": []})
    await send({"type": "http.response.body", "body": b"the app"})


def ask(handout: Handout, path: str, method: str = "GET", host: str = "127.0.0.1:8241", **headers: str) -> Answer:
    """Return the answer to one request."""
    got: list[Message] = []

    async def send(message: Message) -> None:
        got.append(message)

    async def receive() -> Message:
        return {"type": "http.request", "body": b"", "more_body": False}

    sent = {"host": host, **{name.replace("_", "-"): value for name, value in headers.items()}}
    scope: Scope = {
        "type": "http", "method": method, "path": path, "raw_path": path.encode(), "query_string": b"", "root_path": "",
        "scheme": "http", "headers": [(name.encode(), value.encode()) for name, value in sent.items()],
    }  # fmt: skip
    asyncio.run(handout(scope, receive, send))
    told = {name.decode(): value.decode() for name, value in got[0]["headers"]}
    return Answer(got[0]["status"], told, b"".join(each.get("body", b"") for each in got[1:]), path)


def header(answer: Answer, name: str) -> str | None:
    """Return one header of an answer."""
    return answer.headers.get(name)


@pytest.fixture
def alone(folder: Path) -> Handout:
    """Return the site by itself."""
    return Handout(read_site(folder), HOSTS)


pytestmark = pytest.mark.laptop  # a browser's Python can't stand still until its event loop is done


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/", "text/html; charset=utf-8"),
        ("/engine/pyodide.asm.wasm", "application/wasm"),
        ("/engine/pyodide.mjs", "text/javascript; charset=utf-8"),
        ("/sw.js", "text/javascript; charset=utf-8"),
        ("/shell/manifest.webmanifest", "application/manifest+json"),
    ],
)
def test_each_file_is_told_as_what_it_is(alone: Handout, path: str, kind: str) -> None:
    """IANA's media types: WebAssembly is compiled as it comes under its own alone (WebAssembly Web API, 4)."""
    answer = ask(alone, path)
    assert (answer.status, header(answer, "content-type")) == (200, kind)
    assert header(answer, "x-content-type-options") == "nosniff"


def test_a_browser_asks_each_time_and_is_told_that_nothing_changed(alone: Handout) -> None:
    """RFC 9110, 15.4.5, and RFC 9111, 5.2.2.4: so a new service worker is seen at once."""
    first = ask(alone, "/sw.js")
    assert header(first, "cache-control") == "no-cache"
    again = ask(alone, "/sw.js", if_none_match=header(first, "etag") or "")
    assert (again.status, again.body) == (304, b"")
    assert ask(alone, "/sw.js", if_none_match='"another"').status == 200


def test_what_gets_smaller_is_sent_compressed_to_whoever_takes_it(alone: Handout) -> None:
    """RFC 9110, 8.4; an archive stays as it is."""
    packed = ask(alone, "/engine/pyodide.asm.wasm", accept_encoding="gzip, br")
    assert header(packed, "content-encoding") == "gzip"
    assert gzip.decompress(packed.body) == FILES["engine/pyodide.asm.wasm"]
    assert ask(alone, "/engine/pyodide.asm.wasm").body == FILES["engine/pyodide.asm.wasm"]
    archive = ask(alone, "/engine/site.zip", accept_encoding="gzip")
    assert (header(archive, "content-encoding"), archive.body) == (None, FILES["engine/site.zip"])


@pytest.mark.parametrize("path", ["/notes.txt", "/build.json", "/../notes.txt", "//etc/passwd", "/engine/", "/nothing"])
def test_nothing_is_handed_out_that_the_list_does_not_name(alone: Handout, path: str) -> None:
    """Not even what lies in the folder beside it."""
    assert ask(alone, path).status == 404


def test_it_is_handed_out_and_nothing_is_taken(alone: Handout) -> None:
    """RFC 9110, 15.5.6."""
    answer = ask(alone, "/", "POST")
    assert (answer.status, header(answer, "allow")) == (405, "GET, HEAD")


def test_another_host_name_is_refused(alone: Handout, folder: Path) -> None:
    """RFC 9110, 15.5.20: alone and beside the app."""
    assert ask(alone, "/", host="evil.example").status == 421
    assert ask(Handout(read_site(folder), HOSTS, app), "/phone/", host="evil.example").status == 421


def test_beside_the_app_it_has_one_part_of_the_address(folder: Path) -> None:
    """What stands elsewhere is the app's; the part's own name leads to it."""
    beside = Handout(read_site(folder), HOSTS, app)
    assert ask(beside, "/phone/sw.js").body == FILES["sw.js"]
    assert (ask(beside, "/phone").status, header(ask(beside, "/phone"), "location")) == (303, "/phone/")
    assert [ask(beside, path).status for path in ("/", "/sw.js", "/phones", "/visits")] == [299] * 4


def test_a_site_that_was_changed_or_cut_off_is_not_handed_out(folder: Path) -> None:
    """A phone would refuse the file, each time anew; so it is said where it can be mended."""
    (folder / "sw.js").write_bytes(b"cut off")
    for gone in ("none", "sw.js", "build.json"):
        (folder / gone).unlink(missing_ok=True)
        with pytest.raises(InputError) as error:
            read_site(folder)
        assert error.value.message.id == "offline-no-site"
