"""Draws cases as calls come in: only what somebody would have called about."""

from __future__ import annotations

from dataclasses import replace

from benchmarks.second_truth import formats
from benchmarks.second_truth.case import Case
from benchmarks.second_truth.complaint import draw_complaint
from benchmarks.second_truth.faults import THREE_WIRE, TWO_WIRE, Fault
from benchmarks.second_truth.makes import (
    FIXED,
    ONE_FIVE,
    RATIOMETRIC,
    TEN_VOLT,
    SensorMake,
    three_wire_make,
    two_wire_make,
)
from benchmarks.second_truth.severity import draw_fault
from benchmarks.second_truth.streams import Stream, stream
from benchmarks.second_truth.system import System, draw_system
from benchmarks.second_truth.witness import Witness

SILENT = {"none", "meter-wrong", "vacuum"}
CALL_ABOVE = 0.045  #: of range: less than that nobody calls about
TRIES = 60

__all__ = ["Case", "draw_case"]


def draw_case(seed: str, kind: str) -> Case:
    """Return the case of a seed: the fault first, then severities and sites until one would have called.

    A fault that no site shows in ``TRIES`` draws gives way to another, so the shares of faults hold.
    """
    two_wire = kind == "two-wire"
    rng = stream(seed, kind, "case")
    while True:
        name = rng.weighted(TWO_WIRE if two_wire else THREE_WIRE)
        for attempt in range(TRIES):
            case = _one(seed, kind, name, stream(seed, kind, name, attempt))
            if case is not None and (name in SILENT or would_call(case)):
                return case


def _one(seed: str, kind: str, name: str, rng: Stream) -> Case | None:
    system = draw_system(rng, two_wire=kind == "two-wire")
    fault = draw_fault(rng, name, two_wire=system.two_wire, five_volt=system.supply.nominal_v < 6)
    system = _suit(rng, system, fault)
    fitted, fitted_two_wire = _fitted(rng, system, fault)
    case = Case(
        seed=seed, kind=kind, system=system, fault=fault, fitted=fitted, fitted_two_wire=fitted_two_wire, complaint={}
    )
    return replace(case, complaint=draw_complaint(case, stream(seed, kind, "complaint")))


def _suit(rng: Stream, system: System, fault: Fault) -> System:
    """Fit the site to the fault where one asks for the other."""
    if fault.id in {"site-gauge-wrong", "own-gauge-wrong"}:
        return replace(system, whose=fault.id.split("-")[0], pressure=max(system.pressure, 0.15 * system.top))
    if fault.id == "sensor-cock-shut":
        return replace(system, cock=True)
    if fault.id == "none" and rng.chance(0.8):
        return replace(system, pressure=max(system.pressure, 0.12 * system.top))
    return system


def _fitted(rng: Stream, system: System, fault: Fault) -> tuple[SensorMake, bool]:
    """Return the sensor that is really fitted, and whether it is of two wires."""
    if fault.id != "sensor-wrong-part" or fault.variant != "kind":
        return system.sensor, system.two_wire
    if system.two_wire:
        return three_wire_make(rng, rng.choice([FIXED, TEN_VOLT, ONE_FIVE]), 0.01), False
    if rng.chance(0.4):
        return two_wire_make(rng, 0.01), True
    others = [signal for signal in (RATIOMETRIC, FIXED, ONE_FIVE, TEN_VOLT) if signal.high != system.signal.high]
    if system.supply.nominal_v > 6:
        others.remove(RATIOMETRIC) if RATIOMETRIC in others else None
    return three_wire_make(rng, rng.choice(others), 0.01), False


def would_call(case: Case) -> bool:
    """Say whether the screen shows a fault word, jumps, or parts from the gauge."""
    witness = Witness(case)
    shown = witness.answer({"measure": "displayed-pressure", "arrangement": "connected"})
    if "jumping" in shown or witness.answer({"measure": "displayed-fault", "arrangement": "connected"}) != "none":
        return True
    dial = formats.number(witness.answer({"measure": "gauge-pressure"}))
    return abs(formats.number(shown) - dial) > CALL_ABOVE * case.system.top
