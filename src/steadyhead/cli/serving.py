"""Serves the app to this computer's browser; and, where that is asked for, to phones on the local network that joined.

Rules
-----
1. The port is bound on the loopback address before anything else is done; where the usual one is taken a free one is.
2. The address is printed once a browser can reach it, and opened unless that is not wanted or there is no screen.
3. The address is told on stdout in one line, how phones join in more; with ``--json`` it is one line of JSON.
4. What takes the engine a while is worked out beside the pages, by workers that are started once it is asked for.
"""

from __future__ import annotations

import json
import os
import sys
import webbrowser
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from steadyhead.bootstrap import given_of, open_home, place_named, thinker_of
from steadyhead.cli.addresses import LOOPBACK, address_named, host_of, listening
from steadyhead.cli.securing import Secured, run_both
from steadyhead.web.app import make_app
from steadyhead.web.joining import Joining, grouped
from steadyhead.web.phone_site import PREFIX, read_site
from steadyhead.web.policy import LOCAL_HOSTS
from steadyhead.words import Manner, Speaker

USUAL_PORT = 8240
#: Connections and answers under way at most: six of each of some eighty browsers.
AT_ONCE = 512


@dataclass(frozen=True, slots=True, kw_only=True)
class Serving:
    """What the command was given: None for `port` takes the usual one, or a free one where that is taken.

    With `host` phones on the local network may join, at `address` or, where it is None, where this computer is found.
    With `site`, a folder, they may take the whole app along; with `secured` they reach it by https. The pages have
    `manner`, and the language of whoever asks; `speaker` says what stands in the terminal.
    """

    port: int | None
    data: str | None
    opens: bool
    as_json: bool
    manner: Manner
    speaker: Speaker
    host: bool = False
    address: str | None = None
    site: str | None = None
    secured: Secured | None = None


def serve(serving: Serving) -> None:
    """Serve the app until it is stopped.

    Raises
    ------
    InputError
        The port is taken, this computer has no such address on a local network, or the folder holds no site.
    StoreError
        The record cannot be opened.
    """
    import uvicorn  # noqa: PLC0415 - a browser's Python, which has no ports, imports this module too

    phones = address_named(serving.address) if serving.host else None
    site = None if serving.site is None else read_site(Path(serving.site))
    home = open_home(place_named(serving.data))
    try:
        ports = listening(serving.port, USUAL_PORT, phones)
        with thinker_of(home) as thinker:
            number = ports[0].getsockname()[1]
            hosts = LOCAL_HOSTS if phones is None else (*LOCAL_HOSTS, found_as(phones, serving.secured))
            joining = None if phones is None else Joining(_address(phones, serving.secured, number), home.clock)
            app = make_app(
                given_of(home), manner=serving.manner, hosts=hosts, thinker=thinker, joining=joining, site=site
            )
            _tell(f"http://{LOOPBACK}:{number}/", joining, serving)
            with _ended_in_order():
                if serving.secured and joining:
                    run_both(settings_of(app), settings_of(app, serving.secured), ports)
                else:
                    uvicorn.Server(settings_of(app)).run(sockets=list(ports))
    finally:
        home.close()


def found_as(phones: str, given: Secured | None) -> str:
    """Return the host name by which phones find this computer."""
    return given.name if given else host_of(phones)


def _address(phones: str, given: Secured | None, port: int) -> str:
    """Return the address at which phones find this computer."""
    return f"{'https' if given else 'http'}://{found_as(phones, given)}:{port}/"


@contextmanager
def _ended_in_order() -> Iterator[None]:
    """Have this process close what is open where it is asked to end: the server hands the signal on once it is done."""
    import signal  # noqa: PLC0415 - a browser's Python, which has none, imports this module too

    before = signal.signal(signal.SIGTERM, lambda number, _: sys.exit(128 + number))
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def settings_of(app: Any, given: Secured | None = None) -> Any:  # noqa: ANN401 - an ASGI app; a server's settings
    """Return how an app is served: by https where a certificate is given."""
    import uvicorn  # noqa: PLC0415 - as in `serve`

    return uvicorn.Config(
        app, log_level="critical", access_log=False, lifespan="on", ws="none", http="h11", loop="asyncio",
        server_header=False, proxy_headers=False, limit_concurrency=AT_ONCE,
        ssl_certfile=given.certificate if given else None, ssl_keyfile=given.key if given else None,
    )  # fmt: skip


def _tell(address: str, joining: Joining | None, serving: Serving) -> None:
    """Print the address, and open it where that is wanted and there is a screen."""
    lines = list(_lines(address, joining, serving))
    sys.stdout.write("\n".join([*lines, ""]))
    sys.stdout.flush()
    if serving.opens and has_screen(sys.platform, os.environ):
        webbrowser.open(address)


def _lines(address: str, joining: Joining | None, serving: Serving) -> Iterator[str]:
    tell = serving.speaker.tell
    if serving.as_json:
        join = {"join": {"address": joining.address, "code": joining.code()}} if joining else {}
        phone = {"phone": _phone_address(address, joining)} if serving.site else {}
        yield json.dumps({"schema": 1, "address": address, **join, **phone})
        return
    yield tell("app-address", address=address)
    if joining:
        code, page = joining.code(), f"{address}join"
        if sys.stdout.isatty() and "utf" in (sys.stdout.encoding or "").lower():
            from steadyhead.documents.qr import qr_text  # noqa: PLC0415 - few ask for it

            yield qr_text(f"{joining.address}#{code}")
        yield tell(
            "app-join-address", address=joining.address, code=grouped(code), minutes=joining.minutes_left(), page=page
        )
        if not serving.secured:
            yield tell("app-join-no-tls")
    if serving.site and joining:
        kept = bool(serving.secured)
        there = _phone_address(address, joining)
        yield tell("app-phone-address", address=there) if kept else tell("app-phone-plain", page=f"{address}take-along")


def _phone_address(address: str, joining: Joining | None) -> str:
    """Return where a phone finds the app that it takes along."""
    return f"{(joining.address if joining else address).rstrip('/')}{PREFIX}"


def has_screen(platform: str, environment: Mapping[str, str]) -> bool:
    """Tell whether a browser window can be opened here: a server without a screen would get one in its terminal.

    >>> has_screen("linux", {}), has_screen("linux", {"DISPLAY": ":0"}), has_screen("darwin", {})
    (False, True, True)
    """
    return not platform.startswith("linux") or bool(environment.get("DISPLAY") or environment.get("WAYLAND_DISPLAY"))
