"""What the page of times and costs calls its groups, and the rows that no other table names."""

from __future__ import annotations

TIME_GROUPS: dict[str, str] = {
    "arrangements": "Setting a hook-up up",
    "readings": "One reading there",
    "inspections": "A look",
    "walk": "The way between panel and {transducer:region}",
    "repairs": "A repair's work",
    "parts": "A repair's parts, as minutes",
    "trips": "Trips",
}

TIME_ROWS: dict[str, str] = {
    "second-trip": "coming back another day",
    "loading": "loading one thing",
    "to-sensor": "the leads go to the {transducer:region}",
    "back": "the leads come back",
    "meter": "anything that a meter reads",
}
