"""The plainest web server there is, which hands out a folder until it is taken away."""

from __future__ import annotations

import socket
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

HERE = "127.0.0.1"


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing, but note what was asked for."""
        assert isinstance(self.server, _Noting)
        self.server.asked.append(self.path)


class _Noting(ThreadingHTTPServer):
    asked: list[str]


class Handed:
    """Serves a folder on a free port; what it was asked for stands in `asked`."""

    def __init__(self, folder: Path) -> None:
        self._server = _Noting((HERE, 0), partial(_Quiet, directory=str(folder)))
        self.asked: list[str] = []
        self._server.asked = self.asked
        self._thread = threading.Thread(target=self._server.serve_forever)
        self._thread.start()
        self.port = self._server.server_address[1]
        self.address = f"http://{HERE}:{self.port}"

    def stop(self) -> None:
        """Take it away; nobody answers at its port any more."""
        if self._thread.is_alive():
            self._server.shutdown()
            self._thread.join()
            self._server.server_close()

    def answers(self) -> bool:
        """Tell whether anybody takes a connection at its port."""
        with socket.socket() as asking:
            return asking.connect_ex((HERE, self.port)) == 0
