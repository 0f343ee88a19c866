"""What the controller's own display shows: from terminal volts through converter, setting and limits to a figure."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchmarks.truth.case import Case
from benchmarks.truth.netlist import Stand, build, standing, tripped
from benchmarks.truth.spice import ngspice

RUNNING = frozenset({"connected", "meter-in-signal"})
MA_LIMITS = (0.0036, 0.021)


@dataclass(frozen=True, slots=True)
class Screen:
    """The display: pressure [psi, before its unit], raw signal [V or A] and its unit, fault word."""

    psi: float
    signal: float
    amps: bool
    fault: str


def overloaded(case: Case, volts: dict[str, float], netlist_limit_a: float) -> bool:
    """Return whether the supply gives all it can."""
    short = case.supply.volts - (volts["t_supply"] - volts["t_common"])
    return short > case.supply.source_ohm * netlist_limit_a + 0.1 * case.supply.volts


def settle(case: Case, stand: Stand) -> Stand:
    """Return how the loop stands a minute later: an overloaded supply that trips or hiccups has done so."""
    if case.supply.law == "soft" or stand.arrangement.startswith("dead"):
        return stand
    volts = ngspice().node_volts(build(case, stand), ("t_supply", "t_common"))
    return tripped(stand) if overloaded(case, volts, case.supply.limit_a) else stand


def _seen(case: Case, across_v: float, supply_v: float) -> float:
    """Return the signal that the converter makes of the terminal's volts, in its own unit [V or A]."""
    setting, part = case.setting, case.input
    if setting.other_input is not None:
        return case.signal.low + setting.other_input * case.signal.span
    if part.stuck is not None:
        return part.stuck
    if setting.reads_current:
        return across_v / setting.shunt_ohm
    if case.kind == "two-wire" and setting.ends[1] < 0.1:
        across_v /= part.nominal_ohm
    if part.ratiometric:
        across_v *= case.signal.supply_v / supply_v if supply_v > 1.0 else 0.0
    return across_v * part.gain + part.offset


def _limits(case: Case) -> tuple[float, float]:
    if case.setting.reads_current:
        return MA_LIMITS
    if case.kind == "two-wire" and case.setting.ends[1] > 0.1:
        return 0.1, 1.03 * case.setting.ends[1]
    return case.input.low_fault, case.input.high_fault


def _word(signal: float, limits: tuple[float, float]) -> str:
    if signal < limits[0]:
        return "low-signal"
    return "high-signal" if signal > limits[1] else "none"


def show(case: Case, arrangement: str, *, source: float = 0.0) -> Screen:
    """Return what the display shows in an arrangement, with the loop's contacts as they are in `case`."""
    stand = settle(case, standing(case, arrangement, source=source))
    volts = ngspice().node_volts(build(case, stand), ("t_supply", "t_signal", "t_common"))
    common = volts["t_common"]
    signal = _seen(case, volts["t_signal"] - common, volts["t_supply"] - common)
    if arrangement in RUNNING and case.setting.other_input is None:
        signal += case.unsteady.shift * case.signal.span
    setting = case.setting
    low, high = setting.ends
    fraction = (signal - low) / (high - low)
    psi = (
        setting.scaled[0] + fraction * (setting.scaled[1] - setting.scaled[0]) + setting.offset_psi
    ) * setting.unit_factor
    amps = setting.reads_current or high < 0.1
    if setting.simulated_psi is not None:
        return Screen(setting.simulated_psi, signal, amps, "none")
    return Screen(psi, signal, amps, _word(signal, _limits(case)))


def jumping(case: Case, screen: Screen, *, share: float) -> tuple[Screen, Screen]:
    """Return the two ends between which the display jumps by a share of the span."""
    half = 0.5 * share
    span_psi = case.setting.scaled[1] - case.setting.scaled[0]
    span = case.setting.ends[1] - case.setting.ends[0]
    low = replace(screen, psi=screen.psi - half * span_psi, signal=screen.signal - half * span)
    return low, replace(screen, psi=screen.psi + half * span_psi, signal=screen.signal + half * span)
