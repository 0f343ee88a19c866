"""Tidy loops of the second truth: every part ideal and one fault, so that a closed form says what must be read."""

import ctypes
import functools
import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from benchmarks.second_truth import spice
from benchmarks.second_truth.case import Case
from benchmarks.second_truth.faults import Fault
from benchmarks.second_truth.formats import number
from benchmarks.second_truth.makes import InputMake, MeterMake
from benchmarks.second_truth.streams import stream
from benchmarks.second_truth.system import System, draw_system
from benchmarks.second_truth.witness import Witness
from tests.support import cannot_run

KINDS = ("three-wire", "two-wire")
HEALTHY = Fault(id="none")
BURDEN_OHM = 250.0
INPUT_OHM = 1e6
SIGNAL = ("controller.signal", "controller.common")
SUPPLY = ("controller.supply", "controller.common")


def need_ngspice() -> None:
    """Skip, with the reason, where the circuit simulator's library is missing; fail in CI."""
    try:
        _start()
    except spice.NgspiceMissingError as reason:
        cannot_run(str(reason))


@functools.cache
def _start() -> None:
    """Start a copy of the library: it dies when it is started twice, and the first truth's tests start it too."""
    shared = spice.load_library()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        file = _file_of(shared)
        own = ctypes.CDLL(shutil.copy(file, folder)) if file else shared
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(spice, "load_library", lambda: own)
            spice.solver()


def _file_of(library: ctypes.CDLL) -> Path | None:
    """Return the file of a library: its own name where that is a path, or the one that Linux has mapped."""
    if Path(library._name).is_absolute():
        return Path(library._name)
    maps = Path("/proc/self/maps")
    lines = maps.read_text(encoding="utf-8").splitlines() if maps.exists() else []
    files = (Path(line.split()[-1]) for line in lines if "/" in line)
    return next((file for file in files if file.name.startswith(library._name) and file.exists()), None)


def exact(meter: MeterMake) -> MeterMake:
    """Return a meter without errors, whose leads are as good as nothing."""
    return replace(
        meter, volts_error=0.0, amps_error=0.0, ohms_error=0.0, counts=0, volts_digit=0.001, full_counts=6000,
        ohms_digit=0.1, amps_digit=0.01, lead_ohm=1e-3, burden_ohm=1.0, test_v=1.0,
    )  # fmt: skip


def _plain(kind: str) -> System:
    """Return the first system that is drawn with the usual supply and signal of its kind."""
    drawn = (draw_system(stream("tidy", number), two_wire=kind == "two-wire") for number in range(1000))
    return next(s for s in drawn if s.supply.nominal_v == {"three-wire": 5.0, "two-wire": 24.0}[kind])


def tidy(kind: str, fraction: float = 0.5, fault: Fault = HEALTHY) -> Case:
    """Return a loop of 0..100 psi at this fraction of its range."""
    drawn = _plain(kind)
    volts, two_wire = drawn.supply.nominal_v, kind == "two-wire"
    low, high, least_v = (3.6, 21.0, 7.0) if two_wire else (0.0, 5.0, 3.0)
    sensor = replace(
        drawn.sensor, zero=0.0, span=0.0, quiet_a=0.001, least_v=least_v, out_ohm=10.0, source_a=0.02, sink_a=0.02,
        reverse="none", output_diodes=False, clip_low=low, clip_high=high,
    )  # fmt: skip
    ideal = replace(
        drawn, unit="psi", top=100.0, pressure=100.0 * fraction, wire_ohm=0.01, protector_ohm=0.0, stray_v=0.0,
        contacts=dict.fromkeys(drawn.contacts, 1e-3), leaks=dict.fromkeys(drawn.leaks, 1e12), celsius=20.0,
        supply=replace(drawn.supply, volts=volts, source_ohm=0.01, limit_a=0.3, kind="limit", other_a=0.0),
        input=InputMake(current=two_wire, ohms=BURDEN_OHM if two_wire else INPUT_OHM, full=24.0 if two_wire else 5.0),
        input_nominal=BURDEN_OHM if two_wire else INPUT_OHM, sensor=sensor, meter=exact(drawn.meter),
        low_fault=3.6 if two_wire else 0.3, high_fault=21.0 if two_wire else 4.8, decimals=1, clamped=False,
        shows_signal=True, gauge_height_m=0.0, cock=True, walk_min=None, moulded=False,
        have=("multimeter", "gauge", "signal-source", "spare-sensor", "spare-lead", "insulation-tester"),
    )  # fmt: skip
    return of_system(ideal, kind, fault)


def supplied(case: Case, *, volts: float | None = None, limit_a: float | None = None) -> Case:
    """Return the case with other volts, or another limit, of its supply."""
    made = case.system.supply
    other = replace(made, volts=volts or made.volts, limit_a=limit_a or made.limit_a)
    return replace(case, system=replace(case.system, supply=other))


def of_system(system: System, kind: str, fault: Fault = HEALTHY) -> Case:
    """Return the case of a system with the sensor that belongs to it."""
    return Case(
        seed="tidy", kind=kind, system=system, fault=fault, fitted=system.sensor, fitted_two_wire=system.two_wire,
        complaint={},
    )  # fmt: skip


def read(case: Case, measure: str, *leads: str, arrangement: str = "connected", source: str | None = None) -> float:
    """Return the figure of a reading."""
    red, black = leads or (None, None)
    check = {"measure": measure, "red": red, "black": black, "arrangement": arrangement, "source": source}
    return number(Witness(case).answer(check))


class Asker:
    """A tool that asks a list of checks, one an answer, and keeps every file that it was given."""

    def __init__(self, *checks: Mapping[str, object], remedy: str = "replace-sensor", chance: float = 0.8) -> None:
        """Ask these checks in their order."""
        self.checks, self.remedy, self.chance = checks, remedy, chance
        self.files: list[str] = []

    def __call__(self, text: str) -> Mapping[str, Any]:
        """Return an answer of the tool's shape and nothing more."""
        self.files.append(text)
        left = self.checks[len(self.files) - 1 :]
        return {
            "verdict": {"state": "open" if left else "proved", "settled": not left, "remedy": self.remedy},
            "remedies": [{"remedy": self.remedy, "probability": self.chance}],
            "suspects": [],
            "next_checks": left[:1],
        }


def everything(kind: str) -> list[Mapping[str, object]]:
    """Return a check of each sort, some of which most vans and loops cannot have."""
    level = "12 mA" if kind == "two-wire" else "2.5 V"
    pins = {"red": "sensor.supply", "black": "sensor.signal"}
    free = {"red": "wire.supply", "black": "wire.signal"}
    return [
        {"measure": "volts", **pins, "arrangement": "connected", "drive": "auto"},
        {"measure": "volts-ac", "red": SIGNAL[0], "black": SIGNAL[1], "arrangement": "connected"},
        {"measure": "displayed-pressure", "arrangement": "vented", "drive": "stopped"},
        {"measure": "displayed-signal", "arrangement": "connected", "source": None},
        {"measure": "displayed-pressure", "arrangement": "source-at-controller", "source": level},
        {"measure": "milliamps", "arrangement": "meter-in-signal"},
        {"measure": "ohms", **free, "arrangement": "dead-looped"},
        {"measure": "ohms", "red": "wire.signal", "black": "sensor.signal", "arrangement": "dead-both-free"},
        {"measure": "megohms", "red": "wire.signal", "black": "earth", "arrangement": "dead-both-free"},
        {"measure": "displayed-fault", "arrangement": "spare-at-controller"},
        {"measure": "gauge-pressure", "whose": "own"},
        {"measure": "inspection", "item": "cock"},
        {"measure": "inspection", "item": "wiring-order"},
    ]
