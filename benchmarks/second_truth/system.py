"""A healthy system as it stands on site: devices, cable, pressures, instruments and their true errors."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from benchmarks.second_truth.makes import (
    FIXED,
    LOOP,
    ONE_FIVE,
    RATIOMETRIC,
    TEN_VOLT,
    InputMake,
    MeterMake,
    SensorMake,
    Signal,
    SupplyMake,
    input_make,
    meter_make,
    supply_make,
    three_wire_make,
    two_wire_make,
)
from benchmarks.second_truth.streams import Stream

PSI_PER_BAR = 14.503774
CONDUCTORS = {
    "18 AWG": 20.95,
    "20 AWG": 33.31,
    "22 AWG": 52.96,
    "24 AWG": 84.2,
    "0.34 mm2": 52.0,
    "0.5 mm2": 36.7,
    "0.75 mm2": 24.5,
    "1 mm2": 18.1,
}
"""Ohms a kilometre at 20 degrees Celsius."""


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """Everything that is true before a fault is put in; pressures in ``unit``."""

    two_wire: bool
    unit: str
    top: float
    accuracy: float
    length_m: float
    conductor: str
    wire_ohm: float
    contacts: Mapping[tuple[str, str], float]
    leaks: Mapping[str, float]
    protector_ohm: float
    bond_ohm: float
    stray_v: float
    supply: SupplyMake
    input: InputMake
    input_nominal: float
    sensor: SensorMake
    spare: SensorMake
    meter: MeterMake
    low_fault: float | None
    high_fault: float | None
    decimals: int
    clamped: bool
    shows_signal: bool
    pressure: float
    gauge_top: float
    gauge_bottom: float
    gauge_text: str
    gauge_limit: float  #: fraction of the gauge's span
    gauge_errors: Mapping[str, float]  #: own and site, fraction of the gauge's span
    gauge_height_m: float
    whose: str
    celsius: float
    cock: bool
    walk_min: float | None
    moulded: bool
    have: tuple[str, ...]

    @property
    def wires(self) -> tuple[str, ...]:
        """The conductors of the cable, by the sensor's pins."""
        return ("supply", "signal") if self.two_wire else ("supply", "common", "signal")

    @property
    def signal(self) -> Signal:
        """The signal that the system was made for."""
        return self.sensor.signal

    @property
    def atmosphere(self) -> float:
        """One atmosphere in this system's unit."""
        return 14.6 if self.unit == "psi" else 14.6 / PSI_PER_BAR


def draw_system(rng: Stream, *, two_wire: bool) -> System:
    """Draw a system as houses and booster sets have them."""
    signal, volts = _signal(rng, two_wire=two_wire)
    unit = "psi" if rng.chance(0.72) else "bar"
    top = rng.weighted(
        {100: 0.4, 150: 0.15, 200: 0.2, 145: 0.1, 300: 0.15} if unit == "psi" else {10: 0.5, 16: 0.3, 6: 0.1, 25: 0.1}
    )
    accuracy = rng.choice([0.005, 0.01, 0.01, 0.02])
    length = rng.log_uniform(2, 60) if not two_wire else rng.log_uniform(3, 180)
    conductor = rng.choice(list(CONDUCTORS))
    celsius = rng.uniform(2, 38)
    wires = ("supply", "signal") if two_wire else ("supply", "common", "signal")
    joints = {
        (wire, end): rng.log_uniform(0.005, 0.25 if end == "terminal" else 0.6)
        for wire in wires
        for end in ("terminal", "plug")
    }
    damp = rng.chance(0.08)
    pairs = ("supply-signal", *(() if two_wire else ("supply-common", "signal-common")), "signal-earth", "supply-earth")
    leaks = {pair: rng.log_uniform(2e6, 5e7) if damp else rng.log_uniform(3e8, 3e11) for pair in pairs}
    make = two_wire_make if two_wire else (lambda stream, acc: three_wire_make(stream, signal, acc))
    sensor, spare = make(rng, accuracy), make(rng, 0.01)
    nominal = (
        rng.choice([100.0, 120.0, 150.0, 165.0, 220.0, 240.0, 250.0, 250.0])
        if two_wire
        else rng.choice([22e3, 47e3, 100e3, 100e3, 200e3, 470e3, 1e6])
    )
    gauge = _gauge(rng, unit, top)
    low, high = _limits(rng, signal)
    return System(
        two_wire=two_wire,
        unit=unit,
        top=float(top),
        accuracy=accuracy,
        length_m=length,
        conductor=conductor,
        wire_ohm=CONDUCTORS[conductor] * length / 1e3 * (1 + 0.00393 * (celsius - 20)) * rng.uniform(0.97, 1.06),
        contacts=joints,
        leaks=leaks,
        protector_ohm=rng.choice([4.7, 10.0, 22.0]) if rng.chance(0.06) else 0.0,
        bond_ohm=rng.log_uniform(0.05, 5),
        stray_v=rng.uniform(0, 0.004),
        supply=supply_make(rng, volts),
        input=input_make(rng, signal, nominal),
        input_nominal=nominal,
        sensor=sensor,
        spare=spare,
        meter=meter_make(rng),
        low_fault=low,
        high_fault=high,
        decimals=rng.choice([0, 0, 1]) if unit == "psi" else rng.choice([1, 2, 2]),
        clamped=rng.chance(0.12),
        shows_signal=rng.chance(0.5),
        pressure=_pressure(rng, unit, top),
        **gauge,
        whose=rng.choice(["own", "own", "own", "site"]),
        celsius=celsius,
        cock=rng.chance(0.35),
        walk_min=rng.choice([0.2, 0.5, 1, 2, 4]) if rng.chance(0.6) else None,
        moulded=rng.chance(0.05),
        have=_have(rng),
    )


def _signal(rng: Stream, *, two_wire: bool) -> tuple[Signal, float]:
    if two_wire:
        return LOOP, 24.0
    signal = rng.weighted({RATIOMETRIC: 0.8, TEN_VOLT: 0.08, ONE_FIVE: 0.07, FIXED: 0.05})
    if signal is RATIOMETRIC:
        return signal, 5.0
    return signal, 24.0 if signal is TEN_VOLT else rng.choice([12.0, 24.0])


def _pressure(rng: Stream, unit: str, top: float) -> float:
    """Draw the pressure of the visit: near the set pressure, sagged, or none at all."""
    psi_top = top if unit == "psi" else top * PSI_PER_BAR
    kind = rng.weighted({"set": 0.66, "sagged": 0.24, "none": 0.1})
    psi = {"set": rng.uniform(35, 75), "sagged": rng.uniform(6, 40), "none": 0.0}[kind]
    psi *= 1.6 if psi_top > 180 and rng.chance(0.4) else 1.0
    psi = min(psi, 0.9 * psi_top)
    return psi if unit == "psi" else psi / PSI_PER_BAR


def _gauge(rng: Stream, unit: str, top: float) -> dict[str, Any]:
    tops = [60, 100, 160, 200, 300, 400] if unit == "psi" else [6, 10, 16, 25, 40]
    gauge_top = float(rng.choice([value for value in tops if value >= top * 0.9][:2]))
    compound = unit == "psi" and rng.chance(0.2)
    bottom = -15.0 if compound else 0.0
    text, limit = rng.weighted(
        {
            ('grade = "B"', 0.02): 0.4,
            ('grade = "A"', 0.01): 0.2,
            ('accuracy = "1.6 %"', 0.016): 0.15,
            ('accuracy = "2.5 %"', 0.025): 0.1,
            ('accuracy = "0.5 %"', 0.005): 0.15,
        }
    )
    worn = 2.0 if rng.chance(0.03) else 1.0
    return {
        "gauge_top": gauge_top,
        "gauge_bottom": bottom,
        "gauge_text": text,
        "gauge_limit": limit,
        "gauge_errors": {"own": rng.bounded(limit) * worn, "site": rng.bounded(limit) * worn},
        "gauge_height_m": rng.choice([-1, 1]) * rng.uniform(0.3, 2.0) if rng.chance(0.15) else 0.0,
    }


def _limits(rng: Stream, signal: Signal) -> tuple[float | None, float | None]:
    """Return the controller's fault limits; a signal from zero has no low one, and cheap drives have no high one."""
    if signal.unit == "mA":
        low, high = rng.choice([2.0, 3.0, 3.5, 3.6, 3.6, 3.8]), rng.choice([20.8, 21.0, 21.0, 21.5, 22.0])
    elif signal.high == 4.5:
        low, high = rng.choice([0.15, 0.2, 0.25, 0.3, 0.4]), rng.choice([4.65, 4.7, 4.75, 4.8, 4.9])
    elif signal.high == 5.0:
        low, high = rng.choice([0.5, 0.6, 0.8]), rng.choice([5.1, 5.2, 5.25])
    else:
        low, high = None, rng.choice([10.2, 10.5])
    return low, None if rng.chance(0.12) else high


def _have(rng: Stream) -> tuple[str, ...]:
    chances = {"spare-sensor": 0.45, "signal-source": 0.3, "spare-lead": 0.35, "insulation-tester": 0.25}
    return ("multimeter", "gauge", *(word for word, chance in chances.items() if rng.chance(chance)))
