"""Judges the diagnosis against the second truth: hidden faults that were written down without sight of the engine.

Run
---
::

    python -m benchmarks.second_truth --kind three-wire --cases 60 --seed 1 --json out.jsonl
    python -m benchmarks.second_truth --kind two-wire --case 1:17 --trace

It prints a line a case, and at the end what share was right, how often a good part was condemned, minutes, how well
the stated chance holds and each wrong case with its seed. See docs/benchmark.md.
"""

from __future__ import annotations

import argparse
import importlib
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any, cast

from benchmarks.second_truth.game import Tool, ToolFailedError, play
from benchmarks.second_truth.score import Result, first_line, render, summarise
from benchmarks.second_truth.spice import NgspiceMissingError, solver


def load_tool() -> Tool:
    """Return the tool under test; it is met here, by its name, and nowhere else."""
    return cast("Tool", importlib.import_module("steadyhead").diagnose_text)


def one(seed: str, kind: str, tool: Tool) -> dict[str, Any]:
    """Return the result of one case; an answer that fails to come is a result too, and the run goes on."""
    try:
        return play(seed, kind, tool)
    except ToolFailedError as error:
        return {"seed": seed, "kind": kind, "error": str(error), "by": "tool"}
    except Exception as error:  # noqa: BLE001 - a case that breaks the truth must not end a long run, nor pass unseen
        return {"seed": seed, "kind": kind, "error": f"{type(error).__name__}: {error}", "by": "truth"}


def _line(result: Result) -> str:
    if "error" in result:
        return f"{result['seed']} NO ANSWER of the {result['by']}: {first_line(result['error'])}"
    mark = "right" if result["right"] else "WRONG"
    return (
        f"{result['seed']} {mark} {result['fault']} ({result['place']}) -> {result['remedy']} {result['state']} "
        f"{result['minutes']:.1f} min, {result['readings']} readings, {sum(result['seconds']):.0f} s"
    )


def run(options: argparse.Namespace, tool: Tool) -> list[Result]:
    """Play the cases of a run, and write each down as soon as it is known."""
    results: list[Result] = []
    for number in range(options.first, options.cases):
        result = one(f"{options.seed}:{number}", options.kind, tool)
        if options.json is not None:
            with options.json.open("a", encoding="utf-8") as lines:
                lines.write(json.dumps(result, ensure_ascii=False) + "\n")
        print(_line(result), flush=True)
        results.append(result)
    return results


def _alone(options: argparse.Namespace, tool: Tool) -> int:
    """Play one case; with ``--trace`` show what the technician knew of the site, and each step."""
    result = one(options.case, options.kind, tool)
    if options.trace and "trace" in result:
        print(result["file"].partition("[[reading]]")[0].rstrip(), *result["trace"], sep="\n")
        print(f"truth: {result['fault']} {result['severity'] or ''} {result['place'] or ''}: {result['truth']}")
    print(_line(result))
    return 0 if result.get("right") else 1


def _arguments(words: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="python -m benchmarks.second_truth", description=(__doc__ or "").splitlines()[0]
    )
    parser.add_argument("--kind", choices=("three-wire", "two-wire"), default="three-wire")
    parser.add_argument("--cases", type=int, default=20, help="the number of the last case, and one more")
    parser.add_argument("--from", dest="first", type=int, default=0, help="the number of the first case")
    parser.add_argument("--seed", default="1")
    parser.add_argument("--json", type=Path, help="add a line for each case to this file")
    parser.add_argument("--case", help="one case alone, by its seed as a run prints it: 1:17")
    parser.add_argument("--trace", action="store_true", help="with --case: show the site and each step")
    return parser.parse_args(words)


def main(words: Sequence[str] | None = None, tool: Tool | None = None) -> int:
    """Play and print; return 2 where ngspice is missing, 1 where a case that is played alone ends wrong."""
    options = _arguments(words)
    try:
        solver()
    except NgspiceMissingError as reason:
        print(reason, file=sys.stderr)
        return 2
    tool = tool or load_tool()
    if options.case is not None:
        return _alone(options, tool)
    print(render(summarise(run(options, tool))))
    return 0


if __name__ == "__main__":
    sys.exit(main())
