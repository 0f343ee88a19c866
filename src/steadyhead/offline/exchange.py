"""One request and what comes back for it, as ASGI speaks of them."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass, field

from starlette.types import Message

#: What is answered where the app failed so badly that it said nothing.
FAILED = b"The app failed at this page. What was kept before is safe."
#: The header that never leaves: a browser would not hear it from a service worker.
SET_COOKIE = b"set-cookie"


@dataclass(frozen=True, slots=True)
class Answer:
    """What goes back to the browser.

    Parameters
    ----------
    status
        The HTTP status.
    headers
        Name and value of each header, in the app's order; repeated ones stay apart.
    body
        The content.
    """

    status: int
    headers: tuple[tuple[str, str], ...]
    body: bytes


@dataclass(slots=True)
class Exchange:
    """Hands the app one request's body and gathers its answer."""

    body: bytes
    cookies: list[str] = field(default_factory=list)
    _asked: bool = False
    _status: int = 0
    _headers: list[tuple[str, str]] = field(default_factory=list)
    _chunks: list[bytes] = field(default_factory=list)
    _ended: asyncio.Event = field(default_factory=asyncio.Event)

    async def receive(self) -> Message:
        """Give the whole body at once; after it nothing comes but the end, once the answer is complete."""
        if not self._asked:
            self._asked = True
            return {"type": "http.request", "body": self.body, "more_body": False}
        await self._ended.wait()
        return {"type": "http.disconnect"}

    async def send(self, message: Message) -> None:
        """Take a piece of the answer in."""
        if message["type"] == "http.response.start":
            self._status = message["status"]
            for name, value in message.get("headers", ()):
                self._take(name.lower(), value.decode("latin-1"))
        elif message["type"] == "http.response.body":
            self._chunks.append(bytes(message.get("body", b"")))
            if not message.get("more_body"):
                self._ended.set()

    def _take(self, name: bytes, value: str) -> None:
        if name == SET_COOKIE:
            self.cookies.append(value)
        else:
            self._headers.append((name.decode("latin-1"), value))

    def answer(self) -> Answer:
        """Return the answer; one that never came to its end is a plain 500."""
        if not self._ended.is_set():
            return Answer(500, (("content-type", "text/plain; charset=utf-8"),), FAILED)
        return Answer(self._status, tuple(self._headers), b"".join(self._chunks))
