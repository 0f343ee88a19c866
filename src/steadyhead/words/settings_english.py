"""What the settings page says in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "settings": "Settings",
    "settings-more": "More",
    "settings-manner": "How this app speaks",
    "settings-manner-note": "It changes what you read here. What was typed stays as it was typed, with its unit.",
    "settings-keep": "Keep",
    "settings-kept": "Kept.",
}
