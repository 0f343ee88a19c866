"""Judges a diagnosis tool against an independent truth: hidden faults, solved by ngspice, read by noisy instruments.

Run
---
::

    python benchmarks/closed_loop.py --kind three-wire --cases 200 --seed 1 --jobs 2
    python benchmarks/closed_loop.py --kind two-wire --case 1:17 --trace

It prints what share of cases ends with the right remedy, in how many minutes, how often a good part is condemned and
how well the stated chances hold, beside the manuals' fixed order on the same cases. See docs/benchmark.md.
"""

from __future__ import annotations

import argparse
import concurrent.futures
import functools
import importlib
import json
import multiprocessing
import shlex
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any, cast

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.truth.case import Case, Kind
from benchmarks.truth.cases import draw_case
from benchmarks.truth.play import Outcome, Tool, Trace, play
from benchmarks.truth.score import render, summarise

__all__ = ["Case", "Outcome", "Tool", "draw_case", "main", "play", "run", "summarise"]


def command_tool(command: str) -> Tool:
    """Return a tool that runs a command line; ``{file}`` in it is the visit file, its stdout the answer in JSON."""

    def tool(text: str) -> dict[str, Any]:
        with tempfile.TemporaryDirectory() as folder:
            file = Path(folder) / "visit.toml"
            file.write_text(text, encoding="utf-8")
            words = [word.replace("{file}", str(file)) for word in shlex.split(command)]
            done = subprocess.run(words, capture_output=True, check=True, encoding="utf-8")
        return cast("dict[str, Any]", json.loads(done.stdout))

    return tool


def load_tool(command: str | None) -> Tool:
    """Return the tool under test: the package in this process, or a command line."""
    if command is not None:
        return command_tool(command)
    return cast("Tool", importlib.import_module("steadyhead").diagnose_text)


def one(number: int, options: argparse.Namespace) -> Outcome:
    """Return the outcome of one case of a run."""
    case = draw_case(f"{options.seed}:{number}", options.kind, pairs=options.pairs, fault=options.fault)
    return _played(case, options)


def _played(case: Case, options: argparse.Namespace, trace: Trace | None = None) -> Outcome:
    seeds = {"noise": options.noise_seed, "order_noise": options.order_seed}
    return play(case, load_tool(options.tool), **seeds, slips=options.slip, trace=trace)


def run(options: argparse.Namespace) -> list[Outcome]:
    """Return the outcomes of a run, in the order of their numbers."""
    numbers = range(options.cases)
    work = functools.partial(one, options=options)
    if options.jobs == 1:
        return [work(number) for number in numbers]
    context = multiprocessing.get_context("spawn")
    with concurrent.futures.ProcessPoolExecutor(options.jobs, mp_context=context) as pool:
        return list(pool.map(work, numbers, chunksize=4))


def _arguments(words: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--kind", choices=("three-wire", "two-wire"), default="three-wire")
    parser.add_argument("--cases", type=int, default=40)
    parser.add_argument("--seed", default="1", help="of the cases")
    parser.add_argument("--noise-seed", default="1", help="of the readings' noise and slips")
    parser.add_argument("--order-seed", default="1", help="of the noise in the fixed order's readings")
    parser.add_argument("--slip", type=float, default=0.0, help="chance of a slip in a reading")
    parser.add_argument("--pairs", action="store_true", help="some cases have two faults with one cause")
    parser.add_argument("--fault", help="every case has this fault")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--tool", help='a command line in place of the package: "cmd {file}"')
    parser.add_argument("--json", type=Path, help="write every figure to this file")
    parser.add_argument("--case", help="one case alone, by its seed as a run prints it: 1:17")
    parser.add_argument("--trace", action="store_true", help="with --case: show the file and each step")
    parser.add_argument("--least-right", type=float, default=0.0, help="exit with 1 below this share")
    return parser.parse_args(words)


def _alone(options: argparse.Namespace) -> int:
    """Play one case, with its trace if asked."""
    case = draw_case(options.case, cast("Kind", options.kind), pairs=options.pairs, fault=options.fault)
    outcome = _played(case, options, print if options.trace else None)
    print(f"truth: {outcome.fault} {outcome.severity} {outcome.place or ''}: {outcome.truth}")
    print(f"said: {outcome.remedy}; {outcome.minutes:.1f} min")
    print(f"fixed order: {outcome.fixed_remedy}; {outcome.fixed_minutes:.1f} min")
    return 0 if outcome.right else 1


def main(words: Sequence[str] | None = None) -> int:
    """Run the benchmark; return 1 where the share right is below ``--least-right``."""
    options = _arguments(words)
    if options.case is not None:
        return _alone(options)
    found = summarise(run(options))
    print(render(found))
    if options.json is not None:
        options.json.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")
    return 0 if found["tool"]["right"]["share"] >= options.least_right else 1


if __name__ == "__main__":
    sys.exit(main())
