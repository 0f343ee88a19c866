"""Small apps that a host speaks to, and a way to hear them without an event loop."""

from __future__ import annotations

from collections.abc import Coroutine
from typing import Any, TypeVar

from starlette.types import Receive, Scope, Send

Result = TypeVar("Result")
ORIGIN = "https://example.org"


def done(working: Coroutine[Any, Any, Result]) -> Result:
    """Return what comes of a call that waits for nothing: a browser's Python can't stand still for an event loop."""
    try:
        working.send(None)
    except StopIteration as end:
        found: Result = end.value
        return found
    raise AssertionError("it waits for something")  # noqa: EM101, TRY003 - seen by whoever broke it


class Told:
    """An app that notes what it is told and answers with the same status, headers and body each time."""

    def __init__(self, status: int = 200, headers: tuple[tuple[bytes, bytes], ...] = (), body: bytes = b"") -> None:
        self.scopes: list[Scope] = []
        self.bodies: list[bytes] = []
        self._status, self._headers, self._body = status, headers, body

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer."""
        self.scopes.append(scope)
        self.bodies.append((await receive())["body"])
        await send({"type": "http.response.start", "status": self._status, "headers": self._headers})
        await send({"type": "http.response.body", "body": self._body})

    def header(self, name: str) -> list[str]:
        """Return every value of a header of the last request."""
        return [value.decode() for key, value in self.scopes[-1]["headers"] if key == name.encode()]
