"""What the guide says at the panel, in English: short, one thing at a time, to wet hands and a tired head."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # a new file
    "guide-new": "A new visit. Two things from the {transducer:region}'s plate, then the checks. Unknown is normal: "
    "what you don't know stays open. Type help at any time.",
    "guide-asks-signal": "Signal on the plate? A number of this list, or as it is printed.",
    "guide-signal-taken": "Signal {signal}.",
    "guide-asks-range": "Range on the plate, with its unit? Such as 0..100 psi, or 10 bar for 0..10 bar.",
    "guide-file-made": "Kept in {file}.",
    "guide-asks-complaint": "What is wrong, in the customer's words? Enter alone leaves it out.",
    "guide-complaint-kept": "Kept.",
    "guide-folder-missing": "{file} cannot be made: there is no folder {folder}.",
    "guide-asks-history": "Since when, when does it show, and what came before it? Any of: {list}. Enter alone leaves "
    "it out.",
    "guide-no-history": "{got} has none of the words for it. Any of: {must_be}; or Enter alone.",
    "guide-history-kept": "Kept: {list}.",
    "guide-needs-a-file": "The guide needs a file to keep the answers in: steadyhead guide visit.toml.",
    "guide-needs-file-first": "First the plate, please: answer, or quit.",
    # going on
    "guide-goes-on": "Going on where this visit stands. Readings so far: {count}. Type help at any time.",
    "guide-file-changed": "The file was changed elsewhere meanwhile. Going on with what it says now.",
    "guide-left": "Kept in {file}. Go on with: steadyhead guide {file}",
    "guide-left-empty": "Nothing was kept: there was no answer yet.",
    # answers
    "guide-kept": "Kept. Reading {number}, {measure:what-read}, {figure}.",
    "guide-corrected": "Corrected. Reading {number}, {measure:what-read}, {figure}.",
    "guide-taken-out": "Taken out: reading {number}, {measure:what-read}, {figure}. The readings after it move up.",
    "guide-taken-back": "Taken back. The file is as it was before that answer.",
    "guide-declined": "Noted: this can't be done here. It won't be asked again. (back takes that back)",
    "guide-declined-hook-up": "Noted: {arrangement:arrangement} can't be done here. Nothing of that hook-up will be "
    "asked again. (back takes that back)",
    "guide-did-you-mean": "{typed} fits nothing that is still likely. Did you mean {meant}? yes; no, {typed} it is; or "
    "the right figure.",
    "guide-far-off": "{typed} is farther off than this loop can bring it. Right jack, right range, right unit? yes, it "
    "is {typed}; or the right figure.",
    "guide-nothing-typed": "Type the reading; can't, if it can't be done; skip for another check; help for the rest.",
    "guide-no-figure": "{got} has no figure. Type one ({unit} if you leave the unit out), such as 2.4, -0.3, 2 to 3 "
    "jumping, OL or pegged; or can't.",
    "guide-look-word": "{got} says neither. Type right, wrong or not seen; can't, if nobody can look.",
    "guide-shown-word": "{got} is no fault that is known here. Type one of: {must_be}; can't, if there is no "
    "display.{nearest:nearest}",
    "guide-perhaps-command": "Did you mean the command {word}?",
    "guide-no-command": "{got} is no command. The commands: {must_be}.{nearest:nearest}",
    "guide-rules-out": "That rules out: {faults:faults}.",
    "guide-rules-out-more": "That rules out: {faults:faults}; and {count} more.",
    "guide-take-again": "Reading {number} doesn't fit. Take it again: right jack, right range, right terminals. The "
    "same figure again stands.",
    # correcting
    "guide-asks-again": "Reading {number}, {measure:what-read}, {figure}. What is right? Enter alone leaves it; can't "
    "takes it out.",
    "guide-left-as-it-was": "Reading {number} stays as it was.",
    "guide-nothing-back": "There is nothing to take back yet. A slip on the plate is put right by set sensor.range or "
    "set sensor.signal.",
    "guide-fix-how": "Type fix and the number of the reading.",
    "guide-fix-which": "{got} is no reading. Type fix and its number, 1 to {count}: list shows them.",
    "guide-set": "Set: {key} = {value}.",
    "guide-set-how": "{got} sets nothing. Type set, the key and its value, such as: set sensor.range 0..150 psi, or "
    "set place.cock no.",
    # another check
    "guide-nothing-to-skip": "There is no check to pass over.",
    "guide-skip-which": "{got} is no check of the list. Type skip alone, or skip and a number up to {count}.",
    "guide-all-skipped": "You have passed over all that is worth its minutes, so the first comes again. Can't be done "
    "here? Type can't. Enough? Type quit.",
    "guide-prove-it": "Type prove to take the reading that would prove it.",
    "guide-nothing-proves": "There is no reading here that would prove it, or it is proved.",
    # repairs
    "guide-which-repair": "Which repair was made? Its number or its word; Enter alone goes on without.",
    "guide-repair-offered": "{number}: {remedy:remedy}",
    "guide-no-repair": "{got} is no repair that is known. Such as: {must_be}.{nearest:nearest}",
    "guide-done": "Noted: {remedy:remedy}. What was read before no longer counts. Now prove it.",
    "guide-proof-why": "A repair was made. This must read right before you leave.",
    "guide-mended": "Mended: all that must read right after this repair does. Put the covers back, and leave the "
    "drive ready to run.",
    "guide-asks-close": "Close the visit as {fault:fault}? yes; another fault's name; or Enter to leave it open.",
    "guide-closed": "Closed as {fault:fault}. Type quit; or list, fix, set.",
    "guide-left-open": "Left open. Type quit; or list, fix, set.",
    "guide-settled-help": "Done when it is mended: type done. Other words: list, fix, why, back, quit.",
    "guide-must-read": "Must read {band}.",
    "guide-must-agree": "Must agree with the gauge.",
    "guide-must-hold": "Read the pressure as it stands now: the next figures hang on it.",
    # the screen
    "guide-cautions-before": "As before: {list}.",
    "guide-pass-over": "If that can't be done here: can't. Or skip to",
    "guide-list-head": "What is in the file",
    "guide-list-none": "Nothing is in the file yet but the plate.",
    "guide-list-declined": "Can't be done here: {measure:what-read}",
    "guide-list-reading": "{number}  {measure:what-read}: {figure}",
    "guide-list-action": "Repair after reading {after}: {remedy:remedy}",
    "guide-settled-next": "When it is mended type done, and prove it. Or: why, list, fix, quit.",
    "guide-nothing-more": "Nothing more to check here. Type quit, or list, fix, why.",
    # help
    "guide-help-figure": "a figure, in the unit asked for or with its own: 2.41, 2.41 V, -0.3, 220k",
    "guide-help-jumping": "it will not stand still",
    "guide-help-ends": "past the end of the scale",
    "guide-help-look": "what a look has found",
    "guide-help-cannot": "it can't be done here; a reason may follow",
    "guide-help-why": "what is known so far, with the odds",
    "guide-help-reasons": "how each reading moved one suspect, such as: why sensor-low",
    "guide-help-skip": "another check; with a number, that one of the list",
    "guide-help-back": "take back the last answer",
    "guide-help-fix": "correct reading N; fix N 2.4 V does it at once",
    "guide-help-list": "all that is in the file",
    "guide-help-prove": "take the reading that would prove a best guess",
    "guide-help-done": "I made the repair",
    "guide-help-set": "put in what is known: set sensor.range 0..150 psi",
    "guide-help-cautions": "the cautions of this check in full",
    "guide-help-quit": "leave; every answer is kept, and the guide goes on later",
}
