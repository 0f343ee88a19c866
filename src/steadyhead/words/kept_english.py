"""Sentences of the commands that keep a repair, a night, a photo, the birth readings, and what was left open."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "kept-repair": "{remedy:Done}: kept with visit {visit}.",
    "kept-parts-unequal": "Of {key} there are {got:plain}. There must be {must_be:plain}, one for each part: «\"\"» "
    "stands for what is not known.",
    "kept-no-night": "Visit {got} waits for no night. Say so first: «steadyhead end {got} night-pending».",
    "kept-photo": "{file} kept with visit {visit}.",
    "kept-birth": "Kept with visit {visit}. This is what a later visit is held against:",
    "kept-birth-shown": "This is what a visit is held against:",
    "kept-birth-none": "No numbers yet. Keep some with «NUMBER=FIGURE»: {known}.",
    "kept-birth-pair": "{got} is no number with its figure. Write «NUMBER=FIGURE», such as «set=50 psi»; the numbers: "
    "{must_be}.",
    "kept-left-open-none": "Visit {got} carries nothing that the visit before left open: only what ended watched does.",
    "kept-left-open-both": "--leave-out and --count were given: it must be one of the two.",
}
