"""What is said about the record (facts, ids, a visit's archive), in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "fact-refused": "This record holds something that cannot be used: its {field} is {got}, and must be {must_be}.",
    "id-unreadable": "{got} is no id of the record. An id has 26 signs, such as 01ARZ3NDEKTSV4RRFFQ69G5FAV.",
    "id-taken": "Something else in the record has the id {got} already. Open the page again.",
    "ids-used-up": "No id comes after {got}.",
    "visit-unknown": "There is no visit {got} here.",
    "visit-erased": "The visit {got} was erased.",
    "entity-unknown": "There is nothing with the id {got} here.",
    "entity-erased": "What had the id {got} was erased.",
    "reading-not-here": "This visit has no reading {got}.",
    "photo-too-large": "This photo has {got_bytes} bytes. A photo has {most_bytes} at most.",
    "photo-unknown": "This is no photo that can be kept: it begins with {got}. It must be one of: {must_be}.",
    "note-empty": "There is nothing in this note.",
    "entry-refused": "This cannot be kept as it stands: {problems} to put right. Nothing was changed.",
}
