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
    "photo-none": "No photo came with it.",
    "photo-broken": "This photo is cut off or damaged, so it was not kept. Take it once more.",
    "photo-unknown": "This is no photo that can be kept: it begins with {got}. It must be one of: {must_be}.",
    "note-empty": "There is nothing in this note.",
    "file-is-whole-visit": "{file} is a whole visit with facts and photos. Save the text beside it, as a .toml.",
    "archive-damaged": "{file} is damaged and was not read ({reason}). Nothing was changed.",
    "archive-too-large": "{file} is larger than {most_bytes} bytes, the most that a visit has. Nothing was changed.",
    "archive-too-many": "{file} has {count} parts. A visit has {most} at most. Nothing was changed.",
    "archive-part-refused": "{file} holds a part that no visit has, {got}, so it was not read. Nothing was changed.",
    "archive-part-too-large": "The part {got} of {file} is larger than {most_bytes} bytes. Nothing was changed.",
    "archive-without-visit": "{file} is no visit: it has no {must_be}. Nothing was changed.",
    "archive-line-refused": "Line {line} of the facts in {file} cannot be used: {field} is {got}, and must be "
    "{must_be}. Nothing was changed.",
    "archive-photo-wrong": "The photo {got} in {file} is not the one that was packed. Nothing was changed.",
    "archive-from-afar": "{file} holds facts dated {got}, years from now. Set the clock right here or there, then try "
    "again. Nothing was changed.",
    "visits-none": "There is no visit in this record yet.",
    "visits-line": "{visit}  {state}, readings: {count}",
    "export-suffix": "{got} does not end in {must_be}, as a whole visit does.",
    "export-taken": "{file} is there already. Nothing is written over.",
    "export-done": "Written: visit {visit}, whole, in {file} ({size} bytes).",
    "import-done": "Taken in from {file}: visit {visit}, {count} facts that were new here.",
    "import-collisions": "{count} facts came with another content than stands here; one of the two was kept. "
    "Somebody has changed what must not change.",
    "import-unknown": "Passed over, since a newer version wrote it: {list}.",
    "entry-refused": "This cannot be kept as it stands: {problems} to put right. Nothing was changed.",
}
