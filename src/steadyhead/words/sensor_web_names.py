"""What the pages of a sensor check call its fields, its groups of fields, and the words that they are chosen from."""

from __future__ import annotations

CHECK_GROUPS: dict[str, str] = {
    "run": "This check",
    "sensor": "The {transducer:region}'s plate",
    "reference": "The gauge it is compared with",
    "limits": "How high you may go",
    "meter": "The meter",
    "conditions": "Height, temperature, air",
    "more": "More of the {transducer:region} and the gauge",
    "reference.certificate": "The gauge's certificate",
    "meter.certificate": "The meter's certificate",
}

CHECK_FIELDS: dict[str, str] = {
    "stage": "When",
    "pressure_from": "The pressure comes from",
    "read_as": "What is read of the {transducer:region}",
    "sensor.signal": "Signal",
    "sensor.range": "Range",
    "sensor.accuracy": "Accuracy, of span",
    "serial": "Serial number",
    "reference.range": "Its scale",
    "reference.grade": "Its grade or class",
    "reference.accuracy": "Or its accuracy, of span",
    "reference.resolution": "Smallest step you can read",
    "purpose": "How thorough",
    "allowed.relief": "Relief valve opens at",
    "allowed.weakest": "Weakest part stands",
    "allowed.pump": "Pump, or hand pump, makes",
    "allowed.ordinary": "Ordinary pressure here",
    "allowed.lowest": "Lowest you can bring about",
    "meter.volts": "Its accuracy on volts",
    "meter.milliamps": "Its accuracy on milliamps",
    "meter.same_meter": "One meter reads signal and power",
    "meter.name": "What it is called",
    "meter.serial": "Its serial number",
    "conditions.height": "Gauge above the {transducer:region}",
    "conditions.height_within": "Known within",
    "conditions.medium": "Between them stands",
    "conditions.temperature": "Temperature at the {transducer:region}",
    "conditions.temperature_within": "Known within",
    "conditions.temperature_effect": "Plate's allowance, of span a kelvin",
    "conditions.barometer": "Air pressure, as measured",
    "conditions.altitude": "Height above the sea",
    "sensor.wires": "Wires",
    "sensor.reference": "It measures against",
    "sensor.supply": "Volts that it is made for",
    "controller.scaled": "Drive's range setting, as found",
    "reference.name": "What the gauge is called",
    "reference.serial": "The gauge's serial number",
    "reference.certificate.expanded": "Expanded uncertainty",
    "reference.certificate.k": "Its coverage factor k",
    "reference.certificate.at": "Readings, parted by semicolons",
    "reference.certificate.correction": "What to add at each",
    "reference.certificate.number": "Number",
    "reference.certificate.dated": "Calibrated on",
    "reference.certificate.due": "Next due on",
    "meter.certificate.expanded": "Expanded uncertainty",
    "meter.certificate.k": "Its coverage factor k",
    "meter.certificate.at": "Readings, parted by semicolons",
    "meter.certificate.correction": "What to add at each",
    "meter.certificate.number": "Number",
    "meter.certificate.dated": "Calibrated on",
    "meter.certificate.due": "Next due on",
}

CHECK_WORDS: dict[str, str] = {
    "as-found": "as found", "as-left": "after a change", "system": "the running system", "hand-pump": "a hand pump",
    "static": "open air, or standing water", "signal": "its signal, with a meter",
    "displayed-pressure": "the pressure on the display", "true": "yes", "false": "no", "water": "water", "air": "air",
    "quick": "quick: 3 pressures", "full": "full: 6 pressures, up and down",
    "repeat": "repeated: 6 pressures, 3 times", "laboratory": "laboratory: 11 pressures, 3 times",
    "two": "two", "three": "three", "gauge": "the air (gauge)", "sealed": "sealed", "absolute": "vacuum (absolute)",
}  # fmt: skip

#: The fields of one point.
POINT_FIELDS: dict[str, str] = {
    "reference": "Gauge",
    "signal": "Signal",
    "supply": "{transducer:Region} power",
    "shown": "Display",
}

DIRECTIONS: dict[str, str] = {"up": "rose to it", "down": "fell to it"}

OUTCOMES: dict[str, str] = {"pass": "good", "fail": "not good", "cannot-tell": "cannot tell"}

#: Decision rules, as they are chosen.
DECISION_RULES: dict[str, str] = {
    "simple": "the tolerance alone", "guard-band": "a guard band", "specific-risk": "the chance of being wrong",
}  # fmt: skip

#: Whether the linear interval is as good as the drawn one.
DRAWN_VERDICTS: dict[str, str] = {
    "agrees": "Both agree.",
    "differs": "They differ: the drawn one counts.",
    "cannot-tell": "Too few were drawn to tell whether they agree.",
}

#: The distributions of `steadyhead.sensorcheck.inputs`.
DISTRIBUTIONS: dict[str, str] = {
    "normal": "normal", "rectangular": "rectangular", "triangular": "triangular", "arcsine": "arcsine",
    "trapezoidal": "trapezoidal", "uncertain": "rectangular, its limits uncertain", "t": "Student's t",
}  # fmt: skip
