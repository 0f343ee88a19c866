"""Serves the app as ``--host`` does, on the loopback address alone: the pages of joining without any network."""

from __future__ import annotations

import argparse
import json
import socket
import sys
from collections.abc import Callable

import uvicorn
from starlette.types import ASGIApp

from steadyhead.bootstrap import Home, given_of, open_home, place_named
from steadyhead.web.app import make_app
from steadyhead.web.joining import Joining

#: Where phones would find it (RFC 5737: an address for examples).
ELSEWHERE = "http://192.0.2.5:8240/"


def main() -> None:
    """Serve until killed; the address is told as the command tells it."""
    serve(lambda home: make_app(given_of(home), joining=Joining(ELSEWHERE, home.clock)))


def serve(made: Callable[[Home], ASGIApp]) -> None:
    """Serve an app that is made of a home, until killed."""
    parser = argparse.ArgumentParser()
    for name in ("--port", "--data"):
        parser.add_argument(name, required=True)
    asked, _ = parser.parse_known_args()
    app = made(open_home(place_named(asked.data)))
    port = socket.create_server(("127.0.0.1", int(asked.port)))
    sys.stdout.write(json.dumps({"address": f"http://127.0.0.1:{port.getsockname()[1]}/"}) + "\n")
    sys.stdout.flush()
    settings = uvicorn.Config(app, log_level="critical", lifespan="off", ws="none", http="h11", loop="asyncio")
    uvicorn.Server(settings).run(sockets=[port])


if __name__ == "__main__":
    main()
