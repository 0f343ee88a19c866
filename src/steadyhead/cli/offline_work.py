"""What the commands do that make the app ready for a phone, and what they print."""

from __future__ import annotations

import json
import os
import sys
import webbrowser
from pathlib import Path

from steadyhead.cli.addresses import LOOPBACK, listening
from steadyhead.cli.manner import usual_speaker
from steadyhead.cli.printing import show, show_json
from steadyhead.cli.serving import has_screen, settings_of
from steadyhead.offline.make.making import Site, Wish, make
from steadyhead.web.phone_site import Handout, read_site
from steadyhead.web.policy import LOCAL_HOSTS

USUAL_PORT = 8241


def built(folder: str, pyodide: str | None, wheels: str | None, *, as_json: bool) -> None:
    """Make the folder, and tell each step as it begins on stderr.

    Raises
    ------
    InputError
        It cannot be made; the folder is as it was.
    """
    speaker = usual_speaker()
    wish = Wish(Path(folder), _folder(pyodide), _folder(wheels))
    made = make(wish, lambda step: print(speaker.say(step), file=sys.stderr, flush=True))
    if as_json:
        show_json(_said(made))
        return
    told = {"folder": folder, "sent": f"{made.size.sent_mb:.1f}", "whole": f"{made.size.whole_mb:.1f}"}
    show([speaker.tell("offline-made", version=made.version, **told), speaker.tell("offline-made-next", folder=folder)])


def _folder(named: str | None) -> Path | None:
    return None if named is None else Path(named)


def _said(made: Site) -> dict[str, object]:
    whole, sent = made.size.bytes, made.size.sent
    files = [{"file": name, "bytes": whole[name], "compressed": sent[name]} for name in whole]
    return {"schema": 1, "folder": str(made.folder), "version": made.version, "files": files}


def served(folder: str, port: int | None, *, opens: bool, as_json: bool) -> None:
    """Hand the folder out to this computer until it is stopped.

    Raises
    ------
    InputError
        The folder holds no site, or the port is taken.
    """
    import uvicorn  # noqa: PLC0415 - a server is slow to import

    app = Handout(read_site(Path(folder)), frozenset(LOCAL_HOSTS))
    ports = listening(port, USUAL_PORT, None)
    address = f"http://{LOOPBACK}:{ports[0].getsockname()[1]}/"
    line = usual_speaker().tell("offline-address", address=address)
    print(json.dumps({"schema": 1, "address": address}) if as_json else line, flush=True)
    if opens and has_screen(sys.platform, os.environ):
        webbrowser.open(address)
    uvicorn.Server(settings_of(app)).run(sockets=list(ports))
