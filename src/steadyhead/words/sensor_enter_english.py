"""What is said while a sensor check is entered point by point, and how its screens are headed."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # ------------------------------------------------ a file that is not there yet
    "enter-new-file": "{file} is not there yet: what stands on the plates? An empty line leaves a question out.",
    "enter-file-made": "Kept in {file}.",
    "enter-question": "{table:asked-table}. {says} ({must_be})",
    # ------------------------------------------------ point by point
    "enter-resumed": "{count} points are kept, {left} are left.",
    "enter-changed": "{file} was changed meanwhile: it was read again, and the last line left out.",
    "enter-step": "Point {place} of {count} (cycle {cycle} of {cycles}).",
    "enter-all-taken": "All points are taken. An empty line ends; again takes the last one anew, undo takes it out, "
    "fix 2 takes the second anew.",
    "enter-value-again": "Taken back.",
    "enter-nothing-to-undo": "No point is kept yet.",
    "enter-undone": "Point {number} is taken out.",
    "enter-fix": "Point {number} anew, in its place; it was taken at {pressure:pressure}. undo leaves it as it was.",
    "enter-fix-how": "Type fix and the number of the point.",
    "enter-fix-which": "{got} is no point. Type fix and its number, 1 to {count}: list shows them.",
    "enter-fix-left": "Point {number} is left as it was.",
    "enter-listed-volts": "Point {number}: {pressure:pressure}, {signal:volts}",
    "enter-listed-milliamps": "Point {number}: {pressure:pressure}, {signal:milliamps}",
    "enter-listed-shown": "Point {number}: {pressure:pressure}, display {displayed:pressure}",
    "enter-reads-high": "Point {number} kept: it reads {error:pressure} high ({tolerance:pressure} is allowed).",
    "enter-reads-low": "Point {number} kept: it reads {error:pressure} low ({tolerance:pressure} is allowed).",
    "enter-another-level": "{pressure:pressure} is not where this point was wanted ({wanted:pressure}): kept as an "
    "extra one, and asked for again.",
    "enter-wrong-way-up": "The pressure came down to this point, and should have come up: undo, go below, come up "
    "again.",
    "enter-wrong-way-down": "The pressure came up to this point, and should have come down: undo, go above, come down "
    "again.",
    "enter-help": "A figure, with or without its unit; again, undo, fix 2, list, skip, quit. Every point is kept at "
    "once.",
    "enter-quit-open": "{count} points are kept in {file}, {left} are left. The same command goes on.",
    "enter-quit-done": "{count} points are kept in {file}.",
    "enter-ask": "  {figure:figure} [{unit}]: ",
    "enter-needs-a-file": "Points are entered into a file of your own, not standard input.",
    "points-taken": "{count} points were added to {file}.",
    # ------------------------------------------------ screens
    "checked-plan-head": "{count} points, {minutes:minutes}. Before the first:",
    "checked-plan-left": "Still to be taken: {left}.",
    "checked-plan-steps": "Points",
    "checked-never": "never",
    "checked-notes": "Besides",
    "checked-more": "More: --full, --trace, or `steadyhead sensor-check adjust`.",
    "checked-levels": "Level by level",
    "checked-characteristics": "What kind of error",
    "checked-rule-guard-band": "Decided with a guard band of {guard} times the expanded uncertainty ({coverage:odds}): "
    "allowed is {tolerance:pressure}.",
    "checked-rule-simple": "Decided by the tolerance alone, {tolerance:pressure}; the risk is shared.",
    "checked-rule-specific-risk": "Decided where the chance of being wrong is under {risk:rough-percent}: allowed is "
    "{tolerance:pressure}.",
    "checked-budget": "What the {expanded:pressure} at {at:pressure} are made of (k = {k}, {dof} degrees of freedom)",
    "checked-budget-without-end": "What the {expanded:pressure} at {at:pressure} are made of (k = {k})",
    "checked-drift": "In a year its zero drifts by {zero:pressure} (checks of {days}).",
    "checked-drift-known": "In a year its zero drifts by {zero:pressure}, known to {known:pressure} (checks of "
    "{days}).",
    "checked-trace": "How each figure came about",
    "checked-trace-formula": "= {formula}",
    "checked-trace-given": "given: {whence}",
    "checked-trace-source": "after {cite}, {locator} ({seen})",
    "checked-adjust-set": "Set the controller's range to {low:pressure} .. {high:pressure} (now {was_low:pressure} .. "
    "{was_high:pressure}).",
    "checked-adjust-not": "Leave the controller's range at {was_low:pressure} .. {was_high:pressure}:",
    "checked-adjust-left": "Greatest error: {before:pressure} as found, {after:pressure} after it.",
    "rule-unknown": "There is no rule {got}.{nearest:nearest} It must be one of: {must_be}.",
    "purpose-unknown": "There is no purpose {got}.{nearest:nearest} It must be one of: {must_be}.",
}
