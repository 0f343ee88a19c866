"""What an uncertainty budget, a decision and a check against Monte Carlo say, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # ------------------------------------------------ inputs and models
    "input-not-finite": "The input {input} is {got}. It must be finite, and its uncertainty zero or above.",
    "input-without-freedom": "The input {input} has {got} degrees of freedom. It must have 1 or more.",
    "input-shape-impossible": "The distribution of {input} has the shape {got}. It must be 0 to 1.",
    "input-factor-impossible": "The coverage factor of {input} is {got}. It must be above zero.",
    "input-needs-readings": "The mean {input} has {got} readings. Take 2 or more.",
    "input-twice": "Two inputs are called {input}. Give each its own name.",
    "correlation-of-nothing": "A correlation names {got}. The inputs are: {must_be}.",
    "correlation-impossible": "The correlation of {first} and {second} is {got}. It must be -1 to 1, of two inputs.",
    "correlations-impossible": "No inputs of {result} can have all these correlations together. Look at each again.",
    "model-has-no-answer": "{result} has no answer at these figures: {formula}. Look for a zero that it divides by.",
    "second-order-correlated": "Terms of second order were asked for {result}, whose inputs are correlated. Leave one "
    "of the two out, or ask a Monte Carlo run.",
}
