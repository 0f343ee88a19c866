"""Inspections: what eyes and hands find, by chance, for each item."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from benchmarks.second_truth.case import Case
from benchmarks.second_truth.faults import Fault
from benchmarks.second_truth.streams import Stream

ITEMS = (
    "connections",
    "wiring-order",
    "range-setting",
    "input-setting",
    "moisture",
    "cable-routing",
    "port",
    "cock",
    "tap-place",
    "cable-damage",
    "gauge-zero",
    "meter-check",
    "wiggle",
)
FALSE_ALARM = {"wiring-order": 0.002, "cable-routing": 0.04, "moisture": 0.02, "connections": 0.01}
NOT_SEEN = {
    "connections": 0.01,
    "moisture": 0.04,
    "cable-damage": 0.15,
    "port": 0.12,
    "tap-place": 0.06,
    "gauge-zero": 0.08,
    "cable-routing": 0.1,
}


#: The chance that a look finds what is wrong, where nothing but the fault's name decides.
FOUND = {
    ("range-setting", "setting-range"): 0.97,
    ("range-setting", "setting-unit"): 0.75,
    ("input-setting", "setting-unit"): 0.3,
    ("input-setting", "setting-signal-kind"): 0.95,
    ("input-setting", "setting-input"): 0.95,
    ("input-setting", "setting-offset"): 0.92,
    ("input-setting", "setting-simulated"): 0.97,
    ("moisture", "sensor-wet-vent"): 0.4,
    ("cable-routing", "noise-pickup"): 0.8,
    ("port", "port-blocked"): 0.75,
    ("cock", "sensor-cock-shut"): 0.97,
    ("tap-place", "tap-wrong-side"): 0.8,
    ("meter-check", "meter-wrong"): 0.92,
    ("cable-routing", "shield-looped"): 0.15,
}
MISWIRED = {"swapped", "rotated", "reversed"}
JOINTS = {"open", "resistive", "intermittent"}
WET = {"plug": 0.75, "terminal": 0.7, "run": 0.25}  #: moisture seen, by the place of the damp


def chance_of_wrong(case: Case, item: str) -> float:
    """Return the chance that this look finds the fault of this case; 0 where it has nothing to find."""
    seen = _BY_ITEM.get(item)
    return (seen(case.fault) if seen else 0.0) or FOUND.get((item, case.fault.id), 0.0)


def _handled(fault: Fault) -> bool:
    """Say whether it sits where hands come."""
    return fault.place in {"terminal", "plug"}


def _connections(fault: Fault) -> float:
    if not _handled(fault):
        return 0.0
    if fault.head in JOINTS or fault.id == "cable-cut":
        return 0.65 if fault.head == "resistive" else 0.85
    return 0.6 if fault.head == "short" else 0.0


def _wiring_order(fault: Fault) -> float:
    return 1.0 if fault.head in MISWIRED else 0.4 * (fault.id == "shield-looped")


def _wiggle(fault: Fault) -> float:
    if fault.head == "intermittent":
        return 0.85
    if fault.head == "short":
        return 0.25
    return 0.35 if fault.head in JOINTS and _handled(fault) else 0.0


def _moisture(fault: Fault) -> float:
    return WET[str(fault.place)] if fault.head == "leakage" else 0.0


def _cable_damage(fault: Fault) -> float:
    if fault.place != "run":
        return 0.0
    return 0.6 if fault.id == "cable-cut" else 0.3


def _range_setting(fault: Fault) -> float:
    return 0.5 if fault.id == "sensor-wrong-part" and fault.variant == "range" else 0.0


def _gauge_zero(fault: Fault) -> float:
    if fault.id != "site-gauge-wrong":
        return 0.0
    return 0.3 if fault.variant == "span" else 0.85


_BY_ITEM: Mapping[str, Callable[[Fault], float]] = {
    "connections": _connections,
    "wiring-order": _wiring_order,
    "wiggle": _wiggle,
    "moisture": _moisture,
    "cable-damage": _cable_damage,
    "range-setting": _range_setting,
    "gauge-zero": _gauge_zero,
}


def look(case: Case, item: str, rng: Stream) -> str:
    """Return right, wrong or not-seen."""
    if rng.chance(NOT_SEEN.get(item, 0.0)):
        return "not-seen"
    return "wrong" if rng.chance(max(chance_of_wrong(case, item), FALSE_ALARM.get(item, 0.005))) else "right"
