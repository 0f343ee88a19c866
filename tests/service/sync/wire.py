"""A network of a test: two devices, and a wire that may be cut at any byte of any request or reply."""

from __future__ import annotations

from collections.abc import Callable, Generator
from dataclasses import dataclass, field, replace

from steadyhead.errors import SyncError
from steadyhead.messages import message
from steadyhead.service.record.given import Given
from steadyhead.service.sync.far import answer
from steadyhead.service.sync.near import sync
from steadyhead.service.sync.talk import Ask, Reply, Tally
from tests.record.device import Device


class CutError(Exception):
    """The wire was cut."""


@dataclass
class Wire:
    """Carries requests to a far device; after `cut` bytes, both ways counted, nothing passes any more.

    What is cut off in a request reaches nobody, or reaches the far side short (`short`); a reply may be lost after the
    far side has done its part.
    """

    far: Given
    cut: int | None = None
    short: bool = False
    asks: list[str] = field(default_factory=list)
    largest: int = 0

    def carry(self, ask: Ask) -> Reply:
        """Return what comes back."""
        self.asks.append(ask.what)
        body = self._pass(ask.body or b"")
        if self.short and ask.body is not None and len(body) < len(ask.body):
            answer(self.far, ask.what, body)
        if len(body) < len(ask.body or b""):
            raise CutError
        reply = answer(self.far, ask.what, None if ask.body is None else body)
        return replace(reply, body=self._pass(reply.body))

    def _pass(self, body: bytes) -> bytes:
        self.largest = max(self.largest, len(body))
        if self.cut is None:
            return body
        passed = body[: self.cut]
        self.cut -= len(passed)
        return passed


def driven(talk: Generator[Ask, Reply, Tally], carry: Callable[[Ask], Reply]) -> Tally:
    """Drive a sync to its end."""
    try:
        ask = next(talk)
        while True:
            ask = talk.send(carry(ask))
    except StopIteration as end:
        tally: Tally = end.value
        return tally


def brought_together(near: Device, far: Device, *, photos: bool = True) -> Tally:
    """Bring two devices together over a wire that holds."""
    return driven(sync(near.given, photos=photos), Wire(far.given).carry)


def cut_off(near: Device, far: Device, cut: int, *, short: bool = False) -> bool:
    """Begin to bring two devices together over a wire that is cut; return whether it was."""
    try:
        driven(sync(near.given), Wire(far.given, cut, short).carry)
    except (CutError, SyncError):
        return True
    return False


def never(_: Ask) -> Reply:
    """Refuse to carry anything."""
    raise SyncError(message("sync-cut-off"))
