"""Answers for the app where no server can: speaks ASGI to it inside a browser's worker.

Rules
-----
1. The app is not changed and does not know: it is told its life (start, end), and in between one request after another.
2. A service worker's request lacks ``Host``, ``Content-Length`` and ``Cookie``: they are put in here. ``Set-Cookie`` is
   kept here (`cookies`).
3. Every other header is passed on in both directions, repeated ones too.
4. An app that fails at a page is answered for (`exchange`) and logged; the next request is heard all the same.
5. The app may stand in a folder of the address; it hears nothing of that (`folder`).
6. An app that refuses to start is an error with its own words; one that knows of no start is served all the same.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable, Iterable
from typing import Any
from urllib.parse import SplitResult, unquote, urlsplit

from starlette.types import ASGIApp, Message, Scope

from steadyhead.errors import StartError
from steadyhead.messages import message
from steadyhead.offline.cookies import Jar
from steadyhead.offline.exchange import Answer, Exchange
from steadyhead.offline.folder import Folder

LOG = logging.getLogger("steadyhead.offline")
ASGI = {"version": "3.0", "spec_version": "2.3"}
PORTS = {"http": 80, "https": 443}
#: Headers of a request that are put in here, whatever came.
OURS = frozenset({"host", "content-length", "cookie"})


class Host:
    """Runs one ASGI app for the browser that it is in.

    Parameters
    ----------
    app
        The app.
    origin
        Where the browser believes it to be: ``https://example.org``, ``https://example.org/some/folder/``.
    closing
        Done after the app's end.
    """

    def __init__(self, app: ASGIApp, origin: str, closing: Callable[[], None] = lambda: None) -> None:
        self._app = app
        self._origin = urlsplit(origin)
        self._folder = Folder(self._origin.path)
        self._closing = closing
        self._jar = Jar()
        self._state: dict[str, Any] = {}
        self._inbox: asyncio.Queue[Message] = asyncio.Queue()
        self._started = asyncio.Event()
        self._refused: str | None = None
        self._life: asyncio.Future[None] | None = None

    async def start(self) -> None:
        """Tell the app to start, and wait until it has.

        Raises
        ------
        StartError
            It refuses to.
        """
        await self._inbox.put({"type": "lifespan.startup"})
        self._life = asyncio.ensure_future(self._live())
        await self._started.wait()
        if self._refused is not None:
            await self._life
            raise StartError(message("app-did-not-start", got=self._refused))

    async def stop(self) -> None:
        """Tell the app that it ends, wait until it has, and close what stands behind it."""
        await self._inbox.put({"type": "lifespan.shutdown"})
        if self._life is not None:
            await self._life
        self._closing()

    async def answer(
        self, method: str, url: str, headers: Iterable[Iterable[str]], body: bytes | memoryview | None = None
    ) -> Answer:
        """Return the app's answer to one request.

        Parameters
        ----------
        method
            GET, POST, ...
        url
            The whole address, percent-encoded as the browser has it.
        headers
            Name and value of each header.
        body
            The content; None for a request without one.
        """
        content = b"" if body is None else bytes(body)
        exchange = Exchange(content)
        target = urlsplit(url)
        target = target._replace(path=self._folder.within(target.path))
        try:
            await self._app(self._scope(method, target, headers, content), exchange.receive, exchange.send)
        except Exception:
            LOG.exception("%s %s", method, target.path)
        for cookie in exchange.cookies:
            self._jar.take(cookie)
        return self._folder.outwards(exchange.answer())

    def _scope(self, method: str, target: SplitResult, headers: Iterable[Iterable[str]], content: bytes) -> Scope:
        scheme, host = self._origin.scheme, self._origin.hostname or ""
        return {
            "type": "http", "asgi": ASGI, "http_version": "1.1", "method": method, "scheme": scheme, "root_path": "",
            "path": unquote(target.path), "raw_path": target.path.encode("ascii"),
            "query_string": target.query.encode("ascii"), "headers": self._headers(headers, content),
            "server": (host, self._origin.port or PORTS[scheme]), "client": (host, 0), "state": dict(self._state),
        }  # fmt: skip

    def _headers(self, headers: Iterable[Iterable[str]], content: bytes) -> list[tuple[bytes, bytes]]:
        """Return the request's headers as ASGI wants them, ours among them."""
        came = [(name.lower(), value) for name, value in headers if name.lower() not in OURS]
        ours = [("host", self._origin.netloc), ("content-length", str(len(content)))]
        kept = self._jar.header()
        ours += [("cookie", kept)] if kept else []
        return [(name.encode("latin-1"), value.encode("latin-1")) for name, value in [*came, *ours]]

    async def _live(self) -> None:
        """Live the app's life from its start to its end."""
        try:
            await self._app({"type": "lifespan", "asgi": ASGI, "state": self._state}, self._inbox.get, self._hear)
        except Exception:  # an app without a lifespan says so by failing at it; one that refused has said so before
            LOG.debug("the app's life ended with an error", exc_info=True)
        finally:
            self._started.set()

    async def _hear(self, event: Message) -> None:
        """Hear what the app says of its life."""
        if event["type"] == "lifespan.startup.failed":
            self._refused = event.get("message", "")
        self._started.set()
