"""What the steps of the first minute are called and ask."""

from __future__ import annotations

#: What each step is called in the list of what was seen.
FIRST_STEPS: dict[str, str] = {
    "photo": "photo of the display",
    "fault": "fault shown now",
    "history": "fault history",
    "setpoint": "set pressure",
    "hours": "hours",
    "starts": "starts",
    "changed": "what was changed",
    "call": "since when, and when it shows",
    "gauge": "gauge now",
    "display": "display now",
}

#: What each step asks.
FIRST_ASKS: dict[str, str] = {
    "photo": "A photo of the display as it stands",
    "fault": "Which fault does the display show?",
    "history": "Which faults does its history hold?",
    "setpoint": "Which pressure is it set to?",
    "hours": "How many hours has it run?",
    "starts": "How many starts does it count?",
    "changed": "What was changed, and what came before?",
    "call": "Since when, and when does it show?",
    "gauge": "What does the gauge show?",
    "display": "Which pressure does the display show?",
}

#: Whose gauge was read.
GAUGE_OWNERS: dict[str, str] = {"site": "the system's", "own": "my own"}

#: A mark beside what was kept before anything was changed, or after.
STAGES: dict[str, str] = {"as-found": "as found", "as-left": "as left"}

#: The keys of a complaint, as a page asks them.
CALL_KEYS: dict[str, str] = {
    "shown": "The display showed", "since": "Since", "when": "When", "changed": "Shortly before",
}  # fmt: skip

#: What a photo shows.
SHOWS: dict[str, str] = {
    "display": "display", "plate": "plate", "wiring": "wiring", "part": "part", "place": "the place",
}  # fmt: skip

#: The same under a photo on a paper, where nobody may have said.
PICTURED: dict[str, str] = {
    "display": "Display", "plate": "Plate", "wiring": "Wiring", "part": "Part", "place": "The place", "photo": "Photo",
}  # fmt: skip

#: Who may depend on the water of a system.
DEPENDENTS: dict[str, str] = {
    "dialysis": "home dialysis",
    "care": "a care home",
    "hospital": "a hospital or a doctor",
    "school": "a school or children",
    "food": "a kitchen or food works",
    "process": "a process or a boiler",
    "livestock": "animals",
    "sprinklers": "sprinklers or hydrants",
}
