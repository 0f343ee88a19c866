"""What the pages of a sensor check say, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "sensor-title": "{transducer:Region} check",
    # where a check begins
    "sensor-check-this": "Check this {transducer:region}",
    "sensor-begin-head": "Check a {transducer:region} against a gauge",
    "sensor-begin-note": "What is known stands here already. Put right what differs; leave empty what nobody knows.",
    "sensor-begin": "Begin the check",
    "sensor-setup": "What it is compared with",
    "sensor-setup-keep": "Keep",
    "sensor-checks": "{transducer:Region} checks",
    "sensor-unfinished": "Unfinished {transducer:region} checks",
    "sensor-line": "{stage}, {when}",
    "sensor-line-serial": "{stage}, {when}, number {serial}",
    # the check
    "sensor-decides-both": "With this gauge you can convict only beyond \u00b1{convicts:pressure}, and clear only "
    "within \u00b1{clears:pressure}.",
    "sensor-decides-convicts": "With this gauge you can convict only beyond \u00b1{convicts:pressure}; clear it you "
    "cannot.",
    "sensor-decides-nothing": "With this gauge nothing can be decided about this {transducer:region}. Take a better "
    "one.",
    "sensor-next": "{mark} {pressure:pressure} on the gauge",
    "sensor-progress": "Point {number} of {count}",
    "sensor-take-head": "Take a point",
    "sensor-take-note": "Let the pressure stand still, then read gauge and {transducer:region} at the same moment.",
    "sensor-all-taken": "All planned points are taken.",
    "sensor-one-more": "One more point",
    "sensor-result": "What it says",
    "sensor-more": "More of this check",
    "sensor-pages": "Pages of this check",
    "sensor-notes": "What this stands on",
    "sensor-cautions-before": "Cautions that were told at the start",
    "sensor-way": "Which way it came",
    "sensor-keep-point": "Keep this point",
    "sensor-points": "Points so far",
    "sensor-points-none": "No point yet.",
    "sensor-point": "Point",
    "sensor-read": "Read",
    "sensor-error": "Error, {unit}",
    "sensor-finish": "I am done",
    "sensor-again": "Take more points",
    "sensor-finished": "Finished.",
    "sensor-out": "Take the whole check out",
    "sensor-no-tolerance": "Its plate gives no accuracy, so nothing says how far it may be off. 1 % of span is usual "
    "(common practice).",
    # a table of points
    "sensor-table-head": "Points from a table",
    "sensor-table-note": "The first line names the columns with their units, such as: reference [psi], signal [V], "
    "supply [V]. All of it is kept, or nothing.",
    "sensor-table-file": "A file of comma-separated values",
    "sensor-table-pasted": "Or pasted here",
    "sensor-table-keep": "Take these points in",
    "sensor-table-line": "Line {line}",
    # one point
    "sensor-point-now": "Kept:",
    "sensor-point-out": "Take this point out",
    "sensor-point-in": "Let it count again",
    # the picture
    "sensor-plot-title": "Error against pressure",
    "sensor-plot-error": "Error, {unit}",
    "sensor-plot-pressure": "Pressure at the {transducer:region}, {unit}",
    "sensor-plot-allowed": "allowed \u00b1{allowed}",
    "sensor-plot-next": "next: {pressure:pressure}",
    "sensor-plot-up": "going up",
    "sensor-plot-down": "going down",
    "sensor-plot-bar": "known within",
    "sensor-plot-empty": "No point yet.",
    "sensor-plot-point": "at {where}: {error}.",
}
