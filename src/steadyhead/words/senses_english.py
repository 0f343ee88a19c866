"""What is said in English of the phone's senses: the screen that stays on, large digits, a buzz."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "awake-off": "Keep the screen on",
    "awake-on": "The screen stays on. Tap to end that.",
    "awake-refused": "The screen will go dark: this phone refuses now (a low battery, perhaps). Try again",
    "large-on": "Large digits",
    "large-off": "Usual size",
    "buzz": "A short buzz when a reading is kept",
    "buzz-note": "Two longer ones when it lies outside what would be healthy. Phones only.",
    "buzz-yes": "Buzz",
    "buzz-no": "No buzz",
}
