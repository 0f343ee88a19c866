"""What each fault looks like from the panel, in one line: what makes a technician think of it.

Common practice, and Ohm's law; no source but the trade's.
"""

from __future__ import annotations

_WIRES = ("supply", "signal", "common")
_PAIRS = (
    ("supply", "common"), ("supply", "signal"), ("signal", "common"),
    ("supply", "earth"), ("signal", "earth"), ("common", "earth"),
)  # fmt: skip

_OPEN = {
    "supply": "low signal; sensor power right at the panel, gone at the plug",
    "signal": "signal dead or drifting at the panel, right at the plug; a loop carries nothing",
    "common": "signal usually high, often past the top",
}
_RESISTIVE = {
    "supply": "right at the low end, short of the top",
    "signal": "nothing on volts until it is thousands of ohms; a loop stops short of the top",
    "common": "low end too high, less so near the top",
}
_BETWEEN = {
    ("supply", "common"): "sensor power sags, and comes back with the cable off",
    ("supply", "signal"): "signal too high, and stays up with the plug off",
    ("signal", "common"): "signal too low, the more so the higher the pressure",
    ("supply", "earth"): "sensor power sags where the drive's common is grounded",
    ("signal", "earth"): "signal too low where the drive's common is grounded",
    ("common", "earth"): "mostly nothing; a small shift, hum while the motor runs",
}

LOOKS: dict[str, str] = {
    "none": "display, gauge and signal agree",
    "cable-cut": "no signal at all; sensor power right at the panel, gone at the plug",
    "swapped-supply-common": "no sensible signal since work was done; the part may be warm",
    "swapped-supply-signal": "signal at full sensor power since work was done",
    "swapped-common-signal": "signal near zero or stuck since work was done",
    "rotated-left": "no sensible signal since work was done",
    "rotated-right": "no sensible signal since work was done",
    "reversed": "no current in the loop since work was done",
    "noise-pickup": "display jumps while the motor runs, calm at rest",
    "shield-looped": "small steady shift and hum while the motor runs",
    "sensor-open": "no signal with sensor power right at the plug",
    "sensor-shorted": "sensor power down, and back when the plug is off",
    "sensor-low": "signal below the bottom, whatever the gauge says",
    "sensor-high": "signal above the top, whatever the gauge says",
    "sensor-zero-shift": "off by the same amount at every pressure",
    "sensor-span-shift": "right at zero, off by more and more above it",
    "sensor-frozen": "signal never moves",
    "sensor-wet-vent": "off by a little, drifts with weather and sun",
    "sensor-wrong-part": "off by one factor at every pressure since it was fitted",
    "port-blocked": "display follows the gauge late, or not at all",
    "sensor-cock-shut": "display stands still, or sinks while the gauge holds; begins after service",
    "tap-wrong-side": "display and gauge part with flow, or at rest; has been so since new",
    "controller-supply-dead": "no sensor power, also with the wires off",
    "controller-supply-low": "sensor power low, also with the wires off",
    "controller-supply-weak": "sensor power right without load, sags with the part on",
    "other-load": "sensor power low until the other device's wire is off",
    "controller-input-dead": "signal right at the terminal, display shows something else",
    "controller-input-shifted": "display off by the same amount from what the signal says",
    "setting-range": "signal right, display off by one factor",
    "setting-signal-kind": "signal right, display off or at an end",
    "setting-unit": "signal right, display off by a unit's factor",
    "setting-input": "signal right, display does not move with it",
    "setting-offset": "signal right, display off by the same amount at every pressure",
    "setting-simulated": "display stands at one figure, whatever the signal does",
    "vacuum": "low-signal fault at rest; right again with air or pressure in the pipe",
    "site-gauge-wrong": "display and signal agree, the gauge alone differs",
    "own-gauge-wrong": "display and the site's gauge agree, yours alone differs",
    "meter-wrong": "every reading of one kind is off, by one factor or to nothing",
    **{f"open-{wire}": text for wire, text in _OPEN.items()},
    **{f"resistive-{wire}": text for wire, text in _RESISTIVE.items()},
    **{f"intermittent-{wire}": "jumps, or comes and goes with movement, damp or heat" for wire in _WIRES},
    **{f"leakage-{a}-{b}": _BETWEEN[a, b] for a, b in _PAIRS},
    **{f"short-{a}-{b}": f"{_BETWEEN[a, b]}; all the way" for a, b in _PAIRS},
}

FAMILIES: dict[str, str] = {
    "nothing": "nothing wrong",
    "all-cores": "the whole cable",
    "wires-open": "one wire open",
    "joints": "a bad joint",
    "loose": "a loose joint",
    "damp": "damp between wires",
    "shorts": "wires shorted",
    "miswired": "wired wrong",
    "noise": "noise",
    "sensor": "the {transducer:region} itself",
    "wrong-part": "the wrong {transducer:region}",
    "port": "between pipe and {transducer:region}",
    "board-supply": "the drive's sensor power",
    "other-load": "another device",
    "board-input": "the drive's input",
    "setting": "a setting",
    "vacuum": "vacuum",
    "gauge": "the gauge",
    "meter": "the meter",
}
