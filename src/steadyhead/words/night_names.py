"""What the figures of a night are called, and the answers on its card."""

from __future__ import annotations

NIGHT_FIGURES: dict[str, str] = {
    "night-start": "pressure in the evening",
    "night-end": "pressure in the morning",
    "night-hours": "hours between",
    "night-fall": "fall",
    "night-per-hour": "fall in an hour",
    "night-half-division": "half a division of the gauge",
    "night-cools": "part by which the air cools",
    "night-cooling": "fall by cooling",
    "night-warm-air": "fall of air that was warmed",
    "night-no-leak": "fall that needs no leak",
    "night-loss": "fall that is a loss",
    "night-lost": "water that is worth",
    "tank-volume": "{tank:region}'s volume",
}

NIGHT_ANSWERS: dict[str, str] = {"yes": "yes", "no": "no", "unknown": "don't know"}
