"""The invented sensors on the van that come with the invented visit: one that fits, some that nearly do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

_VOLTS = {"signal": "0.5..4.5 V ratiometric", "accuracy": "1 %", "supply": "5 V"}
_PINS = {"supply": "1", "signal": "2", "common": "3"}
_LOOP = {"signal": "4..20 mA", "accuracy": "0.5 %", "supply": "9..30 V"}

DEMO_STOCK: tuple[Mapping[str, Any], ...] = (
    {
        "name": "House spare, 100 psi", "count": 1, "sensor": {**_VOLTS, "range": "0..100 psi"}, "pins": _PINS,
        "build": {"thread": "1/4 NPT", "plug": "m12-a", "approval": ["nsf-61", "nsf-372"], "stands": "300 psi"},
    },
    {
        "name": "House spare, 150 psi", "count": 2, "sensor": {**_VOLTS, "range": "0..150 psi"}, "pins": _PINS,
        "build": {"thread": "1/4 NPT", "plug": "m12-a", "approval": ["nsf-61", "nsf-372"], "stands": "450 psi"},
    },
    {
        "name": "Booster spare, 10 bar", "count": 1, "sensor": {**_LOOP, "range": "0..10 bar"},
        "build": {"thread": "G 1/4", "plug": "en-175301-a", "approval": ["nsf-61", "nsf-372"], "stands": "20 bar"},
        "pins": {"supply": "1", "signal": "2"},
    },
    {
        "name": "Air compressor spare, 200 psi", "count": 1, "sensor": {**_VOLTS, "range": "0..200 psi"},
        "build": {"thread": "1/8 NPT", "plug": "sealed-three", "approval": ["none"]},
    },
)  # fmt: skip
