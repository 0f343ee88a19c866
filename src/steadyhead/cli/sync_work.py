"""What sync does and says: speaks HTTP to the other home with the standard library alone.

Rules
-----
1. A request that broke off is sent again a few times: each can be repeated. What the other home refuses is not.
2. No proxy of the system's is asked, and no other address is led to: the other home is on one's own network.
"""

from __future__ import annotations

import time
from collections.abc import Generator, Mapping
from dataclasses import asdict
from http.client import HTTPException
from typing import Any, TypeVar
from urllib.error import HTTPError
from urllib.parse import urlsplit
from urllib.request import HTTPRedirectHandler, ProxyHandler, Request, build_opener

from steadyhead.cli.exchange_work import Said, more_imported, record
from steadyhead.cli.manner import usual_speaker
from steadyhead.cli.page import paragraph
from steadyhead.errors import SyncError
from steadyhead.messages import message
from steadyhead.service.record.given import Given, author
from steadyhead.service.record.handed import SYNC, hand_over
from steadyhead.service.sync.courier import address_of, headers_of, keep_key, key_for
from steadyhead.service.sync.near import pair, sync
from steadyhead.service.sync.talk import JSON, Ask, Reply, Tally
from steadyhead.service.sync.version import PREFIX
from steadyhead.visit.archive import LARGEST_PHOTO

PATIENCE_S = 30.0
#: Pauses before a request that broke off is sent again [s].
PAUSES_S = (0.2, 1.0, 3.0)
Out = TypeVar("Out")


class _NoOther(HTTPRedirectHandler):
    """Leads to no other address."""

    def redirect_request(self, *_: Any) -> None:  # noqa: ANN401 - whatever the library hands on
        """Refuse: the answer is told as it is."""


_OPENER = build_opener(ProxyHandler({}), _NoOther)


def synced(address: str, code: str, data: str | None, columns: int, *, photos: bool) -> Said:
    """Bring the record together with another home's.

    Raises
    ------
    SyncError
        There is no such address, nobody answers there, or the other home refuses.
    StoreError
        The record cannot be opened.
    """
    place = address_of(address)
    with record(data) as given:
        if code:
            keep_key(given, place, _driven(pair(code, author(given)), place, ""))
        key = key_for(given, place)
        if not key:
            raise SyncError(message("sync-not-paired"))
        try:
            tally = _driven(sync(given, photos=photos), place, key)
        except SyncError as error:
            _forget(given, place, error)
            raise
        hand_over(given, SYNC)
    return {"schema": 1, "address": f"{place}/", **asdict(tally)}, _lines(tally, columns)


def _forget(given: Given, place: str, error: SyncError) -> None:
    """Forget a key that lets in no more."""
    if error.message.id == "sync-not-paired":
        keep_key(given, place, "")


def _driven(talk: Generator[Ask, Reply, Out], place: str, key: str) -> Out:
    """Drive a talk to its end."""
    try:
        ask = next(talk)
        while True:
            ask = talk.send(_sent(ask, place, key))
    except StopIteration as end:
        found: Out = end.value
        return found


def _sent(ask: Ask, place: str, key: str) -> Reply:
    """Return what comes back for one request, sent again where it broke off.

    Raises
    ------
    SyncError
        Nobody answers.
    """
    url = f"{place}{PREFIX}/{ask.what}"
    for pause in (*PAUSES_S, None):
        try:
            return _once(url, ask, headers_of(ask, key))
        except (OSError, HTTPException) as error:
            if pause is None or ask.what == "pair":  # a code is used up by the first that is heard
                raise SyncError(message("sync-no-answer", address=urlsplit(place).netloc)) from error
            time.sleep(pause)
    raise AssertionError(url)


def _once(url: str, ask: Ask, headers: Mapping[str, str]) -> Reply:
    request = Request(url, ask.body, dict(headers), method=ask.method)  # noqa: S310 - http or https alone (`address_of`)
    try:
        with _OPENER.open(request, timeout=PATIENCE_S) as answer:
            return Reply(answer.status, answer.read(LARGEST_PHOTO + 1), answer.headers.get("content-type", JSON))
    except HTTPError as error:
        with error:
            return Reply(error.code, error.read(LARGEST_PHOTO), error.headers.get("content-type", JSON))


def _lines(tally: Tally, columns: int) -> list[str]:
    tell = usual_speaker().tell
    came = tally.came
    told = [
        tell("sync-went", facts=tally.sent, photos=tally.photos_sent),
        tell("sync-came", facts=came.new, photos=came.photos),
        *more_imported(came),
        tell("sync-clashed", count=tally.collisions) if tally.collisions else "",
        tell("sync-done"),
    ]
    return [line for each in told if each for line in paragraph(each, columns)]
