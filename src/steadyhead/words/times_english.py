"""What the page of times and costs says in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "times": "Times and costs",
    "times-note": "Minutes, as they are with you. They decide which check comes next, never what a reading tells. A "
    "part's price counts as minutes: what it costs, by what your hour costs.",
    "times-shipped": "as shipped: {minutes} min",
    "times-keep": "Keep these times",
    "times-kept": "Kept. {count} of them are your own.",
}
