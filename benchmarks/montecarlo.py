"""Times a million trials of a sensor's error at one point: numpy beside the portable run, one core, one process.

Run
---
::

    python benchmarks/montecarlo.py

Each figure is the best of several rounds, in processor time of this process. The portable run draws fewer trials; its
figure is scaled to a million. What is wanted: a million trials in a second on one core.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("OMP_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "src"))

from steadyhead import montecarlo
from steadyhead.sensorcheck import propagating
from steadyhead.sensorcheck.error_inputs import Scatter
from steadyhead.sensorcheck.error_model import Met, measurand_at
from steadyhead.sensorcheck.measurand import Measurand
from steadyhead.sensorcheck.run import CheckRun, Conditions, Reference, SignalMeter
from steadyhead.visit.record import Gauge, Interval, Sensor, Signal, Tolerance

ROUNDS = 5
MILLION, PORTABLE = 1_000_000, 50_000
WANTED_S = 1.0
PSI = 6894.757


def error_at_50_psi() -> Measurand:
    """Return the error of a ratiometric 100 psi sensor at 50 psi, with every input that such a check can have."""
    sensor = Sensor(
        signal=Signal(kind="ratiometric", low=0.5, high=4.5, wires=3), range=Interval(0.0, 100 * PSI), accuracy=0.01,
        reference="sealed",
    )  # fmt: skip
    run = CheckRun(
        sensor=sensor,
        reference=Reference(gauge=Gauge(range=Interval(0.0, 160 * PSI), grade="1A"), resolution_pa=PSI),
        meter=SignalMeter(signal=Tolerance(0.005, 0.002, 0.001), same_meter=False),
        conditions=Conditions(
            height_m=1.0, height_u_m=0.1, temperature_c=12.0, temperature_u_c=3.0, temperature_effect=2e-4,
            altitude_m=310.0,
        ),
    )  # fmt: skip
    scatter = Scatter(deviation_pa=0.1 * PSI, dof=12, count=6, hysteresis_pa=0.2 * PSI)
    return measurand_at(run, Met(reference_pa=50 * PSI, signal=2.53, supply_v=5.02), scatter)[0]


def best(work: Callable[[], object]) -> float:
    """Return the least processor time of several rounds [s]."""
    times = []
    for _ in range(ROUNDS):
        started = time.process_time()
        work()
        times.append(time.process_time() - started)
    return min(times)


def main() -> int:
    """Time both and print their ratio; 1 where numpy needs more than is wanted."""
    asked = error_at_50_psi()
    fast = best(lambda: montecarlo.propagate(asked, trials=MILLION))
    slow = best(lambda: propagating.propagate(asked, trials=PORTABLE)) * MILLION / PORTABLE
    print(f"{len(asked.inputs)} inputs, {MILLION:,} trials, one core")
    print(f"numpy     {fast:7.3f} s   (wanted: {WANTED_S:.0f} s)")
    print(f"portable  {slow:7.3f} s   (scaled from {PORTABLE:,} trials)")
    print(f"numpy : portable = 1 : {slow / fast:.0f}")
    return 0 if fast <= WANTED_S else 1


if __name__ == "__main__":
    sys.exit(main())
