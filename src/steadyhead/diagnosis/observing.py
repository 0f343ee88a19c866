"""What a reading says: what was asked, what came out, and how far an instrument may be off.

Rules
-----
1. Readings that share an arrangement, a source and a pressure share one `Stance`: one solved circuit answers them all.
2. A gauge reading holds for the readings after it until the next one; a reading's own ``pressure`` overrides it; a
   vented sensor feels nothing.
3. Ohms are compared by the area hyperbolic sine of their value, so that an ohm counts near zero and a ratio above.
4. The uncertainty belongs to the measure, never to the suspect: what the instrument may be off, half a count, and a
   small allowance for what the model leaves out.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asinh, erf, sinh, sqrt
from typing import Literal

from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.system import System
from steadyhead.loop import readings as instruments
from steadyhead.loop.draft import LoopDraft
from steadyhead.loop.parts import Loop
from steadyhead.loop.solve import Operation
from steadyhead.loop.wiring import DEAD
from steadyhead.visit.record import Beyond, Figure, Reading, Spread, Word

#: An instrument's stated bound is taken for this many standard deviations.
BOUND_IN_SD = 1.8
#: Half-width of the pressures that a system may stand at when nobody has a gauge [parts of span].
NO_GAUGE = 0.3
WATER_PA_PER_M = 9806.65
#: What the model leaves out of a display beyond its range, and of volts between nothing and the sensor's full power:
#: parts of the distance.
OUTSIDE, VOLTS_OFF = 0.1, 0.015
#: Above this a resistance is insulation, and how good it is tells nothing of a fault [ohm].
INSULATED_OHM = 5e6

CONTINUOUS = ("volts", "volts-ac", "milliamps", "ohms", "megohms", "displayed-pressure", "displayed-signal")


@dataclass(frozen=True, slots=True)
class Pressure:
    """The pressure in the pipe as far as it is known: about `pa`, give or take `sd` [Pa].

    `known` tells how: read off a gauge, below the gauge's stop pin, or not at all.
    """

    pa: float
    sd: float
    known: Literal["gauge", "pinned", "nothing"]


@dataclass(frozen=True, slots=True)
class Question:
    """What is read: the keys that a check and a reading have in common."""

    measure: str
    arrangement: str = "connected"
    red: str | None = None
    black: str | None = None
    source: float | None = None
    item: str | None = None


@dataclass(frozen=True, slots=True)
class Stance:
    """How the loop stands while readings are taken."""

    arrangement: str
    source: float | None
    pressure: Pressure


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


def question_of(reading: Reading) -> Question:
    """Return what a reading asked."""
    arrangement = reading.arrangement
    return Question(reading.measure, arrangement, reading.red, reading.black, reading.source, reading.item)


def no_gauge(system: System) -> Pressure:
    """Return what is known of the pressure where nobody read a gauge."""
    return Pressure(system.range.low + 0.45 * system.range.width, NO_GAUGE * system.range.width, "nothing")


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


def observations(system: System) -> list[Observation]:
    """Return the visit's readings as evidence, each with the pressure that held.

    Readings before the last action that was followed by a reading tell of the system as it was before: they are not
    weighed.
    """
    held = no_gauge(system)
    found: list[Observation] = []
    mended = _last_mended(system)
    for reading in system.visit.readings:
        if reading.measure == "gauge-pressure":
            held = gauge_pressure(system, reading)
        pressure = held
        if reading.pressure_pa is not None:
            pressure = Pressure(reading.pressure_pa, system.gauge_error(reading.pressure_pa) / BOUND_IN_SD, "gauge")
        if reading.arrangement == "vented":
            pressure = Pressure(0.0, 0.0, "gauge")
        if reading.arrangement in DEAD:
            pressure = Pressure(0.0, 0.0, "nothing")
        stance = Stance(reading.arrangement, reading.source, pressure)
        if reading.number > mended:
            found.append(_observed(system, reading, stance))
    return found


def _last_mended(system: System) -> int:
    """Return the reading after which the loop was last changed and read again; 0 where it never was."""
    last = len(system.visit.readings)
    return max((a.after_reading for a in system.visit.actions if a.after_reading < last), default=0)


def _observed(system: System, reading: Reading, stance: Stance) -> Observation:
    question, value, number = question_of(reading), reading.value, reading.number
    if isinstance(value, Word):
        return Observation(number, question, stance, 0.0, 1.0, word=value.word)
    if question.measure not in CONTINUOUS:
        return Observation(number, question, stance, 0.0, 1.0)
    if isinstance(value, Figure):
        raw = percent_to_signal(system, value.value) if value.unit == "fraction" else value.value
        scale = (system.high - system.low) if value.unit == "fraction" else 1.0
        sd = spread(system, question.measure, raw, value.resolution * scale)
        sd = sqrt(sd**2 + (OUTSIDE * _signal_outside(system, question, raw)) ** 2)
        return Observation(number, question, stance, compared(question.measure, raw), sd)
    if isinstance(value, Spread):
        middle, half = 0.5 * (value.low + value.high), 0.5 * (value.high - value.low)
        sd = sqrt(spread(system, question.measure, middle, 0.0) ** 2 + (half * slope(question.measure, middle)) ** 2)
        return Observation(number, question, stance, compared(question.measure, middle), sd, jumping=True)
    limit = value.limit if value.limit is not None else end_of_scale(system, question.measure, value.side)
    sd = spread(system, question.measure, limit, 0.0)
    return Observation(number, question, stance, compared(question.measure, limit), sd, side=value.side)


def percent_to_signal(system: System, fraction: float) -> float:
    """Return the signal [V or A] of a display that shows percent of the signal's span."""
    return system.low + fraction * (system.high - system.low)


def end_of_scale(system: System, measure: str, side: str) -> float:
    """Return the figure past which an instrument shows no more, SI units."""
    top = {
        "ohms": INSULATED_OHM,
        "megohms": INSULATED_OHM,
        "displayed-pressure": system.range.high + 0.02 * system.range.width,
        "displayed-signal": system.high * 1.02,
        "milliamps": 0.4,
    }.get(measure, 600.0)
    if side == "above":
        return top
    return system.range.low if measure == "displayed-pressure" else 0.0


def compared(measure: str, value: float) -> float:
    """Return a value on the scale on which it is compared."""
    return asinh(min(value, INSULATED_OHM) / 2.0) if measure in {"ohms", "megohms"} else value


def uncompared(measure: str, value: float) -> float:
    """Return the SI value of a figure on the scale on which it is compared."""
    if measure in {"ohms", "megohms"}:
        return 2.0 * sinh(min(value, 60.0))
    return value


def slope(measure: str, value: float) -> float:
    """Return how fast the compared scale runs at a value."""
    return 1.0 / sqrt(value * value + 4.0) if measure in {"ohms", "megohms"} else 1.0


def spread(system: System, measure: str, value: float, resolution: float) -> float:
    """Return the standard deviation of a reading, on the scale on which it is compared."""
    size = abs(value)
    if measure in {"displayed-pressure", "displayed-signal"}:
        if measure == "displayed-signal":
            scale = system.high - system.low
        else:
            scale = (system.scaled or system.range).width
        return sqrt((0.005 * scale + OUTSIDE * _outside(system, measure, value)) ** 2 + resolution**2 / 12.0)
    if measure in {"ohms", "megohms"}:
        tolerance = system.tolerance("ohm")
        own = (tolerance.relative * size + tolerance.absolute) / BOUND_IN_SD
        model = 0.6 + (0.03 if measure == "ohms" else 0.3) * size
        return sqrt(own**2 + model**2 + resolution**2 / 12.0) * slope(measure, value)
    tolerance = system.tolerance("A" if measure == "milliamps" else "V")
    own = (tolerance.relative * size + tolerance.absolute) / BOUND_IN_SD
    model = 2.5e-3 * size + (3e-5 if measure == "milliamps" else 8e-4 * system.supply_v + 2e-3)
    if measure == "volts-ac":
        model += 0.05 + 0.5 * size
    elif measure == "volts":
        nearest = min(abs(size - system.supply_v), abs(size), 0.25 * system.supply_v)
        model += VOLTS_OFF * nearest + 2e-3 * system.supply_v
    return sqrt(own**2 + model**2 + resolution**2 / 12.0)


def _signal_outside(system: System, question: Question, value: float) -> float:
    """Return how far a signal terminal's volts lie outside the signal's range, where devices are least alike."""
    if system.unit != "V" or question.red is None or not question.red.endswith(".signal"):
        return 0.0
    return max(system.low - value, value - system.high, 0.0)


def _outside(system: System, measure: str, value: float) -> float:
    """Return how far a display lies outside the range that it is made for, where devices are least alike."""
    if measure == "displayed-signal":
        return max(system.low - value, value - system.high, 0.0)
    scaled = system.scaled or system.range
    return max(scaled.low - value, value - scaled.high, 0.0)


# predictions ------------------------------------------------------------------------------------------------------

def pipe_pressure(cell: Cell, draft: LoopDraft, pressure: Pressure, z: Latents) -> float:
    """Return the pressure in the pipe [Pa] at one point of a cell's latents.

    Under a vacuum a pinned gauge, or none, leaves anything down to a good vacuum open.
    """
    middle, sd = pressure.pa, pressure.sd
    if cell.fault == "vacuum" and pressure.known != "gauge":
        middle, sd = -45e3, 22e3
    return middle - draft.gauge_off_pa + sd * z.pressure


def asked_points(questions: tuple[Question, ...]) -> frozenset[str]:
    """Return the points on which a lead is held in any of the questions."""
    return frozenset(p for q in questions for p in (q.red, q.black) if p is not None)


@dataclass(frozen=True, slots=True)
class Look:
    """One cell at one point of its latents, in one stance: the solved loop, and what each question would show.

    `values` are in SI units; `signal` is what the controller takes its input for [V or A].
    """

    draft: LoopDraft
    loop: Loop
    pressure: float
    operation: Operation | None
    values: list[float]
    signal: float
    #: For each question, what is left of a voltage once the meter hangs on it.
    loading: list[float]

    @property
    def jump(self) -> float:
        """Part of span by which figures jump."""
        return self.draft.jump


def look(
    system: System,
    cell: Cell,
    z: Latents,
    stance: Stance,
    questions: tuple[Question, ...],
    guess: tuple[int, ...] | None = None,
) -> Look:
    """Return what each question would show at one point of a cell."""
    draft = cell.draft(system, z)
    vented = stance.arrangement == "vented"
    pressure = 0.0 if vented else pipe_pressure(cell, draft, stance.pressure, z)
    loop = draft.built(pressure, vented=vented)
    if stance.arrangement in DEAD:
        values = [_dead_value(loop, draft, q) for q in questions]
        return Look(draft, loop, pressure, None, values, 0.0, [])
    operation = instruments.at_rest(loop, stance.arrangement, stance.source, asked_points(questions), guess)
    signal = instruments.seen_signal(operation, loop.screen)
    found = Look(draft, loop, pressure, operation, [], signal, [_loading(operation, q) for q in questions])
    found.values.extend(live_values(operation, found, questions))
    return found


def _loading(operation: Operation, q: Question) -> float:
    if q.measure != "volts" or q.red is None or q.black is None:
        return 1.0
    ohm = operation.ohms_between(q.red, q.black)
    return instruments.VOLTMETER_OHM / (instruments.VOLTMETER_OHM + ohm)


def live_values(operation: Operation, base: Look, questions: tuple[Question, ...]) -> list[float]:
    """Return what each question shows at an operating point of a loop that was looked at."""
    signal = instruments.seen_signal(operation, base.loop.screen)
    return [
        _live_value(operation, base, signal, q) * loading
        for q, loading in zip(questions, base.loading, strict=True)
    ]


def _dead_value(loop: Loop, draft: LoopDraft, q: Question) -> float:
    if q.red is None or q.black is None:
        return 0.0
    if q.measure == "volts":
        return instruments.dead_volts(loop, q.arrangement, q.red, q.black) * draft.meter_volts
    return instruments.ohms(loop, q.arrangement, q.red, q.black) * (draft.meter_ohms or 1e9)


def _live_value(operation: Operation, base: Look, signal: float, q: Question) -> float:
    measure, draft = q.measure, base.draft
    if measure == "displayed-pressure":
        return instruments.shown_pressure(signal, base.loop.screen)
    if measure == "displayed-signal":
        return signal
    if measure == "volts-ac":
        return draft.noise_v * (1.0 if q.red and "signal" in q.red else 0.2)
    if measure == "milliamps":
        return instruments.milliammeter(operation, base.loop) * draft.meter_milliamps
    if q.red is None or q.black is None:
        return 0.0
    return operation.between(q.red, q.black) * draft.meter_volts


def shown_chances(system: System, signal: float) -> dict[str, float]:
    """Return the chance of each fault word that a signal can make the controller show.

    Where nobody knows the limits, they lie about the usual ones, and a controller may keep silent.
    """
    blur = (0.006 if system.limits_given else 0.05) * (system.high - system.low) * sqrt(2.0)
    loud = 0.97 if system.limits_given else 0.85
    low = loud * 0.5 * (1.0 - erf((signal - system.low_fault) / blur))
    high = loud * 0.5 * (1.0 + erf((signal - system.high_fault) / blur))
    return {"low-signal": low, "high-signal": high, "none": 1.0 - low - high}
