"""What a reading says: what was asked, what came out, and how far an instrument may be off.

Rules
-----
1. Readings that share an arrangement, a source and a pressure share one `Stance`: one solved circuit answers them all.
2. A gauge reading holds for the readings after it until the next one, and more loosely for those before the first: a
   display is often read a minute before the gauge. A reading's own ``pressure`` overrides it; a vented sensor feels
   nothing.
3. A gauge of the other owner, read later, tells which of the two lies (`steadyhead.diagnosis.beside`).
4. What MIN/MAX held counts as a figure that stood still where its ends are next to each other, else as one that jumps.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt
from typing import Literal

from steadyhead.diagnosis import beside
from steadyhead.diagnosis.clamped import as_read
from steadyhead.diagnosis.doubt import (
    BOUND_IN_SD,
    LEAST_INSULATION_OHM,
    OUTSIDE,
    compared,
    end_of_scale,
    percent_to_signal,
    signal_outside,
    slope,
    spread,
)
from steadyhead.diagnosis.system import System, last_mended
from steadyhead.loop.wiring import DEAD, noise_reaches
from steadyhead.visit.record import Beyond, Figure, Reading, Spread, Word, called

#: Half-width of the pressures that a system may stand at when nobody has a gauge [parts of span].
NO_GAUGE = 0.3
#: How far the pressure may have drifted between a display and the gauge that was read after it [parts of span].
BEFORE = 0.03
WATER_PA_PER_M = 9806.65
#: Ends of MIN/MAX no further from their middle than this, in the figure's own deviations, stood still.
STOOD = 2.0

CONTINUOUS = ("volts", "volts-ac", "milliamps", "ohms", "megohms", "displayed-pressure", "displayed-signal")


@dataclass(frozen=True, slots=True)
class Pressure:
    """The pressure in the pipe as far as it is known: about `pa`, give or take `sd` and `drift` [Pa].

    `known` tells how: read off a gauge, below the gauge's stop pin, or not at all. `sd` is the gauge's error, the same
    in all of its readings; `drift` is how far the pressure itself may be from where the gauge was read.
    """

    pa: float
    sd: float
    known: Literal["gauge", "pinned", "nothing"]
    drift: float = 0.0
    #: Whose gauge it was, where two have been read, and whether it is the second one.
    whose: str = ""
    second: bool = False


@dataclass(frozen=True, slots=True)
class Question:
    """What is read: the keys that a check and a reading have in common."""

    measure: str
    arrangement: str = "connected"
    red: str | None = None
    black: str | None = None
    source: float | None = None
    item: str | None = None
    #: ``own`` where the technician's gauge is asked for beside the site's.
    whose: str | None = None

    @property
    def named(self) -> str:
        """What it is called: its measure, or the technician's own gauge."""
        return called(self.measure, self.whose)


@dataclass(frozen=True, slots=True)
class Stance:
    """How the loop stands while readings are taken."""

    arrangement: str
    source: float | None
    pressure: Pressure
    #: Whether what the cable picks up is gone: the drive stopped, or the cable left out.
    quiet: bool = False


@dataclass(frozen=True, slots=True)
class Observation:
    """One reading as evidence.

    Parameters
    ----------
    number
        Which reading, counted from 1.
    question, stance
        What was read and how the loop stood.
    value
        What came out, on the scale on which it is compared; for a censored reading the end of the instrument's scale.
    sd
        Its standard deviation on that scale.
    side
        ``above`` or ``below`` where the reading only says that the value lies past `value`.
    word
        What an inspection or the display said.
    jumping
        Whether the figure would not stand still.
    """

    number: int
    question: Question
    stance: Stance
    value: float
    sd: float
    side: Literal["", "above", "below"] = ""
    word: str = ""
    jumping: bool = False
    #: Half of the width of a figure that would not stand still, and the deviation of one that does.
    half: float = 0.0
    sd_at_rest: float = 0.0
    #: Whether the meter was left to watch it for minutes.
    watched: bool = False
    #: How many figures of the visit would not stand still.
    jumpers: int = 1
    #: A second gauge's own error, which all of its readings share [Pa], and what it says of the pressure from then on.
    shared: float = 0.0
    leaves: Pressure | None = None

    @property
    def compares(self) -> bool:
        """Whether it is a figure that a loop foretells: a first gauge's says where the pressure stands."""
        return self.question.measure in CONTINUOUS or self.shared > 0.0


def question_of(reading: Reading) -> Question:
    """Return what a reading asked."""
    arrangement = reading.arrangement
    return Question(reading.measure, arrangement, reading.red, reading.black, reading.source, reading.item)


def no_gauge(system: System) -> Pressure:
    """Return what is known of the pressure where nobody read a gauge."""
    return Pressure(
        system.range.low + 0.45 * system.range.width, 0.0, "nothing", drift=NO_GAUGE * system.range.width
    )


def gauge_pressure(system: System, reading: Reading) -> Pressure:
    """Return what a gauge reading says of the pressure at the sensor."""
    lift = WATER_PA_PER_M * (reading.height_m or 0.0)
    value = reading.value
    if isinstance(value, Figure):
        sd = sqrt((system.gauge_error(value.value) / BOUND_IN_SD) ** 2 + value.resolution**2 / 12.0)
        return Pressure(value.value + lift, sd, "gauge")
    if isinstance(value, Spread):
        middle = 0.5 * (value.low + value.high)
        sd = sqrt((system.gauge_error(middle) / BOUND_IN_SD) ** 2 + (value.high - value.low) ** 2 / 12.0)
        return Pressure(middle + lift, sd, "gauge")
    error = system.gauge_error(0.0)
    if isinstance(value, Beyond) and value.side == "below":
        return Pressure((value.limit or 0.0) + lift, error, "pinned")
    top = value.limit if isinstance(value, Beyond) and value.limit is not None else system.range.high
    return Pressure(top + lift, max(error, 0.1 * system.range.width), "gauge")


def _before_a_gauge(system: System) -> Pressure:
    """Return the pressure of the readings before the first of a gauge: about the one that it then shows."""
    first = next((r for r in system.visit.readings if r.measure == "gauge-pressure"), None)
    if first is None:
        return no_gauge(system)
    whose = first.whose if beside.owners(system.visit).second else ""
    return replace(gauge_pressure(system, first), drift=BEFORE * system.range.width, whose=whose)


def observations(system: System) -> list[Observation]:
    """Return the visit's readings as evidence, each with the pressure that held.

    Readings before the last action that was followed by a reading tell of the system as it was before: they are not
    weighed.
    """
    held = _before_a_gauge(system)
    second = beside.owners(system.visit).second
    found: list[Observation] = []
    mended = last_mended(system.visit)
    for reading in system.visit.readings:
        before = held
        if reading.measure == "gauge-pressure":
            held = gauge_pressure(system, reading)
            if second:
                held = replace(held, whose=reading.whose, second=reading.whose == second)
        pressure = held
        if reading.pressure_pa is not None:
            pressure = Pressure(reading.pressure_pa, system.gauge_error(reading.pressure_pa) / BOUND_IN_SD, "gauge")
        if reading.arrangement == "vented":
            pressure = Pressure(0.0, 0.0, "gauge")
        if reading.arrangement in DEAD:
            pressure = Pressure(0.0, 0.0, "nothing")
        quiet = not noise_reaches(reading.arrangement, reading.drive)
        stance = Stance(reading.arrangement, reading.source, pressure, quiet)
        if reading.number > mended:
            other = pressure.second and not before.second
            found.append(_beside(system, reading, stance, before) if other else _observed(system, reading, stance))
    jumpers = max(sum(o.jumping for o in found), 1)
    return [replace(o, jumpers=jumpers) if o.jumping else o for o in found]


def _beside(system: System, reading: Reading, stance: Stance, before: Pressure) -> Observation:
    """Return what a second gauge shows as a figure, foretold by the pressure as the first one left it."""
    value, leaves = reading.value, stance.pressure
    side: Literal["", "above", "below"] = value.side if isinstance(value, Beyond) else ""
    width = value.resolution if isinstance(value, Figure) else 0.0
    width = value.high - value.low if isinstance(value, Spread) else width
    question = replace(question_of(reading), whose=reading.whose)
    return Observation(
        reading.number, question, replace(stance, pressure=before), leaves.pa, beside.alone(system, width), side=side,
        shared=beside.own_error(system, leaves.pa), leaves=leaves,
    )  # fmt: skip


def _observed(system: System, reading: Reading, stance: Stance) -> Observation:
    question, value, number = question_of(reading), reading.value, reading.number
    if isinstance(value, Word):
        return Observation(number, question, stance, 0.0, 1.0, word=value.word)
    if question.measure not in CONTINUOUS:
        return Observation(number, question, stance, 0.0, 1.0)
    if question.measure == "megohms" and isinstance(value, Figure) and value.value < LEAST_INSULATION_OHM:
        value = Beyond("below", LEAST_INSULATION_OHM, "ohm")
    if isinstance(value, Figure):
        value = as_read(system, question.measure, value)
    if isinstance(value, Figure):
        raw = percent_to_signal(system, value.value) if value.unit == "fraction" else value.value
        scale = (system.high - system.low) if value.unit == "fraction" else 1.0
        sd = spread(system, question.measure, raw, value.resolution * scale)
        if question.measure == "volts":
            sd = sqrt(sd**2 + (OUTSIDE * signal_outside(system, question.red, raw)) ** 2)
        return Observation(number, question, stance, compared(question.measure, raw), sd)
    if isinstance(value, Spread):
        middle, half = 0.5 * (value.low + value.high), 0.5 * (value.high - value.low)
        at_rest, half = spread(system, question.measure, middle, 0.0), half * slope(question.measure, middle)
        if value.over_s is not None and half <= STOOD * at_rest:
            return Observation(number, question, stance, compared(question.measure, middle), at_rest, watched=True)
        return Observation(
            number, question, stance, compared(question.measure, middle), sqrt(at_rest**2 + half**2), jumping=True,
            half=half, sd_at_rest=at_rest,
        )  # fmt: skip
    limit = value.limit if value.limit is not None else end_of_scale(system, question.measure, value.side)
    sd = spread(system, question.measure, limit, 0.0)
    return Observation(number, question, stance, compared(question.measure, limit), sd, side=value.side)
