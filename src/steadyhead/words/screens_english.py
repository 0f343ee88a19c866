"""What the program says of itself: words it does not know, and how it ends, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "region-unknown": "There is no region {got}. The regions: {must_be}.",
    "language-unknown": "There is no language {got} here. The languages: {must_be}.",
    "table-name-unknown": "There is no table {got}. The tables: {must_be}.",
    "pressure-needed": "No gauge reading stands in this file. Give the pressure to see the volts: --pressure "
    '"{example}".',
    "verdict-open": "Most likely repair: {remedy:remedy}, {share:odds}. Another check is worth its minutes first.",
    "verdict-proved": "Proved: {remedy:remedy}.",
    "proved-by": "{reading}: any other repair would have shown another figure.",
    "how-as-it-stands": "Leave it as it stands ({arrangement:arrangement}). {measure:take}",
    "internal-error": "Something went wrong inside Steadyhead ({what}). Please report it: this line, the command, "
    "and the visit file if there is one.",
}
