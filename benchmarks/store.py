"""Fills a record with 5,000 systems, 20,000 visits and 100,000 facts, and times what pages ask of it.

Run
---
::

    python benchmarks/store.py
    python benchmarks/store.py --scale 10     # a tenth of it

Rules
-----
1. Two records are asked in turn: the full one, and one of a hundredth of its size. The ratio of the two says whether a
   question grows with the record; an index keeps it near 1.
2. Each question is asked of a unit of work that was just begun, many times; the median is given. The third column is
   the longest of a hundred.
3. The figures in the record are invented, and drawn from a seed.
"""

from __future__ import annotations

import argparse
import random
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from steadyhead.bootstrap import Home, open_home, place_named
from steadyhead.service.ports import UnitOfWork
from steadyhead.store import copies, health
from steadyhead.store.versions import renew_derived
from steadyhead.visit.facts import Fact
from steadyhead.visit.ids import Ids, at_text

SYSTEMS, VISITS, FACTS = 5_000, 20_000, 100_000
SITES = 2_500
BATCH = 2_000
ASKED = 100
#: What a question may take [ms]: a page has 30 in all; a search that finds nothing looks through every card.
LIMIT_MS = 10.0
LIMITS_MS = {"find what is not there": 50.0}
PLACES = ("Fernhill", "Alder", "Mill", "Quarry", "Orchard", "Harbour", "Station", "Chapel", "Meadow", "Bridge")
KINDS = ("Row", "Farm", "School", "Court", "House", "Works", "Lane", "Terrace")
COMPLAINTS = ("Runs flat out", "No water at night", "Pressure hunts", "Relief valve lifting", "Stops by itself")


class Filled(NamedTuple):
    """A filled record, and some ids in it."""

    home: Home
    systems: list[str]
    visits: list[str]
    seconds: float


def fill(file: Path, scale: int, seed: int = 4) -> Filled:
    """Fill a new record with so much, divided by `scale`."""
    home = open_home(place_named(str(file)))
    chance = random.Random(seed)
    ids = Ids(lambda: 1_770_000_000_000, chance.getrandbits)
    facts = list(_facts(chance, ids, scale))
    begun = time.perf_counter()
    for start in range(0, len(facts), BATCH):
        with home.writing() as unit:
            unit.add(facts[start : start + BATCH])
            unit.commit()
    seconds = time.perf_counter() - begun
    return Filled(home, _abouts(facts, "system"), _abouts(facts, "visit"), seconds)


def _abouts(facts: list[Fact], kind: str) -> list[str]:
    return [fact.about for fact in facts if fact.kind == kind]


def _facts(chance: random.Random, ids: Ids, scale: int) -> Iterator[Fact]:
    """Yield sites, systems, visits, and readings up to the whole count."""
    sites = [ids.new() for _ in range(SITES // scale)]
    systems = [ids.new() for _ in range(SYSTEMS // scale)]
    visits = [ids.new() for _ in range(VISITS // scale)]
    for number, site in enumerate(sites):
        name = f"{chance.choice(PLACES)} {chance.choice(KINDS)} {number}"
        yield _fact(site, "site", site, None, {"name": name})
    for system in systems:
        sensor = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}
        body = {"name": "House pump", "site": chance.choice(sites), "sensor": sensor}
        yield _fact(system, "system", system, None, body)
    for visit in visits:
        complaint = {"text": chance.choice(COMPLAINTS)}
        state = "open" if chance.random() < 0.02 else "closed"
        body = {"system": chance.choice(systems), "state": state, "complaint": complaint}
        yield _fact(visit, "visit", visit, visit, body)
    for _ in range(FACTS // scale - len(sites) - len(systems) - len(visits)):
        id_ = ids.new()
        yield _fact(id_, "reading", id_, chance.choice(visits), {"measure": "gauge-pressure", "value": "48 psi"})


def _fact(id_: str, kind: str, about: str, visit: str | None, body: dict[str, object]) -> Fact:
    who = {"author": "Ann Marlowe", "program": "0.1.0"}
    return Fact(id=id_, kind=kind, about=about, visit=visit, body=body, at=at_text(0), **who)


QUESTIONS: dict[str, Callable[[UnitOfWork, Filled, random.Random], object]] = {
    "a visit's facts": lambda unit, record, chance: unit.facts(visit=chance.choice(record.visits)),
    "a system's facts": lambda unit, record, chance: unit.facts(about=chance.choice(record.systems)),
    "Today: open visits": lambda unit, _record, _chance: unit.visit_cards(state="open"),
    "all visits, first page": lambda unit, _record, _chance: unit.visit_cards(),
    "a system's visits": lambda unit, record, chance: unit.visit_cards(system=chance.choice(record.systems)),
    "systems, first page": lambda unit, _record, _chance: unit.system_cards(),
    "find a site": lambda unit, _record, chance: unit.entities("site", text=f"{chance.choice(PLACES)} court"),
    "find a visit": lambda unit, _record, chance: unit.visit_cards(text=chance.choice(COMPLAINTS)),
    "find what is not there": lambda unit, _record, _chance: unit.visit_cards(text="no such words"),
}


def ask(record: Filled, question: str) -> tuple[float, float]:
    """Return the median and the longest time of a question [ms]."""
    chance = random.Random(1)
    times = []
    for _ in range(ASKED):
        begun = time.perf_counter()
        with record.home.reading() as unit:
            QUESTIONS[question](unit, record, chance)
        times.append((time.perf_counter() - begun) * 1e3)
    return statistics.median(times), max(times)


def add_a_reading(record: Filled) -> tuple[float, float]:
    """Return the median and the longest time to add one reading and commit it [ms]."""
    chance = random.Random(2)
    times = []
    for _ in range(ASKED):
        id_ = record.home.ids.new()
        reading = _fact(id_, "reading", id_, chance.choice(record.visits), {"value": "48 psi"})
        begun = time.perf_counter()
        with record.home.writing() as unit:
            unit.add([reading])
            unit.commit()
        times.append((time.perf_counter() - begun) * 1e3)
    return statistics.median(times), max(times)


def once(work: Callable[[], object]) -> float:
    """Return how long a work takes [s]."""
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


def whole_record(record: Filled) -> dict[str, float]:
    """Return how long the works on a whole record take [s]."""
    home, place = record.home, record.home.place

    def rebuild() -> None:
        with home.writing() as unit:
            renew_derived(unit.connection)
            unit.commit()

    def open_again() -> None:
        open_home(place).close()

    return {
        "fill it": record.seconds,
        "open it": once(open_again),
        "examine it": once(lambda: health.examine(home.store.engine)),
        "make every list anew": once(rebuild),
        "back it up, proved": once(lambda: copies.back_up(home.store.engine, place, place.folder / "copy.db")),
    }


def main(arguments: list[str]) -> int:
    """Fill, ask, print; return 1 where a question takes longer than it may."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--scale", type=int, default=1, help="divide every count by this")
    asked = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as folder:
        full = fill(Path(folder) / "full.db", asked.scale)
        small = fill(Path(folder) / "small" / "small.db", asked.scale * 100)
        slow = print_questions(full, small)
        for work, seconds in whole_record(full).items():
            print(f"{work:28} {seconds:8.2f} s")
        print(f"its file {full.home.place.file.stat().st_size / 1e6:.0f} MB")
        full.home.close()
        small.home.close()
    return 1 if slow else 0


def print_questions(full: Filled, small: Filled) -> list[str]:
    """Print a line a question, and return those whose median is over the limit."""
    print(f"{'median, longest of ' + str(ASKED):28} {'ms':>8} {'ms':>8} {'to the small one':>17} {'to the limit':>13}")
    slow = []
    for question in [*QUESTIONS, "add a reading, committed"]:
        (median, longest), (little, _) = (
            ask(record, question) if question in QUESTIONS else add_a_reading(record) for record in (full, small)
        )
        limit = LIMITS_MS.get(question, LIMIT_MS)
        print(f"{question:28} {median:8.2f} {longest:8.2f} {median / little:17.2f} {median / limit:13.2f}")
        slow += [question] if median > limit else []
    return slow


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
