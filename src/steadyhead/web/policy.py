"""What every answer of the app promises a browser, and which requests it does not hear.

Rules
-----
1. Nothing comes from elsewhere: no script, style, picture or frame of another address, and none written into a page.
2. A page is never kept by a browser or by anything between: it is the state of a visit, and says so anew each time.
3. A host name that is not this home's own is refused, so that no page from elsewhere can reach a laptop's app under a
   name of its own.
4. A body larger than `MOST_BYTES` is refused before it is read, in words; one that grows past it is cut off. Only the
   addresses in `LARGER` take more.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

#: A form of the app is some hundred bytes, a table some hundred thousand.
MOST_BYTES = 256 * 1024
#: The largest photo [bytes], as `steadyhead.service.record.photos.LARGEST_PHOTO`, which is not loaded for every page.
MOST_PHOTO = 12 * 1024 * 1024
#: Where a file that was handed over is taken in, and the largest [MiB].
TAKE_IN, MOST_TAKEN_MB = "/take-in", 64
#: Addresses that take more, and how much: one photo and its form; one file that was handed over
#: (`steadyhead.service.record.everything`); a message of two homes (docs/sync.md).
LARGER: tuple[tuple[re.Pattern[str], int], ...] = (
    (re.compile(r"/visits/[0-9A-HJKMNP-TV-Z]{26}/photos"), MOST_PHOTO + MOST_BYTES),
    (re.compile(r"/settings/logo"), 4 * MOST_BYTES),
    (re.compile(TAKE_IN), MOST_TAKEN_MB * 1024 * 1024 + MOST_BYTES),
    (re.compile(r"/sync/1/photos/[0-9a-f]{64}"), 16 * 1024 * 1024),
    (re.compile(r"/sync/1/(compare|give|take|photos)"), 1024 * 1024 + MOST_BYTES),
)
CONTENT_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' blob:; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'self'"
)
HEADERS = {
    "Content-Security-Policy": CONTENT_POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), screen-wake-lock=(self), usb=()",
}
TOO_LARGE = PlainTextResponse("That is more than the app takes at once.", 413)
LOCAL_HOSTS = ("127.0.0.1", "localhost", "[::1]")


class Policy:
    """Wraps the app: refuses foreign hosts and huge bodies, and puts the headers on every answer."""

    def __init__(self, app: ASGIApp, hosts: Iterable[str] = LOCAL_HOSTS, too_large: ASGIApp = TOO_LARGE) -> None:
        self._app = app
        self._hosts = frozenset(hosts)
        self._too_large = too_large

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        most = most_bytes(scope["path"])
        refusal = self._refusal(Headers(scope=scope), most)
        await (refusal or self._app)(scope, _measured(receive, most), _with_headers(send))

    def _refusal(self, headers: Headers, most: int) -> ASGIApp | None:
        if host_name(headers.get("host", "")) not in self._hosts:
            return PlainTextResponse("This address is not served here.", 421)
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > most:
            return self._too_large
        return None


def most_bytes(path: str) -> int:
    """Return how large a request to an address may be.

    >>> most_bytes("/visits"), most_bytes("/visits/01KQRX467JHX6XV8A99HSWY9BD/photos")
    (262144, 12845056)
    """
    return next((most for pattern, most in LARGER if pattern.fullmatch(path)), MOST_BYTES)


def host_name(header: str) -> str:
    """Return the name in a host header, without its port.

    >>> host_name("127.0.0.1:8000"), host_name("[::1]:80"), host_name("localhost"), host_name("a@b:x")
    ('127.0.0.1', '[::1]', 'localhost', '')
    """
    if "@" in header or "/" in header:
        return ""
    name = urlsplit(f"//{header}").hostname or ""
    return f"[{name}]" if ":" in name else name


def _measured(receive: Receive, most: int) -> Receive:
    """Return `receive`, ending the request where its body grows past the limit."""
    seen = 0

    async def measured() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        return message if seen <= most else {"type": "http.disconnect"}

    return measured


def _with_headers(send: Send) -> Send:
    """Return `send` with the promises put on; what is not said to be kept is not kept."""

    async def with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            headers.setdefault("Cache-Control", "no-store")
            for name, value in HEADERS.items():
                headers[name] = value
        await send(message)

    return with_headers
