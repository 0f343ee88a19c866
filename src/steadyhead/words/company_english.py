"""What is said of a company's own estimates, of learning, and of what to load, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # the company's file
    "company-file-refused": "{file} cannot be used: {problems} to put right.",
    "company-schema": "A company's file begins with schema = {must_be}, without quotes; here it is {got}.",
    "company-file-needed": "{got} is no file that could be changed. Name the company's file.",
    "nothing-to-undo": "Nothing to take back in {file}: no command changed it, or somebody edited it since.",
    "folder-missing": "There is no folder {folder}.",
    "took-unknown": "{got} is no row with minutes, or has no list of times. The rows, nearest first: {must_be}.",
    # the estimates
    "estimates-of": "The company's file: {file}. Visits learnt: {visits}.",
    "estimates-shipped": "No company's file: every figure is as shipped.",
    "estimates-own": "* put in by the company; the figure in use is the second one where two stand.",
    "estimates-odds": "Odds before the first reading, as shipped and with the company's figures",
    "estimates-odds-line": "{fault:fault}: {before:odds}, then {after:odds}",
    "estimates-odds-same": "nobody's move so far that it could be said",
    "estimates-checks": "First checks, as shipped",
    "estimates-checks-own": "First checks, with the company's figures",
    "estimates-no-checks": "none is worth its minutes",
    # what to load
    "pack-trips": "Of 100 visits like this one {before} need a second trip for a part as the van stands, {advised} "
    "with what is advised. Against the last {floor} nobody can load.",
    "pack-at-hand": "At hand already: {list}.",
    "pack-load": "Load, in this order",
    "pack-needed": "needed, in 100",
    "pack-second": "then second trips",
    "pack-rest": "Not worth the loading: {list}.",
    "pack-unproved": "Were every check made that they allow, the repair would stay undecided in {before} of 100 at "
    "best; with every instrument in {floor}.",
    "pack-enough": "No other instrument is worth the loading.",
    "pack-bare": "No instrument is said to be at hand.",
    "pack-carry": "Carry, in this order",
    "pack-left": "then undecided",
    # learning
    "lesson-files": "Files: {learnt} learnt, {known} known already, {open} not closed, {refused} no visit files.",
    "lesson-nothing": "Nothing to learn: no figure moved.",
    "lesson-head": "What moved, before and after",
    "lesson-second": "Second trips: {needed} of {of} visits that say so.",
    "lesson-written": "Written to {file}. To take it back: steadyhead learn --undo, with the same --company.",
    "lesson-dry": "Nothing was written.",
    "lesson-undone": "{file} is as it was before.",
    "lesson-gone": "{file} is gone again: it was made by learning.",
    "folder-needed": "Which folder holds the closed visits? Name it, or take the last lesson back with --undo.",
}
