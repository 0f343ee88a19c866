"""What the app did of late, for a report of a problem: which pages, how they answered, how long it took; never of whom.

Everything that can come into a report by itself is a field of `Event`, and is made in this file.

Rules
-----
1. What goes in is listed, never what stays out: a page's route with its ids left out, a status, milliseconds, ids of
   messages, an error's kind and the lines of this program that it came through.
2. No address as it was asked for, no query, no form, no header, no text of an error: any of these may hold a name, a
   place or a figure that somebody typed.
3. The last `MOST` are held in this process's memory; nothing is written, nothing is sent.
"""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextvars import ContextVar
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from time import perf_counter
from traceback import walk_tb
from types import FrameType

from starlette.routing import compile_path
from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST = 200
#: What an address that is none of the app's is called, and a method that no page of it uses.
ELSEWHERE, OTHER = "(no page)", "(other)"
METHODS = frozenset(("GET", "POST", "HEAD"))
OURS = "steadyhead."
#: So many lines of this program are told of an error, the last ones.
LINES = 3

#: What is said while one request is answered: ids of messages, kinds of errors.
_SAID: ContextVar[list[str] | None] = ContextVar("steadyhead_said", default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One request and its answer.

    Parameters
    ----------
    number
        Counted from 1.
    at
        Milliseconds since 1970, UTC.
    method, route
        One of `METHODS` or `OTHER`; one of the app's routes, its ids as names between braces, or `ELSEWHERE`.
    status
        The answer's; 0 where none came.
    took
        How long it took [ms].
    said
        Ids of messages that were said, kinds of errors with where they came through.
    """

    number: int
    at: int
    method: str
    route: str
    status: int
    took: int
    said: tuple[str, ...]


@dataclass
class Events:
    """The last events, and how many there were."""

    clock: Callable[[], int]
    kept: deque[Event] = field(default_factory=lambda: deque(maxlen=MOST))
    count: int = 0

    def add(self, method: str, route: str, status: int, took: int, said: Iterable[str]) -> None:
        """Take one more."""
        self.count += 1
        self.kept.append(
            Event(
                number=self.count, at=self.clock(), method=method, route=route, status=status, took=took,
                said=tuple(said),
            )
        )  # fmt: skip

    def until(self, number: int) -> Iterator[Event]:
        """Yield those that are still held up to a number, the oldest first."""
        return (each for each in self.kept if each.number <= number)


def note_said(id_: str) -> None:
    """Note the id of a message that the request under way is answered with."""
    said = _SAID.get()
    if said is not None and id_ not in said:
        said.append(id_)


def note_error(error: BaseException) -> None:
    """Note an error's kind, and the last lines of this program that it came through; never its text."""
    lines = [_place(frame, line) for frame, line in walk_tb(error.__traceback__) if _is_ours(frame)]
    note_said(" ".join([type(error).__name__, *lines[-LINES:]]))


def _is_ours(frame: FrameType) -> bool:
    return str(frame.f_globals.get("__name__", "")).startswith(OURS)


def _place(frame: FrameType, line: int) -> str:
    return f"{PurePosixPath(frame.f_code.co_filename.replace(chr(92), '/')).name}:{line}"


class Noted:
    """Wraps the app: notes each request of a page with how it was answered."""

    def __init__(self, app: ASGIApp, events: Events, routes: Iterable[str], quiet: str) -> None:
        self._app = app
        self._events = events
        self._routes: tuple[tuple[re.Pattern[str], str], ...] = tuple((compile_path(each)[0], each) for each in routes)
        self._quiet = quiet  # addresses that begin so are files, not pages

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http" or scope["path"].startswith(self._quiet):
            await self._app(scope, receive, send)
            return
        method = scope["method"] if scope["method"] in METHODS else OTHER
        route, status, began = self._route(scope["path"]), 0, perf_counter()

        async def seen(message: Message) -> None:
            nonlocal status
            status = message["status"] if message["type"] == "http.response.start" else status
            await send(message)

        said: list[str] = []
        token = _SAID.set(said)
        try:
            await self._app(scope, receive, seen)
        finally:
            _SAID.reset(token)
            self._events.add(method, route, status, round(1000 * (perf_counter() - began)), said)

    def _route(self, path: str) -> str:
        return next((route for pattern, route in self._routes if pattern.match(path)), ELSEWHERE)
