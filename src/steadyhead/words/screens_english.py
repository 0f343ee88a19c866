"""What the program says of itself in English: its screens' heads and lines, words it does not know, how it ends."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # refusals and endings
    "region-unknown": "There is no region {got}. The regions: {must_be}.",
    "language-unknown": "There is no language {got} here. The languages: {must_be}.",
    "table-name-unknown": "There is no table {got}. The tables: {must_be}.",
    "internal-error": "Something went wrong inside Steadyhead ({what}). Please report it: this line, the command, "
    "and the visit file if there is one.",
    "file-fine": "{file}: fine. Readings: {count}.",
    # a diagnosis
    "system-line": "{transducer:Region} {range}, {signal}, {wires} wires.",
    "readings-none": "Nothing read yet.",
    "readings-one": "1 reading so far.",
    "readings-many": "{count} readings so far.",
    "reading-said": "Reading {number}, {what}, {figure}",
    "known-head": "What we know",
    "other-ruled-out": "and 1 other ruled out",
    "others-ruled-out": "and {count} others ruled out",
    "other-left": "and 1 other, {share:odds}",
    "others-left": "and {count} others, together {share:odds}",
    "verdict-open": "Most likely repair: {remedy:remedy}, {share:odds}. Another check is worth its minutes first.",
    "verdict-proved": "Proved: {remedy:remedy}.",
    "proved-by": "{reading}: any other repair would have shown another figure.",
    "before-mending": "Before you mend it. Local codes and a licensed person come first.",
    "assumed": "Assumed, since nobody said: {list}.",
    # what the complaint did
    "complaint-head": "What the call did to the odds, before the first reading; it proves nothing",
    "complaint-likelier": "{word:complaint}: {what:suspected}, {times:rough} times likelier",
    "complaint-less-likely": "{word:complaint}: {what:suspected}, {times:rough} times less likely",
    # the next check
    "next-check": "Next check, {minutes:minutes}",
    "how-as-it-stands": "Leave it as it stands ({arrangement:arrangement}). {measure:take}",
    "red-lead": "Red lead",
    "black-lead": "Black lead",
    "outcomes-head": "What it would mean",
    "outcomes-more": "or {count} more",
    "healthy-band": "Healthy would be {band}.",
    "band": "{low} to {high} {unit}",
    "band-above": "above {low} {unit} (OL)",
    "while-there": "While you are there: {list}.",
    "else-head": "If that can't be done here",
    "else-check": "{what} ({arrangement:arrangement}), {minutes:minutes}",
    "else-look": "{what}, {minutes:minutes}",
    # what should be read
    "pressure-needed": "No gauge reading stands in this file. Give the pressure to see the volts: --pressure "
    '"{example}".',
    "expect-head": "Healthy at {pressure:pressure}, everything connected, against {common:terminal}",
    "the-display": "the drive's display",
    "the-loop": "the loop",
    "plate-head": "{transducer:Region}'s plate, in tenths of its range",
    "plate-range": "of range",
    "plate-input": "V over the input",
    "plate-display": "display {unit}",
    "plate-no-display": "(No display: nobody read the drive's range setting.)",
    # lists
    "family-head": "{family}: {share} in 100 calls",
    "two-wires-only": "two wires only",
    "three-wires-only": "three wires only",
    "looks": "looks:",
    "then": "then:",
    "shares-note": "Shares are our own estimates (common practice), to be put right by your own visits.",
    "hook-ups-head": "Hook-ups: set up, and one reading",
    "covers-on-head": "With the covers on",
    "looks-head": "Looks",
    "with-one-of": "with {list}",
    "states-note": "{list}.",
    "minutes-note": "Minutes are our own estimates; a site's walk from panel to plug changes them. Setting up is paid "
    "once, each further reading there takes a minute.",
    "one-table": "One of them with its figures and sources: steadyhead tables NAME",
    "valid-for": "Valid: {list}.",
    "source-read": "{cite}, {locator}.",
    "source-copied": "{cite}, {locator}, read in a copy: {via}.",
    "source-remembered": "{cite}, {locator}, from memory.",
    "source-head": "Source:",
    # the worked example
    "introduction": "Steadyhead finds what is at fault in the pressure-sensor loop of a constant-pressure water "
    "system. This is an invented visit, half-way:",
    "try-head": "What to try next",
    "try-diagnose": "the same for your own visit file",
    "try-expect": "what every point should read",
    "try-check-file": "what is wrong with a file, line by line",
    "try-faults": "every fault and what it looks like",
    "try-checks": "every check and its minutes",
    "try-help": "everything else",
}
