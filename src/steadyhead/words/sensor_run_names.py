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

#: The heads of a screen's columns.
COLUMNS: dict[str, str] = {
    "point": "point",
    "cycle": "cycle",
    "way": "way",
    "gauge": "on the gauge",
    "convicts": "convicts beyond",
    "clears": "clears within",
    "pressure": "pressure",
    "error": "error",
    "known": "known to",
    "updown": "up to down",
    "outcome": "outcome",
    "linear": "linear",
    "drawn-low": "drawn, from",
    "drawn-high": "drawn, to",
    "agrees": "linear will do",
    "value": "value",
    "of-span": "of span",
    "input": "input",
    "adds": "adds",
    "share": "share",
    "found": "as found",
    "after": "after it",
}

#: An outcome in a column.
OUTCOMES_SHORT: dict[str, str] = {"pass": "good", "fail": "not good", "cannot-tell": "cannot tell"}

#: What a question about a plate or a place is about.
ASKED_TABLES: dict[str, str] = {
    "check": "This check",
    "sensor": "The {transducer:region}'s plate",
    "reference": "The gauge",
    "meter": "The meter",
    "conditions": "The place",
    "allowed": "How high you may go",
}
