"""What the inputs of a sensor's error are called, and the figures of its budget and of what is decided."""

from __future__ import annotations

#: By the names of `steadyhead.sensorcheck.error_inputs`.
INPUTS: dict[str, str] = {
    "reference-reading": "what the gauge read",
    "reference-correction": "how good the gauge is",
    "reference-resolution": "how finely the gauge can be read",
    "reference-height": "height between gauge and {transducer:region}",
    "weight-per-metre": "weight of what stands between them",
    "air-pressure": "pressure of the air",
    "signal": "what the meter read",
    "meter-scale": "the meter's percent",
    "signal-correction": "the meter's counts on the signal",
    "signal-resolution": "the meter's last digit",
    "supply": "what the meter read of the {transducer:region}'s power",
    "supply-scale": "the meter's percent on the {transducer:region}'s power",
    "supply-correction": "the meter's counts on the {transducer:region}'s power",
    "shown": "what the display showed",
    "display-resolution": "the display's last digit",
    "scatter": "how badly it repeats",
    "hysteresis": "difference going up and coming down",
    "temperature": "the {transducer:region}'s temperature",
}

#: Figures of a budget and a decision, beside the inputs themselves.
OF_BUDGETS: dict[str, str] = {
    "error": "error",
    "error-of-span": "error, of span",
    "span": "span",
    "accuracy": "{transducer:region}'s accuracy, of span",
    "tolerance": "error allowed",
    "half-width": "to each side at most",
    "shape": "shape",
    "standard-deviation": "standard deviation",
    "count": "readings in the mean",
    "standard-uncertainty": "standard uncertainty",
    "sensitivity": "sensitivity",
    "contribution": "contribution",
    "second-order": "terms of second order",
    "combined-uncertainty": "combined standard uncertainty",
    "dof": "degrees of freedom",
    "effective-dof": "effective degrees of freedom",
    "coverage": "coverage",
    "coverage-factor": "coverage factor k",
    "expanded-uncertainty": "expanded uncertainty",
    "conformance-probability": "probability that it is within tolerance",
    "test-uncertainty-ratio": "test uncertainty ratio",
}

#: Whether the linear figure is good enough, in a column.
LINEAR: dict[str, str] = {"agrees": "yes", "differs": "no", "cannot-tell": "cannot tell"}
