"""Which fault is met how often, and which remedy ends it.

Weights are those of the trade's list for a house whose display shows a sensor fault; a family's share is
spread over its members here, so that many variants of a rare thing stay rare.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

SENSOR: dict[str, float] = {
    "sensor-open": 5,
    "sensor-shorted": 3,
    "sensor-low": 6.5,
    "sensor-high": 4,
    "sensor-zero-shift": 5,
    "sensor-span-shift": 2,
    "sensor-frozen": 2.5,
    "sensor-wet-vent": 4,
}
CONTROLLER: dict[str, float] = {
    "controller-supply-dead": 2.5,
    "controller-supply-low": 1.5,
    "controller-supply-weak": 2,
    "other-load": 2,
    "controller-input-dead": 3.2,
    "controller-input-shifted": 0.8,
}
SETTINGS: dict[str, float] = {
    "sensor-wrong-part": 1.6,
    "setting-range": 1.3,
    "setting-signal-kind": 0.7,
    "setting-unit": 0.35,
    "setting-input": 0.4,
    "setting-offset": 0.4,
    "setting-simulated": 0.25,
}
WATER: dict[str, float] = {"sensor-cock-shut": 2.6, "port-blocked": 2.4, "vacuum": 2.4, "tap-wrong-side": 1.6}
OTHER: dict[str, float] = {
    "none": 4,
    "noise-pickup": 1.6,
    "shield-looped": 0.4,
    "site-gauge-wrong": 2.6,
    "own-gauge-wrong": 0.5,
    "meter-wrong": 1.5,
}


def _wire_members(wires: tuple[str, ...], pairs: tuple[str, ...]) -> dict[str, float]:
    """Spread the shares of plug, pin, terminal (22) and cable (9) over opens, joints, shorts and damp."""
    weights: dict[str, float] = {"cable-cut": 10.0}
    for wire in wires:
        weights[f"open-{wire}"] = 9.0 / len(wires)
        weights[f"intermittent-{wire}"] = 4.0 / len(wires)
        weights[f"resistive-{wire}"] = 2.8 / len(wires)
    for pair in pairs:
        weights[f"leakage-{pair}"] = (4.2 if "earth" not in pair else 1.6) / len(pairs)
        weights[f"short-{pair}"] = (1.6 if "earth" not in pair else 0.6) / len(pairs)
    return weights


THREE_WIRE: dict[str, float] = {
    **SENSOR,
    **CONTROLLER,
    **SETTINGS,
    **WATER,
    **OTHER,
    **_wire_members(
        ("supply", "common", "signal"),
        ("supply-common", "supply-signal", "signal-common", "signal-earth", "supply-earth"),
    ),
    "swapped-supply-common": 1.4,
    "swapped-supply-signal": 1.1,
    "swapped-common-signal": 1.3,
    "rotated-left": 0.6,
    "rotated-right": 0.6,
}
TWO_WIRE: dict[str, float] = {
    **SENSOR,
    **CONTROLLER,
    **SETTINGS,
    **WATER,
    **OTHER,
    **_wire_members(("supply", "signal"), ("supply-signal", "signal-earth", "supply-earth")),
    "reversed": 5.0,
}
_REMEDIES: dict[str, str] = {
    "none": "none",
    "noise-pickup": "reroute-cable",
    "shield-looped": "correct-wiring",
    "reversed": "correct-wiring",
    "cable-cut": "repair-cable",
    "port-blocked": "clear-port",
    "sensor-cock-shut": "open-cock",
    "tap-wrong-side": "move-tap",
    "other-load": "remove-load",
    "vacuum": "clear-vacuum",
    "site-gauge-wrong": "replace-gauge",
    "own-gauge-wrong": "replace-gauge",
    "meter-wrong": "mend-meter",
}
_REMEDY_BY_HEAD: dict[str, str] = {
    "open": "repair-cable",
    "resistive": "repair-cable",
    "intermittent": "repair-cable",
    "short": "repair-cable",
    "leakage": "repair-cable",
    "swapped": "correct-wiring",
    "rotated": "correct-wiring",
    "sensor": "replace-sensor",
    "controller": "replace-board",
    "setting": "correct-setting",
}


def remedy_of(fault: str) -> str:
    """Return the remedy that the contract gives to a fault."""
    return _REMEDIES.get(fault) or _REMEDY_BY_HEAD[fault.partition("-")[0]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault with its place and its figures; what a figure means is said where it is drawn."""

    id: str
    place: str | None = None
    side: str = "pin"  #: at a plug: the pins' contact or the cable's crimp
    severity: str | None = None
    figures: Mapping[str, float] = field(default_factory=dict)
    variant: str = ""

    @property
    def head(self) -> str:
        """The kind of a wiring fault: open, short, leakage, ..."""
        return self.id.partition("-")[0]

    @property
    def tail(self) -> str:
        """The wire or the pair of a wiring fault."""
        return self.id.partition("-")[2]

    def get(self, name: str, default: float = 0.0) -> float:
        """Return a figure, or the default of a healthy loop."""
        return self.figures.get(name, default)
