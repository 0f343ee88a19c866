"""What two homes say to each other, version 1: requests and replies as values, and their JSON (docs/sync.md).

Rules
-----
1. Every reply is one whole JSON document, or one whole photo: one that was cut off is no document, and is refused.
2. A fact travels as its canonical text, so that what a newer version wrote arrives as it left.
3. Each message has a limit (`MOST_...`): whoever gets more refuses it, whoever sends keeps within it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from steadyhead.errors import InputError, SyncError
from steadyhead.messages import message
from steadyhead.service.record.coming import NOTHING, Imported
from steadyhead.service.sync.version import VERSION
from steadyhead.visit.facts import LARGEST, Fact, canonical, fact_from_text, stop_at_depth
from steadyhead.visit.nearest import shown

JSON = "application/json"
MOST_SPANS, MOST_IDS, MOST_PHOTOS = 64, 500, 200
MOST_MARKS = 4000  #: of one reply
MOST_FACTS_BYTES = 512 * 1024  #: of one message, unless a single fact is larger
MOST_BODY = 1024 * 1024 + LARGEST  #: bytes of any message but a photo


@dataclass(frozen=True, slots=True)
class Tally:
    """How far a sync has come: what came (`came`), and what was new at the other home."""

    came: Imported = NOTHING
    sent: int = 0
    photos_sent: int = 0
    collisions: int = 0
    erased: int = 0


@dataclass(frozen=True, slots=True)
class Ask:
    """What one home asks another: a method, an address below `version.PREFIX`, and a body; and how far it has come."""

    what: str
    body: bytes | None = None
    media_type: str = JSON
    tally: Tally = field(default_factory=Tally)

    @property
    def method(self) -> str:
        """The HTTP method."""
        return "GET" if self.body is None else "POST"


@dataclass(frozen=True, slots=True)
class Reply:
    """What comes back."""

    status: int
    body: bytes
    media_type: str = JSON


def asked(what: str, values: Mapping[str, Any], tally: Tally) -> Ask:
    """Return a request in JSON."""
    return Ask(what, json_bytes(values), tally=tally)


def json_bytes(values: Mapping[str, Any]) -> bytes:
    """Return a message as JSON."""
    return json.dumps(values, separators=(",", ":"), allow_nan=False).encode()


def told(reply: Reply) -> dict[str, Any]:
    """Return what a reply says.

    Raises
    ------
    SyncError
        The other home refuses, has failed, speaks another version, or its reply was cut off.
    """
    refuse_failure(reply)
    return document(reply.body)


def refuse_failure(reply: Reply) -> None:
    """Refuse a reply that is none.

    Raises
    ------
    SyncError
        The other home refuses, has failed, or speaks another version.
    """
    if reply.status == 401:
        raise SyncError(message("sync-not-paired"))
    if reply.status in (404, 405, 421):
        raise SyncError(message("sync-none-there", version=VERSION))
    if reply.status != 200:
        raise SyncError(message("sync-refused", status=reply.status, got=_why(reply)))


def _why(reply: Reply) -> str:
    try:
        return shown(str(document(reply.body).get("error", "")))
    except SyncError:
        return ""


def document(body: bytes) -> dict[str, Any]:
    """Return the JSON object that a message is.

    Raises
    ------
    SyncError
        It is none, or not all of it arrived.
    """
    try:
        text = body.decode("utf-8")
        stop_at_depth(text)
        found = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise SyncError(message("sync-cut-off")) from error
    if not isinstance(found, dict):
        raise SyncError(message("sync-cut-off"))
    return found


def texts(found: Mapping[str, Any], key: str, most: int) -> list[str]:
    """Return a list of texts of a message.

    Raises
    ------
    SyncError
        It is none, or longer than a message may be.
    """
    value = found.get(key)
    if not isinstance(value, list) or len(value) > most or not all(isinstance(each, str) for each in value):
        raise SyncError(message("sync-unread", key=key))
    return value


def facts_of(found: Mapping[str, Any]) -> tuple[Fact, ...]:
    """Return the facts of a message.

    Raises
    ------
    SyncError
        One of them is none: nothing of the message is used.
    """
    try:
        return tuple(fact_from_text(text) for text in texts(found, "facts", MOST_FACTS_BYTES))
    except SyncError:
        raise
    except InputError as error:
        raise SyncError(message("sync-unread", key="facts")) from error


def within(facts: Iterable[Fact]) -> list[str]:
    """Return the texts of as many of these facts as one message holds; the first one always."""
    found: list[str] = []
    size = 0
    for fact in facts:
        text = canonical(fact)
        size += len(text.encode())
        if found and size > MOST_FACTS_BYTES:
            break
        found.append(text)
    return found
