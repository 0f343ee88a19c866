"""What the search page says in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "search": "Search",
    "search-words": "Words: a place, a person, a part, a serial number",
    "search-go": "Search",
    "search-nothing": "Nothing holds all of these words: {text}. Fewer words find more.",
    "search-visits": "Visits",
}
