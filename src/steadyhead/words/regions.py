"""Words that differ by region within one language: one row for each, and nowhere else.

Everything that affects which word a region reads lives in this file.
"""

from __future__ import annotations

REGIONS = ("north-america", "elsewhere")

#: What a template writes as ``{transducer:region}``, by region.
WORDS: dict[str, dict[str, str]] = {
    "transducer": {"north-america": "transducer", "elsewhere": "sensor"},
    "tank": {"north-america": "pressure tank", "elsewhere": "pressure vessel"},
    "input_resistor": {"north-america": "input resistor", "elsewhere": "burden resistor"},
    "ground": {"north-america": "ground", "elsewhere": "earth"},
    "shield": {"north-america": "shield", "elsewhere": "screen"},
    "faucet": {"north-america": "faucet", "elsewhere": "tap"},
}
