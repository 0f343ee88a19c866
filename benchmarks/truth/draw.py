"""A healthy system, drawn wider than a tidy mind would choose; faults come later, in `breaking`.

All ranges are common practice from memory: what is met on pump-house walls, not what one data sheet says.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace

from benchmarks.truth.case import (
    CONDUCTORS,
    PSI_PER_BAR,
    Cable,
    Case,
    Conductor,
    Gauge,
    Input,
    Kind,
    Law,
    Leak,
    Meter,
    Sensor,
    Setting,
    Signal,
    Supply,
    Unsteady,
    Water,
)

AREAS_MM2 = (0.205, 0.326, 0.519, 0.823, 0.5, 0.75, 1.0)  # 24 to 18 AWG, and three metric sizes
COPPER_OHM_MM2_PER_M = 0.0172414  # 100 % IACS at 20 degC; IEC 60028, from memory
#: Part of the sites with a hose tap within reach, or a plugged port that opens (common practice: most have one).
HOSE_TAP = 0.85
OPTIONAL_TOOLS = {
    "spare-sensor": 0.5,
    "signal-source": 0.25,
    "potentiometer": 0.15,
    "resistors": 0.2,
    "spare-lead": 0.45,
    "insulation-tester": 0.25,
    "clamp-meter": 0.4,
}


def spread(rng: random.Random, low: float, high: float) -> float:
    """Return a value drawn evenly by its logarithm between two positive ends."""
    return math.exp(rng.uniform(math.log(low), math.log(high)))


def _signal(rng: random.Random, kind: Kind) -> Signal:
    if kind == "two-wire":
        return Signal(low=0.004, high=0.020, ratiometric=False, supply_v=24.0)
    choices = ((0.5, 4.5, True, 5.0), (0.0, 10.0, False, 0.0), (1.0, 5.0, False, 0.0))
    low, high, ratiometric, volts = rng.choices(choices, (78, 11, 11))[0]
    return Signal(low=low, high=high, ratiometric=ratiometric, supply_v=volts or rng.choice((12.0, 15.0, 24.0)))


def _supply(rng: random.Random, signal: Signal) -> Supply:
    five = signal.supply_v < 6
    limit = spread(rng, 0.015, 0.2) if five else spread(rng, 0.03, 0.4)
    law: Law = rng.choices(("soft", "foldback", "self-resetting", "hiccup"), (45, 20, 25, 10))[0]
    left = rng.uniform(0.25, 0.7) if law == "foldback" else rng.uniform(0.03, 0.3)
    other = rng.uniform(0.001, 0.3 * limit) if rng.random() < 0.25 else 0.0
    tolerance = rng.gauss(0, 0.01) if five else rng.gauss(0.01, 0.03)
    return Supply(
        volts=signal.supply_v * (1 + max(-0.04, min(0.12, tolerance))),
        source_ohm=spread(rng, 0.05, 5 if five else 30),
        limit_a=limit,
        law=law,
        after_trip_a=limit * left,
        bleeder_ohm=spread(rng, 2e3, 2e5),
        other_load_a=other,
    )


def _fault_limits(rng: random.Random, signal: Signal) -> tuple[float, float]:
    if signal.high < 0.1:
        return rng.choice((0.0020, 0.0036, 0.0038)), rng.choice((0.0205, 0.021, 0.022))
    if signal.ratiometric:
        return rng.choice((0.1, 0.2, 0.25, 0.3)), rng.choice((4.7, 4.75, 4.8, 4.9))
    return signal.low - 0.06 * signal.span, signal.high + 0.06 * signal.span


def _input(rng: random.Random, signal: Signal) -> Input:
    current = signal.high < 0.1
    ohm = (
        rng.choice((100.0, 120.0, 125.0, 165.0, 200.0, 249.0, 250.0, 250.0, 390.0, 500.0))
        if current
        else spread(rng, 1e4, 1e6)
    )
    low, high = _fault_limits(rng, signal)
    return Input(
        ohm=ohm * (1 + (rng.gauss(0, 0.002) if current else 0)),
        nominal_ohm=ohm,
        pull_up_ohm=math.inf if current or rng.random() < 0.8 else 5 * max(ohm, 1e5) * rng.uniform(1, 4),
        clamp_v=max(rng.uniform(6, 15), 0.0225 * ohm) if current else max(signal.high, 5) * rng.uniform(1.08, 2.2),
        clamp_ohm=spread(rng, 10, 200) if current else spread(rng, 300, 2e4),
        ratiometric=signal.ratiometric and rng.random() < 0.55,
        gain=1 + rng.gauss(0, 0.002),
        offset=rng.gauss(0, 0.0015) * signal.span,
        low_fault=low,
        high_fault=high,
    )


def _voltage_sensor(rng: random.Random, signal: Signal, error: float) -> Sensor:
    five = signal.ratiometric
    return Sensor(
        zero=rng.gauss(0, 0.4 * error),
        gain=1 + rng.gauss(0, 0.3 * error),
        floor=-signal.low / signal.span * rng.uniform(0.1, 1.0) if signal.low else -0.001,
        ceiling=1 + rng.uniform(0.02, 0.12),
        least_v=rng.uniform(2.5, 4.2) if five else rng.uniform(5, min(8.5, signal.supply_v - 3)),
        reverse=rng.choices(("blocking", "shunt", "series"), (50, 50, 0) if five else (25, 25, 50))[0],
        quiescent_a=spread(rng, 0.0015, 0.010),
        quiescent_per_v=rng.uniform(-0.02, 0.08),
        out_ohm=spread(rng, 1, 1000),
        source_a=spread(rng, 0.003, 0.025),
        sink_a=spread(rng, 0.002, 0.020),
        low_room_v=rng.uniform(0.005, 0.2) if signal.low else 0.005,
        high_room_v=rng.uniform(0.02, 0.3) if five else rng.uniform(0.5, 1.5),
        pull_down_ohm=spread(rng, 1e5, 1e7),
        output_diode=rng.random() < 0.8,
        starved=rng.choices(("common", "supply", "floating"), (65, 15, 20))[0],
    )


def _current_sensor(rng: random.Random, error: float) -> Sensor:
    return Sensor(
        zero=rng.gauss(0, 0.4 * error),
        gain=1 + rng.gauss(0, 0.3 * error),
        floor=-(4 - rng.uniform(3.4, 3.95)) / 16,
        ceiling=1 + (rng.uniform(20.3, 24.0) - 20) / 16,
        least_v=rng.uniform(6.5, 12),
        reverse=rng.choices(("blocking", "shunt", "series"), (20, 30, 50))[0],
    )


def draw_sensor(rng: random.Random, signal: Signal, error: float) -> Sensor:
    """Return a good sensor of the plate's kind with an error of about `error` of its span."""
    return _current_sensor(rng, error) if signal.high < 0.1 else _voltage_sensor(rng, signal, error)


def _cable(rng: random.Random, kind: Kind) -> Cable:
    length, area = spread(rng, 1.5, 150 if kind == "two-wire" else 60), rng.choice(AREAS_MM2)
    run = COPPER_OHM_MM2_PER_M * length / area * rng.uniform(0.9, 1.15)
    protector = rng.choice((4.7, 10.0, 15.0, 22.0)) if rng.random() < 0.08 else 0.0
    wires = CONDUCTORS[kind]
    conductors = {
        wire: Conductor(
            terminal_ohm=spread(rng, 0.002, 0.1),
            protector_ohm=protector,
            run_ohm=run,
            crimp_ohm=spread(rng, 0.001, 0.05),
            pin_ohm=spread(rng, 0.003, 0.3),
        )
        for wire in wires
    }
    same = {wire: wire for wire in wires}
    ohm = spread(rng, 3e7, 5e9)
    damp = spread(rng, 2e6, 5e7) if rng.random() < 0.15 else math.inf
    leaks = (
        ()
        if math.isinf(damp)
        else (Leak(a=wires[0], b=wires[1], place="plug", ohm=damp, emf_v=rng.uniform(-0.1, 0.1)),)
    )
    return Cable(
        conductors=conductors,
        lands=same,
        pins=dict(same),
        leaks=leaks,
        screen_tied=rng.random() < 0.6,
        insulation_ohm=ohm,
        length_m=length,
        area_mm2=area,
    )


def _gauge(rng: random.Random, top: float) -> Gauge:
    scale = next((s for s in (60, 100, 160, 200, 300, 400, 600) if s >= 1.05 * top), 1000)
    low = -15.0 if rng.random() < 0.2 else 0.0
    span = scale - low
    stated, error = rng.choice(
        (('grade = "A"', 0.01), ('grade = "B"', 0.02), ('accuracy = "1 %"', 0.01), ('accuracy = "2 %"', 0.02))
    )
    worn = 1.6 if rng.random() < 0.05 else 1.0
    return Gauge(
        low=low,
        high=float(scale),
        division=0.5 if span < 110 else 1.0 if span < 250 else 2.0,
        stated=stated,
        bias_psi=_bias(rng) * error * span * worn,
        error_psi=error * span,
    )


def _bias(rng: random.Random) -> float:
    """Return a gauge's true error in parts of what its kind allows."""
    return max(-1.1, min(1.1, rng.gauss(0, 0.45)))


def _own_gauge(gauge: Gauge, seed: str) -> Gauge | None:
    """Return the technician's own gauge, as good as the site's was; most houses have a hose tap for it."""
    rng = random.Random(f"{seed}|own gauge")
    return replace(gauge, bias_psi=_bias(rng) * gauge.error_psi) if rng.random() < HOSE_TAP else None


def _meter(rng: random.Random) -> Meter:
    volts = (rng.choice((0.003, 0.005, 0.008, 0.01)), rng.choice((1, 2, 3)), rng.choice((0.001, 0.01)))
    milliamps = (rng.choice((0.008, 0.01, 0.012, 0.015)), rng.choice((2, 3)), 0.01)
    ohms = (rng.choice((0.008, 0.01, 0.012)), rng.choice((2, 3, 5)), 0.1)
    return Meter(
        volts=volts,
        milliamps=milliamps,
        ohms=ohms,
        volts_gain=1 + rng.uniform(-0.6, 0.6) * volts[0],
        milliamps_gain=1 + rng.uniform(-0.6, 0.6) * milliamps[0],
        ohms_gain=1 + rng.uniform(-0.6, 0.6) * ohms[0],
        volts_ohm=rng.choices((1e7, 1.1e7, 1e6), (88, 9, 3))[0],
        burden_ohm=spread(rng, 1, 15),
        open_volts=rng.uniform(0.6, 3.2),
        ohms_limit=rng.choice((2e6, 2e7, 4e7, 6e7)),
    )


def _ranges(rng: random.Random) -> tuple[str, float]:
    if rng.random() < 0.7:
        return "psi", rng.choice((60.0, 100.0, 100.0, 100.0, 150.0, 150.0, 200.0, 300.0))
    return "bar", rng.choice((6.0, 10.0, 10.0, 16.0)) * PSI_PER_BAR


def _tools(rng: random.Random) -> tuple[str, ...]:
    return ("multimeter", "gauge", *(tool for tool, share in OPTIONAL_TOOLS.items() if rng.random() < share))


def healthy(rng: random.Random, seed: str, kind: Kind) -> Case:
    """Return a healthy system of a kind; `seed` is kept, so that the case can be drawn again."""
    signal = _signal(rng, kind)
    unit, top = _ranges(rng)
    accuracy = rng.choice((0.0025, 0.005, 0.01, 0.01, 0.015))
    pressure = min(rng.uniform(0.22, 0.8) * top, 140.0)
    gauge = _gauge(rng, max(pressure, 0.6 * top))
    return Case(
        seed=seed,
        kind=kind,
        signal=signal,
        range_psi=(0.0, top),
        unit="psi" if unit == "psi" else "bar",
        accuracy=accuracy,
        supply=_supply(rng, signal),
        input=_input(rng, signal),
        sensor=draw_sensor(rng, signal, accuracy),
        spare=draw_sensor(rng, signal, 0.01),
        cable=_cable(rng, kind),
        setting=Setting(scaled=(0.0, top), ends=(signal.low, signal.high)),
        water=Water(gauge_psi=pressure, sensor_psi=pressure + rng.gauss(0, 0.3)),
        gauge=gauge,
        own_gauge=_own_gauge(gauge, seed),
        meter=_meter(rng),
        unsteady=Unsteady(pickup_v=spread(rng, 0.001, 0.05)),
        celsius=rng.uniform(-8, 48),
        source_ohm=spread(rng, 5, 1500) if kind == "three-wire" else 1e6,
        source_gain=1 + rng.gauss(0, 0.003),
        have=_tools(rng),
        walk_min=rng.choice((0.2, 0.5, 1.0, 2.0, 4.0)) if rng.random() < 0.4 else None,
        cock=rng.random() < 0.35,
    )
