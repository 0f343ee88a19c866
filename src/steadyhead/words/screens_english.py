"""What the program says of itself: words it does not know, and how it ends, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "region-unknown": "There is no region {got}. The regions: {must_be}.",
    "language-unknown": "There is no language {got} here. The languages: {must_be}.",
    "table-name-unknown": "There is no table {got}. The tables: {must_be}.",
    "pressure-needed": 'No gauge reading stands in {file}. Give the pressure: --pressure "{example}".',
    "internal-error": "Something went wrong inside Steadyhead ({what}). Please report it: this line, the command, "
    "and the visit file if there is one.",
}
