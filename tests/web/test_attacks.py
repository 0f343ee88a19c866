"""What somebody might send to hurt: huge bodies, strange types, paths that climb, scripts in every text.

What phones and their codes are attacked with stands in `test_joining`; host names and form keys in `test_policy` too.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from contextlib import suppress
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import quote, urlencode

import pytest
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from steadyhead.bootstrap import open_home, place_named
from steadyhead.errors import RecordError
from steadyhead.service.record.beside import add_note
from steadyhead.service.record.demo import begin_demo, example_text
from steadyhead.service.record.given import Given, author, set_author
from steadyhead.service.record.lists import find_visits
from steadyhead.service.record.photos import photo_type
from steadyhead.web.app import make_app
from steadyhead.web.assets import read_assets
from steadyhead.web.policy import MOST_BYTES, Policy
from tests.web.client import Answer, Browser
from tests.web.visiting import begin_check, three_taps

#: Ends an attribute, a tag, a comment, a title; each would run where it is put in unescaped.
HOSTILE = "\"'></title></textarea>--><script>alert(1)</script><img src=x onerror=alert(1)>{{ 7*7 }}"
MOST_PAGES = 60
PARTS = "multipart/form-data; boundary=x"


def sent(app: ASGIApp, chunks: int, headers: dict[str, str]) -> tuple[int, int]:
    """Send a body in chunks of 64 kB to a form; return the status, 0 where the line was cut, and the chunks taken."""
    taken = 0
    got: list[dict[str, object]] = []
    scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "POST", "scheme": "http",
        "path": "/visits", "raw_path": b"/visits", "query_string": b"", "root_path": "", "client": ("127.0.0.1", 1),
        "server": ("127.0.0.1", 8000),
        "headers": [(b"host", b"127.0.0.1"), *((k.encode(), v.encode()) for k, v in headers.items())],
    }  # fmt: skip

    async def receive() -> Message:
        nonlocal taken
        taken += 1
        return {"type": "http.request", "body": b"a" * 65536, "more_body": taken < chunks}

    async def send(message: Message) -> None:
        got.append(dict(message))

    async def answer() -> None:
        await app(scope, receive, send)

    with suppress(StopIteration):
        answer().send(None)
    return int(str(got[0]["status"])) if got else 0, taken


@pytest.mark.parametrize("kind", ["application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain"])
def test_a_body_without_a_length_is_cut_off_where_it_grows_too_large(browser: Browser, kind: str) -> None:
    """Chunked, a gigabyte: no more is taken than the limit and one chunk."""
    status, taken = sent(browser.app, 16384, {"content-type": kind})
    assert status in {400, 413}
    assert taken <= MOST_BYTES // 65536 + 2


def test_whoever_reads_a_body_is_told_that_it_ended_where_it_grows_too_large() -> None:
    """The door itself, before an app that reads all it is given: the line is cut, so that nothing is answered."""
    read = 0

    async def reads(_: Scope, receive: Receive, __: Send) -> None:
        nonlocal read
        while (message := await receive())["type"] == "http.request" and message["more_body"]:
            read += len(message["body"])

    status, taken = sent(Policy(reads), 16384, {})
    assert (status, read) == (0, MOST_BYTES)
    assert taken == MOST_BYTES // 65536 + 1


@pytest.mark.parametrize("length", [str(MOST_BYTES + 1), "-1", "1e9", "x", "9" * 40, "１"])
def test_a_length_that_is_none_or_too_large_is_refused_unread(browser: Browser, length: str) -> None:
    """Nothing of the body is taken."""
    assert sent(browser.app, 1, {"content-length": length}) == (413, 0)


@pytest.mark.parametrize("kind", ["application/json", "text/xml", "image/png", "", "multipart/form-data"])
def test_a_form_of_another_type_changes_nothing(browser: Browser, kind: str) -> None:
    """No field is read out of it, so that it has no key."""
    form = browser.get("/").page.form("/visits")
    body = str(form.filled(complaint="other")).encode()
    assert browser.post_bytes("/visits", body, kind).status == 400
    assert "Open visits" not in browser.get("/").page.said


def test_many_fields_and_many_files_are_refused(browser: Browser) -> None:
    """A thousand of either in one small form."""
    fields = browser.get("/").page.form("/visits").filled(complaint="other")
    many = urlencode({**fields, **{f"a{number}": "1" for number in range(1000)}})
    assert browser.post_bytes("/visits", many.encode(), "application/x-www-form-urlencoded").status == 400
    part = '--x\r\nContent-Disposition: form-data; name='
    plain = "".join(f'{part}"{name}"\r\n\r\n{value}\r\n' for name, value in fields.items())
    files = f'{part}"f"; filename="f"\r\n\r\n1\r\n' * 1000
    assert browser.post_bytes("/visits", f"{plain}{files}--x--\r\n".encode(), PARTS).status == 400
    assert "Open visits" not in browser.get("/").page.said


@pytest.mark.parametrize(
    "content",
    [b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>", b"<!doctype html><script>", b"GIF89a", b"%PDF-1.7",
     b"MZ\x90\x00", b"PK\x03\x04", b"", b"\x00\xff\xd8\xff", b"RIFF....WAVE"],
)  # fmt: skip
def test_what_is_no_photo_is_refused_by_its_content_whatever_it_is_called(content: bytes) -> None:
    """First bytes of other formats, from their specifications (from memory); name and type sent count for nothing."""
    with pytest.raises(RecordError):
        photo_type(content)


CLIMBS = ("../app.py", "..%2fapp.py", "%2e%2e/app.py", "%2e%2e%2fapp.py", "....//app.py", "..\\app.py", "..%5capp.py",
          "%00", "page.css%00.js", "/etc/passwd", "%2fetc%2fpasswd", "C:%5cwindows", "templates/base.html")  # fmt: skip


@pytest.mark.parametrize("climb", CLIMBS)
@pytest.mark.parametrize("under", ["/assets/", "/visits/", "/visits/x/papers/", "/sensor-checks/", "/systems/"])
def test_no_path_leads_out_of_where_it_begins(browser: Browser, under: str, climb: str) -> None:
    """A page that is not there, or leads back within the app; never a file."""
    answer = browser.get(under + climb)
    assert answer.status == 404
    assert "import" not in answer.text
    assert "root:" not in answer.text


def test_every_file_that_is_served_is_one_of_the_list(browser: Browser) -> None:
    """Each by its own address, and by no other: the plain name is not served."""
    for address, asset in read_assets().served.items():
        assert browser.get(address).body == asset.content
    assert browser.get("/assets/app.js").status == 404


class Alive(HTMLParser):
    """What of a page would run, or come from elsewhere."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at one tag."""
        known = {name: value or "" for name, value in attrs}
        self.found += [f"{tag} {name}" for name in known if name.startswith("on") or name in {"style", "srcdoc"}]
        if tag in {"script", "img", "iframe", "object", "embed", "link", "base"}:
            there = known.get("src") or known.get("href") or known.get("data") or ""
            if not there.startswith(("/assets/", "/visits/")):
                self.found.append(f"{tag} {there}")
        for name in ("href", "action", "formaction", "src"):
            there = known.get(name, "/").strip().lower()
            if there.startswith(("javascript:", "data:", "//", "vbscript:")):
                self.found.append(f"{tag} {name} {there}")


def pages(browser: Browser, first: str) -> Iterator[Answer]:
    """Yield every page that links lead to."""
    seen, left = {first}, [first]
    while left and len(seen) < MOST_PAGES:
        answer = browser.get(left.pop(0))
        yield answer
        if "html" not in answer.headers.get("content-type", ""):
            continue
        for tag, known in answer.page.tags:
            there = known.get("href", "").partition("#")[0]
            if tag == "a" and there.startswith("/") and there not in seen and not there.endswith(".pdf"):
                seen.add(there)
                left.append(there)


def hostile_visit(given: Given) -> str:
    """Keep a visit with a script in each of its texts; return its address."""
    tables = tomllib.loads(example_text())
    quoted = HOSTILE.replace("\\", "\\\\").replace('"', '\\"')
    text = f'schema = 1\n[site]\nname = "{quoted}"\n[complaint]\ntext = "{quoted}"\n'
    sensor = tables["sensor"]
    text += f'[sensor]\nsignal = "{sensor["signal"]}"\nrange = "{sensor["range"]}"\n'
    text += f'[controller]\nsupply = "5 V"\n[labels]\n"controller.signal" = "{quoted[:40]}"\n'
    text += '[[reading]]\nmeasure = "gauge-pressure"\nvalue = "50 psi"\n'
    visit = begin_demo(given, text)
    add_note(given, visit, HOSTILE)
    set_author(given, HOSTILE)
    return f"/visits/{visit}"


def test_a_script_in_any_text_of_a_visit_is_text_on_every_page(browser: Browser, given: Given) -> None:
    """Names, labels, complaint, note, author: every page that can be reached from the visit, and the first one."""
    visit = hostile_visit(given)
    shown = 0
    for first in (visit, "/", f"{visit}/papers"):
        for answer in pages(browser, first):
            assert answer.status < 500, answer.address
            assert Alive(answer.text).found == [], answer.address
            assert "49" not in answer.page.said.partition("7*7")[0][-9:], answer.address
            shown += "alert(1)" in answer.page.said
    assert shown > 5


def test_a_script_in_what_a_form_sends_is_text_where_it_is_shown_again(browser: Browser) -> None:
    """A reading, a serial number, the name of a table's file: all refused, all shown."""
    visit = three_taps(browser)
    form = visit.page.form("/readings")
    again = browser.post(form.action, form.filled(said=HOSTILE))
    assert (again.status, Alive(again.text).found) == (422, [])
    assert "alert(1)" in again.text
    check = begin_check(browser, visit.address)
    form = browser.get(f"{check.address}/table").page.form("/table")
    part = '--x\r\nContent-Disposition: form-data; name='
    fields = "".join(f'{part}"{name}"\r\n\r\n{value}\r\n' for name, value in form.fields.items())
    file = f'{part}"file"; filename="{quote(HOSTILE)}<b>"\r\n\r\nno table\r\n--x--\r\n'
    again = browser.post_bytes(form.action, (fields + file).encode(), PARTS)
    assert (again.status, Alive(again.text).found) == (422, [])


@pytest.mark.parametrize(
    "query", ["?check=", "?suspect=", "/read?red=", "/papers/office?sheet=", "/papers/office?decimal="]
)
def test_a_script_in_an_address_is_text(browser: Browser, query: str) -> None:
    """Reflected: whatever an address asks for."""
    visit = three_taps(browser).address
    there = f"{visit}/why{query}" if "suspect" in query else visit + query
    answer = browser.get(there + quote(HOSTILE))
    assert Alive(answer.text).found == []
    assert "<script>alert" not in answer.text


@pytest.mark.parametrize("sign", ["%0d%0aX-Evil: 1", "%0aX-Evil: 1", "%E5%98%8A%E5%98%8DX-Evil: 1"])
def test_line_ends_in_an_address_set_no_header(browser: Browser, sign: str) -> None:
    """Where a form's address leads back, and where a paper names its file."""
    for address in (f"/visits/{sign}/readings", f"/visits/{sign}/close", f"/visits/{sign}/papers/office.pdf"):
        answer = browser._ask("GET", address, b"", {})
        assert "x-evil" not in answer.headers
        assert not any("\n" in value or "\r" in value for value in answer.headers.values())


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "TRACE", "CONNECT", "OPTIONS"])
def test_other_methods_are_not_heard(browser: Browser, method: str) -> None:
    """Only pages and forms; a form's method cannot be told otherwise by a header either."""
    assert browser._ask(method, "/visits", b"", {}).status in {404, 405}
    assert browser._ask("GET", "/settings", b"", {"x-http-method-override": "POST"}).status == 200


def test_what_goes_wrong_inside_tells_nothing_of_the_inside(browser: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    """A failure of the program: one line, no trace, no path."""

    def fails(_: object) -> None:
        raise OSError("/srv/ana/secret.db")  # noqa: EM101 - what must not be shown

    monkeypatch.setattr("steadyhead.web.pages.today.open_today", fails)
    answer = browser.get("/")
    assert answer.status == 500
    assert not any(word in answer.text for word in ("secret", "Traceback", "OSError", ".py"))


def test_a_failure_is_logged_without_what_was_sent(
    browser: Browser, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """The code of a phone stands in no log, be it sent in a form or, wrongly, in an address."""

    def fails(_: object) -> None:
        raise OSError

    monkeypatch.setattr("steadyhead.web.pages.today.open_today", fails)
    with caplog.at_level("DEBUG"):
        browser.get("/?code=12345678", cookie="steadyhead_phone=87654321")
    assert "12345678" not in caplog.text
    assert "87654321" not in caplog.text


@pytest.mark.parametrize("text", ["'; DROP TABLE fact; --", "\" OR 1=1 --", "%' OR '1'='1", "1); DELETE FROM setting"])
def test_a_text_that_is_sql_is_text(tmp_path: Path, text: str) -> None:
    """On a real SQLite file: the name of an author, an id in an address, a word that is looked for."""
    home = open_home(place_named(str(tmp_path / "app.db")))
    try:
        begin_demo(home.given, example_text())
        browser = Browser(make_app(home.given))
        form = browser.get("/").page.form("/name")
        assert browser.post(form.action, form.filled(author=text)).status == 200
        assert author(home.given) == " ".join(text.split())
        for address in ("/visits/", "/systems/", "/sensor-checks/"):
            assert browser.get(address + quote(text, safe="")).status == 404
        assert find_visits(home.given, text) == ()
        assert browser.get("/").status == 200
    finally:
        home.close()
