"""Kills a phone's app at random moments while it keeps facts, and looks whether anything that it answered for is gone.

Run
---
::

    python3 scripts/offline.py
    python benchmarks/phone_kills.py --kills 100

How it is killed, and what is looked for, stands in tests/offline/kills.py; ten kills are made on every change.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from playwright.sync_api import expect, sync_playwright

from tests.browser.conftest import PATIENCE
from tests.offline.conftest import FOLDER
from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.kills import Kills


def main() -> int:
    """Kill it, tell each kill, and return 1 where anything was lost or broken."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--kills", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    expect.set_options(timeout=2 * PATIENCE)
    ways: Counter[str] = Counter()
    broken = told = 0
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        browser, handed = Killable(driver, Path(folder) / "profile"), Handed(FOLDER)
        try:
            for outcome in Kills(browser, handed, asked.seed).often(asked.kills):
                ways[outcome.way] += 1
                told, broken = outcome.told, broken + (not outcome.fine)
                print(f"{sum(ways.values()):4} {outcome.way:<9} answered for {outcome.told:5}, gone {outcome.gone}, "
                      f"SQLite: {', '.join(outcome.found)}", flush=True)  # fmt: skip
        finally:
            browser.kill()
            handed.stop()
    print(f"{sum(ways.values())} kills ({', '.join(f'{way} {n}' for way, n in sorted(ways.items()))}), "
          f"{told} visits answered for, {broken} kills after which anything was lost or broken")  # fmt: skip
    return int(broken > 0)


if __name__ == "__main__":
    sys.exit(main())
