"""Run what takes too long for every change: wide searches of properties, kills, loads, whole sets of hidden faults.

``python3 scripts/long.py`` runs all, one after the other, for some hours; ``python3 scripts/long.py properties kills``
those that are named, ``--list`` names them. It returns 1 where one of them failed, after all have run.

Rules
-----
1. Every run stands here with its command and what it proves; its limits stand in what it runs.
2. A test that is looked at through few examples in the suite is looked at through many here.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from typing import NamedTuple

import environment


class Run(NamedTuple):
    """A long run: what it proves, the Python's arguments, and what its environment says beside."""

    proves: str
    words: tuple[str, ...]
    told: tuple[tuple[str, str], ...] = ()


_CLOSED = ("benchmarks/closed_loop.py", "--cases", "200", "--seed", "1", "--jobs", "2")

RUNS: dict[str, Run] = {
    "properties": Run(
        "properties of the diagnosis and the guide, over many more examples than in the suite",
        ("-m", "pytest", "-q", "-n", "auto", "tests/diagnosis", "tests/service/guide"),
    ),
    "forms": Run(
        "every form in Chromium: tapped twice, gone back from, from two tabs, wrongly, with the app away",
        ("-m", "pytest", "-q", "tests/browser/every_form.py"),
    ),
    "kills": Run("no acknowledged fact is lost when the program is killed", ("benchmarks/kills.py", "--kills", "200")),
    "phone-kills": Run(
        "the same of the app in a phone's browser; wants scripts/offline.py run before",
        ("benchmarks/phone_kills.py", "--kills", "100"),
    ),
    "phone-proofs": Run(
        "the app in a phone's browser with nobody serving it, its seldom troubles too",
        ("scripts/offline.py", "--prove", "--whole"),
    ),
    "pyodide-whole": Run(
        "every test that a browser's Python can run, the engine's own among them",
        ("scripts/in_pyodide.py", "--whole"),
    ),
    "phone-suite": Run(
        "the app's main paths inside a phone's browser; wants scripts/offline.py run before",
        (
            "-m",
            "pytest",
            "-q",
            "-rs",
            "tests/browser/test_visit_in_chromium.py",
            "tests/browser/test_taps_counted.py",
            "tests/browser/test_sensor_check_in_chromium.py",
            "tests/browser/test_papers_printed.py",
            "tests/browser/test_papers_shared_in_chromium.py",
            "tests/browser/test_report_in_chromium.py",
            "tests/browser/test_senses_in_chromium.py",
            "tests/browser/test_storage_in_chromium.py",
            "tests/browser/test_arriving_in_chromium.py",
            "tests/browser/test_heard_order.py",
            "tests/browser/test_typefaces_and_drawing.py",
        ),
        (("STEADYHEAD_HOME", "phone"),),
    ),
    "store": Run("a store of many sites answers in time", ("benchmarks/store.py",)),
    "convergence": Run("100,000 circuits come to rest, and keep Kirchhoff's laws", ("benchmarks/convergence.py",)),
    "regret": Run("what the planner's short sight costs", ("benchmarks/regret.py", "--cases", "60")),
    "three-wire": Run("200 hidden faults, three wires", (*_CLOSED, "--kind", "three-wire", "--least-right", "0.8")),
    "two-wire": Run("200 hidden faults, two wires", (*_CLOSED, "--kind", "two-wire", "--least-right", "0.8")),
    "pairs": Run(
        "200 hidden faults, pairs and slips among them: figures, no limit", (*_CLOSED, "--pairs", "--slip", "0.02")
    ),
}


def main() -> int:
    """Run what was asked for, and say how each ended."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("names", nargs="*", metavar="NAME", help="runs by their names; all where none is given")
    parser.add_argument("--list", action="store_true", help="name the runs")
    options = parser.parse_args()
    unknown = [name for name in options.names if name not in RUNS]
    if options.list or unknown:
        told = [f"{name:<12} {run.proves}" for name, run in RUNS.items()]
        environment.say("\n".join([*(f"{name}: not a long run" for name in unknown), *told]))
        return 2 if unknown else 0
    environment.ensure("test")
    failed = [name for name in options.names or RUNS if not passes(RUNS[name])]
    environment.say(f"failed: {', '.join(failed)}" if failed else "every long run passed")
    return int(bool(failed))


def passes(run: Run) -> bool:
    """Run one of them in the checkout's folder, with many examples."""
    command = [str(environment.python()), *run.words]
    environment.say(f"\n{run.proves}\n$ STEADYHEAD_LONG=1 {' '.join(command)}")
    places = {"PYTHONPATH": str(environment.ROOT / "src"), "STEADYHEAD_LONG": "1", **dict(run.told)}
    return subprocess.run(command, check=False, cwd=environment.ROOT, env=os.environ | places).returncode == 0


if __name__ == "__main__":
    sys.exit(main())
