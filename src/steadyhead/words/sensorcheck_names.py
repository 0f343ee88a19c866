"""What the inputs of a sensor's error are called."""

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
