"""What people call the parts that are loaded before the drive."""

from __future__ import annotations

PARTS: dict[str, str] = {
    "sensor": "{transducer:region}",
    "board": "input board or a whole drive",
    "plug-kit": "plug with pins and crimps",
    "sealing": "sealing for a plug",
    "ferrules": "ferrules",
    "terminal-block": "terminal block",
    "cable": "screened cable",
    "splice-kit": "splice kit",
    "clips": "cable clips",
    "fitting": "fittings and washers",
    "cock": "cock for the {transducer:region}",
    "check-valve": "check valve",
    "gauge": "pressure gauge to leave there",
    "meter-fuse": "fuse for the meter",
    "meter-battery": "battery for the meter",
    "second-meter": "second meter",
}
