"""Names of what a system's page shows."""

from __future__ import annotations

#: Keys of a system that stand in none of its tables.
SYSTEM_KEYS: dict[str, str] = {
    "name": "what it is called",
    "site": "site",
    "depends": "who depends on the water",
    "access": "how to get in",
}

#: Birth readings, as the form asks for them.
BIRTH_NUMBERS: dict[str, str] = {
    "zero": "display with the transducer vented",
    "set": "gauge at the set pressure",
    "signal": "raw signal at the set pressure",
    "supply": "sensor power at the terminals",
    "hertz-no-flow": "hertz at the set pressure, no flow",
    "amps-no-flow": "amps on the display, no flow",
    "flow": "the known flow",
    "hertz-flow": "hertz at the known flow",
    "amps-flow": "amps on the display at the known flow",
    "precharge": "tank pre-charge, tank empty of water",
    "level": "water level",
    "motor-insulation": "motor insulation to earth",
    "motor-ohms": "motor winding, line to line",
}
#: What usually moves each (common practice).
BIRTH_MOVES: dict[str, str] = {
    "zero": "transducer drift, a zero that was set by hand, water left above the port",
    "set": "a setpoint that was changed, the transducer, the gauge",
    "signal": "another pressure at that moment, transducer drift, a joint or damp in the loop",
    "supply": "load on the same terminals, a drive that ages, a joint",
    "hertz-no-flow": "another inlet or water level, wear of the pump, a setpoint that was changed, a leak",
    "amps-no-flow": "wear of the pump, another speed, the motor's bearings",
    "flow": "another tap or valve than then: the hertz and amps beside it then say less",
    "hertz-flow": "wear of the pump, a lower water level, another flow than then",
    "amps-flow": "wear of the pump, another flow than then, line voltage",
    "precharge": "air lost through valve or bladder, air added, warmth",
    "level": "season, a well that is drawn down",
    "motor-insulation": "damp in motor, splice or cable, warmth of the winding",
    "motor-ohms": "warmth of the winding, a splice or joint, turns that touch",
}
