"""What people call the parts of a sensor check: what limits it, what it is for."""

from __future__ import annotations

#: What ends a check before the top of the range.
LIMITS: dict[str, str] = {
    "sensor": "the {transducer:region}'s own range",
    "gauge": "the gauge's scale",
    "pump": "what the pump makes",
    "relief": "a tenth below the relief valve",
    "weakest": "the weakest part",
    "ordinary": "ordinary service",
    "unknown": "half of its range, since nobody said more",
    "static": "the pressure at rest",
}
