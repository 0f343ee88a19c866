"""Serves the app to this computer's browser, and to nobody else.

Rules
-----
1. The port is bound on the loopback address before anything else is done; where the usual one is taken a free one is.
2. The address is printed once a browser can reach it, and opened unless that is not wanted or there is no screen.
3. Everything is told on stdout in one line; with ``--json`` that line is JSON.
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
from typing import Any

from steadyhead.bootstrap import Home, open_home, place_named, thinker_of
from steadyhead.cli.visit_input import example_text
from steadyhead.errors import InputError
from steadyhead.messages import message
from steadyhead.service.record.demo import begin_demo
from steadyhead.service.record.given import Given
from steadyhead.service.record.lists import today
from steadyhead.web.app import load_pages, make_app
from steadyhead.words import Manner

LOOPBACK, USUAL_PORT = "127.0.0.1", 8240
#: Browsers that may wait for an answer at once.
WAITING = 128


@dataclass(frozen=True, slots=True, kw_only=True)
class Serving:
    """What the command was given: None for `port` takes the usual one, or a free one where that is taken."""

    port: int | None
    data: str | None
    opens: bool
    as_json: bool
    manner: Manner


def serve(serving: Serving) -> None:
    """Serve the app until it is stopped.

    Raises
    ------
    InputError
        The port is taken.
    StoreError
        The record cannot be opened.
    """
    import uvicorn  # noqa: PLC0415 - a browser's Python, which has no ports, imports this module too

    home = open_home(place_named(serving.data))
    try:
        with thinker_of(home.can, load_pages) as thinker:
            app = make_app(given_of(home), manner=serving.manner, thinker=thinker)
            config, port = _bound(app, serving.port)
            _tell(f"http://{LOOPBACK}:{port.getsockname()[1]}/", serving)
            with _ended_in_order():
                uvicorn.Server(config).run(sockets=[port])
    finally:
        home.close()


@contextmanager
def _ended_in_order() -> Iterator[None]:
    """Have this process close what is open where it is asked to end: the server hands the signal on once it is done."""
    import signal  # noqa: PLC0415 - a browser's Python, which has none, imports this module too

    before = signal.signal(signal.SIGTERM, lambda number, _: sys.exit(128 + number))
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def given_of(home: Home) -> Given:
    """Return what the use cases need of a home; a record that is new begins with the invented visit."""
    if not today(home.given).systems:
        begin_demo(home.given, example_text())
    return home.given


def _bound(app: Any, wanted: int | None) -> tuple[Any, Any]:  # noqa: ANN401 - an ASGI app; a server's settings, a socket
    """Return the server's settings and the port that it listens on; who comes early waits for the server.

    Raises
    ------
    InputError
        ``app-port-taken``: another program listens there.
    """
    import uvicorn  # noqa: PLC0415 - as in `serve`

    for each in (USUAL_PORT, 0) if wanted is None else (wanted,):
        config = uvicorn.Config(
            app, host=LOOPBACK, port=each, log_level="critical", access_log=False, lifespan="off", ws="none",
            http="h11", loop="asyncio", server_header=False,
        )  # fmt: skip
        try:
            port = config.bind_socket()
        except SystemExit:
            continue
        port.listen(WAITING)
        return config, port
    raise InputError(message("app-port-taken", port=wanted))


def _tell(address: str, serving: Serving) -> None:
    """Print the address, and open it where that is wanted and there is a screen."""
    told = serving.manner.speaker().tell("app-address", address=address)
    line = json.dumps({"schema": 1, "address": address}) if serving.as_json else told
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()
    if serving.opens and has_screen(sys.platform, os.environ):
        webbrowser.open(address)


def has_screen(platform: str, environment: Mapping[str, str]) -> bool:
    """Tell whether a browser window can be opened here: a server without a screen would get one in its terminal.

    >>> has_screen("linux", {}), has_screen("linux", {"DISPLAY": ":0"}), has_screen("darwin", {})
    (False, True, True)
    """
    return not platform.startswith("linux") or bool(environment.get("DISPLAY") or environment.get("WAYLAND_DISPLAY"))
