"""How fast the app's pages are while fifty people work with it at once, each at a visit of their own.

Starts ``steadyhead app`` on a new record with as many visits as there are people, made of the examples without their
readings. Each person opens their visit, then types in the example's readings one after the other, looking around in
between; pauses are drawn about a mean: three of them make a reading a minute,
which is quick for a person at a panel. Meanwhile a page that needs no
engine is asked for all the time: the longest it takes is how far engine work blocks somebody else.

Run it as ``python -m benchmarks.load``, with ``src`` on the path: ``--people 50 --pause 20 --rounds 3``. Ratios are to
the targets: 200 ms a page (95 in 100), 500 ms from a reading to the next check (95 in 100), 100 ms of a light page.

With ``--handing 1`` it measures something else: a record of 100,000 facts (10: a tenth of it) is handed over as files,
and compared with another home's, while a light page is asked for all the time.
"""

from __future__ import annotations

import argparse
import asyncio
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import quote, urlencode

from benchmarks.store import fill
from steadyhead.bootstrap import given_of, open_home, place_named
from steadyhead.diagnosis.observing import question_of
from steadyhead.service.record.demo import invented
from steadyhead.service.record.exchange import import_visit
from steadyhead.service.record.phones import join
from steadyhead.service.sync.spans import spans_after
from steadyhead.service.sync.talk import MOST_SPANS
from steadyhead.visit import parse_visit
from steadyhead.visit.ids import Ids
from steadyhead.web.questions import ASKED, key_of

PAGE_MS, CHECK_MS, LIGHT_MS = 200.0, 500.0, 100.0
EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*.toml"))
TIMEOUT_S = 120.0
#: What another home is let in with.
KEY = "a-key-of-the-measurement"


@dataclass(frozen=True)
class Case:
    """A visit in the record, and the readings that somebody is going to type into it: check and text."""

    visit: str
    readings: tuple[tuple[str, str], ...]


@dataclass
class Figures:
    """What was measured [ms], and what went wrong."""

    pages: list[float] = field(default_factory=list)
    opened: list[float] = field(default_factory=list)
    checks: list[float] = field(default_factory=list)
    light: list[float] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)


def main(arguments: list[str]) -> int:
    """Print the figures; return 1 where an answer was wrong."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0] if __doc__ else "")
    parser.add_argument("--people", type=int, default=50)
    parser.add_argument("--pause", type=float, default=20.0, help="mean pause between two taps of one person [s]")
    parser.add_argument("--rounds", type=int, default=3, help="readings that each person types at most")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--handing", type=int, default=0, help="hand a large record over, so many times smaller")
    asked = parser.parse_args(arguments)
    if asked.handing:
        return handing(asked.handing)
    with tempfile.TemporaryDirectory() as folder:
        data = str(Path(folder) / "load.db")
        cases = list(prepared(data, asked.people, asked.rounds))
        with served(data) as address:
            begun = time.perf_counter()
            found = asyncio.run(everybody(address, cases, asked.pause, asked.seed))
            took = time.perf_counter() - begun
    report(found, took, asked.people)
    return 1 if found.wrong else 0


def handing(scale: int) -> int:
    """Print how long a light page takes while a large record is handed over; return 1 where an answer was wrong."""
    with tempfile.TemporaryDirectory() as folder:
        data = str(Path(folder) / "large.db")
        filled = fill(Path(data), scale)
        visit, given = filled.visits[0], given_of(filled.home)
        join(given, "Ben", KEY)
        with given.reading() as work:
            spans = spans_after(work, "", MOST_SPANS, invented(work))
        body = json.dumps({"spans": [[each.after, each.upto, each.count, each.digest] for each in spans]})
        filled.home.close()
        with served(data, "--host") as address:
            return asyncio.run(_handed_over(address, visit, body))


async def _handed_over(address: str, visit: str, body: str) -> int:
    """Print the light page alone, then while each thing is done again and again."""
    person = Person(int(address.rstrip("/").rpartition(":")[2]), Case(visit, ()), Figures(), random.Random(1))
    await person.timed("/")
    await asyncio.sleep(5.0)
    whole = ("/hand-over", None), ("/hand-over/everything/1", None)
    compared = (("/sync/1/compare", body),)
    for name, doing in (("nothing else", ()), ("handed over as files", whole), ("compared", compared)):
        person.found.light.clear()
        probe = asyncio.ensure_future(light(person))
        begun, times = time.perf_counter(), 0
        while doing and time.perf_counter() < begun + 10.0:
            for path, sent in doing:
                _, answer = await person.timed(path, raw=sent)
                times += 1
                if " 200 " not in answer[:20]:
                    person.found.wrong.append(f"{path}: {answer[:20]}")
        await asyncio.sleep(0.0 if doing else 5.0)
        probe.cancel()
        half, most, worst = (at(person.found.light, share) for share in (0.5, 0.95, 1.0))
        print(f"a light page, {name:<24} p50 {half:5.0f}  p95 {most:5.0f}  max {worst:6.0f} ms"
              f"   {worst / LIGHT_MS:5.2f} of the target ({times} answers beside it)")  # fmt: skip
    for each in person.found.wrong:
        print(f"WRONG {each}")
    return 1 if person.found.wrong else 0


def prepared(data: str, people: int, rounds: int) -> Iterator[Case]:
    """Make the record and yield each person's visit."""
    home = open_home(place_named(data))
    given = given_of(home)
    for number in range(people):
        path = EXAMPLES[number % len(EXAMPLES)]
        text = path.read_text(encoding="utf-8")
        visit, rows = parse_visit(text).visit, tomllib.loads(text).get("reading", [])
        bare = re.split(r"^\[\[(?:reading|action|declined)\]\]$", text, maxsplit=1, flags=re.MULTILINE)[0]
        added = import_visit(given, bare.encode(), f"{number}.toml")
        pairs = [each for each in zip(visit.readings, rows, strict=True) if each[0].measure in ASKED]
        readings = [(key_of(question_of(reading)), str(row["value"])) for reading, row in pairs]
        yield Case(added.visits[0], tuple(readings[:rounds]))
    home.close()


@contextmanager
def served(data: str, *more: str) -> Iterator[str]:
    """Serve the app on any free port, and end it."""
    command = [sys.executable, "-m", "steadyhead", "app", "--port", "0", "--no-open", "--json", "--data", data, *more]
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8", env=os.environ) as process:
        try:
            yield json.loads(process.stdout.readline() if process.stdout else "")["address"]
        finally:
            process.terminate()


async def everybody(address: str, cases: list[Case], pause: float, seed: int) -> Figures:
    """Return what everybody has measured who works at once."""
    found, chance = Figures(), random.Random(seed)
    port = int(address.rstrip("/").rpartition(":")[2])
    probe = asyncio.ensure_future(light(Person(port, cases[0], found, chance)))
    await asyncio.gather(*(Person(port, case, found, chance).work(pause) for case in cases))
    probe.cancel()
    return found


async def light(person: Person) -> None:
    """Ask for a page that needs no engine, ten times a second."""
    while True:
        taken, _ = await person.timed(f"/visits/{person.case.visit}/call")
        person.found.light.append(taken)
        await asyncio.sleep(0.1)


@dataclass
class Person:
    """Somebody at a panel."""

    port: int
    case: Case
    found: Figures
    chance: random.Random
    cookie: str = ""

    async def work(self, pause: float) -> None:
        """Type the readings in, and look around."""
        visit = f"/visits/{self.case.visit}"
        await self._think(pause, first=True)
        await self._look("/")
        ids = Ids(lambda: time.time_ns() // 1_000_000, self.chance.getrandbits)
        for number, (check, said) in enumerate(self.case.readings):
            await self._think(pause)
            await self._look(visit, first=number == 0)
            await self._think(pause)
            form = {"check": check, "confirmed": said, "said": said, "fact": ids.new(), "form_key": self._key()}
            begun = time.perf_counter()
            _, answer = await self.timed(f"{visit}/readings", form)
            if " 303 " not in answer[:20]:
                self.found.wrong.append(f"{self.case.visit} {check} {said}: {answer[:20]}")
                continue
            _, answer = await self.timed(visit)
            if " 200 " not in answer[:20]:
                self.found.wrong.append(f"{visit}: {answer[:20]}")
            self.found.checks.append((time.perf_counter() - begun) * 1000)
            await self._think(pause)
            await self._look(self.chance.choice([f"{visit}/read", f"{visit}/papers", "/", f"{visit}/call"]))

    async def _look(self, path: str, *, first: bool = False) -> None:
        taken, answer = await self.timed(path)
        (self.found.opened if first else self.found.pages).append(taken)
        if " 200 " not in answer[:20]:
            self.found.wrong.append(f"{path}: {answer[:20]}")

    async def _think(self, pause: float, *, first: bool = False) -> None:
        await asyncio.sleep(self.chance.uniform(0, 2 * pause) if first else self.chance.uniform(0.5, 1.5) * pause)

    def _key(self) -> str:
        return self.cookie.partition("=")[2]

    async def timed(
        self, path: str, form: dict[str, str] | None = None, raw: str | None = None
    ) -> tuple[float, str]:
        """Return how long one answer takes from end to end [ms], and the answer; `raw` is another home's request."""
        body = (raw or (urlencode(form) if form else "")).encode()
        head = [
            f"{'POST' if body else 'GET'} {quote(path, safe='/?=&')} HTTP/1.1", f"Host: 127.0.0.1:{self.port}",
            "Connection: close", f"Content-Length: {len(body)}", f"Cookie: {self.cookie}",
            f"Content-Type: {'application/json' if raw else 'application/x-www-form-urlencoded'}",
            *([f"Authorization: Bearer {KEY}"] if raw else []),
        ]  # fmt: skip
        begun = time.perf_counter()
        try:
            async with asyncio.timeout(TIMEOUT_S):
                reader, writer = await asyncio.open_connection("127.0.0.1", self.port)
                writer.write("\r\n".join([*head, "", ""]).encode() + body)
                answer = (await reader.read(-1)).decode("utf-8", "replace")
                writer.close()
        except TimeoutError:
            answer = f"no answer in {TIMEOUT_S:.0f} s"
        taken = (time.perf_counter() - begun) * 1000
        given = re.search(r"^set-cookie: (steadyhead_form=[^;]+)", answer, re.IGNORECASE | re.MULTILINE)
        self.cookie = given.group(1) if given else self.cookie
        return taken, answer


def report(found: Figures, took: float, people: int) -> None:
    """Print what was measured."""
    count = len(found.pages) + len(found.opened) + 2 * len(found.checks) + len(found.light)
    print(f"{people} people, {took:.0f} s, {count} answers, {count / took:.0f} a second, {len(found.checks)} readings, "
          f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}")  # fmt: skip
    rows = (("a page", found.pages, PAGE_MS), ("a visit opened first", found.opened, CHECK_MS),
            ("next check after a reading", found.checks, CHECK_MS),
            ("a light page meanwhile", found.light, LIGHT_MS))  # fmt: skip
    for name, taken, target in rows:
        half, most, worst = (at(taken, share) for share in (0.5, 0.95, 1.0))
        held = worst if target == LIGHT_MS else most
        print(f"{name:<30} p50 {half:7.0f}  p95 {most:7.0f}  max {worst:7.0f} ms   {held / target:5.2f} of the target")
    for each in found.wrong:
        print(f"WRONG {each}")


def at(taken: list[float], share: float) -> float:
    """Return what so large a share took at most."""
    return sorted(taken)[min(len(taken) - 1, int(share * len(taken)))]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
