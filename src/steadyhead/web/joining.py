"""How a phone on the local network joins: a code that is spoken aloud, and a door that nobody passes without.

Rules
-----
1. Whoever sits at this machine itself (its loopback address) passes, as without any network. Nobody else does who has
   not joined: whatever they ask for, they are answered by the page that asks for the code. What the page looks like
   (`/assets/`) is open to all, and another home is asked for a key of its own (`steadyhead.web.pages.sync`).
2. A code has `DIGITS` digits drawn by the system's own chance, holds for `MINUTES` and lets one phone in. A new one is
   made when somebody looks at this machine's page, and no sooner.
3. Wrong codes are counted, by who sends them and in all; beyond the limits none is right for `MINUTES`. What is wrong
   with a code is never told. A new code, asked for at this machine, clears the count of all, never that of one.
4. What lets a phone in is drawn here when it joins; what a browser brings along before counts for nothing.
5. A joined phone uses the app as this machine does, but for who may join (`/join`) and what changes the device itself.
"""

from __future__ import annotations

import hmac
import ipaddress
import secrets
from collections import OrderedDict, deque
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.responses import Response
from starlette.types import ASGIApp, Receive, Scope, Send

from steadyhead.service.record.given import Given
from steadyhead.service.record.phones import Phone, phone_of
from steadyhead.service.sync.version import PREFIX as SYNC
from steadyhead.visit.ids import Clock
from steadyhead.web.assets import PREFIX

DIGITS, MINUTES = 8, 10
MOST_OF_ONE, MOST_OF_ALL = 5, 20  #: wrong codes in `MINUTES`
CLIENTS = 1000  #: whose wrong codes are counted apart at most
COOKIE = "steadyhead_phone"
SECRET_BYTES = 32
JOIN, ENTER = "/join", "/join/entered"
#: Where the door writes who asks, for the pages.
WHO = "steadyhead.who"
#: What a proxy adds: who sends it is not at this machine, though the proxy may be.
PROXIED = frozenset((b"forwarded", b"x-forwarded-for", b"x-real-ip", b"via"))

Draw = Callable[[], str]


def _drawn() -> str:
    return f"{secrets.randbelow(10**DIGITS):0{DIGITS}}"


@dataclass
class Joining:
    """Who may join: the code of the moment, and how often it was missed.

    Parameters
    ----------
    address
        Where phones find the app: ``http://192.168.1.5:8240/``.
    clock
        Milliseconds since 1970.
    draw
        Draws a code.
    """

    address: str
    clock: Clock
    draw: Draw = _drawn
    _code: str = field(default="", init=False, repr=False)
    _until: int = field(default=0, init=False)
    _missed: deque[int] = field(default_factory=deque, init=False)
    _missed_by: OrderedDict[str, deque[int]] = field(default_factory=OrderedDict, init=False)

    def code(self) -> str:
        """Return the code of the moment, a new one where the last was used or has run out."""
        if not self._code or self.clock() >= self._until:
            self.renew()
        return self._code

    def renew(self) -> None:
        """Make a new code; the last one is right no more."""
        self._code, self._until = self.draw(), self.clock() + MINUTES * 60_000
        self._missed.clear()

    def minutes_left(self) -> int:
        """Return how long the code of the moment holds [min], rounded up."""
        return max(0, -(-(self._until - self.clock()) // 60_000))

    def enter(self, typed: str, client: str) -> bool:
        """Tell whether a code lets in whoever sends it; it is used up then."""
        now, own = self.clock(), self._of(client)
        _forget(self._missed, now)
        _forget(own, now)
        open_ = len(own) < MOST_OF_ONE and len(self._missed) < MOST_OF_ALL
        holds = bool(self._code) and now < self._until
        right = hmac.compare_digest(_digits(typed).encode(), self._code.encode())
        if open_ and holds and right:
            self._code = ""
            return True
        if open_:
            own.append(now)
            self._missed.append(now)
        return False

    def _of(self, client: str) -> deque[int]:
        found = self._missed_by.setdefault(client, deque())
        self._missed_by.move_to_end(client)
        while len(self._missed_by) > CLIENTS:
            self._missed_by.popitem(last=False)
        return found


def _forget(missed: deque[int], now: int) -> None:
    while missed and now - missed[0] >= MINUTES * 60_000:
        missed.popleft()


def _digits(typed: str) -> str:
    """Return a code as it is compared, however it was grouped.

    >>> _digits(" 1234-56 78 ")
    '12345678'
    """
    return "".join(sign for sign in typed if sign in "0123456789")


def grouped(code: str) -> str:
    """Return a code as it is read aloud.

    >>> grouped("12345678")
    '1234 5678'
    """
    half = DIGITS // 2
    return f"{code[:half]} {code[half:]}"


def client_of(request: Request) -> str:
    """Return the address that a request comes from."""
    return request.client.host if request.client else ""


def is_here(scope: Scope) -> bool:
    """Tell whether a request comes from this machine itself, by no proxy.

    An IPv4 address inside an IPv6 one (RFC 4291, 2.5.5.2) is not: newer Pythons would call it loopback, older ones not,
    and the app listens on no address that shows one.
    """
    client = scope.get("client")
    if not client or any(name in PROXIED for name, _ in scope["headers"]):
        return False
    try:
        address = ipaddress.ip_address(client[0].partition("%")[0])
    except ValueError:
        return False
    return address.is_loopback and getattr(address, "ipv4_mapped", None) is None


class Door:
    """Wraps the app where it is served to a network: whoever has not joined is asked for the code."""

    def __init__(self, app: ASGIApp, given: Given, ask: Callable[[Request], Awaitable[Response]]) -> None:
        self._app = app
        self._given = given
        self._ask = ask

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        request = Request(scope, receive)
        phone = None if is_here(scope) else _joined(self._given, request)
        if phone is not None:
            scope[WHO] = phone
        if self._passes(scope, phone):
            await self._app(scope, receive, send)
            return
        await (await self._ask(request))(scope, receive, send)

    def _passes(self, scope: Scope, phone: Phone | None) -> bool:
        path: str = scope["path"]
        if is_here(scope):
            return path != ENTER
        spoken = path == SYNC or path.startswith(f"{SYNC}/")  # asks for a key of its own
        if spoken or path.startswith(PREFIX) or (path == ENTER and scope["method"] == "POST"):
            return True
        return phone is not None and path != JOIN and not path.startswith(f"{JOIN}/")


def _joined(given: Given, request: Request) -> Phone | None:
    secret = request.cookies.get(COOKIE, "")
    return phone_of(given, secret) if secret else None
