"""What endings of a visit are called, and what is asked of them; what comes back by itself, and its next step."""

from __future__ import annotations

#: How a visit may end, as one chooses it.
ENDINGS: dict[str, str] = {
    "proved-on-site": "proved on site",
    "night-pending": "proved here, night still to come",
    "watching": "not there now: watch it",
    "left-temporary": "left with something temporary",
    "made-safe": "off, made safe",
    "declined": "the customer declines",
}

#: What each of them means.
ENDINGS_MEAN: dict[str, str] = {
    "proved-on-site": "Mended, and what must be right was read.",
    "night-pending": "Mended, and it reads right. A slow leak shows only over a night: the customer gets a card, and "
    "what the night gave is put in later.",
    "watching": "An intermittent fault does not show itself. The customer notes what happens; the next visit goes on "
    "with these readings and these odds.",
    "left-temporary": "Water tonight, until the part is there: with a day, somebody who watches, and a tag.",
    "made-safe": "Nothing runs. What is off stays off until somebody has mended it.",
    "declined": "What was found and what was offered stays in the record, and stands on the papers.",
}

#: What is said of an ending.
ENDING_KEYS: dict[str, str] = {
    "note": "what else is to be said",
    "notes": "to be noted when it happens",
    "off": "what is off",
    "locked": "locked and tagged",
    "told": "who was told",
    "by": "who declined",
    "offered": "what was offered",
    "risk_told": "said what may happen without it",
}

ENDING_OFF: dict[str, str] = {
    "pump": "pump", "drive": "drive", "controls": "controls and sensor power", "water": "house water",
    "suction": "well or incoming main",
}  # fmt: skip

ENDING_NOTES: dict[str, str] = {
    "photo": "photo of the display", "time": "day and time", "running": "what was running",
    "weather": "rain, frost, storm", "sound": "noises",
}  # fmt: skip

#: What is shut over a night.
SHUT: dict[str, str] = {"house-valve": "house valve shut", "all-taps": "all taps shut"}

FOLLOW_UPS: dict[str, str] = {
    "night-test": "night test",
    "watch": "being watched",
    "temporary-end": "temporary until",
    "part-ordered": "part ordered",
    "next-service": "next service",
}

#: What is done when its day has come.
FOLLOW_UP_STEPS: dict[str, str] = {
    "night-test": "Ask for the card, and put in what the night gave.",
    "watch": "Ask what was noted. If it came back, go on with the visit: all its readings still count.",
    "temporary-end": "The part should be there: take the temporary thing out, mend it, prove it. Or leave it longer, "
    "with a new day and a new tag.",
    "part-ordered": "Is the part there? Then go on with the visit.",
    "next-service": "Call the customer, and begin a visit there.",
}

#: What is said of a repair.
REPAIR_KEYS: dict[str, str] = {
    "place": "where",
    "done": "what exactly",
    "part": "part",
    "serial": "its serial number",
    "old": "serial number of the old one",
    "authorised": "who said yes to it",
    "quoted": "quoted at",
    "tugged": "wires landed again: tugged and marked",
}
MENDED_AT: dict[str, str] = {
    "terminal": "terminal", "run": "cable's run", "plug": "plug", "sensor": "{transducer:region}", "drive": "drive",
    "pipe": "pipe or cock",
}  # fmt: skip
REPAIR_STATES: dict[str, str] = {"withdrawn": "taken out", "came_back": "the fault came back"}

#: How a reading stands that must be right after a repair.
PROOF_STATES: dict[str, str] = {
    "right": "right", "wrong": "not right", "taken": "read", "declined": "can't be read here", "open": "to be read",
}  # fmt: skip
