"""What a sensor check says of its run: its points, its figures, its file, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "line-needs-two-places": "A line needs readings at two different places at least.",
    "no-readings": "There is no reading to take a mean of.",
    "line-is-level": "The line is level: no reading of it tells where on it one stands.",
    "fit-lengths-differ": "A line needs as many of each: there are {got}.",
    "fit-uncertainty-not-positive": "An uncertainty of {got} gives a point no weight: it must be above zero.",
    "fit-does-not-settle": "No line was found in {steps} steps; the points are too near to each other for what is "
    "known of them.",
    "air-pressure-assumed": "Nobody said how high the site lies or what the air weighs: sea level is assumed.",
    "point-without-display": "Point {point} is left out: what the display showed was not read.",
    "point-without-signal": "Point {point} is left out: the signal was not read.",
    "point-without-supply": "Point {point} is left out: this {transducer:region}'s signal counts only with its power "
    "read at the same moment.",
    "zero-not-reached": "The lowest point is at {lowest:pressure}: the zero is drawn on from there, not read.",
    "top-not-reached": "The highest point is at {highest:pressure}, {share:rough-percent} of the range: what lies "
    "above was not checked.",
}
