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
