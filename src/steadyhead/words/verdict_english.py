"""Where a diagnosis stands, what surprises, and how large a fault is, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "more-to-learn": "Most likely: {remedy:remedy}. Another check is worth its minutes first.",
    "no-check-worth-it": "Best guess: {remedy:remedy}. No check left is worth its minutes, and no meter reading "
    "proves it yet.",
    "reading-would-prove": "Best guess: {remedy:remedy}. No check left is worth its minutes; what would prove it: "
    "{measure:reading-of} ({arrangement:arrangement}).",
    "meter-would-explain": "Most likely: {remedy:remedy}. But a healthy loop read by one wrong meter would show the "
    "same: prove the meter on a source that you know before a part is bought.",
    "reading-convicts": "Reading {reading} would have come out differently for any other repair: "
    "{measure:reading-of} ({arrangement:arrangement}).",
    "nothing-explains": "doesn't fit, take it again",
    "outside-gauge-scale": "outside the gauge's scale: not to be trusted, take it again with another gauge",
    "check-besides": "Once that is done, read again before you leave: {share:odds} that this hides a second fault, "
    "{fault:fault}. Then also {remedy:remedy}.",
    "cause-surge-input": "one surge took both",
    "cause-surge-power": "one surge took both",
    "cause-shorted-power": "the short came first and overloaded the sensor power; find it, or the new board goes the "
    "same way",
    "cause-wet-plug": "the water in the plug came first; seal it, or the new one drowns too",
    "cause-wet-power": "the damp came first and overloaded the sensor power",
    "cause-cooked": "the wrong wires came first; put them right before a new one goes on",
    "cause-falling-column": "the tapping came first: it hangs on the column that falls back",
    "cause-frost": "one frost did both",
    "severity": "{unit:sized}",
    "default": "{key} = {value:assumed} (not given)",
    "default-told": "{key:key} {value:assumed}",
}
