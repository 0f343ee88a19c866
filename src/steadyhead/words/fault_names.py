"""What each fault and each place is called in the trade: one line, with this plug's own colours.

Rules
-----
1. A leak is water. Between wires it is damp, or a partial short.
2. A wire goes by its colour where the visit knows it, by its job where it does not.
3. Names begin small, so that they stand inside a sentence; a list gives them their capital.
"""

from __future__ import annotations

_WIRES = ("supply", "signal", "common")
_PAIRS = (("supply", "common"), ("supply", "signal"), ("signal", "common"))


def _one_wire() -> dict[str, str]:
    kinds = {
        "open": "{%s:a-wire} open",
        "resistive": "bad joint in {%s:the-wire}",
        "intermittent": "loose joint in {%s:the-wire}",
    }
    return {f"{kind}-{wire}": text % wire for kind, text in kinds.items() for wire in _WIRES}


def _two_wires() -> dict[str, str]:
    kinds = {
        "leakage": "damp or partial short between {%s:wire} and {%s:wire}",
        "short": "{%s:wire} shorted to {%s:wire}",
    }
    return {f"{kind}-{a}-{b}": text % (a, b) for kind, text in kinds.items() for a, b in _PAIRS}


def _to_earth() -> dict[str, str]:
    kinds = {
        "leakage": "damp or partial short between {%s:wire} and {ground:region}",
        "short": "{%s:wire} shorted to {ground:region}",
    }
    return {f"{kind}-{wire}-earth": text % wire for kind, text in kinds.items() for wire in _WIRES}


_LOOP: dict[str, str] = {
    "none": "nothing wrong in this loop",
    "none-of-these": "something that this list does not hold",
    "cable-cut": "all cores open (cut, crushed, plug off)",
    "swapped-supply-common": "{supply:wire} and {common:wire} swapped",
    "swapped-supply-signal": "{supply:wire} and {signal:wire} swapped",
    "swapped-common-signal": "{common:wire} and {signal:wire} swapped",
    "rotated-left": "all three wires on wrong terminals, moved round one way",
    "rotated-right": "all three wires on wrong terminals, moved round the other way",
    "reversed": "the two wires reversed",
    "noise-pickup": "noise picked up from motor or mains leads",
    "shield-looped": "{shield:region} tied at both ends",
    "sensor-open": "{transducer:region} open inside",
    "sensor-shorted": "{transducer:region} shorted inside",
    "sensor-low": "{transducer:region} stuck low",
    "sensor-high": "{transducer:region} stuck high",
    "sensor-zero-shift": "{transducer:region}'s zero has moved",
    "sensor-span-shift": "{transducer:region}'s slope is off",
    "sensor-frozen": "{transducer:region} stuck at one figure",
    "sensor-wet-vent": "{transducer:region}'s vent is wet or blocked",
    "sensor-wrong-part": "wrong {transducer:region} fitted (range, signal or pins)",
    "port-blocked": "pressure port plugged or iced",
    "sensor-cock-shut": "cock at the {transducer:region} left shut",
    "tap-wrong-side": "{transducer:region} tapped in at the wrong place",
    "controller-supply-dead": "drive's sensor power dead",
    "controller-supply-low": "drive's sensor power low",
    "controller-supply-weak": "drive's sensor power weak, sags under load",
    "other-load": "another device pulls the sensor power down",
    "controller-input-dead": "drive's input dead",
    "controller-input-shifted": "drive's input reads off",
    "setting-range": "{transducer:region} range set wrong in the drive",
    "setting-signal-kind": "signal kind set wrong (parameter or slide switch)",
    "setting-unit": "pressure unit set wrong in the drive",
    "setting-input": "another input chosen in the drive",
    "setting-offset": "an old offset left in the drive",
    "setting-simulated": "simulated signal left on in the drive",
    "vacuum": "true vacuum in the pipe",
    "site-gauge-wrong": "the site's gauge reads wrong",
    "own-gauge-wrong": "your own gauge reads wrong",
    "meter-wrong": "your meter reads wrong (fuse, jack, battery)",
}

FAULTS: dict[str, str] = {**_LOOP, **_one_wire(), **_two_wires(), **_to_earth()}

#: Where a wiring fault sits; the halves of a plug, and the kinds of a part's failure, are told apart only inside.
PLACES: dict[str, str] = {
    "terminal": "at the terminal",
    "run": "in the cable's run",
    "plug": "at the plug",
}
