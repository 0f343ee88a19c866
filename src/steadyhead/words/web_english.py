"""What the app says of itself in English: the drawing's words, heads, buttons, what a form did not understand."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # the drawing
    "web-drawing": "Loop drawing",
    "web-drawn-standing": "Drawn as it stands for the next reading: {arrangement:arrangement}.",
    "web-drawn-part": "{part}: {level}.",
    "web-drawn-red": "Red lead on {red:point}.",
    "web-drawn-black": "Black lead on {black:point}.",
    "web-controller": "Controller",
    "web-cable": "Cable",
    "web-temporary-lead": "Known-good lead",
    "web-sensor": "{transducer:Region}",
    "web-spare": "Spare",
    "web-own": "own",
    "web-source": "Signal source",
    "web-open-to-air": "open to air",
    "web-power-off": "OFF",
    "web-shut": "shut",
    "web-pipe": "header pipe",
    "web-meter": "meter",
    "web-red-letter": "R",
    "web-black-letter": "B",
}
