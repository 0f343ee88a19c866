"""The words between the figures of a formula: a sum, a mean, a line, which another language says in its own.

Rules
-----
1. A formula is taken apart by the templates of `FORMULAS`, the first that fits, as `steadyhead.words.phrases` does it.
2. What is left are ids of figures and signs; whoever says the formula puts the figures' names in.
"""

from __future__ import annotations

FORMULAS = (
    "mean of {trials} trials (seed {seed}) of {formula}",
    "quantile of Student's t at {share}, {dof}",
    "derivative of the result by {input}",
    "slope of {figure} over years",
    "least-squares line of {y} on {x}, drawn on to {end}",
    "least-squares line of {y} on {x}, at this end of the signal",
    "weight of this cause after all readings / weight of all causes after all readings",
    "odds of this fault after the reading / odds before it",
    "what the loop gives with this cause in it, over its sizes and places, widened by the instrument",
    "what the healthy loop shows, less {off}",
    "what the healthy loop shows, and {off}",
    "twice the root of the sum of squares of what gauge, sensor, sensor power and instrument may be off",
    "max |error at the lowest level after a cycle - before it|",
    "max |difference of two series of one direction, each freed of its zero|",
    "max (greatest error - least error) of one level from one direction",
    "max |{figure} - the line through the lowest and the highest level|",
    "max |{figure} - the least-squares line|",
    "max |{figure} - the line that makes it least|",
    "mean |{difference}| over the cycles",
    "{figure} as left - {before} as found",
    "greatest of all errors",
    "least of all errors",
    "{error} - zero of the series",
    "sqrt(sum of {one} + 2 sum of {other})",
    "sqrt(sum of {one})",
    "sqrt(sum of {one}) {other}",
    "{one} / sum of {other}",
    "sum / {count}",
    "{figure} at {end}",
)
