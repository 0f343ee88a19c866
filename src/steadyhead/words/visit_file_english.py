"""What is wrong with a visit file, in English: one sentence for each message of `steadyhead.visit`.

Rules
-----
1. The place (file, line, key) is said before the sentence, by whoever prints the problem; the sentence says what was
   got and what would do.
2. A value in braces is the message's value of that name; a list of words is joined by commas, the nearest first.
3. `:pressure` after a name is a figure in pascal, to be said in the region's unit.
"""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # the file as a whole
    "visit-file-refused": "{file} cannot be used: {problems} to put right. Nothing in it was changed.",
    "file-missing": "There is no file {file}.",
    "file-is-folder": "{file} is a folder. Name the visit file inside it.",
    "file-forbidden": "{file} may not be read by this user.",
    "file-not-regular": "{file} is no file that can be read whole.",
    "file-unreadable": "{file} cannot be read: {reason}.",
    "file-unwritable": "{file} cannot be written: {reason}. The old file is as it was.",
    "file-too-large": "{file} has {got_bytes} bytes. A visit file has {most_bytes} at most, so it was not read.",
    "file-is-zip": "{file} is a zip archive. A whole visit's name ends in .visit; else name the visit.toml inside.",
    "file-is-binary": "{file} is no text: line {line} holds a NUL byte. A visit file is a TOML text.",
    "text-is-utf-16": "{file} is text in UTF-16. Save it as UTF-8.",
    "text-not-utf-8": "Line {line} of {file} has the byte {byte}, which is no UTF-8 "
    "(a '{perhaps}' of an older encoding?): {quoted}. Save the file as UTF-8.",
    # its syntax
    "toml-quotes-missing": "{quoted} needs quotes round its value: {must_be}",
    "toml-said-twice": "{quoted} stands in the file twice. Keep one of them.",
    "toml-syntax": "{quoted} cannot be read at column {column} ({reason}).",
    "toml-too-deep": "Brackets or dots are nested more than {most} deep here. A visit file needs three.",
    # its tables and keys
    "schema-newer": "This file follows schema {got}, this program knows up to {must_be}. Open it with a newer version.",
    "schema-unknown": "{got} is no schema. Write schema = {must_be}, without quotes.",
    "table-unknown": "There is no table {got}. The tables, nearest first: {must_be}.",
    "table-needs-double-brackets": "{got} needs double brackets: {must_be}, once for each.",
    "table-needs-single-brackets": "{got} needs single brackets, and stands once: {must_be}.",
    "key-outside-table": "{got} stands before the first table. It belongs to: {must_be}.",
    "key-unknown": "{table} has no key {got}. Its keys, nearest first: {must_be}.",
    "key-of-another-table": "{got} belongs to {belongs_to}, not to {table}. The keys of {table}: {must_be}.",
    "key-missing": "{key} is missing. Write {must_be}.",
    "key-missing-for-measure": "{key} is missing: {measure} needs it. Write {must_be}.",
    "key-not-for-measure": "{got} does not go with {measure}. Its own keys: {must_be}.",
    "more-problems": "There are more than {most} problems; the rest is not listed.",
    # one value
    "value-wrong-type": "{got} is {is_a}. Write {must_be}.",
    "number-without-unit": "{got} has no unit. Write {must_be}.",
    "word-unknown": "{got} is not one of the words for this. Allowed, nearest first: {must_be}.",
    "text-too-long": "The text has {length} characters; {most} are the most.",
    "not-above-zero": "{got} must be above zero.",
    "outside-limits": "{got} cannot be: from {least} to {most}.",
    "count-unreadable": "{got} is no number of times. Write {must_be}.",
    "current-not-ratiometric": "{got}: only volts can be ratiometric. Write {must_be}.",
    # between values of the system
    "fault-limits-crossed": "The low limit {got} must be below the high limit {below}.",
    "supply-outside-limits": "The supply {got} is outside its own limits {must_be}.",
    "volts-need-three-wires": "A sensor that puts out volts has three wires: supply, common and signal, not {got}.",
    "scale-below-vacuum": '{got} begins below the deepest vacuum. Write {must_be}, or reference = "absolute" for '
    "the sensor.",
    "point-not-in-system": "This system has no {got}. Its points, nearest first: {must_be}.",
    # between values of a reading
    "point-not-in-arrangement": "No lead can be on {got} while the loop stands {arrangement}. Its points: {must_be}.",
    "leads-on-one-point": "Both leads are on {got}. The other lead can be on: {must_be}.",
    "arrangement-not-for-measure": "{measure} cannot be read {got}. It is read in: {must_be}.",
    "ohms-on-live-loop": "Ohms mean nothing while the loop stands {got}: something feeds it. Read them in: {must_be}.",
    "source-not-in-arrangement": "A source goes with {must_be} only, not with {got}.",
    "hertz-without-fixed-speed": 'Hertz go with drive = "{must_be}" only.',
    "pressure-below-vacuum": "{got} is below absolute zero. This gauge can show no less than {deepest_pa:pressure} "
    "here.",
    "after-reading-outside": "There is no reading {got}. Write a number from 0 to {most}.",
    # how the visit ended
    "fault-not-in-system": "This system cannot have {got}. Its faults, nearest first: {must_be}.",
    "pair-of-one": "{got} names one fault twice. Write {must_be}.",
    # edits
    "reading-unknown": "There is no reading {got}: the file has {most}.",
    "rows-written-inline": "The rows stand in one list in brackets. Write each under its own double-bracket line "
    "first.",
    "figures-not-rising": "These figures must rise: {got}.",
    "number-plain-unreadable": "{got} cannot be read. It must be {must_be}.",
    "believed-twice": "{got} stands in it twice. Each fault or pair stands once.",
    "believed-too-much": "The shares come to {got}. Together they may come to 100 % at most.",
    "day-unreadable": "{got} is no day. It must be {must_be}.",
    "loop-another": "This is of another loop, {got}; this version reads one loop a system, {must_be}.",
}
