"""How fast the app's pages are, how large, and how long the first one takes from the process's start.

Prints, for each page, the median and the slowest of many answers without the engine's own time (each state of a visit
is thought about once, before), and its size compressed; then everything that a browser's first visit loads; then the
time from the start of ``steadyhead app`` to the first page, new record and old; then, after a start, the longest that
the first page takes again while four others are asked for at once and the app makes all of them ready, and the longest
that a page takes at its first request then.

Run it as ``python -m benchmarks.pages``, with ``src`` on the path. Ratios are to the targets: 30 ms, 120 kB, 1 s,
100 ms; with ``--full`` the same pages in a record of 100,000 facts, 5,000 systems and 20,000 visits, where 100 ms are
allowed.
"""

from __future__ import annotations

import gzip
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path

from benchmarks.store import fill
from steadyhead.bootstrap import given_of, open_home, place_named
from steadyhead.service.record.demo import begin_demo, example_text
from steadyhead.service.record.lists import today
from steadyhead.web.app import make_app
from steadyhead.web.assets import Assets, read_assets
from tests.web.client import Browser

MEDIAN_MS, FULL_MS, PAGE_KB, FIRST_S, LIGHT_MS = 30.0, 100.0, 120.0, 1.0, 100.0
TIMES = 40
STARTS = 5
#: How long after its first page an app has made the others ready: watched for so long [s].
READY_S = 6.0
#: Pages that need no engine, each asked for the first time: below a visit, and of their own.
OF_VISIT = (
    "call", "before", "plate", "range", "first-minute", "photos", "follow-ups", "tank",
    "tonight", "temporary", "papers", "van", "instruments", "birth", "sensor-check", "hand-over",
)  # fmt: skip
AT_ONCE = ("call", "instruments", "van", "settings")
OTHERS = (
    "follow-ups", "instruments", "van", "guide", "search", "settings", "settings/times", "settings/storage", "report",
    "hand-over", "take-in", "sync",
)  # fmt: skip


def main(arguments: list[str]) -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        data = str(Path(folder) / "pages.db")
        if "--full" in arguments:
            full(data)
            return
        worst = max(pages(data))
        print(f"{'median page':<44}{worst:7.1f} ms  {worst / MEDIAN_MS:5.2f} of the target")
        loaded(data)
        for name, record in (("new record", str(Path(folder) / "new.db")), ("old record", data)):
            first = statistics.median(first_page(record if name == "old record" else f"{record}{k}") for k in range(5))
            print(f"{'first page after the start, ' + name:<44}{first:7.2f} s   {first / FIRST_S:5.2f} of the target")
        started(data)


def started(data: str) -> None:
    """Print the longest light pages after a start: while the others are made ready, and each at its first request."""
    runs = [after_start(data) for _ in range(STARTS)]
    meanwhile, colds, firsts, agains = ([run[k] for run in runs] for k in range(4))
    for name, longest in (("'/' while others are made ready", meanwhile), ("four at once straight after it", colds),
                          ("a page asked for first", firsts), ("the same asked again", agains)):  # fmt: skip
        taken, where = statistics.median_low(max(each) for each in longest), sorted(max(each) for each in longest)
        print(f"{name + f', longest of each of {STARTS}':<52} median {taken[0]:6.0f} ms ({taken[1]}), worst "
              f"{where[-1][0]:6.0f} ms ({where[-1][1]})  {where[-1][0] / LIGHT_MS:5.2f} of the target")  # fmt: skip


Timed = list[tuple[float, str]]


def after_start(data: str) -> tuple[Timed, ...]:
    """Return how long pages take after a start [ms], each with its address.

    The first page meanwhile, others straight after it, all once they are ready, and all again.
    """
    with launched(data) as address:
        fetched(address)
        home = open_home(place_named(data))
        visit = today(given_of(home)).visits[0].id
        home.close()
        meanwhile, until = [], time.perf_counter() + READY_S
        with ThreadPoolExecutor(len(AT_ONCE)) as others:
            asked = [f"visits/{visit}/{each}" if each in OF_VISIT else each for each in AT_ONCE]
            cold = [others.submit(fetched, address + each) for each in asked]
            while time.perf_counter() < until:
                meanwhile.append((fetched(address), "/"))
                time.sleep(0.02)
        colds = [(each.result(), name.replace(visit, "ID")) for each, name in zip(cold, asked, strict=True)]
        asked = [*(f"visits/{visit}/{each}" for each in OF_VISIT), *OTHERS]
        first, again = ([(fetched(address + each), each.replace(visit, "ID")) for each in asked] for _ in range(2))
    return meanwhile, colds, first, again


def fetched(address: str) -> float:
    """Return how long one answer takes from end to end [ms]."""
    begun = time.perf_counter()
    with urllib.request.urlopen(address) as answer:  # noqa: S310 - the app's own address
        answer.read()
    return (time.perf_counter() - begun) * 1000


def full(data: str) -> None:
    """Print the pages of a record that has grown for years."""
    filled = fill(Path(data), 1)
    visit = begin_demo(filled.home.given, example_text())
    filled.home.close()
    worst = max(pages(data, visit))
    print(f"{'slowest median in a full record':<44}{worst:7.1f} ms  {worst / FULL_MS:5.2f} of the target")


def pages(data: str, visit: str = "") -> Iterator[float]:
    """Print each page of a visit, the first open one unless it is named, and yield its median [ms]."""
    home = open_home(place_named(data))
    given = given_of(home)
    browser = Browser(make_app(given))
    visit = visit or today(given).visits[0].id
    page = browser.get(f"/visits/{visit}").page
    why = next(link for link in page.links.values() if "/why?" in link)
    addresses = ["/", f"/visits/{visit}", f"/visits/{visit}/read?red=controller.signal&black=controller.common", why,
                 f"/visits/{visit}/call", f"/visits/{visit}/report", page.links["System"]]  # fmt: skip
    for address in addresses:
        answer = browser.get(address)
        taken = [timed(browser, address) for _ in range(TIMES)]
        name = address.replace(visit, "ID").partition("?")[0]
        size = len(gzip.compress(answer.body)) / 1000
        print(f"{name:<44}{statistics.median(taken):7.1f} ms  slowest {max(taken):6.1f} ms  {size:5.1f} kB")
        yield statistics.median(taken)
    home.close()


def timed(browser: Browser, address: str) -> float:
    """Return how long one answer takes [ms]."""
    begun = time.perf_counter()
    browser.get(address)
    return (time.perf_counter() - begun) * 1000


def loaded(data: str) -> None:
    """Print what a browser loads for a first visit's page, compressed."""
    home = open_home(place_named(data))
    given = given_of(home)
    page = Browser(make_app(given)).get(f"/visits/{today(given).visits[0].id}").body
    home.close()
    whole = (len(gzip.compress(page)) + sum(packed(read_assets()))) / 1000
    print(f"{'a visit with styles, scripts, typefaces':<44}{whole:7.1f} kB  {whole / PAGE_KB:5.2f} of the target")


def packed(assets: Assets) -> Iterator[int]:
    """Yield the size of each file as it travels: a typeface is compressed already."""
    for address, asset in assets.served.items():
        yield len(asset.content if address.endswith("woff2") else gzip.compress(asset.content))


def first_page(data: str) -> float:
    """Return the time from the start of the process to the whole first page [s]."""
    begun = time.perf_counter()
    with launched(data) as address:
        fetched(address)
        return time.perf_counter() - begun


@contextmanager
def launched(data: str) -> Iterator[str]:
    """Start the app on any free port, and end it."""
    command = [sys.executable, "-m", "steadyhead", "app", "--port", "0", "--no-open", "--json", "--data", data]
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8", env=os.environ) as process:
        try:
            yield json.loads(process.stdout.readline() if process.stdout else "")["address"]
        finally:
            process.terminate()


if __name__ == "__main__":
    main(sys.argv[1:])
