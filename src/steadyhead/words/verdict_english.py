"""Where a diagnosis stands, what surprises, and how large a fault is, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "more-to-learn": "Most likely: {remedy:remedy}. Another check is worth its minutes first.",
    "no-check-worth-it": "Best guess: {remedy:remedy}. No check left is worth its minutes, and no meter reading "
    "proves it yet.",
    "reading-would-prove": "Best guess: {remedy:remedy}. No check left is worth its minutes; what would prove it: "
    "{measure:reading-of} ({arrangement:arrangement}).",
    "reading-convicts": "Reading {reading} would have come out differently for any other repair: "
    "{measure:reading-of} ({arrangement:arrangement}).",
    "nothing-explains": "doesn't fit, take it again",
    "outside-gauge-scale": "outside the gauge's scale: not to be trusted, take it again with another gauge",
    "severity": "{unit:sized}",
    "default": "{key} = {value} (not given)",
}
