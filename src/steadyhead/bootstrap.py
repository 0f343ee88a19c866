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
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass
from functools import partial
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from steadyhead import __version__
from steadyhead.errors import SteadyheadError
from steadyhead.service.at_work import Here, Thinker
from steadyhead.service.record.given import Given
from steadyhead.store.logbook import Logbook
from steadyhead.store.places import Place, System, place_of
from steadyhead.visit.ids import Chance, Clock, Ids

if TYPE_CHECKING:
    from steadyhead.sensorcheck.measurand import Measurand
    from steadyhead.sensorcheck.propagated import Propagated
    from steadyhead.sensorcheck.second_opinion import Draw
    from steadyhead.service.kept_answers import KeptAnswers
    from steadyhead.service.ports import Blob, RecordSize, SetsPdf
    from steadyhead.store.unit import Store, Unit

#: The folder of the system's own zones, in the path that its link to the local one leads to.
ZONES = "zoneinfo/"
#: The file of answers that were worked out; on a phone one of those that worker.js opens.
THOUGHTS = "thoughts.db"
#: What a home may have beside the portable core, and the library that it takes.
BESIDE = {"pdf": "typst", "montecarlo": "numpy", "workers": "_multiprocessing"}


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
    zone
        IANA name of the time zone here.
    can
        What this home has beside the portable core.
    """

    place: Place
    store: Store
    log: Logbook
    clock: Clock
    ids: Ids
    zone: str
    can: frozenset[str]

    @property
    def given(self) -> Given:
        """What every use case of the record is given here."""
        return Given(
            reading=self.reading, writing=self.writing, ids=self.ids, clock=self.clock, zone=self.zone,
            pdf=pdf_setter(self.can), copy=self.copy if self.store.engine.dialect.name == "sqlite" else None,
            size=self.size,
        )  # fmt: skip

    def writing(self) -> Unit:
        """Return a unit of work that may write."""
        return self.store.writing()

    def reading(self) -> Unit:
        """Return a unit of work that only reads."""
        return self.store.reading()

    def copy(self) -> bytes:
        """Return a copy of the whole record as one file, proved before it is handed out."""
        from steadyhead.store.copies import back_up  # noqa: PLC0415 - seldom asked for

        with TemporaryDirectory(dir=self.place.folder) as folder:
            return back_up(self.store.engine, self.place, Path(folder) / "copy.db").file.read_bytes()

    def size(self) -> RecordSize:
        """Return how much the record holds, and the room left where it stands."""
        from steadyhead.store.measuring import measure  # noqa: PLC0415 - as above

        return measure(self.store.engine, self.place)

    def close(self) -> None:
        """Close the record and the log."""
        self.store.close()
        self.log.note("closed")
        self.log.close()


def given_of(home: Home) -> Given:
    """Return what the use cases need of a home; a record that is new begins with the invented visit."""
    from steadyhead.service.record.demo import begin_demo, example_text  # noqa: PLC0415 - the app alone begins with it
    from steadyhead.service.record.lists import today  # noqa: PLC0415 - as above

    if not today(home.given).systems:
        begin_demo(home.given, example_text())
    return home.given


def what_is_here() -> frozenset[str]:
    """Return what this installation has beside the portable core: the one place that looks for a library."""
    return frozenset(name for name, library in BESIDE.items() if find_spec(library) is not None)


def pdf_setter(can: frozenset[str]) -> SetsPdf | None:
    """Return what sets papers as PDF; None where a home cannot. The library is loaded with the first paper."""
    return _set_pdf if "pdf" in can else None


def _set_pdf(laid: Mapping[str, Any], pictures: Mapping[str, Blob]) -> bytes:
    from steadyhead.pdf.typeset import typeset  # noqa: PLC0415 - a compiled library, which a browser's Python lacks

    return typeset(laid, pictures)


@contextmanager
def thinker_of(home: Home) -> Iterator[Thinker]:
    """Give what works tasks out in a home, and end it: workers of its own, or this very process.

    Parameters
    ----------
    home
        The home, which tells what it has beside the portable core, and where answers can be kept.
    """
    answers = partial(kept_answers, thoughts_of(home.place))
    if "workers" not in home.can:
        with closing(answers()) as here:
            yield Here(here)
        return
    from steadyhead.workers import Pool, cores  # noqa: PLC0415 - processes, which a browser's Python has none of

    pool = Pool(cores(), answers)
    try:
        yield pool
    finally:
        pool.close()


def thoughts_of(place: Place) -> Path:
    """Return where a home keeps answers: beside its record; beside the log where that is on a server."""
    folder = place.folder if isinstance(place.address, str) else place.address.parent
    return folder / THOUGHTS


def kept_answers(file: Path) -> KeptAnswers:
    """Return who keeps whole answers in a file; whoever asks closes it."""
    from steadyhead.service.kept_answers import KeptAnswers  # noqa: PLC0415 - the engine: the first page does without
    from steadyhead.store.shelf import Shelf  # noqa: PLC0415 - as above

    return KeptAnswers(Shelf(file))


def drawer(can: frozenset[str]) -> Draw:
    """Return this home's Monte Carlo run: a million trials where it has numpy, else twenty thousand portable ones."""
    return _draw_a_million if "montecarlo" in can else _draw_portably


def _draw_a_million(asked: Measurand, coverage: float) -> Propagated:
    from steadyhead.montecarlo import propagate  # noqa: PLC0415 - a compiled library, which a browser's Python lacks

    return propagate(asked, coverage=coverage)


def _draw_portably(asked: Measurand, coverage: float) -> Propagated:
    from steadyhead.sensorcheck.propagating import propagate  # noqa: PLC0415 - few ask for it

    return propagate(asked, coverage=coverage)


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
    zone: str | None = None,
    can: frozenset[str] | None = None,
) -> Home:
    """Open a home; its record is made or migrated where that is needed.

    Parameters
    ----------
    place
        Where its record lives.
    clock
        Milliseconds since 1970, UTC.
    chance
        Returns so many bits of chance.
    zone
        IANA name of the time zone here; this computer's own where left out.
    can
        What this home has beside the portable core; None looks what is installed.

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
    here = what_is_here() if can is None else can
    return Home(place, store, log, clock, Ids(clock, chance), zone or local_zone(os.environ), here)


def local_zone(environment: Mapping[str, str], link: str = "/etc/localtime") -> str:
    """Return the IANA name of this computer's time zone; UTC where nothing names it.

    >>> local_zone({"TZ": "Europe/Madrid"}), local_zone({"TZ": "nowhere"}, link="/nowhere")
    ('Europe/Madrid', 'UTC')
    """
    named = environment.get("TZ", "").lstrip(":")
    linked = os.path.realpath(link)
    found = [named, linked.partition(ZONES)[2]]
    return next((name for name in found if name and _is_zone(name)), "UTC")


def _is_zone(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, OSError, ValueError):
        return False
    return True
