"""What the app calls parts, points and readings where there is little room."""

from __future__ import annotations

#: How suspect a part of the drawing is.
LEVELS: dict[str, str] = {
    "most-likely": "most likely",
    "likely": "likely",
    "possible": "possible",
    "unlikely": "unlikely",
    "ruled-out": "ruled out",
}

DRAWN_PARTS: dict[str, str] = {
    "controller": "controller",
    "cable": "cable",
    "sensor": "{transducer:region}",
    "pipe": "pipe, cock and gauge",
    "meter": "your meter",
}

#: What the meter is set to.
METER_DIALS: dict[str, str] = {
    "volts": "volts DC ?",
    "volts-ac": "volts AC ?",
    "milliamps": "mA DC ?",
    "ohms": "ohms ?",
    "megohms": "insulation ?",
}

#: A point that has no label on this panel, in a word that fits the drawing; a two-wire plug has plus and minus.
SHORT_POINTS: dict[str, str] = {
    "controller.supply": "power",
    "controller.signal": "signal",
    "controller.common": "common",
}

#: What a form asks, by what is read.
ASKS: dict[str, str] = {
    "meter": "What does the meter show?",
    "display": "What does the display show?",
    "gauge-pressure": "What does the gauge show?",
    "displayed-fault": "Which fault does the display show?",
    "inspection": "What did you find?",
}

#: Where a reading lies against its healthy band.
BANDS: dict[str, str] = {"within": "within healthy", "below": "below healthy", "above": "above healthy"}

#: The words on the keypad.
KEY_CAPS: dict[str, str] = {"overload": "OL", "pegged": "pegged", "stop": "on its pin", "jumping": "jumping to"}

#: Units as an instrument shows them.
UNITS: dict[str, str] = {
    "V": "V", "mV": "mV", "mA": "mA", "ohm": "Ω", "kohm": "kΩ", "Mohm": "MΩ", "%": "%", "psi": "psi", "bar": "bar",
    "kPa": "kPa", "MPa": "MPa", "mbar": "mbar", "kPa abs": "kPa absolute", "degC": "°C", "degF": "°F", "m3/s": "m³/s",
    "m2": "m²", "mm2": "mm²", "kgf/cm2": "kgf/cm²", "uA": "µA",
}  # fmt: skip

#: Where a diagnosis stands, over the repair.
VERDICTS: dict[str, str] = {"proved": "Proved", "best-guess": "Best guess", "open": "Open"}

#: What a technician sees on arrival; each starts a visit with one tap.
SEEN: dict[str, str] = {
    "low-signal": "Sensor fault shown: low signal",
    "high-signal": "Sensor fault shown: high signal",
    "reads-wrong": "Display and gauge disagree",
    "jumps": "Display jumps, pump hunts",
    "flat-out": "Pump runs flat out",
    "no-water": "No water, no sensor fault shown",
    "other": "Something else",
}

#: The usual signals, as a technician would say them (common practice).
SIGNALS: dict[str, str] = {
    "0.5..4.5 V ratiometric": "5 volts, three wires",
    "4..20 mA": "4 to 20 mA, two wires",
    "0..10 V": "0 to 10 V",
    "1..5 V": "1 to 5 V",
    "4..20 mA three": "4 to 20 mA, three wires",
}

#: The papers of a visit, by kind; and who each is for.
PAPERS: dict[str, str] = {
    "customer": "Customer",
    "office": "Office",
    "next": "Next technician",
    "warranty": "Warranty",
    "reading-card": "Reading card",
    "certificate": "Check certificate",
    "tag": "Tag for something temporary",
    "night-card": "Card for a night test",
}
PAPERS_FOR: dict[str, str] = {
    "customer": "One page in plain words: what was wrong, what was done, what to watch",
    "office": "Everything: readings, times, instruments, parts, who did what",
    "next": "What to expect, what was odd, how it is set, where to go on",
    "warranty": "Goes back with the part: the readings that convict it, before and after",
    "night-card": "For the customer: what to shut, what to read and when, whom to ring",
    "tag": "What was left, why, until when, who watches, what protects no longer",
    "reading-card": "For the panel's door: what this system should read at each pressure",
}
#: How a paper can be set.
PAPER_WAYS: dict[str, str] = {
    "sheet:a4": "A4", "sheet:letter": "Letter", "sheet:a6": "A6",
    "decimal:.": "decimal point", "decimal:,": "decimal comma", "trace:": "figures alone",
    "trace:yes": "with their making",
}  # fmt: skip

#: Heads of a system's tables.
TABLES: dict[str, str] = {
    "site": "Site",
    "sensor": "{transducer:Region}'s plate",
    "cable": "Cable",
    "controller": "Drive's input",
    "place": "Way and cock",
    "labels": "Labels of this panel, colours of this plug",
}

#: What a field of the system's page is called, by its key in a visit file.
FIELDS: dict[str, str] = {
    "sensor.signal": "Signal",
    "sensor.range": "Range",
    "sensor.wires": "Wires",
    "sensor.reference": "Measures against",
    "sensor.accuracy": "Accuracy, of span",
    "sensor.supply": "Volts that it is made for",
    "cable.length": "Length, one way",
    "cable.conductor": "Wire size",
    "cable.shield": "Has a {shield:region}",
    "cable.temperature": "Temperature",
    "controller.supply": "Sensor power",
    "controller.supply_limits": "Sensor power is sound between",
    "controller.input_resistance": "Input's resistance",
    "controller.scaled": "Range setting, as read in the menu",
    "controller.low_fault": "Low-signal limit",
    "controller.high_fault": "High-signal limit",
    "controller.reference": "Input measures against",
    "controller.on_signal_loss": "When the signal is lost, the drive",
    "controller.auto_restart": "Starts by itself when the signal is back",
    "controller.display": "Past the ends of its range the display",
    "controller.loop_power": "What feeds the loop",
    "controller.common_earthed": "Common is bonded to {ground:region}",
    "place.walk": "Way from panel to {transducer:region}",
    "place.cock": "Cock and vent at the {transducer:region}",
    "site.name": "Name of the site",
    "site.altitude": "Height above the sea",
}

#: What is asked for each point of the labels.
LABELS_OF: dict[str, str] = {
    "controller.supply": "terminal for sensor power",
    "controller.signal": "terminal for the signal",
    "controller.common": "terminal for common",
    "sensor.supply": "plug's contact for sensor power",
    "sensor.signal": "plug's contact for the signal",
    "sensor.common": "plug's contact for common",
    "wire.supply": "colour of the sensor-power wire",
    "wire.signal": "colour of the signal wire",
    "wire.common": "colour of the common wire",
}

#: The words that a field may be chosen from.
CHOICES: dict[str, str] = {
    "true": "yes", "false": "no", "two": "two", "three": "three", "gauge": "the air (gauge)", "sealed": "sealed",
    "absolute": "vacuum (absolute)", "ratiometric": "the {transducer:region}'s own power", "fixed": "a fixed voltage",
    "stop": "stops", "preset": "runs at a preset speed", "full": "runs at full speed", "hold": "holds its speed",
    "open": "goes on", "clamped": "stays there", "drive": "the drive", "outside": "another power unit",
}  # fmt: skip
