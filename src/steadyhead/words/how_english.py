"""How each check is brought about, in English: what to do with the loop, then what to read.

Rules
-----
1. The cautions stand before; a how does not say them again.
2. ``{measure:take}`` is the last half: what to measure, and between which points of this panel.
3. Sensor power recovers late after a short is lifted: where that can matter the how says to wait a minute.
4. A look ends with what counts as wrong, since that is the word that is written down.
"""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # with the covers on
    "how-displayed-pressure": "Read the pressure on the drive's own display. Covers stay on.",
    "how-displayed-signal": "Find the raw signal of the {transducer:region}'s input in the drive's menu (V, mA or "
    "%) and read it. Covers stay on.",
    "how-displayed-fault": "Read the fault that the display shows now, or none. Don't reset it: a reset wipes what "
    "it knows.",
    "how-gauge-pressure": "Tap the gauge lightly and read it; one on the same pipe as the {transducer:region} and "
    "near it.",
    "how-own-gauge": "Screw your own gauge onto a hose tap on the same pipe, or into a plugged port once its pressure "
    "is off. Open slowly and let the air out. Read it together with the gauge that is there, and tell its height "
    "where it hangs more than a foot off.",
    # with power on
    "how-connected": "Leave every wire on and the power on. {measure:take}",
    "how-sensor-unplugged": "Pull the plug off the {transducer:region}. The cable stays on its terminals, power "
    "on. Wait a minute. {measure:take}",
    "how-supply-terminal-clear": "Take every wire off {supply:terminal}, and no other. Power on. Wait a minute. "
    "{measure:take}",
    "how-meter-in-signal": "Lift {signal:the-wire} off {signal:terminal} and put the meter between: red lead on "
    "the lifted wire, black lead on the terminal, meter set to mA DC. {measure:take}",
    "how-sensor-leads-lifted": "Lift the {transducer:region}'s wires off the terminals; what else is there stays "
    "on. Power on. Wait a minute. {measure:take}",
    "how-all-lifted": "Lift every control wire off the terminals, not the {transducer:region}'s alone. Power on. "
    "Wait a minute. {measure:take}",
    "how-vented": "Shut the cock at the {transducer:region} and open its vent, so that it stands open to the air. "
    "No cock and vent? Then leave this check out. {measure:take}",
    "how-source-at-controller": "Lift the {transducer:region}'s wires off. Put {source:source} on "
    "{signal:terminal} against {common:terminal}. Wait until the display stands still. {measure:take}",
    "how-temporary-cable": "Take the cable off at both ends and join the system's own {transducer:region} to the "
    "terminals by a known-good lead laid on the floor, core for core. {measure:take}",
    "how-spare-at-controller": "Lift the {transducer:region}'s wires off and put a known-good {transducer:region}, "
    "open to the air, straight on the terminals. {measure:take}",
    "how-spare-at-plug": "Put the plug on a known-good {transducer:region} that is open to the air. {measure:take}",
    # with power off
    "how-dead-both-free": "Power off and proved dead. Free the cable at both ends: wires off the terminals, plug "
    "off the {transducer:region}. {measure:take}",
    "how-dead-looped": "Power off and proved dead. Free the cable at both ends and join the cores at the far end, "
    "metal to metal. Touch the leads together first and take that figure off. {measure:take}",
    # looks
    "how-look-connections": "Tug every wire at terminal and plug, then reseat it. Wrong: one was loose.",
    "how-look-wiring-order": "Follow each core from its pin to its terminal, and the {shield:region} to both its "
    "ends. Wrong: a core is not where the drawing puts it, or the {shield:region} is tied at both ends.",
    "how-look-range-setting": "Read the range setting in the drive's menu and hold it against the "
    "{transducer:region}'s plate. Wrong: they differ.",
    "how-look-input-setting": "Read the input's settings: signal kind (parameter and slide switch), which input, "
    "offset, simulation. Wrong: one does not fit this {transducer:region}, or a simulation is on.",
    "how-look-moisture": "Open plug, splice and box and look for water or green copper. Wrong: there is some.",
    "how-look-cable-routing": "Follow the cable. Wrong: it lies along motor or mains leads, or its {shield:region} "
    "is tied at both ends.",
    "how-look-port": "Take the {transducer:region} out and look into the port. Wrong: scale, ice, tape or paste in "
    "the hole.",
    "how-look-cock": "Look at the cock under the {transducer:region}: the handle lies along the pipe when it is "
    "open. Wrong: shut, or half shut.",
    "how-look-tap-place": "Look where the {transducer:region} is tapped in. Wrong: a check valve, filter, reducing "
    "valve or a valve that can be shut stands between it and the house pipe.",
    "how-look-cable-damage": "Follow the whole run, both ends first. Wrong: cut, crushed, chafed or chewed.",
    "how-look-gauge-zero": "Let the gauge down to the air, at its own cock. Wrong: it does not come back to zero.",
    "how-look-meter-check": "Prove the meter: a battery for volts, leads together for ohms, the mA fuse from jack "
    "to jack. Wrong: one fails.",
    "how-look-wiggle": "Watch the display while somebody moves cable and plug, a hand's width at a time. Wrong: it "
    "jumps.",
    "how-look-min-max": "Clip the meter across the signal, set it to MIN/MAX and leave it for ten minutes, the pump "
    "working and the draw steady. Wrong: the two are further apart than a twentieth of the signal's span.",
}
