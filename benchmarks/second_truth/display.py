"""What the controller's screen shows: pressure, raw signal, fault word."""

from __future__ import annotations

from dataclasses import dataclass

from benchmarks.second_truth.case import Case
from benchmarks.second_truth.circuit import Setup, operate

NODES = {False: ("cg", "cs", "ci"), True: ("cg", "cs", "vadc#branch")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """The screen at one moment; ``raw`` in V or mA."""

    pressure: float
    raw: float
    unit: str
    word: str


def expected_signal(case: Case) -> tuple[float, float, str]:
    """Return the ends and the unit of the signal that the controller is set to."""
    fault, signal = case.fault, case.system.signal
    kinds = {
        "0..20 mA": (0.0, 20.0, "mA"),
        "volts": (0.0, 10.0, "V"),
        "0..5 V": (0.0, 5.0, "V"),
        "0..10 V": (0.0, 10.0, "V"),
        "1..5 V": (1.0, 5.0, "V"),
        "milliamps": (4.0, 20.0, "mA"),
    }
    if fault.id == "setting-signal-kind":
        return kinds[fault.variant]
    return signal.low, signal.high, signal.unit


def raw_signal(case: Case, point: dict[str, float]) -> float:
    """Return what the converter makes of one operating point."""
    make, fault, system = case.input(), case.fault, case.system
    if make.current:
        raw = point["vadc#branch"] * 1e3 * make.ohms / (system.input_nominal if system.two_wire else make.ohms)
    else:
        raw = point["ci"]
        if make.ratio:
            raw = raw / point["cs"] * 5.0 if point["cs"] > 0.6 else 0.0
    if fault.id == "controller-input-dead":
        if fault.variant in {"reads-zero", "open"}:
            raw = 0.0
        elif fault.variant == "reads-full":
            raw = make.full
    raw = raw * make.gain + make.offset
    if fault.id == "controller-input-shifted":
        raw = raw * fault.get("gain") + fault.get("offset") * (system.signal.high - system.signal.low)
    if fault.id == "setting-input":
        raw = 0.0 if fault.variant == "empty" else fault.get("level") * 0.4 * make.full
    return min(max(raw, -0.02 if make.current else 0.0), make.full)


def screen(case: Case, raw: float) -> Screen:
    """Return what is shown for a raw signal, by the settings as they are."""
    system, fault = case.system, case.fault
    low, high, unit = expected_signal(case)
    top = system.top * (fault.get("factor") if fault.id == "setting-range" else 1.0)
    shown = (raw - low) / (high - low) * top
    if fault.id == "setting-offset":
        shown += fault.get("offset") * top
    if fault.id == "setting-unit":
        shown *= fault.get("factor")
    if fault.id == "setting-simulated":
        shown = fault.get("level") * top
    if system.clamped:
        shown = min(max(shown, 0.0), top * (fault.get("factor") if fault.id == "setting-unit" else 1.0))
    return Screen(pressure=shown, raw=raw, unit=unit, word=_word(case, raw, low, high))


def _word(case: Case, raw: float, low: float, high: float) -> str:
    system, fault = case.system, case.fault
    if fault.id == "setting-simulated":
        return "none"
    low_limit, high_limit = system.low_fault, system.high_fault
    if fault.id == "setting-signal-kind":
        low_limit = None if low == 0 else low * 0.8
        high_limit = None if high_limit is None else high * 1.05
    if low_limit is not None and raw < low_limit:
        return "low-signal"
    if high_limit is not None and raw > high_limit:
        return "high-signal"
    return "none"


def screens(case: Case, setup: Setup) -> list[Screen]:
    """Return the screens that this set-up goes through."""
    points = operate(case, setup, NODES[case.input().current])
    return [screen(case, raw_signal(case, point)) for point in points]
