"""What the pages of the instruments call their fields."""

from __future__ import annotations

INSTRUMENT_FIELDS: dict[str, str] = {
    "name": "What you call it",
    "range": "Its scale",
    "grade": "Its grade or class",
    "accuracy": "Or its accuracy, of span",
    "volts": "Its accuracy on volts",
    "milliamps": "Its accuracy on milliamps",
    "ohms": "Its accuracy on ohms",
    "serial": "Serial number",
    "certificate": "Number of its certificate",
    "due": "Next calibration due on",
}
