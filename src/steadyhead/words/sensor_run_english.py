"""What a sensor check says of its run: its points, its figures, its file, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "line-needs-two-places": "A line needs readings at two different places at least.",
    "no-readings": "There is no reading to take a mean of.",
    "no-usable-point": "No point says anything of the {transducer:region} yet: take some first.",
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
    "nothing-to-check": "From {lowest:pressure} to {highest:pressure} there is too little of the "
    "{transducer:region}'s range to check (where it ends: {limited_by:limit}). Isolate the {transducer:region} and "
    "use a hand pump.",
    "fire-pump-refused": "Never on a fire pump: that is work for those who are licensed for it.",
    "watch-while-raised": "Stay beside the pump while pressure is raised, with a hand on the stop. Never above "
    "relief valve or weakest part.",
    "reach-static": "Read at rest, at {pressure:pressure}.",
    "reach-again": "Stay at {pressure:pressure}, and read again.",
    "reach-vented": "Let all pressure off, so that gauge and {transducer:region} stand open to the air.",
    "reach-drained": "Pump stopped, let the water down until gauge and {transducer:region} stand open to the air.",
    "reach-pumped-up": "Pump up slowly to {pressure:pressure}; if you overshoot, go back below and come up again.",
    "reach-let-down": "Let down slowly to {pressure:pressure}; if you undershoot, go back above and come down again.",
    "reach-by-setpoint": "Raise the set pressure to {pressure:pressure}, no water running; let it settle a minute.",
    "reach-by-draw": "Lower the set pressure, let a little water run until {pressure:pressure}, shut the tap; let it "
    "settle a minute.",
    "plan-ends-below-top": "The check ends at {highest:pressure}, not at {top:pressure} (where it ends: "
    "{limited_by:limit}).",
    "plan-limits-unknown": "Nobody said what relief valve and weakest part stand, so nothing goes above "
    "{highest:pressure}, where the system runs anyway. Look at their plates first.",
    "plan-begins-above-zero": "The check begins at {lowest:pressure}: the zero itself is not read.",
    "plan-hand-pump-would-do-more": "With a cock at the {transducer:region} and a hand pump the whole range to "
    "{top:pressure} can be checked.",
    "adjust-needs-levels": "A new range setting needs points at {least} different pressures at least; there are {got}.",
    "adjust-needs-range": "The points cover {got:rough-percent} of the range; a new range setting needs "
    "{least:rough-percent}.",
    "adjust-too-bent": "This {transducer:region} is not straight enough: {bend:pressure} of bend and of difference up "
    "and down stay whatever is set, and at most {allowed:pressure} may. Replace it.",
    "adjust-mere-noise": "Leave the setting: the change, {change:pressure}, is no more than the readings and the gauge "
    "are unsure of, {expanded:pressure}.",
    "adjust-not-needed": "It is within what is allowed as it is: a new setting only makes it better.",
    "adjust-without-tolerance": "Nobody said how good this {transducer:region} must be, so its bend was judged by "
    "nothing.",
    "adjust-setting-assumed": "The controller's setting was not read: it was taken for the {transducer:region}'s "
    "range.",
    "adjust-drawn-on": "Points go up to {highest:pressure}, {share:rough-percent} of the range: the setting is drawn "
    "on to its end.",
    "adjust-write-down-old": "Write the old setting down first, and check at two pressures after.",
    "no-level-in-common": "The two runs have no pressure in common.",
    "serial-unknown": "Without its serial number a {transducer:region} has no earlier checks.",
    "check-file-refused": "{file} cannot be used: {problems} to put right. Nothing in it was changed.",
    "signal-slipped-volts": "{got:volts} is no signal of this {transducer:region} ({low:volts} to {high:volts}): a "
    "unit or a decimal sign slipped.",
    "signal-slipped-current": "{got:milliamps} is no signal of this {transducer:region} ({low:milliamps} to "
    "{high:milliamps}): a unit or a decimal sign slipped.",
    "supply-slipped": "{got:volts} is no power of this {transducer:region}, which never has more than {most:volts}: a "
    "unit or a decimal sign slipped.",
    "pressure-slipped": "{got:pressure} is no pressure for a {transducer:region} of {low:pressure} to {high:pressure}: "
    "a unit or a decimal sign slipped.",
    "adjust-in-absolute": "These are absolute pressures, as on the {transducer:region}'s plate.",
    "csv-empty": "There is no point in it: a first line with the columns, then a line for each point.",
    "csv-quotes": "A quotation mark is opened and not closed, or stands within a cell.",
    "csv-column-missing": "There is no column {column}. It must be {must_be}.",
    "csv-column-unknown": "There is no column {got}.{nearest:nearest} The columns: {must_be}.",
    "csv-column-twice": "There are two columns {got}.",
    "csv-column-without-unit": "This column has no unit, and its head says {got}.",
    "csv-too-many-cells": "This line has {got} cells, and its head {must_be}. A decimal comma? Then part the cells by "
    "semicolons.",
    "csv-both-signs": "Some numbers have a decimal point and some a decimal comma. Use one of them.",
    "csv-unit-twice": "{got} is no plain number, and the head says {unit} already. Say the unit once.",
    "drift-needs-two-days": "A drift needs checks on two different days at least; there is {got}.",
}
