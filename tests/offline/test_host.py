"""A host's answers, for apps that any server could serve: what ASGI 3.0 (asgi.readthedocs.io) promises them."""

from __future__ import annotations

import logging

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route
from starlette.types import Receive, Scope, Send

from steadyhead.offline.host import Host
from steadyhead.offline.threads import run_in_place
from tests.offline.spoken import ORIGIN, Told, done


def test_a_request_is_told_as_asgi_has_it() -> None:
    """Path decoded, query raw, name and port of the origin, lower-case header names."""
    app = Told()
    done(Host(app, ORIGIN).answer("GET", f"{ORIGIN}/a%20b/%C3%A9?x=1%202&y=", [("Accept", "text/html")]))
    scope = app.scopes[0]
    assert (scope["method"], scope["scheme"], scope["path"]) == ("GET", "https", "/a b/é")
    assert (scope["raw_path"], scope["query_string"]) == (b"/a%20b/%C3%A9", b"x=1%202&y=")
    assert scope["server"] == ("example.org", 443)
    assert app.header("accept") == ["text/html"]


def test_what_a_service_worker_leaves_out_is_put_in() -> None:
    """The Fetch standard's forbidden headers Host, Content-Length and Cookie; nobody else's are believed."""
    app = Told()
    forged = [("Host", "elsewhere.example"), ("Cookie", "key=forged"), ("Content-Length", "9999")]
    done(Host(app, "http://127.0.0.1:8240").answer("POST", "http://127.0.0.1:8240/", forged, b"said=48"))
    assert (app.header("host"), app.header("content-length"), app.header("cookie")) == (["127.0.0.1:8240"], ["7"], [])
    assert app.scopes[0]["server"] == ("127.0.0.1", 8240)


@pytest.mark.parametrize("body", [b"a=1", memoryview(b"a=1")])
def test_a_body_arrives_whole(body: bytes | memoryview) -> None:
    """Bytes, or what a browser's buffer is as."""
    app = Told()
    done(Host(app, ORIGIN).answer("POST", ORIGIN, [], body))
    assert app.bodies == [b"a=1"]


def test_no_body_is_an_empty_one() -> None:
    """A GET has none."""
    app = Told()
    done(Host(app, ORIGIN).answer("GET", ORIGIN, [], None))
    assert (app.bodies, app.header("content-length")) == ([b""], ["0"])


def test_cookies_are_kept_here_and_go_back() -> None:
    """Several in one answer; the values as they were given; a new one replaces the old."""
    app = Told(headers=((b"set-cookie", b"key=a-b_c; Path=/; HttpOnly"), (b"Set-Cookie", b'say="x y"; Max-Age=60')))
    host = Host(app, ORIGIN)
    answer = done(host.answer("GET", ORIGIN, []))
    assert answer.headers == ()
    done(host.answer("GET", ORIGIN, []))
    assert app.header("cookie") == ['key=a-b_c; say="x y"']


def test_repeated_headers_stay_apart_in_both_directions() -> None:
    """Two of one name are two, in their order."""
    app = Told(headers=((b"link", b"<a>"), (b"Link", b"<b>")))
    answer = done(Host(app, ORIGIN).answer("GET", ORIGIN, [["X-Two", "1"], ["x-two", "2"]]))
    assert answer.headers == (("link", "<a>"), ("link", "<b>"))
    assert app.header("x-two") == ["1", "2"]


def test_look_there_is_passed_on_not_followed() -> None:
    """303: the browser itself looks there."""
    answer = done(Host(Told(303, ((b"location", b"/visits/1"),)), ORIGIN).answer("POST", ORIGIN, [], b""))
    assert (answer.status, answer.headers, answer.body) == (303, (("location", "/visits/1"),), b"")


def test_an_app_that_fails_is_answered_for_and_the_next_request_is_heard(caplog: pytest.LogCaptureFixture) -> None:
    """A 500 with nothing of the cause in it; the log has the cause."""

    async def fails(scope: Scope, _: Receive, send: Send) -> None:
        await send({"type": "http.response.start", "status": 200, "headers": [(b"x-half", b"1")]})
        raise OSError(scope["path"])

    host = Host(fails, ORIGIN)
    with caplog.at_level(logging.ERROR):
        first, second = (done(host.answer("GET", f"{ORIGIN}{path}", [])) for path in ("/secret", "/next"))
    assert (first.status, second.status) == (500, 500)
    assert b"secret" not in first.body
    assert "/secret" in caplog.text


def test_starlettes_own_page_for_a_failure_is_passed_on() -> None:
    """Starlette answers and then raises: its answer counts."""

    async def page(_: Request) -> Response:
        raise OSError

    async def says(_: Request, __: Exception) -> Response:
        return PlainTextResponse("told", 500)

    app = Starlette(routes=[Route("/", page)], exception_handlers={Exception: says})
    assert done(Host(app, ORIGIN).answer("GET", f"{ORIGIN}/", [])).body == b"told"


def test_what_wants_a_thread_runs_in_place(monkeypatch: pytest.MonkeyPatch) -> None:
    """Starlette sends a plain function to a thread; here there is no event loop that could wait for one."""
    monkeypatch.setattr("anyio.to_thread.run_sync", None)
    run_in_place()

    def page(request: Request) -> Response:
        return PlainTextResponse(request.url.path)

    host = Host(Starlette(routes=[Route("/plain", page)]), ORIGIN)
    assert done(host.answer("GET", f"{ORIGIN}/plain", [])).body == b"/plain"
