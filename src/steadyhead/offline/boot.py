"""Starts the app inside a browser: opens the record, makes the app as a laptop does, returns who answers for it.

Rules
-----
1. The record is one SQLite file in the browser's own storage, with a rollback journal: there is no shared memory here.
2. The copy before a migration is a file of that storage, too; the log stands in memory, and goes when the browser goes.
3. The app hears of no host but the one that its pages came from.
4. Python's memory may be one that was kept when the app was loaded (`load`), long ago: what every start needs belongs
   there, and what is of one start alone is made after it (`woken`, and all that stands in a home).
5. What stands in the way is told in words: whoever sees it stands at a panel, with no log at hand.
"""

from __future__ import annotations

import os
import random
from importlib import import_module
from pathlib import Path
from urllib.parse import urlsplit

from steadyhead.bootstrap import given_of, kept_answers, open_home, thoughts_of
from steadyhead.errors import SteadyheadError
from steadyhead.offline.host import Host
from steadyhead.offline.reach import reach
from steadyhead.offline.threads import run_in_place
from steadyhead.service.at_work import Here
from steadyhead.store.places import Place
from steadyhead.web.app import load_pages, make_app
from steadyhead.web.policy import host_name
from steadyhead.web.render import compile_first
from steadyhead.words import Speaker

#: The worker mounts the browser's storage at the file's folder; see opfsfs.js.
RECORD = Place(Path("/data/app.db"), Path("/memory"), "truncate", Path("/data/app.db-before"))
#: What opening a record imports; elsewhere nobody waits for it who does not open one.
RECORDS = (
    "sqlalchemy.dialects.sqlite",
    "steadyhead.service.kept_answers",
    "steadyhead.store.opening",
    "steadyhead.store.shelf",
)


def load() -> None:
    """Load what every start needs, whatever it finds: the code of pages and record, what the first page is made of."""
    for each in RECORDS:
        import_module(each)
    load_pages()
    compile_first()


def woken(zone: str) -> None:
    """Set anew what a memory that was kept would repeat or tell wrongly: chance, and where this is.

    Parameters
    ----------
    zone
        IANA name of the time zone here, as the browser says it.
    """
    random.seed()
    os.environ["TZ"] = zone


async def boot(origin: str) -> Host | str:
    """Return the app's host for this browser, or in words why there is none.

    Parameters
    ----------
    origin
        Where the pages came from, folder and all: ``https://example.org/``, ``https://example.org/some/folder/``.
    """
    run_in_place()
    try:
        return await start(RECORD, origin)
    except SteadyheadError as error:
        return Speaker().say(error.message)


async def start(place: Place, origin: str) -> Host:
    """Open the record, start the app on it, and return who answers for it.

    Raises
    ------
    StoreError
        The record cannot be opened.
    StartError
        The app refuses to start.
    """
    home, answers = open_home(place), kept_answers(thoughts_of(place))

    def close() -> None:
        answers.close()
        home.close()

    try:
        thinker = Here(answers)
        hosts = (host_name(urlsplit(origin).netloc),)
        app = make_app(given_of(home), hosts=hosts, thinker=thinker, phone=True, reach=reach)
        host = Host(app, origin, close)
        await host.start()
    except BaseException:
        close()
        raise
    return host
