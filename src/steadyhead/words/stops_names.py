"""What the stops of a visit are called, in the order in which they are made."""

from __future__ import annotations

STOPS: dict[str, str] = {
    "covers-on": "With the covers on",
    "look": "A look",
    "panel": "At the panel, power on",
    "sensor": "At the {transducer:region}",
    "power-off": "With the power off",
}
