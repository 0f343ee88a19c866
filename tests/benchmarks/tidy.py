"""Tidy loops for the tests of the benchmark's truth: every part ideal, so that a closed form says what must be read."""

from dataclasses import replace
from random import Random

import pytest

from benchmarks.truth.case import Case, Conductor, Kind, Unsteady, Water
from benchmarks.truth.draw import healthy
from benchmarks.truth.spice import ngspice


def need_ngspice() -> None:
    """Skip, with the reason, where the circuit simulator's library is missing."""
    try:
        ngspice()
    except FileNotFoundError as reason:
        pytest.skip(str(reason))


def _plain(kind: Kind) -> Case:
    wanted = {"three-wire": 5.0, "two-wire": 24.0}[kind]
    drawn = (healthy(Random(f"tidy {n}"), "tidy", kind) for n in range(1000))  # noqa: S311 - keeps no secret
    return next(case for case in drawn if case.signal.supply_v == wanted)


def tidy(kind: Kind, psi: float) -> Case:
    """Return a healthy loop of 0..100 psi at a pressure, with exact instruments and no errors of its own."""
    case = _plain(kind)
    good = Conductor(terminal_ohm=0.001, protector_ohm=0.0, run_ohm=0.1, crimp_ohm=0.001, pin_ohm=0.001)
    volts = case.signal.supply_v
    supply = replace(case.supply, volts=volts, source_ohm=0.05, limit_a=0.3, law="soft", other_load_a=0.0)
    sensor = replace(case.sensor, zero=0.0, gain=1.0, out_ohm=10.0, source_a=0.01, sink_a=0.01, least_v=3.5)
    exact = replace(case.meter, volts=(0.01, 0, 0.001), milliamps=(0.01, 0, 0.01), ohms=(0.01, 0, 0.1))
    return replace(
        case,
        range_psi=(0.0, 100.0),
        unit="psi",
        supply=supply,
        input=replace(case.input, gain=1.0, offset=0.0, ratiometric=False, pull_up_ohm=1e12, clamp_v=20.0),
        sensor=replace(sensor, low_room_v=0.01, high_room_v=0.05, reverse="blocking"),
        cable=replace(case.cable, conductors=dict.fromkeys(case.cable.conductors, good), leaks=(), insulation_ohm=1e10),
        setting=replace(case.setting, scaled=(0.0, 100.0)),
        water=Water(gauge_psi=psi, sensor_psi=psi),
        gauge=replace(case.gauge, low=0.0, high=160.0, bias_psi=0.0, division=1.0),
        meter=replace(exact, volts_gain=1.0, milliamps_gain=1.0, ohms_gain=1.0, volts_ohm=1e7, burden_ohm=1.0),
        unsteady=Unsteady(),
        have=("multimeter", "gauge", "signal-source", "spare-sensor", "spare-lead", "insulation-tester"),
    )
