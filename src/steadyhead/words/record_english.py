"""What is said about the record (facts, ids, a visit's archive), in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "fact-refused": "This record holds something that cannot be used: its {field} is {got}, and must be {must_be}.",
    "id-unreadable": "{got} is no id of the record. An id has 26 signs, such as 01ARZ3NDEKTSV4RRFFQ69G5FAV.",
    "visit-unknown": "There is no visit {got} here.",
    "ids-used-up": "No id comes after {got}.",
}
