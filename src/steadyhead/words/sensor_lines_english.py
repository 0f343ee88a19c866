"""What a house call reads of a sensor check: five lines after it, and one before it."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # ------------------------------------------------ before
    "plan-convicts": "With this gauge you can convict only beyond ±{beyond:pressure} (allowed: {tolerance:pressure}), "
    "and clear only within ±{within:pressure}.",
    "plan-convicts-only": "With this gauge you can convict only beyond ±{beyond:pressure} (allowed: "
    "{tolerance:pressure}), and clear nothing.",
    "plan-decides-nothing": "With this gauge you can decide nothing about {tolerance:pressure}.",
    "figure-without-end": "without end",
    # ------------------------------------------------ after
    "lines-checked": "{transducer:Region} {serial}: {count} readings from {low:pressure} to {high:pressure}, "
    "{share:rough-percent} of its range.",
    "lines-checked-no-serial": "{transducer:Region}: {count} readings from {low:pressure} to {high:pressure}, "
    "{share:rough-percent} of its range.",
    "lines-pass": "Good: nowhere off by more than {worst:pressure}; {tolerance:pressure} is allowed.",
    "lines-fail-high": "Not good: it reads {worst:pressure} high at {at:pressure}; {tolerance:pressure} is allowed.",
    "lines-fail-low": "Not good: it reads {worst:pressure} low at {at:pressure}; {tolerance:pressure} is allowed.",
    "lines-fail-sticks": "Not good: going up and coming down differ by {worst:pressure} at {at:pressure}; "
    "{tolerance:pressure} to either side is allowed.",
    "lines-cannot-tell": "Cannot tell: it reads up to {worst:pressure} off, {tolerance:pressure} is allowed, and gauge "
    "and meter are too coarse to say.",
    "lines-kind-one-level": "One pressure alone does not show what kind of error it is.",
    "lines-kind-none": "No kind of error stands out: none is above {greatest:pressure}.",
    "lines-kind-mixed": "More than one thing is off: its zero by {zero:pressure}, its span by {span:pressure}.",
    "lines-kind-zero": "It is off by about as much everywhere: its zero has moved by {off:pressure}.",
    "lines-kind-span": "It is off the more the higher the pressure: its span by {off:pressure}.",
    "lines-kind-bend": "It is bent: {off:pressure} in the middle that no setting takes away.",
    "lines-kind-sticks": "It sticks: going up and coming down differ by {off:pressure}.",
    "lines-sure": "Gauge, meter and readings together are good to {expanded:pressure} there ({chance:odds}).",
    "lines-do-nothing": "Leave it as it is, and its setting too.",
    "lines-do-not-condemn": "Do not replace it on these figures.",
    "lines-do-set": "Set the controller's range to {low:pressure} .. {high:pressure}: that leaves {left:pressure}.",
    "lines-do-set-and-replace": "Set the controller's range to {low:pressure} .. {high:pressure} for now (leaves "
    "{left:pressure}), and replace it: what moved so far moves on.",
    "lines-do-read-display": "If the controller's range was set anew, take the points by its display: the signal alone "
    "stays off.",
    "lines-do-replace": "Replace it: no setting puts it right.",
}
