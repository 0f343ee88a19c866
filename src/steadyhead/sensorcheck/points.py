"""Which pressures to take, in which order, and how: by the purpose, the sensor, the gauge, and what the system stands.

Rules
-----
1. A running system is never pumped to the top of the sensor's range: the highest point lies below the relief valve by
   `BELOW_RELIEF`, at the weakest part's pressure at most, at what the pump makes, and on the gauge's scale.
2. Where nobody said what relief valve and weakest part stand, the highest point is the pressure that stands there in
   ordinary service, and where that is unknown too, half of the sensor's range. That is told.
3. A hand pump on the isolated sensor goes to the top of its range, if gauge and pump do.
4. Levels lie evenly between the lowest and the highest that can be had, on round figures of the unit in use; the two
   ends are rounded ten times finer, so that little of the range is lost.
5. Going up comes first. The top is read once, on the way up; the bottom at the start of a cycle and at its end.
6. What cannot be reached is told, with what would reach it.

Purposes
--------
==============  ======  ======  ==========================================================================
purpose         levels  cycles  whence
==============  ======  ======  ==========================================================================
``quick``       3       1       common practice: is it worth a full check?
``full``        6       1       EURAMET cg-17, basic procedure: six points, increasing and decreasing
``repeat``      6       3       IEC 61298-2: several cycles, for repeatability
``laboratory``  11      3       EURAMET cg-17 and IEC 61298-2, eleven points, several cycles
==============  ======  ======  ==========================================================================
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Literal

from steadyhead.errors import SensorCheckError
from steadyhead.figures import COMMON_PRACTICE
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.at_sensor import height_correction_pa, range_here
from steadyhead.sensorcheck.run import Conditions, Direction, PressureFrom
from steadyhead.sensorcheck.ways import cautions_before, cautions_of_step, way_to
from steadyhead.visit.record import Interval, Sensor

PurposeId = Literal["quick", "full", "repeat", "laboratory"]

BELOW_RELIEF = 0.10  #: of its setting: nearer, many weep (common practice)
UNKNOWN_SHARE = 0.5  #: of the sensor's range, where nobody said anything (common practice)
ENOUGH_OF_RANGE = 0.6  #: with less of the range checked, a hand pump is named
_SMALLEST_SHARE = 0.1  #: of the range, below which there is nothing to check
_CG17 = Source(
    cite="EURAMET cg-17, Calibration of electromechanical and mechanical manometers, version 2.0, 2011",
    locator="5.2.1",
    seen="republished", via="a public excerpt, for the basic procedure; the others from memory",
)  # fmt: skip
_IEC = Source(cite="IEC 61298-2:2008", locator="number of cycles and test points", seen="memory")


@dataclass(frozen=True, slots=True, kw_only=True)
class Purpose:
    """What a check is for: how many levels, how many times up and down, and who says so."""

    id: PurposeId
    levels: int
    cycles: int
    source: Source


PURPOSES: dict[PurposeId, Purpose] = {
    each.id: each
    for each in (
        Purpose(id="quick", levels=3, cycles=1, source=COMMON_PRACTICE),
        Purpose(id="full", levels=6, cycles=1, source=_CG17),
        Purpose(id="repeat", levels=6, cycles=3, source=_IEC),
        Purpose(id="laboratory", levels=11, cycles=3, source=_CG17),
    )
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowed:
    """What the place allows; every pressure in pascal gauge as the reference shows it, None where nobody said.

    Parameters
    ----------
    gauge
        The reference's scale.
    pump_pa
        Highest that the pump, or the hand pump, makes.
    relief_pa
        Setting of the relief valve.
    weakest_pa
        What the weakest part stands: its plate.
    ordinary_pa
        What stands there in ordinary service: the set pressure.
    lowest_pa
        Lowest that can be brought about; zero where the sensor can be vented.
    """

    gauge: Interval | None = None
    pump_pa: float | None = None
    relief_pa: float | None = None
    weakest_pa: float | None = None
    ordinary_pa: float | None = None
    lowest_pa: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One point to take: its pressure at the gauge [Pa], how to come to it, and what to heed that is new with it."""

    number: int
    cycle: int
    direction: Direction
    pressure_pa: float
    way: Message
    cautions: tuple[Message, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What to take.

    Parameters
    ----------
    purpose
        What it is for.
    pressure_from
        What makes the pressure.
    levels
        Pressures to be taken [Pa], rising.
    steps
        The points in the order in which they are taken.
    highest_pa
        Where it must end [Pa].
    limited_by
        Why there: ``relief``, ``weakest``, ``pump``, ``gauge``, ``sensor``, ``ordinary``, ``unknown``, ``static``.
    share
        How much of the sensor's range is checked.
    cautions
        What to heed before the first point, most urgent first.
    notes
        What else must be said: what cannot be reached, and what would.
    minutes
        About how long it takes (common practice).
    """

    purpose: Purpose
    pressure_from: PressureFrom
    levels: tuple[float, ...]
    steps: tuple[Step, ...]
    highest_pa: float
    limited_by: str
    share: float
    cautions: tuple[Message, ...]
    notes: tuple[Message, ...]
    minutes: float


#: Minutes to set up, and for each point: to bring it about, let it settle and read it (common practice).
_MINUTES: dict[PressureFrom, tuple[float, float]] = {
    "system": (8.0, 2.0), "hand-pump": (12.0, 1.0), "static": (7.0, 1.0),
}  # fmt: skip


def plan(
    sensor: Sensor,
    allowed: Allowed,
    purpose: PurposeId = "full",
    *,
    pressure_from: PressureFrom = "system",
    conditions: Conditions | None = None,
    unit_pa: float = 1e5,
) -> Plan:
    """Return which points to take.

    Parameters
    ----------
    sensor
        The sensor.
    allowed
        What the place allows.
    purpose
        One of `PURPOSES`.
    pressure_from
        What makes the pressure.
    conditions
        The height of the gauge, and the air: the sensor's range ends elsewhere on the gauge.
    unit_pa
        One unit of pressure as people read it here [Pa]: levels are round in it.

    Raises
    ------
    SensorCheckError
        ``nothing-to-check``: what can be had is less than a tenth of the sensor's range.

    Examples
    --------
    >>> from steadyhead.visit.record import Signal
    >>> house = Sensor(signal=Signal(kind="voltage", low=0.5, high=4.5, wires=3), range=Interval(0.0, 10e5))
    >>> found = plan(house, Allowed(relief_pa=7e5, weakest_pa=8.6e5), "quick")
    >>> found.limited_by, [round(each / 1e5, 1) for each in found.levels], len(found.steps)
    ('relief', [0.0, 3.0, 6.3], 5)
    """
    conditions = conditions or Conditions()
    range_ = _at_gauge(range_here(sensor, conditions), conditions)
    highest, limited_by = _highest(range_, allowed, pressure_from)
    lowest = max(allowed.lowest_pa, range_.low)
    if pressure_from == "static":
        lowest = highest
    elif highest - lowest < _SMALLEST_SHARE * range_.width:
        raise SensorCheckError(message("nothing-to-check", lowest=lowest, highest=highest, limited_by=limited_by))
    made_for = PURPOSES[purpose]
    levels = _levels(lowest, highest, made_for.levels, unit_pa)
    steps = tuple(_steps(levels, made_for.cycles, pressure_from))
    share = (levels[-1] - levels[0]) / range_.width
    set_up, each = _MINUTES[pressure_from]
    return Plan(
        purpose=made_for, pressure_from=pressure_from, levels=levels, steps=steps, highest_pa=highest,
        limited_by=limited_by, share=share, cautions=cautions_before(sensor, pressure_from),
        notes=tuple(_notes(range_, levels, limited_by, pressure_from)), minutes=set_up + each * len(steps),
    )  # fmt: skip


def _at_gauge(range_: Interval, conditions: Conditions) -> Interval:
    """Return the sensor's range as the gauge shows it."""
    low, high = (each - height_correction_pa(conditions, each) for each in (range_.low, range_.high))
    return Interval(low, high)


def _highest(range_: Interval, allowed: Allowed, pressure_from: PressureFrom) -> tuple[float, str]:
    """Return the highest pressure that may be brought about, and what it is limited by."""
    found = [(range_.high, "sensor")]
    if allowed.gauge is not None:
        found.append((allowed.gauge.high, "gauge"))
    if pressure_from == "static":
        return min([*found, (allowed.lowest_pa, "static")])
    if allowed.pump_pa is not None:
        found.append((allowed.pump_pa, "pump"))
    if pressure_from == "system":
        found += _limits_of_system(range_, allowed)
    return min(found)


def _limits_of_system(range_: Interval, allowed: Allowed) -> Iterator[tuple[float, str]]:
    if allowed.relief_pa is not None:
        yield (1.0 - BELOW_RELIEF) * allowed.relief_pa, "relief"
    if allowed.weakest_pa is not None:
        yield allowed.weakest_pa, "weakest"
    if allowed.relief_pa is not None and allowed.weakest_pa is not None:
        return
    if allowed.ordinary_pa is not None:
        yield allowed.ordinary_pa, "ordinary"
    elif allowed.relief_pa is None and allowed.weakest_pa is None:
        yield range_.low + UNKNOWN_SHARE * range_.width, "unknown"


def _levels(lowest: float, highest: float, count: int, unit_pa: float) -> tuple[float, ...]:
    """Return levels evenly between both ends, on round figures of the unit, none outside the ends."""
    if highest <= lowest:
        return (highest,)
    gap = (highest - lowest) / (count - 1)
    step, fine = (_round_step(gap / parts / unit_pa) * unit_pa for parts in (5.0, 50.0))
    even = [lowest + gap * place for place in range(count)]
    middle = [round(each / step) * step for each in even[1:-1]]
    return (ceil(lowest / fine * (1.0 - 1e-12)) * fine, *middle, floor(highest / fine * (1.0 + 1e-12)) * fine)


def _round_step(size: float) -> float:
    """Return the largest 1, 2 or 5 times a power of ten that is not above `size`.

    >>> _round_step(0.9), _round_step(2.4), _round_step(7.0)
    (0.5, 2.0, 5.0)
    """
    power: float = 10.0 ** floor(log10(size))
    return max(each for each in (power, 2.0 * power, 5.0 * power) if each <= size * (1.0 + 1e-12))


def _steps(levels: tuple[float, ...], cycles: int, pressure_from: PressureFrom) -> Iterator[Step]:
    ups: list[tuple[float, Direction]] = [(each, "up") for each in levels]
    downs: list[tuple[float, Direction]] = [(each, "down") for each in levels[-2::-1]]
    every = [(cycle, *each) for cycle in range(1, cycles + 1) for each in (*ups, *downs)]
    before: float | None = None
    for number, (cycle, pressure, direction) in enumerate(every, start=1):
        yield Step(
            number=number, cycle=cycle, direction=direction, pressure_pa=pressure,
            way=way_to(pressure, before, pressure_from),
            cautions=cautions_of_step(pressure, before, pressure_from),
        )  # fmt: skip
        before = pressure


def _notes(
    range_: Interval, levels: tuple[float, ...], limited_by: str, pressure_from: PressureFrom
) -> Iterator[Message]:
    """Yield what cannot be reached, and what would reach it."""
    if limited_by != "sensor":
        yield message("plan-ends-below-top", highest=levels[-1], top=range_.high, limited_by=limited_by)
    if limited_by in {"ordinary", "unknown"}:
        yield message("plan-limits-unknown", highest=levels[-1])
    if levels[0] > range_.low + 0.02 * range_.width:
        yield message("plan-begins-above-zero", lowest=levels[0])
    short = (levels[-1] - levels[0]) / range_.width < ENOUGH_OF_RANGE
    if short and pressure_from != "hand-pump":
        yield message("plan-hand-pump-would-do-more", top=range_.high)
