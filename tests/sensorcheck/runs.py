"""Checks made up for tests: a sensor, a gauge, and points from what stood there and what the sensor told."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from steadyhead.sensorcheck.run import CheckRun, Conditions, Direction, Point, Reference
from steadyhead.visit.record import Gauge, Interval, Sensor, Signal

PSI = 6894.757293168361
BAR = 1e5
HOUSE = Sensor(
    signal=Signal(kind="ratiometric", low=0.5, high=4.5, wires=3), range=Interval(0.0, 100.0 * PSI), accuracy=0.01,
    supply=Interval(5.0, 5.0),
)  # fmt: skip
BOOSTER = Sensor(
    signal=Signal(kind="current", low=0.004, high=0.020, wires=2), range=Interval(0.0, 16.0 * BAR), accuracy=0.005
)
GAUGE = Reference(gauge=Gauge(range=Interval(0.0, 160.0 * PSI), grade="B"))

#: Gauge and sensor stand level.
LEVEL = Conditions(height_m=0.0)


def shown_run(sensor: Sensor, rows: Iterable[tuple[float, float, Direction, int]], **more: object) -> CheckRun:
    """Return a run whose points have what the gauge and what the display showed [Pa], a direction and a cycle."""
    points = tuple(
        Point(reference_pa=true, shown_pa=told, direction=way, cycle=cycle) for true, told, way, cycle in rows
    )
    run = CheckRun(sensor=sensor, reference=GAUGE, points=points, read_as="displayed-pressure", conditions=LEVEL)
    return replace(run, **more)  # type: ignore[arg-type]


def swept(trues: Sequence[float], cycles: int = 1) -> list[tuple[float, Direction, int]]:
    """Return pressures up and down again, the top once each way, so many times."""
    once: list[tuple[float, Direction]] = [(each, "up") for each in trues] + [(each, "down") for each in trues[::-1]]
    return [(true, direction, cycle) for cycle in range(1, cycles + 1) for true, direction in once]


__all__ = ["BAR", "BOOSTER", "GAUGE", "HOUSE", "PSI", "Conditions", "shown_run", "swept"]
