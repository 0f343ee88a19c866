"""What people call the ways of having water tonight, what is asked about them, and the answers."""

from __future__ import annotations

WAYS: dict[str, str] = {
    "spare-sensor": "a spare {transducer:region}, re-scaled",
    "temporary-lead": "a known-good lead laid on the floor",
    "pressure-switch": "a pressure switch starts and stops the pump at a fixed speed",
    "fixed-speed": "a fixed speed by hand, on {tank:region} and relief valve",
    "made-safe": "made safe, left off",
}

#: How a way stands.
POSSIBLE: dict[str, str] = {"yes": "can run", "no": "not here", "unknown": "find out first"}

#: What is asked, as a field's label.
ASKS: dict[str, str] = {
    "serves": "who gets this water",
    "broken": "what is broken",
    "pump": "the pump",
    "draws": "it draws from",
    "watch": "who watches it",
    "relief": "the relief valve",
    "dry-run": "the stop when the pump runs dry",
    "hand-speed": "the drive can run at a fixed speed by hand",
    "run-input": "the drive starts and stops from a contact",
    "switch": "a pressure switch is at hand",
    "switch-low-cut": "that switch has a low-pressure cut-off",
    "lead": "a known-good lead is at hand",
    "spare": "a spare {transducer:region} is at hand, its signal suits the drive",
    "spare-approved": "the spare is approved for drinking water",
    "set-pressure": "set pressure",
    "relief-set": "relief valve opens at",
    "weakest": "most that the weakest part may carry (pipe, hose, filter, softener)",
    "tank-plate": "most on the {tank:region}'s plate",
    "gauge-top": "top of the gauge's scale",
    "shut-off": "pump's shut-off head on its curve (all stages)",
    "rated-hertz": "rated hertz",
    "lift": "from the water's level up to the gauge",
    "incoming": "pressure that comes in",
    "test-hertz": "no-flow test: hertz",
    "test-pressure": "no-flow test: gauge",
    "least-hertz": "lowest hertz by the leaflet",
    "duty-flow": "pump's flow at its duty point",
    "duty-head": "pump's head at that flow",
    "needed-flow": "flow that the house needs",
    "relief-flow": "flow that the relief valve passes",
    "spare-range": "the spare's range",
    "spare-accuracy": "the spare's accuracy",
    "cut-out": "the switch's cut-out",
}

#: How to find it out, said where it is not known.
FINDS: dict[str, str] = {
    "serves": "Ask who gets this water: a house, several homes, or people who depend on it.",
    "broken": "Find out which part is broken: the {transducer:region}, its cable, the drive's input, the drive.",
    "pump": "Look at the pump's plate: centrifugal, or positive-displacement (helical rotor, piston).",
    "draws": "Does it draw from a well, or does water come in under pressure?",
    "watch": "Ask who can stay: beside the pump, or in the house with the switch in reach.",
    "relief": "Look for the relief valve: is it fitted, free to open, and piped to where it can run?",
    "dry-run": "Read the drive's menu: does its dry-run stop work by load or by a float, without the "
    "{transducer:region}?",
    "hand-speed": "Look in the drive's menu for a fixed speed by hand.",
    "run-input": "Look in the drive's menu or diagram for a run contact.",
    "switch": "Is a pressure switch in the van, with a range that fits?",
    "switch-low-cut": "Has that switch a low-pressure cut-off?",
    "lead": "Is a known-good lead in the van, long enough and with the same cores?",
    "spare": "Is a spare {transducer:region} in the van whose signal and plug suit?",
    "spare-approved": "Look on the spare for its drinking-water approval.",
    "set-pressure": "Read the set pressure in the menu.",
    "relief-set": "Read on the relief valve's tag at what pressure it opens.",
    "weakest": "Find the weakest part between pump and taps: pipe, hose, filter bowl, softener; read its plate.",
    "tank-plate": "Read the most pressure on the {tank:region}'s plate.",
    "gauge-top": "A gauge that works must hang there: read the top of its scale.",
    "shut-off": "Find the pump's curve: its head at no flow. Or make the no-flow test: somebody at the gauge, taps "
    "shut, relief valve in order, up from the lowest hertz by single hertz, and stop at the pressure you want. "
    "Never with a positive-displacement pump.",
    "rated-hertz": "Read the rated hertz on the motor's plate.",
    "lift": "Measure down to the water: sounder, air line, or the driller's record.",
    "incoming": "Read the pressure that comes in, with the pump off: the most it ever is.",
    "test-hertz": "Make the no-flow test, with somebody at the gauge.",
    "test-pressure": "Make the no-flow test, with somebody at the gauge.",
    "least-hertz": "Read in the leaflet how slow the motor may run.",
    "duty-flow": "Find the flow on the pump's plate or its curve.",
    "duty-head": "Find the head at that flow on the pump's curve.",
    "needed-flow": "Ask what runs at once: a shower is about 10 L/min, 2 to 3 gpm.",
    "relief-flow": "Find what the relief valve passes: its leaflet, or a bucket and a watch.",
    "spare-range": "Read the range on the spare.",
    "spare-accuracy": "Read the accuracy on the spare.",
    "cut-out": "Read the switch's cut-out.",
}

#: Answers, as ``question:word``.
ANSWERS: dict[str, str] = {
    "serves:house": "one house",
    "serves:building": "several homes, a shop",
    "serves:dependent": "people who depend on it: care home, dialysis, animals, a process",
    "serves:fire": "sprinklers or hydrants too",
    "broken:sensor": "the {transducer:region}",
    "broken:cable": "its cable or plug",
    "broken:input": "the drive's input",
    "broken:drive": "the drive",
    "pump:centrifugal": "centrifugal (impellers)",
    "pump:positive-displacement": "positive-displacement (helical, piston)",
    "draws:well": "a well",
    "draws:main": "the main, a cistern",
    "watch:nobody": "nobody",
    "watch:daily": "a look once a day",
    "watch:in-house": "in the house while it runs",
    "watch:beside": "beside it while it runs",
    "relief:proven": "seen to pass the pump's whole flow",
    "relief:fitted": "fitted and free",
    "relief:none": "none, or it does not work",
    "dry-run:independent": "works without the {transducer:region}",
    "dry-run:by-sensor": "hangs on the {transducer:region}",
    "dry-run:none": "none",
}
for _key in ("hand-speed", "run-input", "switch", "switch-low-cut", "lead", "spare", "spare-approved"):
    ANSWERS |= {f"{_key}:yes": "yes", f"{_key}:no": "no"}

#: What is broken, in a sentence.
BROKEN: dict[str, str] = {word: ANSWERS[f"broken:{word}"] for word in ("sensor", "cable", "input", "drive")}

#: Groups of questions.
GROUPS: dict[str, str] = {
    "situation": "How it stands",
    "hand": "What protects, and the drive",
    "pressures": "Pressures",
    "curve": "The pump and the water",
    "test": "No curve? Your own no-flow test",
    "spare": "A spare, or a lead",
    "switch": "A pressure switch",
    "flow": "Flow",
}

#: Who must watch, in a sentence.
WATCHES: dict[str, str] = {
    "nobody": "nobody",
    "daily": "somebody who looks at the gauge once a day",
    "in-house": "somebody in the house, awake, who can switch it off, for as long as it runs",
    "beside": "somebody beside the pump, a hand at the switch, for as long as it runs",
}

#: Parts that limit the pressure, in a sentence.
PARTS: dict[str, str] = {
    "weakest": "the weakest part",
    "tank-plate": "the {tank:region}'s plate",
    "relief-set": "the relief valve",
    "gauge-top": "the gauge's scale",
}

#: Figures of water tonight.
TONIGHT_FIGURES: dict[str, str] = {
    **{key: ASKS[key] for key in tuple(ASKS)[tuple(ASKS).index("set-pressure") :]},
    "least-hertz": "not slower than this for long",
    "spare-low": "lower end of the spare's range",
    "spare-high": "upper end of the spare's range",
    "tonight-limit": "gauge never above",
    "tonight-most": "never faster than",
    "tonight-start": "start at, taps shut",
    "tonight-at-most": "at that speed and taps shut, at most",
    "tonight-gives": "at that speed and taps shut, at least",
    "tonight-full": "at full speed it could come to",
    "tonight-drawn": "while the needed flow is drawn, about",
    "tonight-bleed": "always let run at least",
    "tonight-cut-out": "switch's cut-out at most",
    "tonight-set-share": "set pressure in the spare's range",
    "tonight-spare-error": "the spare may be off by",
    "head-margin": "how far the pump's head may be off",
}
