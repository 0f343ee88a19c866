"""A sensor check that several tests use, invented: 0.5..4.5 V ratiometric over 0..100 psi, a grade 2A gauge."""

from __future__ import annotations

from typing import Any

BODY: dict[str, Any] = {
    "serial": "K-4471",
    "stage": "as-found",
    "sensor": {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi", "accuracy": "1 %"},
    "reference": {
        "range": "0..160 psi",
        "grade": "2A",
        "resolution": "0.5 psi",
        "certificate": {"expanded": "0.4 psi", "correction": ["0.1 psi", "-0.2 psi"], "at": ["0 psi", "160 psi"]},
    },
    "meter": {"volts": "0.5 % + 2 x 0.01 V", "same_meter": True},
    "conditions": {"height": "1.2 m", "temperature": "18 degC", "temperature_within": "5 K", "altitude": "310 m"},
    "purpose": "quick",
    "controller": {"scaled": "0..100 psi"},
    "allowed": {"relief": "90 psi", "ordinary": "60 psi"},
}
POINTS: list[dict[str, Any]] = [
    {"reference": "0 psi", "direction": "up", "signal": "0.512 V", "supply": "5.02 V"},
    {"reference": "40 psi", "direction": "up", "signal": "2.13 V", "supply": "5.02 V"},
    {"reference": "80 psi", "direction": "up", "signal": "3.74 V", "supply": "5.01 V"},
    {"reference": "40 psi", "direction": "down", "signal": "2.15 V", "supply": "5.02 V"},
]
