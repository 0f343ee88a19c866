"""Carries a sync from a home that must go on answering pages: a little at a time, over a network that is put in.

Rules
-----
1. One sync is under way at most; it lives in memory alone, and may be lost at any moment: the next one goes on.
2. The keys that other homes gave are settings of this device.
3. Whatever ends it (done, refused, broken off) is kept to be told, until the next one begins.
"""

from __future__ import annotations

import json
import re
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass, field

from steadyhead.errors import InputError, SyncError
from steadyhead.messages import Message, message
from steadyhead.service.record.given import Given
from steadyhead.service.record.handed import SYNC, hand_over
from steadyhead.service.sync.near import Talk, pair, sync
from steadyhead.service.sync.talk import Ask, Reply, Tally
from steadyhead.service.sync.version import PREFIX
from steadyhead.visit.ids import Clock
from steadyhead.visit.nearest import shown

#: Sends one request: method, whole address, headers, body; raises `SyncError` where nobody answers.
Reach = Callable[[str, str, Mapping[str, str], bytes | None], Awaitable[Reply]]
KEYS, LAST = "sync-keys", "sync-last"
MUST_BE = "http://192.168.1.5:8240/"
#: Homes whose keys are kept at most.
MOST = 20
_ADDRESS = re.compile(r"(?:(https?)://)?(\[[0-9A-Fa-f:.]+\]|[A-Za-z0-9.-]+)(?::(\d{1,5}))?/?(?:#\d*)?", re.IGNORECASE)


def address_of(typed: str) -> str:
    """Return the address of another home as it was typed, without its last slash.

    Raises
    ------
    SyncError
        It is none.

    Examples
    --------
    >>> address_of(" 192.168.1.5:8240/ "), address_of("HTTPS://pumps.example")
    ('http://192.168.1.5:8240', 'https://pumps.example')
    """
    found = _ADDRESS.fullmatch(typed.strip())
    if found is None or int(found[3] or 1) not in range(1, 65536):
        raise SyncError(message("sync-address-unreadable", got=shown(typed), must_be=MUST_BE))
    port = f":{found[3]}" if found[3] else ""
    return f"{(found[1] or 'http').lower()}://{found[2].lower()}{port}"


def headers_of(ask: Ask, key: str) -> dict[str, str]:
    """Return the headers of a request: the key goes in one of its own, never in a cookie."""
    own = {} if ask.body is None else {"Content-Type": ask.media_type}
    return {**own, **({"Authorization": f"Bearer {key}"} if key else {})}


def key_for(given: Given, address: str) -> str:
    """Return the key that another home gave; empty where it gave none."""
    with given.reading() as work:
        kept: dict[str, str] = json.loads(work.setting(KEYS) or "{}")
    return kept.get(address, "")


def keep_key(given: Given, address: str, key: str) -> None:
    """Keep the key that another home gave; an empty one is forgotten."""
    with given.writing() as work:
        kept: dict[str, str] = json.loads(work.setting(KEYS) or "{}")
        kept.pop(address, None)
        kept |= {address: key} if key else {}
        work.set_setting(KEYS, json.dumps(dict(list(kept.items())[-MOST:])))
        work.set_setting(LAST, address)
        work.commit()


def last_address(given: Given) -> str:
    """Return the home that was spoken to last; empty where none was."""
    with given.reading() as work:
        return work.setting(LAST) or ""


@dataclass
class Courier:
    """What carries syncs.

    Parameters
    ----------
    reach
        The network.
    """

    reach: Reach
    token: str = ""
    tally: Tally = field(default_factory=Tally)
    done: bool = False
    problem: Message | None = None
    _address: str = ""
    _talk: Talk | None = field(default=None, repr=False)
    _ask: Ask | None = field(default=None, repr=False)

    @property
    def under_way(self) -> bool:
        """Whether there is more to do."""
        return self._talk is not None

    async def begin(self, given: Given, address: str, code: str, *, photos: bool, token: str) -> None:
        """Begin a sync, and be let in first where a code was typed.

        Raises
        ------
        SyncError
            The code does not let in, or nobody answers.
        """
        if code:
            keep_key(given, address, await self._paired(given, address, code))
        elif not key_for(given, address):
            raise SyncError(message("sync-not-paired"))
        self._talk, self._address, self.token = sync(given, photos=photos), address, token
        self.tally, self.done, self.problem = Tally(), False, None
        self._ask = next(self._talk)

    async def _paired(self, given: Given, address: str, code: str) -> str:
        with given.reading() as work:
            name = given.pen(work).author
        talk = pair(code, name)
        try:
            ask = next(talk)
            while True:
                ask = talk.send(await self._sent(ask, address, ""))
        except StopIteration as end:
            return str(end.value)

    async def go_on(self, given: Given, clock: Clock, most_ms: int) -> None:
        """Go on for some time, or to the end."""
        until = clock() + most_ms
        try:
            while self._talk is not None and self._ask is not None and clock() <= until:
                key = key_for(given, self._address)
                reply = await self._sent(self._ask, self._address, key)
                self._ask = self._talk.send(reply)
                self.tally = self._ask.tally
        except StopIteration as end:
            self.tally, self.done, self._talk = end.value, True, None
            hand_over(given, SYNC)
        except InputError as error:
            self.problem, self._talk = error.message, None
            if error.message.id == "sync-not-paired":
                keep_key(given, self._address, "")

    async def _sent(self, ask: Ask, address: str, key: str) -> Reply:
        place = f"{address}{PREFIX}/{ask.what}"
        return await self.reach(ask.method, place, headers_of(ask, key), ask.body)
