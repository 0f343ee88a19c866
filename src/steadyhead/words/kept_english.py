"""Sentences of the commands that keep a repair, a night, a photo and the birth readings."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "kept-repair": "{remedy:Done}: kept with visit {visit}.",
    "kept-no-night": "Visit {got} waits for no night. Say so first: «steadyhead end {got} night-pending».",
    "kept-photo": "{file} kept with visit {visit}.",
    "kept-birth": "Kept with visit {visit}. This is what a later visit is held against:",
    "kept-birth-shown": "This is what a visit is held against:",
    "kept-birth-none": "No numbers yet. Keep some with «NUMBER=FIGURE»: {known}.",
    "kept-birth-pair": "{got} is no number with its figure. Write «NUMBER=FIGURE», such as «set=50 psi»; the numbers: "
    "{must_be}.",
}
