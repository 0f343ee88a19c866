"""Kills a program that adds facts at random moments, and looks whether anything that it said it kept is missing.

Run
---
::

    python benchmarks/kills.py --kills 200

Rules
-----
1. The program that is killed adds facts in units of work of one to twenty (visits, readings, corrections, photos, now
   and then a purge) and writes the ids on its output after each commit, never before.
2. It is killed (SIGKILL; TerminateProcess on Windows) at a random moment: after a random number of lines and a random
   part of a unit more. All kills hit one and the same record, which grows.
3. After each kill the record is opened again: every fact that was told must be there, and the doctor must find nothing
   wrong: integrity, references, photos, lists as made anew.
4. What is killed is the program, not the machine: what the system had in its memory still reaches the disk.
"""

from __future__ import annotations

import argparse
import hashlib
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO, cast

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from steadyhead.bootstrap import open_home, place_named
from steadyhead.store import health
from steadyhead.visit.facts import Fact
from steadyhead.visit.ids import at_text, ulid_text

ADD = "add"


@dataclass(frozen=True)
class Outcome:
    """What was seen after one kill: facts told so far, those of them that are missing, checks that were not passed."""

    told: int
    missing: int
    wrong: tuple[str, ...]

    @property
    def fine(self) -> bool:
        """Whether nothing was lost and everything is sound."""
        return not self.missing and not self.wrong


def kill_often(file: Path, kills: int, seed: int) -> Iterator[Outcome]:
    """Kill the program so often, and yield what was seen after each kill."""
    chance = random.Random(seed)
    told: set[str] = set()
    for kill in range(kills):
        told |= _told_before_kill(file, seed * 1_000_003 + kill, chance)
        yield look(file, told)


def look(file: Path, told: set[str]) -> Outcome:
    """Open the record and look for what was told."""
    home = open_home(place_named(str(file)))
    with home.reading() as unit:
        there = {fact.id for fact in unit.facts()}
    report = health.examine(home.store.engine)
    home.close()
    return Outcome(len(told), len(told - there), tuple(check.id for check in report.checks if not check.fine))


def _told_before_kill(file: Path, seed: int, chance: random.Random) -> set[str]:
    """Start the program, kill it at a random moment, and return the ids that it told."""
    command = [sys.executable, str(Path(__file__)), ADD, str(file), str(seed)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8") as made:
        out = cast("IO[str]", made.stdout)
        lines = [out.readline() for _ in range(chance.randint(1, 25))]
        if not all(lines):
            raise RuntimeError(f"the program ended by itself: {made.wait()}")
        time.sleep(chance.random() * 0.02)
        made.kill()
        lines += out.readlines()
    return {id_ for line in lines if line.endswith("\n") for id_ in line.split()}


def add_without_end(file: Path, seed: int) -> None:
    """Add facts until somebody ends this; tell the ids of each unit of work after its commit."""
    chance = random.Random(seed)
    home = open_home(place_named(str(file)))
    visit = ""
    while True:
        facts = list(_facts(chance, visit))
        visit = next(fact.about for fact in facts if fact.kind == "visit")
        with home.writing() as unit:
            for fact in facts:
                if fact.kind == "photo":
                    unit.put_blob(_picture(fact.id), "image/jpeg")
            unit.add(facts)
            unit.commit()
        sys.stdout.write(" ".join(fact.id for fact in facts) + "\n")
        sys.stdout.flush()


def _facts(chance: random.Random, former: str) -> Iterator[Fact]:
    """Yield a visit with its readings, one of them corrected, a photo, and now and then a purge of the visit before."""
    visit, reading = _id(chance), _id(chance)
    yield _fact(visit, "visit", visit, visit, {"state": "open", "complaint": {"text": "No water"}})
    yield _fact(reading, "reading", reading, visit, {"value": "1.1 V"})
    yield _fact(_id(chance), "reading", reading, visit, {"value": "1.2 V"}, reading)
    for _ in range(chance.randrange(18)):
        id_ = _id(chance)
        yield _fact(id_, "reading", id_, visit, {"value": f"{chance.randrange(500)} V"})
    photo = _id(chance)
    yield _fact(photo, "photo", photo, visit, {"sha256": _sha256(photo)})
    if former and chance.random() < 0.1:
        id_ = _id(chance)
        yield _fact(id_, "purge", id_, None, {"of": [former]})


def _fact(id_: str, kind: str, about: str, visit: str | None, body: dict[str, object], *replaced: str) -> Fact:
    return Fact(id=id_, kind=kind, about=about, visit=visit, body=body, at=at_text(0), supersedes=replaced)


def _id(chance: random.Random) -> str:
    return ulid_text(chance.getrandbits(127))


def _picture(id_: str) -> bytes:
    return id_.encode() * 400


def _sha256(id_: str) -> str:
    return hashlib.sha256(_picture(id_)).hexdigest()


def main(arguments: list[str]) -> int:
    """Kill, tell, and return 1 where anything was lost."""
    if arguments[:1] == [ADD]:
        add_without_end(Path(arguments[1]), int(arguments[2]))
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as folder:
        seen = list(kill_often(Path(folder) / "record.db", asked.kills, asked.seed))
    bad = [outcome for outcome in seen if not outcome.fine]
    print(f"{len(seen)} kills, {seen[-1].told} facts told, {sum(o.missing for o in bad)} missing, {len(bad)} not sound")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
