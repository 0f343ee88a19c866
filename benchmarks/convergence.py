"""Counts how often the loop solver gives an answer, and whether each obeys Kirchhoff, over 100,000 random loops.

Run
---
::

    python benchmarks/convergence.py                      # 25,000 circuits of each kind of sensor
    python benchmarks/convergence.py --count 2000 --seed 3

Progress is shown; Ctrl-C stops it and prints what was counted so far. Where no answer is found, an error says so;
an answer that disobeys Kirchhoff would be the solver's worst fault, and makes the exit code 1.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from steadyhead.errors import CircuitError
from steadyhead.loop.readings import at_rest
from tests.loop.naive import written_out
from tests.loop.random_loops import KINDS, drawn, seeded

#: More than rounding makes of a point's largest current.
RESIDUAL = 1e-6


@dataclass
class Count:
    """What was seen: how answers were found, and the worst residual [part of a point's largest current]."""

    ways: Counter[str] = field(default_factory=Counter)
    refused: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)
    worst: float = 0.0


def counting(count: int, seed: int) -> Iterator[Count]:
    """Yield the count so far after each circuit, the kinds of sensor in turn."""
    seen = Count()
    draws = {kind: seeded(f"{seed} {kind}") for kind in KINDS}
    for number in range(count):
        kind = KINDS[number % len(KINDS)]
        case = drawn(draws[kind], kind)
        name = f"{kind} {case.fault} at {case.place or '-'}, {case.arrangement}"
        try:
            found = at_rest(case.loop, case.arrangement, case.source)
        except CircuitError as error:
            seen.ways["said that it found none"] += 1
            seen.refused.append(f"{name}: {error}")
            yield seen
            continue
        seen.ways[found.way] += 1
        circuit = written_out(case.loop, case.arrangement, source=case.source)
        residual = circuit.worst_residual({node: found.volt(node) for node in circuit.nodes()})
        seen.worst = max(seen.worst, residual)
        if residual > RESIDUAL:
            seen.wrong.append(f"{name}: {residual:.2g}")
        yield seen


def report(seen: Count) -> str:
    """Return the count in words."""
    total = sum(seen.ways.values())
    lines = [f"{total} circuits"]
    lines += [f"  {way:24s} {number:7d}  {number / total:8.3%}" for way, number in seen.ways.most_common()]
    lines += [f"  worst residual           {seen.worst:.2g} of a point's largest current"]
    lines += [f"  against Kirchhoff        {len(seen.wrong):7d}"]
    return "\n".join([*lines, *seen.wrong[:20], *seen.refused[:20]])


def main() -> int:
    """Count, show progress, print; return 1 where an answer was wrong."""
    parser = argparse.ArgumentParser(description="Does the loop solver always answer, and rightly?")
    parser.add_argument("--count", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    seen, shown = Count(), time.monotonic()
    try:
        for number, seen in enumerate(counting(options.count, options.seed), start=1):  # noqa: B007 - the last one counts
            if time.monotonic() > shown + 1.0:
                shown = time.monotonic()
                print(f"\r{number} of {options.count}", end="", flush=True, file=sys.stderr)
    except KeyboardInterrupt:
        print("\nstopped", file=sys.stderr)
    print("\r" + report(seen))
    return 1 if seen.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
