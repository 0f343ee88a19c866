"""Healthy loops with round numbers, to be changed by a test."""

from __future__ import annotations

from typing import Any

from steadyhead.loop.draft import LoopDraft, SensorDraft, WireDraft
from steadyhead.loop.faults import FAULTS
from steadyhead.loop.parts import Loop, Screen, Wire
from steadyhead.loop.readings import at_rest, volts

PSI = 6894.757
THREE: tuple[Wire, ...] = ("supply", "signal", "common")
TWO: tuple[Wire, ...] = ("supply", "signal")


def three_wire(**changes: Any) -> LoopDraft:  # noqa: ANN401 - any field of a draft
    """Return a 0.5 to 4.5 V sensor for 0 to 100 psi on a stiff 5 V, drawing 5 mA, into 1 Mohm."""
    sensor = {
        "kind": "ratiometric", "low": 0.1, "high": 0.9, "range_low": 0.0, "range_high": 100 * PSI, "least": 0.02,
        "most": 0.98, "draw_siemens": 1e-3, "output_ohm": 1.0, "headroom_v": 0.05, "wakes_v": 2.0, "works_v": 3.0,
    }  # fmt: skip
    return _draft(5.0, THREE, sensor, changes, input_ohm=1e6, screen=screen("ratiometric", 0.5, 4.5))


def amplified(**changes: Any) -> LoopDraft:  # noqa: ANN401
    """Return a 0 to 10 V sensor for 0 to 100 psi on 24 V, into 1 Mohm."""
    sensor = {
        "kind": "voltage", "low": 0.0, "high": 10.0, "range_low": 0.0, "range_high": 100 * PSI, "least": 0.0,
        "most": 10.5, "draw_siemens": 2e-4, "output_ohm": 1.0, "headroom_v": 1.5, "wakes_v": 4.0, "works_v": 8.0,
    }  # fmt: skip
    return _draft(24.0, THREE, sensor, changes, input_ohm=1e6, screen=screen("voltage", 0.0, 10.0))


def two_wire(**changes: Any) -> LoopDraft:  # noqa: ANN401
    """Return a two-wire 4 to 20 mA sensor for 0 to 100 psi that needs 10 V, on 24 V, into 250 ohm."""
    sensor = {
        "kind": "loop", "low": 4e-3, "high": 20e-3, "range_low": 0.0, "range_high": 100 * PSI, "least": 3.8e-3,
        "most": 20.5e-3, "wakes_v": 7.0, "works_v": 10.0,
    }  # fmt: skip
    return _draft(24.0, TWO, sensor, changes, input_ohm=250.0, screen=screen("current", 4e-3, 20e-3))


def three_wire_current(**changes: Any) -> LoopDraft:  # noqa: ANN401
    """Return a three-wire 4 to 20 mA sensor for 0 to 100 psi on 24 V, into 250 ohm."""
    sensor = {
        "kind": "current", "low": 4e-3, "high": 20e-3, "range_low": 0.0, "range_high": 100 * PSI, "least": 3.8e-3,
        "most": 20.5e-3, "draw_siemens": 2e-4, "headroom_v": 4.0, "wakes_v": 6.0, "works_v": 9.0,
    }  # fmt: skip
    return _draft(24.0, THREE, sensor, changes, input_ohm=250.0, screen=screen("current", 4e-3, 20e-3))


def screen(kind: str, low: float, high: float) -> Screen:
    """Return a display of 0 to 100 psi."""
    return Screen(kind=kind, low=low, high=high, scale_low=0.0, scale_high=100 * PSI)  # type: ignore[arg-type]


def _draft(
    supply_v: float, names: tuple[Wire, ...], sensor: dict[str, Any], changes: dict[str, Any], **rest: Any  # noqa: ANN401
) -> LoopDraft:
    own = {key: changes.pop(key) for key in list(changes) if key in SensorDraft.__dataclass_fields__}
    fields = {"supply_v": supply_v, "source_ohm": 0.01, "limit_a": 0.1, "clamp_v": 30.0, **rest, **changes}
    return LoopDraft(
        wires={name: WireDraft(run=0.1) for name in names},
        sensor=SensorDraft(**{**sensor, **own}), spare=SensorDraft(**sensor), **fields,
    )  # fmt: skip


def faulty(draft: LoopDraft, fault: str, severity: float = 0.0, place: str = "") -> LoopDraft:
    """Return the draft with a fault done to it."""
    next(f for f in FAULTS if f.id == fault).change(draft, severity, place)
    return draft


def volt(loop: Loop, point: str, arrangement: str = "connected", black: str = "controller.common") -> float:
    """Return what a voltmeter shows between a point and common."""
    return volts(at_rest(loop, arrangement), point, black)
