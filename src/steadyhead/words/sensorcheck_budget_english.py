"""What an uncertainty budget, a decision and a check against Monte Carlo say, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # ------------------------------------------------ inputs and models
    "input-not-finite": "The input {input} is {got}. It must be finite, and its uncertainty zero or above.",
    "input-without-freedom": "The input {input} has {got} degrees of freedom. It must have 1 or more.",
    "input-shape-impossible": "The distribution of {input} has the shape {got}. It must be 0 to 1.",
    "input-factor-impossible": "The coverage factor of {input} is {got}. It must be above zero.",
    "input-needs-readings": "The mean {input} has {got} readings. Take 2 or more.",
    "readings-not-together": "Readings taken together must be as many of each; there are {got}.",
    "input-twice": "Two inputs are called {input}. Give each its own name.",
    "correlation-of-nothing": "A correlation names {got}. The inputs are: {must_be}.",
    "correlation-impossible": "The correlation of {first} and {second} is {got}. It must be -1 to 1, of two inputs.",
    "correlations-impossible": "No inputs of {result} can have all these correlations together. Look at each again.",
    "model-has-no-answer": "{result} has no answer at these figures: {formula}. Look for a zero that it divides by.",
    "second-order-correlated": "Terms of second order were asked for {result}, whose inputs are correlated. Leave one "
    "of the two out, or ask a Monte Carlo run.",
    # ------------------------------------------------ the error of a sensor at a point
    "reference-accuracy-unknown": "Nobody said how good the gauge is. Give its range with its grade, class or "
    "accuracy, or its certificate.",
    "reference-off-scale": "The gauge reads {got:pressure}, beyond its scale of {low:pressure} to {high:pressure}.",
    "height-not-said": "How much higher the gauge stands than the {transducer:region} was not said: they were taken "
    "to be level. Each metre (3.3 ft) of water between them is {each:pressure}.",
    "reference-resolution-unknown": "How finely the gauge can be read was not said: left out.",
    "display-resolution-unknown": "The last digit of the display was not said: left out.",
    "repeatability-unknown": "No point was read twice from the same side: how badly it repeats is left out.",
    "meter-assumed": "The meter's accuracy was not said: a meter of the middle class was assumed.",
    "tolerance-assumed": "The {transducer:region}'s accuracy was not said: {accuracy:off-percent} of span was assumed.",
    "signal-not-read": "The {transducer:region}'s signal was not read at this point.",
    "supply-not-read": "The {transducer:region}'s power was not read beside its signal, and the signal means nothing "
    "without it.",
    "display-not-read": "What the controller shows was not read at this point.",
    # ------------------------------------------------ decisions
    "rule-impossible": "The rule's {part} is {got}. It must lie between {low} and {high}.",
    "tolerance-not-above-zero": "The tolerance is {got}. It must be above zero.",
    "risk-needs-spread": "A risk needs a standard deviation and an uncertainty above zero, not {deviation} and {got}.",
    "decision-pass": "Good: the error, {error:pressure}, is within {accept:pressure}; allowed are "
    "{tolerance:pressure}.",
    "decision-fail": "Not good: the error, {error:pressure}, is beyond {reject:pressure}; allowed are "
    "{tolerance:pressure}.",
    "decision-sticks": "Not good: going up and coming down differ by {difference:pressure}, more than "
    "{tolerance:pressure} to either side allows.",
    "decision-cannot-tell": "Cannot tell: the error, {error:pressure}, would pass within {accept:pressure} and fail "
    "beyond {reject:pressure}; allowed are {tolerance:pressure}.",
    "decision-cannot-clear": "Cannot tell: the error, {error:pressure}, would fail beyond {reject:pressure}, and none "
    "is small enough to pass; allowed are {tolerance:pressure}.",
    "decision-too-uncertain": "Cannot tell: the instruments are too coarse for a tolerance of {tolerance:pressure}; "
    "the error read was {error:pressure}.",
    "settle-on-the-limit": "The error, {error:pressure}, stands on its tolerance of {tolerance:pressure}: no better "
    "instrument will settle that.",
    "settle-better-reference": "A gauge that is good to {expanded:pressure}, reading it included, would settle it.",
    "settle-more-readings": "{count} readings of this pressure would settle it; there are {now}.",
    "settle-what-counts": "No one thing would settle it. What counts most: {largest:input}, and {second:input}.",
    "settle-what-counts-alone": "Neither a better gauge nor more readings would settle it. What counts most: "
    "{largest:input}.",
    "settle-elsewhere": "The same error at {pressure:pressure} on the gauge would settle it.",
    "decidable-both": "At {pressure:pressure} you can convict only beyond {convicts:pressure}, and clear only within "
    "{clears:pressure}.",
    "decidable-convicts-only": "At {pressure:pressure} you can convict only beyond {convicts:pressure}; clear it you "
    "cannot.",
    "decidable-nothing": "At {pressure:pressure} you can decide nothing about {tolerance:pressure} with this gauge.",
    # ------------------------------------------------ Monte Carlo
    "too-few-trials": "A Monte Carlo run of {got} trials says nothing. Take {must_be} or more.",
    "correlated-shape-unknown": "How {got} go together cannot be drawn: correlated inputs must all be normal, or all "
    "means of as many readings.",
    "uncertainty-not-above-zero": "An uncertainty of {got} cannot be rounded by. It must be above zero.",
    "linear-good-enough": "The linear interval, {low} to {high}, agrees with the Monte Carlo one.",
    "linear-not-good-enough": "The linear interval, {low} to {high}, is not good enough: by Monte Carlo it is "
    "{drawn_low} to {drawn_high}. Use that one.",
    "linear-needs-trials": "{trials} trials are too few to judge the linear interval, {low} to {high}; so far "
    "{drawn_low} to {drawn_high}.",
    "second-opinion-same": "By Monte Carlo it is decided the same way.",
    "second-opinion-pass": "By Monte Carlo it is decided otherwise: it passes.",
    "second-opinion-fail": "By Monte Carlo it is decided otherwise: it fails.",
    "second-opinion-cannot-tell": "By Monte Carlo it is decided otherwise: nobody can tell.",
    "drawn-head": "The error at each level once more by Monte Carlo, {trials} trials each ({coverage:odds})",
    "drawn-stands": "The linear figures will do, and nothing is decided otherwise.",
    "drawn-conservative": "The linear figures are not exact where it says no; nothing is decided otherwise.",
}
