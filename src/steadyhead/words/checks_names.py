"""What people call the ways, the measures, the looks, the instruments and the keys of a check."""

from __future__ import annotations

ARRANGEMENTS: dict[str, str] = {
    "connected": "everything connected",
    "sensor-unplugged": "plug off the {transducer:region}",
    "supply-terminal-clear": "sensor-power terminal cleared",
    "meter-in-signal": "meter in the signal wire",
    "sensor-leads-lifted": "{transducer:region}'s wires lifted",
    "vented": "{transducer:region} open to the air",
    "all-lifted": "every control wire lifted",
    "source-at-controller": "signal source on the drive's input",
    "temporary-cable": "known-good lead in place of the cable",
    "dead-both-free": "power off, cable off at both ends",
    "spare-at-controller": "spare {transducer:region} on the terminals",
    "dead-looped": "power off, cable off, far ends joined",
    "spare-at-plug": "spare {transducer:region} on the plug",
    "as-found": "as found",
    "steady-draw": "one {faucet:region} running, flow known",
    "full-flow": "full flow",
    "shut-off": "discharge shut, for seconds",
    "rest-open": "pump off, house open",
    "rest-isolated": "pump off, house shut",
    "vessel-drained": "{tank:region} drained",
}

MEASURES: dict[str, str] = {
    "volts": "volts DC",
    "volts-ac": "volts AC",
    "milliamps": "milliamps",
    "ohms": "ohms",
    "megohms": "insulation test",
    "gauge-pressure": "gauge",
    "own-gauge": "your own gauge",
    "displayed-pressure": "pressure on the display",
    "displayed-signal": "raw signal on the display",
    "displayed-fault": "fault on the display",
    "displayed-setpoint": "set pressure on the display",
    "displayed-hertz": "output hertz on the display",
    "displayed-amps": "amps on the display",
    "displayed-hours": "hours on the display",
    "displayed-starts": "starts on the display",
    "inspection": "a look",
    "flow": "flow",
    "amps": "amps",
    "line-volts": "incoming volts",
    "water-level": "water level",
    "precharge": "{tank:region} charge",
    "pressure-decay": "pressure lost over time",
    "starts-per-hour": "starts in an hour",
}

ITEMS: dict[str, str] = {
    "connections": "tug and reseat every wire",
    "wiring-order": "each wire on its terminal",
    "range-setting": "range setting against the plate",
    "input-setting": "input's other settings",
    "moisture": "water in plug, splice or box",
    "cable-routing": "how the cable runs",
    "port": "the pressure port",
    "cock": "the cock at the {transducer:region}",
    "tap-place": "where the {transducer:region} is tapped in",
    "cable-damage": "damage along the cable",
    "gauge-zero": "the gauge's zero",
    "meter-check": "prove the meter",
    "wiggle": "move cable and plug, watch the display",
    "min-max": "leave the meter in MIN/MAX for ten minutes",
}

STATES: dict[str, str] = {
    "auto": "drive running or ready to run",
    "stopped": "drive stopped, power on",
    "fixed-speed": "drive by hand at a fixed speed",
    "off": "power off, locked, proved dead",
}

DISPLAYED: dict[str, str] = {
    "none": "no fault",
    "low-signal": "low signal",
    "high-signal": "high signal",
    "dry-run": "dry run",
    "overload": "overload",
    "earth-fault": "{ground:region} fault",
    "supply-voltage": "incoming volts",
    "phase": "phase",
    "over-temperature": "over temperature",
    "over-pressure": "over pressure",
    "communication": "communication",
    "dead-display": "display dead",
}

FOUND: dict[str, str] = {"right": "right", "wrong": "wrong", "not-seen": "not seen"}

#: What a sensor's pressure is told against.
REFERENCES: dict[str, str] = {
    "gauge": "gauge pressure", "sealed": "sealed gauge pressure", "absolute": "absolute pressure",
}  # fmt: skip

INSTRUMENTS: dict[str, str] = {
    "multimeter": "multimeter",
    "gauge": "pressure gauge",
    "spare-sensor": "spare {transducer:region}",
    "signal-source": "signal source",
    "potentiometer": "potentiometer",
    "resistors": "resistors",
    "spare-lead": "known-good lead",
    "insulation-tester": "insulation tester",
    "clamp-meter": "clamp meter",
    "flow-bucket": "bucket and watch",
    "logger": "logger",
}

#: Keys of a visit file whose defaults an answer names.
KEYS: dict[str, str] = {
    "sensor.accuracy": "{transducer:region} accuracy",
    "sensor.supply": "what the {transducer:region} is made for",
    "controller.supply": "sensor power",
    "controller.supply_limits": "limits of the sensor power",
    "controller.input_resistance": "input's resistance",
    "controller.scaled": "range setting",
    "controller.reference": "input measures",
    "controller.low_fault": "low-signal limit",
    "controller.high_fault": "high-signal limit",
    "cable.length": "cable length",
    "cable.conductor": "wire size",
    "instruments.gauge": "gauge",
    "instruments.meter.volts": "meter on volts",
    "instruments.meter.milliamps": "meter on mA",
    "instruments.meter.ohms": "meter on ohms",
    "site.altitude": "altitude",
}
