"""The ids that files, JSON and URLs use for the sensing loop: points, measures, arrangements, drive states.

Everything that affects which words a reading may be made of lives in this file.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

DriveState = Literal["auto", "stopped", "fixed-speed", "off"]
DRIVE_STATES: tuple[DriveState, ...] = ("auto", "stopped", "fixed-speed", "off")

CONTROLLER_POINTS = ("controller.supply", "controller.signal", "controller.common")
SENSOR_POINTS = ("sensor.supply", "sensor.signal", "sensor.common")
WIRE_POINTS = ("wire.supply", "wire.signal", "wire.common")
POINTS = (*CONTROLLER_POINTS, *SENSOR_POINTS, *WIRE_POINTS, "shield", "earth")

METER_MEASURES = ("volts", "volts-ac", "milliamps", "ohms", "megohms")
TWO_LEAD_MEASURES = ("volts", "volts-ac", "ohms", "megohms")
DISPLAY_MEASURES = (
    "displayed-pressure",
    "displayed-signal",
    "displayed-fault",
    "displayed-setpoint",
    "displayed-hertz",
    "displayed-amps",
    "displayed-hours",
    "displayed-starts",
)
WATER_MEASURES = (
    "flow",
    "amps",
    "line-volts",
    "water-level",
    "precharge",
    "pressure-decay",
    "starts-per-hour",
)
MEASURES = (*METER_MEASURES, "gauge-pressure", *DISPLAY_MEASURES, "inspection", *WATER_MEASURES)

DISPLAYED_FAULTS = (
    "none",
    "low-signal",
    "high-signal",
    "dry-run",
    "overload",
    "earth-fault",
    "supply-voltage",
    "phase",
    "over-temperature",
    "over-pressure",
    "communication",
    "dead-display",
)

INSPECTION_ITEMS = (
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
    "min-max",
)
INSPECTION_VALUES = ("right", "wrong", "not-seen")

INSTRUMENTS = (
    "multimeter",
    "gauge",
    "spare-sensor",
    "signal-source",
    "potentiometer",
    "resistors",
    "spare-lead",
    "insulation-tester",
    "clamp-meter",
    "flow-bucket",
    "logger",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """How the loop stands while a reading is taken.

    Parameters
    ----------
    id
        The word in files.
    minutes
        Minutes to set it up (our own estimates, common practice; a site and a company may override them).
    drive
        Drive state that a reading has there unless it says otherwise.
    needs
        Instruments of which at least one must be at hand.
    water_side
        Whether it is an arrangement of the water, not of the wires.
    """

    id: str
    minutes: float
    drive: DriveState
    needs: tuple[str, ...] = ()
    water_side: bool = False


_LOOP = (
    Arrangement(id="connected", minutes=2, drive="auto"),
    Arrangement(id="sensor-unplugged", minutes=3, drive="stopped"),
    Arrangement(id="supply-terminal-clear", minutes=3, drive="stopped"),
    Arrangement(id="meter-in-signal", minutes=5, drive="auto"),
    Arrangement(id="sensor-leads-lifted", minutes=6, drive="stopped"),
    Arrangement(id="vented", minutes=7, drive="stopped"),
    Arrangement(id="all-lifted", minutes=8, drive="stopped"),
    Arrangement(
        id="source-at-controller",
        minutes=8,
        drive="stopped",
        needs=("signal-source", "potentiometer", "resistors"),
    ),
    Arrangement(id="temporary-cable", minutes=9, drive="stopped", needs=("spare-lead",)),
    Arrangement(id="dead-both-free", minutes=10, drive="off"),
    Arrangement(id="spare-at-controller", minutes=12, drive="stopped", needs=("spare-sensor",)),
    Arrangement(id="dead-looped", minutes=12, drive="off"),
    Arrangement(id="spare-at-plug", minutes=15, drive="stopped", needs=("spare-sensor",)),
)
_WATER_DRIVES: tuple[tuple[str, DriveState], ...] = (
    ("as-found", "auto"),
    ("steady-draw", "auto"),
    ("full-flow", "auto"),
    ("shut-off", "fixed-speed"),
    ("rest-open", "stopped"),
    ("rest-isolated", "stopped"),
    ("vessel-drained", "off"),
)
_WATER = tuple(Arrangement(id=id_, minutes=0, drive=drive, water_side=True) for id_, drive in _WATER_DRIVES)
ARRANGEMENTS: dict[str, Arrangement] = {a.id: a for a in (*_LOOP, *_WATER)}
