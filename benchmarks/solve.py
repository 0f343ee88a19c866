"""Times one solve of a sensing loop beside ngspice's operating point of the same circuit, in one run of one process.

Run
---
::

    python benchmarks/solve.py

Each figure is the best of several rounds, in processor time of this process. ngspice's figure is its `op` alone, cold,
with the circuit loaded and without reading the answer; the package's is given with and without building the circuit.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from steadyhead.loop.draft import LoopDraft, SensorDraft, WireDraft
from steadyhead.loop.parts import Loop, Screen
from steadyhead.loop.readings import at_rest, ohms
from steadyhead.loop.solve import solve
from steadyhead.loop.wiring import circuit
from tests.loop.naive import written_out
from tests.loop.spice import ngspice

ROUNDS, REPEATS = 25, 200
PSI = 6894.757
#: ngspice as it comes, with its own tolerances: it is not slowed by a wish for more digits.
DEFAULTS = "* its own tolerances"
TERMINALS: frozenset[str] = frozenset(("controller.supply", "controller.signal"))


def three_wire() -> Loop:
    """Return a healthy loop of a 0.5 to 4.5 V sensor at 50 psi."""
    return LoopDraft(
        supply_v=5.0, source_ohm=1.0, limit_a=0.05, input_ohm=100e3, clamp_v=6.0,
        wires={"supply": WireDraft(), "signal": WireDraft(), "common": WireDraft()},
        sensor=_volts_sensor(), spare=_volts_sensor(), screen=_screen("ratiometric", 0.5, 4.5),
    ).built(50 * PSI)  # fmt: skip


def two_wire() -> Loop:
    """Return a healthy loop of a 4 to 20 mA sensor at 50 psi."""
    return LoopDraft(
        supply_v=24.0, source_ohm=10.0, limit_a=0.08, input_ohm=250.0, clamp_v=12.0,
        wires={"supply": WireDraft(), "signal": WireDraft()},
        sensor=_loop_sensor(), spare=_loop_sensor(), screen=_screen("current", 0.004, 0.02),
    ).built(50 * PSI)  # fmt: skip


def _volts_sensor() -> SensorDraft:
    return SensorDraft(
        kind="ratiometric", low=0.1, high=0.9, range_low=0.0, range_high=100 * PSI, least=0.05, most=0.95
    )  # fmt: skip


def _loop_sensor() -> SensorDraft:
    return SensorDraft(
        kind="loop", low=0.004, high=0.02, range_low=0.0, range_high=100 * PSI, least=0.0038, most=0.0205,
        wakes_v=6.0, works_v=9.0,
    )  # fmt: skip


def _screen(kind: str, low: float, high: float) -> Screen:
    return Screen(kind=kind, low=low, high=high, scale_low=0.0, scale_high=100 * PSI)  # type: ignore[arg-type]


class Figure(NamedTuple):
    """One line of the report [s]."""

    name: str
    seconds: float
    ngspice: float


def best(work: Callable[[], object], after: Callable[[], object] | None = None, repeats: int = REPEATS) -> float:
    """Return the processor time of one call [s]: the best of several rounds, with `after` left out of it."""
    found = float("inf")
    for _ in range(ROUNDS):
        start = time.process_time()
        for _ in range(repeats):
            work()
        found = min(found, (time.process_time() - start) / repeats)
        if after is not None:
            after()
    return found


def ngspice_op(loop: Loop, arrangement: str) -> float:
    """Return the processor time of ngspice's operating point of a circuit that is loaded already [s]."""
    naive = written_out(loop, arrangement)
    ngspice().load(naive, options=DEFAULTS)
    try:
        return best(ngspice().op, ngspice().forget, repeats=1)
    finally:
        ngspice().drop()


def figures() -> list[Figure]:
    """Return all lines."""
    volts, amperes = three_wire(), two_wire()
    three, two, dead = (
        ngspice_op(volts, "connected"), ngspice_op(amperes, "connected"), ngspice_op(volts, "dead-looped"),
    )  # fmt: skip
    built = circuit(volts, "connected", asked=TERMINALS)
    whole = circuit(volts, "connected")
    pairs = ("wire.supply", "wire.signal")
    return [
        Figure("three-wire, build and solve", best(lambda: at_rest(volts, "connected", None, TERMINALS)), three),
        Figure("three-wire, solve", best(lambda: solve(built)), three),
        Figure("three-wire, every point, build and solve", best(lambda: at_rest(volts, "connected")), three),
        Figure("three-wire, every point, solve", best(lambda: solve(whole)), three),
        Figure("two-wire, build and solve", best(lambda: at_rest(amperes, "connected", None, TERMINALS)), two),
        Figure("dead-looped, ohms", best(lambda: ohms(volts, "dead-looped", *pairs)), dead),
    ]


def main() -> int:
    """Print the figures."""
    print(f"{'':44s}{'steadyhead':>12s}{'ngspice op':>12s}{'ratio':>8s}")
    for name, ours, theirs in figures():
        print(f"{name:44s}{ours * 1e6:9.1f} us{theirs * 1e6:9.1f} us{theirs / ours:8.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
