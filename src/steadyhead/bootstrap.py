"""The one place that joins the record's store with the use cases: a home is a laptop, a phone's browser, or a company.

Rules
-----
1. A home is opened and closed; nothing of it lives in a module, so that two homes can stand in one process.
2. Clock, chance and author come from outside, so that tests and the demo are repeatable.
3. `Home.can` says what this home has beside the portable core (``pdf``, ``plant``, ...). Nobody tries an import to find
   that out.
"""

from __future__ import annotations

import os
import secrets
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from steadyhead import __version__
from steadyhead.errors import SteadyheadError
from steadyhead.store.logbook import Logbook
from steadyhead.store.places import Place, System, place_of
from steadyhead.visit.ids import Chance, Clock, Ids

if TYPE_CHECKING:
    from steadyhead.store.unit import Store, Unit

#: Under which name the store keeps who works here.
AUTHOR = "author"


@dataclass(frozen=True, slots=True)
class Home:
    """An open home.

    Parameters
    ----------
    place
        Where its record lives.
    store
        The record.
    log
        Its logbook.
    clock
        Milliseconds since 1970, UTC.
    ids
        Makes the record's ids.
    can
        What this home has beside the portable core.
    """

    place: Place
    store: Store
    log: Logbook
    clock: Clock
    ids: Ids
    can: frozenset[str]

    def writing(self) -> Unit:
        """Return a unit of work that may write."""
        return self.store.writing()

    def reading(self) -> Unit:
        """Return a unit of work that only reads."""
        return self.store.reading()

    def close(self) -> None:
        """Close the record and the log."""
        self.store.close()
        self.log.note("closed")
        self.log.close()


def system_clock() -> int:
    """Return the milliseconds since 1970, UTC, by this machine's clock."""
    return time.time_ns() // 1_000_000


def this_system() -> System:
    """Return what this system says of its user."""
    return System(sys.platform, os.environ, Path(os.path.expanduser("~")))  # noqa: PTH111 - never fails, as Path.home can


def place_named(data: str | None) -> Place:
    """Return where the record lives, given what stands behind ``--data``."""
    return place_of(data, this_system())


def open_home(
    place: Place,
    *,
    clock: Clock = system_clock,
    chance: Chance = secrets.randbits,
    can: frozenset[str] = frozenset(),
) -> Home:
    """Open a home; its record is made or migrated where that is needed.

    Raises
    ------
    StoreError
        The record is newer than this program, damaged, busy, another program's, or cannot be reached.
    """
    from steadyhead.store.opening import open_store  # noqa: PLC0415 - who only asks where the data live waits for no library

    log = Logbook(place.folder)
    try:
        store = open_store(place, log=log)
    except SteadyheadError as error:
        log.note("refused", message=error.message.id)
        log.close()
        raise
    log.note("opened", program=__version__, backend=store.engine.dialect.name)
    return Home(place, store, log, clock, Ids(clock, chance), can)
