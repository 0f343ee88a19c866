"""Where a fault sits and how bad it is: what is drawn once its name is known.

A function of this module draws in a fixed order, and draws what it may not need: a seed keeps its case.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from benchmarks.second_truth.faults import Fault
from benchmarks.second_truth.streams import Stream

JOINTS = {"open", "intermittent", "resistive"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """What of a system decides how bad a fault can be."""

    two_wire: bool
    five_volt: bool


def draw_fault(rng: Stream, fault: str, *, two_wire: bool, five_volt: bool) -> Fault:
    """Draw place, severity and variant of a named fault."""
    head = fault.partition("-")[0]
    site = Site(two_wire=two_wire, five_volt=five_volt)
    if head in {"swapped", "rotated"} or fault == "reversed":
        return Fault(id=fault, place=rng.choice(["terminal", "terminal", "plug"]))
    if head in JOINTS:
        return _joint(rng, fault, site)
    if head == "short":
        return _short(rng, fault)
    if head == "leakage":
        return _leakage(rng, fault)
    draw = _DRAWERS.get(fault)
    return draw(rng, fault, site) if draw else Fault(id=fault)


# Wires ---------------------------------------------------------------------------------------------


def _cut(rng: Stream, fault: str, _site: Site) -> Fault:
    place = rng.weighted({"run": 0.6, "plug": 0.4})
    side = rng.weighted({"pin": 0.7, "crimp": 0.3})  # plug off or half screwed, or all cores torn out of it
    return Fault(id=fault, place=place, side=side, severity="open", figures={"ohm": rng.log_uniform(2e8, 5e11)})


def _joint(rng: Stream, fault: str, site: Site) -> Fault:
    place = rng.weighted({"plug": 0.6, "terminal": 0.26, "run": 0.14})
    side = rng.weighted({"pin": 0.65, "crimp": 0.35})
    ohm = _joint_ohm(rng, fault, site)
    figures = {"ohm": ohm, "quiet": rng.uniform(0.05, 0.25)}
    return Fault(id=fault, place=place, side=side, severity=f"{ohm:.3g} ohm", figures=figures)


def _joint_ohm(rng: Stream, fault: str, site: Site) -> float:
    """Return the ohms of an open joint, of a loose one while it is open, or of a corroded one."""
    head, _, wire = fault.partition("-")
    if head == "open":
        return rng.log_uniform(3e6, 1e8) if rng.chance(0.12) else rng.log_uniform(2e8, 5e11)
    if head == "intermittent":
        return rng.log_uniform(2e2, 2e4) if rng.chance(0.3) else 1e10
    ohm = rng.log_uniform(30, 8e3) if site.two_wire or wire == "signal" else rng.log_uniform(8, 1.5e3)
    return rng.log_uniform(2e3, 5e5) if wire == "signal" and not site.two_wire else ohm


def _short(rng: Stream, fault: str) -> Fault:
    place = rng.weighted({"plug": 0.4, "terminal": 0.25, "run": 0.35})
    ohm = rng.log_uniform(0.03, 15)
    return Fault(id=fault, place=place, severity=f"{ohm:.3g} ohm", figures={"ohm": ohm})


def _leakage(rng: Stream, fault: str) -> Fault:
    place = rng.weighted({"plug": 0.62, "run": 0.28, "terminal": 0.1})
    ohm = rng.log_uniform(60, 6e4)
    share = rng.uniform(0.45, 1.0) if rng.chance(0.6) else 1.0  # part of the damp goes with the sensor's plug
    emf = rng.uniform(0.02, 0.35) * rng.choice([-1, 1])
    return Fault(id=fault, place=place, severity=f"{ohm:.3g} ohm", figures={"ohm": ohm, "emf": emf, "share": share})


# The sensor ----------------------------------------------------------------------------------------


def _open_sensor(rng: Stream, fault: str, _site: Site) -> Fault:
    variant = rng.choice(["whole", "whole", "supply"])
    return Fault(id=fault, place="sensor", variant=variant, figures={"ohm": rng.log_uniform(1e5, 1e10)})


def _shorted_sensor(rng: Stream, fault: str, _site: Site) -> Fault:
    ohm = rng.log_uniform(0.3, 90)
    return Fault(id=fault, place="sensor", severity=f"{ohm:.3g} ohm", figures={"ohm": ohm})


def _low_sensor(rng: Stream, fault: str, site: Site) -> Fault:
    if site.two_wire:
        level = rng.choice([rng.uniform(0.05, 1.5), rng.uniform(2.0, 3.9), rng.uniform(3.9, 4.2)])
        return Fault(id=fault, place="sensor", severity=f"{level:.2f} mA", figures={"level": level})
    if rng.chance(0.25):
        return Fault(id=fault, place="sensor", variant="dead-output", figures={"ohm": rng.log_uniform(5, 3e3)})
    level = rng.uniform(0.0, 0.11)
    return Fault(id=fault, place="sensor", severity=f"{level:.0%} of supply", figures={"level": level})


def _high_sensor(rng: Stream, fault: str, site: Site) -> Fault:
    level = rng.uniform(20.2, 32.0) if site.two_wire else rng.uniform(0.88, 1.0)
    return Fault(id=fault, place="sensor", severity=f"{level:.2f}", figures={"level": level})


def _zero_shift(rng: Stream, fault: str, _site: Site) -> Fault:
    size = rng.uniform(0.05, 0.4) * rng.choice([-1, 1])
    return Fault(id=fault, place="sensor", severity=f"{size:+.0%} of span", figures={"zero": size})


def _span_shift(rng: Stream, fault: str, _site: Site) -> Fault:
    size = rng.choice([rng.uniform(-0.7, -0.12), rng.uniform(0.12, 0.6)])
    return Fault(id=fault, place="sensor", severity=f"{size:+.0%}", figures={"span": size})


def _frozen(rng: Stream, fault: str, _site: Site) -> Fault:
    return Fault(id=fault, place="sensor", figures={"stuck": rng.uniform(-0.03, 1.0)})


def _wet_vent(rng: Stream, fault: str, _site: Site) -> Fault:
    size = rng.uniform(0.03, 0.2) * rng.choice([-1, 1])
    return Fault(
        id=fault,
        place="sensor",
        severity=f"{size:+.0%} of span, wandering",
        figures={"zero": size, "wander": rng.uniform(0.005, 0.04), "leak": rng.log_uniform(3e3, 1e6)},
    )


def _wrong_part(rng: Stream, fault: str, site: Site) -> Fault:
    variant = rng.weighted({"range": 0.55, "absolute": 0.1, "kind": 0.25, "pinout": 0.0 if site.two_wire else 0.1})
    factor = rng.choice([0.3, 0.5, 0.6, 0.67, 1.5, 1.6, 2.0, 2.5, 3.0])
    return Fault(
        id=fault,
        place="sensor",
        variant=variant,
        severity=f"{factor:g} x range" if variant == "range" else variant,
        figures={"factor": factor, "turn": float(rng.randrange(1, 6)), "pick": rng.random()},
    )


# The controller ------------------------------------------------------------------------------------


def _dead_supply(rng: Stream, fault: str, _site: Site) -> Fault:
    level = rng.choice([0.0, rng.uniform(0.0, 0.09)])
    return Fault(id=fault, figures={"level": level, "ohm": rng.log_uniform(5, 1e5)})


def _low_supply(rng: Stream, fault: str, site: Site) -> Fault:
    level = rng.uniform(0.45, 0.9) if site.five_volt else rng.uniform(0.2, 0.75)
    return Fault(id=fault, severity=f"{level:.0%} of nominal", figures={"level": level})


def _weak_supply(rng: Stream, fault: str, site: Site) -> Fault:
    ohm = rng.log_uniform(90, 3e3) if site.five_volt else rng.log_uniform(500, 6e3)
    if rng.chance(0.3):
        limit = rng.uniform(0.002, 0.015) if site.two_wire else rng.log_uniform(0.0008, 0.006)
        return Fault(id=fault, variant="limit", severity=f"{limit * 1e3:.1f} mA", figures={"limit": limit})
    return Fault(id=fault, variant="ohm", severity=f"{ohm:.3g} ohm", figures={"ohm": ohm})


def _other_load(rng: Stream, fault: str, _site: Site) -> Fault:
    ohm = rng.log_uniform(1.0, 60.0)
    variant = rng.choice(["resistor", "resistor", "clamp"])
    figures = {"ohm": ohm, "volts": rng.uniform(0.1, 0.75)}
    return Fault(id=fault, variant=variant, severity=f"{ohm:.3g} ohm", figures=figures)


def _dead_input(rng: Stream, fault: str, site: Site) -> Fault:
    opened = 0.1 + 0.2 * site.two_wire
    kinds = {"reads-zero": 0.35, "reads-full": 0.15, "shorted": 0.3, "open": opened, "to-supply": 0.1}
    return Fault(id=fault, variant=rng.weighted(kinds), figures={"ohm": rng.log_uniform(1, 400)})


def _shifted_input(rng: Stream, fault: str, _site: Site) -> Fault:
    gain = 1 + rng.choice([-1, 1]) * rng.uniform(0.05, 0.3) * rng.randrange(2)
    offset = rng.choice([-1, 1]) * rng.uniform(0.05, 0.3)
    return Fault(id=fault, severity=f"gain {gain:.2f}, {offset:+.0%}", figures={"gain": gain, "offset": offset})


# Settings ------------------------------------------------------------------------------------------


def _range(rng: Stream, fault: str, _site: Site) -> Fault:
    factor = rng.choice([0.5, 0.6, 0.667, 0.75, 1.45, 1.5, 1.6, 2.0, 2.5, 3.0])
    return Fault(id=fault, severity=f"{factor:g} x", figures={"factor": factor})


def _signal_kind(rng: Stream, fault: str, site: Site) -> Fault:
    kinds = ["0..20 mA", "0..20 mA", "volts"] if site.two_wire else ["0..5 V", "0..10 V", "1..5 V", "milliamps"]
    variant = rng.choice(kinds)
    figures = {"burden": rng.choice([100.0, 165.0, 250.0, 500.0]), "ohm": rng.choice([20e3, 100e3, 470e3])}
    return Fault(id=fault, variant=variant, figures=figures)


def _unit(rng: Stream, fault: str, _site: Site) -> Fault:
    return Fault(id=fault, figures={"factor": rng.choice([14.5, 1 / 14.5, 2.31, 10.2, 0.433, 6.89])})


def _chosen_input(rng: Stream, fault: str, _site: Site) -> Fault:
    return Fault(id=fault, variant=rng.choice(["empty", "empty", "floating"]), figures={"level": rng.random()})


def _offset(rng: Stream, fault: str, _site: Site) -> Fault:
    size = rng.choice([-1, 1]) * rng.uniform(0.05, 0.3)
    return Fault(id=fault, severity=f"{size:+.0%} of range", figures={"offset": size})


def _simulated(rng: Stream, fault: str, _site: Site) -> Fault:
    return Fault(id=fault, figures={"level": rng.uniform(0.0, 0.9)})


# Water, instruments, surroundings ------------------------------------------------------------------


def _cock_shut(rng: Stream, fault: str, _site: Site) -> Fault:
    """Return a shut cock, and what pressure is left behind it."""
    return Fault(id=fault, figures={"at": rng.uniform(0.0, 0.8)})


def _kept_pressure(rng: Stream, fault: str, _site: Site) -> Fault:
    return Fault(id=fault, figures={"at": rng.uniform(0.0, 0.8), "tight": float(rng.chance(0.75))})


def _vacuum(rng: Stream, fault: str, _site: Site) -> Fault:
    return Fault(id=fault, figures={"vacuum": rng.uniform(2.0, 12.5)})


def _noise(rng: Stream, fault: str, _site: Site) -> Fault:
    size = rng.log_uniform(0.03, 0.3) * (1.0 if fault == "noise-pickup" else 0.5)
    variant = rng.choice(["drive", "drive", "drive", "mains"]) if fault == "noise-pickup" else "mains"
    return Fault(id=fault, variant=variant, figures={"size": size, "shift": size * rng.uniform(-0.3, 0.6)})


def _gauge(rng: Stream, fault: str, _site: Site) -> Fault:
    return Fault(
        id=fault,
        variant=rng.choice(["zero", "zero", "stuck", "span"]),
        figures={
            "zero": rng.choice([-1, 1]) * rng.uniform(0.05, 0.3),
            "span": rng.choice([0.7, 0.8, 1.2, 1.35]),
            "at": rng.uniform(0.0, 0.6),
        },
    )


def _meter(rng: Stream, fault: str, _site: Site) -> Fault:
    variant = rng.choice(["fuse", "fuse", "battery", "loz", "lead", "ac"])
    factor = rng.choice([rng.uniform(1.08, 1.6), rng.uniform(0.6, 0.92)])
    return Fault(id=fault, variant=variant, figures={"factor": factor, "ohm": rng.choice([3e3, 4e5])})


_DRAWERS: Mapping[str, Callable[[Stream, str, Site], Fault]] = {
    "cable-cut": _cut,
    "sensor-open": _open_sensor,
    "sensor-shorted": _shorted_sensor,
    "sensor-low": _low_sensor,
    "sensor-high": _high_sensor,
    "sensor-zero-shift": _zero_shift,
    "sensor-span-shift": _span_shift,
    "sensor-frozen": _frozen,
    "sensor-wet-vent": _wet_vent,
    "sensor-wrong-part": _wrong_part,
    "controller-supply-dead": _dead_supply,
    "controller-supply-low": _low_supply,
    "controller-supply-weak": _weak_supply,
    "other-load": _other_load,
    "controller-input-dead": _dead_input,
    "controller-input-shifted": _shifted_input,
    "setting-range": _range,
    "setting-signal-kind": _signal_kind,
    "setting-unit": _unit,
    "setting-input": _chosen_input,
    "setting-offset": _offset,
    "setting-simulated": _simulated,
    "sensor-cock-shut": _cock_shut,
    "port-blocked": _kept_pressure,
    "tap-wrong-side": _kept_pressure,
    "vacuum": _vacuum,
    "noise-pickup": _noise,
    "shield-looped": _noise,
    "site-gauge-wrong": _gauge,
    "own-gauge-wrong": _gauge,
    "meter-wrong": _meter,
}
