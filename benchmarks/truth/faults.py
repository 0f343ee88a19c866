"""How often each fault is met, and which remedy is right: everything that decides this lives in these tables.

Rules
-----
1. A weight is calls in a hundred where the display shows a sensor fault at a house (common practice, no source);
   a family's weight is spread over its members, so that variants of a rare thing do not outvote a common one.
2. A remedy belongs to a fault by the longest prefix of its id that the table holds.
3. A pair has a cause; it is drawn only where the run asks for pairs.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from benchmarks.truth.case import CONDUCTORS, Kind


@dataclass(frozen=True, slots=True)
class Family:
    """A family of faults: calls in a hundred, and each member's share for three wires and for two."""

    name: str
    calls: float
    three: dict[str, float]
    two: dict[str, float]


_SENSOR = {
    "sensor-open": 7.0,
    "sensor-shorted": 5.0,
    "sensor-low": 5.0,
    "sensor-high": 4.0,
    "sensor-zero-shift": 4.5,
    "sensor-span-shift": 3.0,
    "sensor-frozen": 2.5,
    "sensor-wet-vent": 1.0,
}
_SETTINGS = {
    "setting-range": 2.0,
    "setting-signal-kind": 0.8,
    "setting-input": 0.5,
    "setting-offset": 0.5,
    "setting-unit": 0.3,
    "setting-simulated": 0.3,
    "sensor-wrong-part": 0.8,
}
_SWAPS = {
    "swapped-supply-common": 1.0,
    "swapped-supply-signal": 1.0,
    "swapped-common-signal": 1.0,
    "rotated-left": 0.3,
    "rotated-right": 0.3,
}
_CONTACT_THREE = {
    "cable-cut": 5.0,
    "open-supply": 3.0,
    "open-common": 3.0,
    "open-signal": 3.0,
    "resistive-supply": 1.5,
    "resistive-common": 1.5,
    "resistive-signal": 0.7,
    "leakage-signal-common": 1.6,
    "leakage-supply-signal": 1.2,
    "leakage-supply-common": 0.7,
    "intermittent-supply": 0.5,
    "intermittent-common": 0.5,
    "intermittent-signal": 0.5,
}
_CONTACT_TWO = {
    "cable-cut": 5.0,
    "open-supply": 4.5,
    "open-signal": 4.5,
    "resistive-supply": 1.8,
    "resistive-signal": 1.8,
    "leakage-supply-signal": 3.0,
    "leakage-signal-earth": 0.4,
    "intermittent-supply": 0.8,
    "intermittent-signal": 0.7,
}
_RUN_THREE = {
    "cable-cut": 6.0,
    "open-supply": 0.5,
    "open-common": 0.5,
    "open-signal": 0.5,
    "short-supply-common": 0.4,
    "short-supply-signal": 0.3,
    "short-signal-common": 0.4,
    "leakage-signal-common": 0.4,
    "leakage-signal-earth": 0.2,
}
_RUN_TWO = {
    "cable-cut": 6.0,
    "open-supply": 0.8,
    "open-signal": 0.8,
    "short-supply-signal": 0.7,
    "leakage-supply-signal": 0.5,
    "leakage-signal-earth": 0.2,
}
_BOARD = {"controller-supply-dead": 3.0, "controller-supply-low": 1.6, "controller-supply-weak": 1.4}
_INPUT = {"controller-input-dead": 2.5, "controller-input-shifted": 1.0}
_WATER_SIDE = {"port-blocked": 2.2, "sensor-cock-shut": 2.8}
_TAP = {"vacuum": 2.5, "tap-wrong-side": 1.5}
_NOISE = {"noise-pickup": 1.7, "shield-looped": 0.3}
_GAUGE = {"site-gauge-wrong": 1.5, "meter-wrong": 0.5}

FAMILIES: tuple[Family, ...] = (
    Family("sensor", 32, _SENSOR, _SENSOR),
    Family("plug, pin, terminal", 22, _CONTACT_THREE, _CONTACT_TWO),
    Family("cable run", 9, _RUN_THREE, _RUN_TWO),
    Family("sensor power", 6, _BOARD, _BOARD),
    Family("other load", 2, {"other-load": 1.0}, {"other-load": 1.0}),
    Family("cock, port", 5, _WATER_SIDE, _WATER_SIDE),
    Family("wrong part or setting", 5, _SETTINGS, _SETTINGS),
    Family("miswired", 5, _SWAPS, {"reversed": 1.0}),
    Family("input", 4, _INPUT, _INPUT),
    Family("vacuum, tap side", 4, _TAP, _TAP),
    Family("noise", 2, _NOISE, _NOISE),
    Family("gauge, meter", 2, _GAUGE, _GAUGE),
    Family("nothing found", 4, {"none": 1.0}, {"none": 1.0}),
)

PAIRS: tuple[tuple[str, str, float], ...] = (
    ("sensor-open", "controller-input-dead", 3.0),
    ("sensor-shorted", "controller-supply-dead", 1.5),
    ("sensor-low", "controller-input-dead", 1.5),
    ("leakage-supply-signal", "sensor-zero-shift", 2.0),
    ("leakage-supply-signal", "sensor-low", 1.5),
    ("sensor-zero-shift", "site-gauge-wrong", 0.5),
)
"""A surge takes sensor and input or supply; a wet plug takes the sensor; the third kind is bad luck."""

REMEDIES: dict[str, str] = {
    "none": "none",
    "open-": "repair-cable",
    "resistive-": "repair-cable",
    "intermittent-": "repair-cable",
    "short-": "repair-cable",
    "leakage-": "repair-cable",
    "cable-cut": "repair-cable",
    "swapped-": "correct-wiring",
    "rotated-": "correct-wiring",
    "reversed": "correct-wiring",
    "shield-looped": "correct-wiring",
    "noise-pickup": "reroute-cable",
    "sensor-": "replace-sensor",
    "sensor-cock-shut": "open-cock",
    "port-blocked": "clear-port",
    "tap-wrong-side": "move-tap",
    "controller-": "replace-board",
    "other-load": "remove-load",
    "setting-": "correct-setting",
    "vacuum": "clear-vacuum",
    "site-gauge-wrong": "replace-gauge",
    "meter-wrong": "mend-meter",
}
GOOD_PART_REMEDIES = ("replace-sensor", "replace-board", "replace-gauge")


def remedy_of(fault_id: str) -> str:
    """Return the right remedy of a fault, or of a pair ``a+b``: ``x+y``, or ``x`` where both are the same.

    >>> remedy_of("sensor-cock-shut"), remedy_of("sensor-low"), remedy_of("controller-input-dead+sensor-open")
    ('open-cock', 'replace-sensor', 'replace-board+replace-sensor')
    """
    found = [max((key for key in REMEDIES if part.startswith(key)), key=len) for part in fault_id.split("+")]
    return "+".join(dict.fromkeys(REMEDIES[key] for key in found))


def draw_fault(rng: random.Random, kind: Kind) -> tuple[str, str]:
    """Return one family's name and one fault of it, drawn by weight."""
    family = rng.choices(FAMILIES, [family.calls for family in FAMILIES])[0]
    members = family.three if kind == "three-wire" else family.two
    return family.name, rng.choices(tuple(members), tuple(members.values()))[0]


def draw_pair(rng: random.Random) -> tuple[str, str]:
    """Return the ids of one pair with a common cause."""
    first, second, _ = rng.choices(PAIRS, [pair[2] for pair in PAIRS])[0]
    return first, second


def ids(kind: Kind) -> tuple[str, ...]:
    """Return every fault id that may be drawn for a kind of loop, in the table's order."""
    tables = [family.three if kind == "three-wire" else family.two for family in FAMILIES]
    return tuple(dict.fromkeys(fault for table in tables for fault in table))


def parts_of(fault_id: str, kind: Kind) -> tuple[str, ...]:
    """Return the conductors (and earth) that a wiring fault's id names."""
    return tuple(word for word in fault_id.split("-")[1:] if word in (*CONDUCTORS[kind], "earth"))
