"""What goes wrong inside: a circuit without an answer, a published table asked too much, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "floating-node": "Nothing ties {point} to any voltage, so no meter could read it.",
    "no-operating-point": "No state was found in which this loop can stand (between {points}).",
    "gauge-grade-unknown": "There is no gauge grade {got}. The grades: {must_be}.",
    "gauge-class-unknown": "There is no gauge class {got}. The classes: {must_be}.",
    "pressure-unit-unknown": "The published table has no unit {got}. It has: {must_be}.",
    "outside-range-of-validity": "{quantity} {got} {unit} is outside what the published table is valid for: {must_be}.",
}
