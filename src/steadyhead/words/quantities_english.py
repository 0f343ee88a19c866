"""How a text that is no quantity is refused, in English: what was got and what would do."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "quantity-empty": "There is nothing here. Write {must_be}.",
    "quantity-too-long": "{got} is too long: {most} characters are read. Write {must_be}.",
    "number-missing": "{got} has no number. Write {must_be}.",
    "number-unreadable": "The number in {got} cannot be read. Write {must_be}.",
    "number-ambiguous": "{got} can be read in two ways. Write one of: {must_be}.",
    "number-out-of-range": "{got} is too large or too small. Write {must_be}.",
    "unit-missing": "{got} has no unit. Write {must_be}.",
    "unit-unknown": "{unit} in {got} is no unit that is known. Write {must_be}.{nearest:nearest}",
    "unit-of-another-kind": "{unit} in {got} is a unit of {is_a}. Write {must_be}.{nearest:nearest}",
    "pressure-must-be-gauge": "{got} says absolute. Write {must_be}.",
    "pressure-must-be-absolute": "{got} says gauge. Write {must_be}.",
    "below-absolute-zero": "{got} is below absolute zero. Write {must_be}.",
    "wire-gauge-unknown": "{got} is no wire gauge of the table. Write {must_be}.",
    "range-expected": "{got} has one end only. Write {must_be}.",
    "range-hyphen-ambiguous": "The hyphen in {got} can be a sign or stand between two ends. Write {must_be}.",
    "range-not-rising": "In {got} the second end must be above the first. Write {must_be}.",
    "tolerance-unreadable": "{got} is no accuracy. Write {must_be}.",
    "tolerance-counts-need-size": "{got} does not say how large a count is. Write {must_be}.",
    "tolerance-not-positive": "{got} must be above zero. Write {must_be}.",
}
