"""What can hurt someone, in English, as one technician says it to another.

Rules
-----
1. One caution, one danger, and what to do about it; the shortest sentence that is still right.
2. Local codes and a licensed person come first, and that line stands before every other.
3. Facts of the trade without a source: common practice.
"""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "local-codes-first": "Local codes and a licensed person come first.",
    "keep-the-evidence": "Before the power goes off: a photo of the display, its fault history, set pressure and "
    "hours. Switching off may wipe them.",
    "lock-out": "Switch off, lock out and tag. Keep the key on you.",
    "capacitors-hold-charge": "The drive's capacitors stay charged after switch-off. Wait as long as its maker "
    "says, then measure that they are down.",
    "prove-tester-then-dead": "Prove dead with a tester: try it on a live point, test every conductor, try it on "
    "the live point again.",
    "stop-the-drive": "Stop the drive first, start command taken away: without a true signal it may run the pump "
    "flat out.",
    "starts-by-itself": "The pump can start by itself when signal or power returns. Keep hands and tools off it.",
    "relieve-pressure": "Relieve the pressure before you open anything, and stand aside. Pressure stays trapped "
    "behind a shut cock.",
    "keep-water-clean": "Drinking water: clean hands, clean parts, nothing let in. Disinfect what was opened, as "
    "local rules say.",
    "mains-beside-terminals": "Mains stands beside these terminals and its guard stays on. No guard? Then measure "
    "at the plug, or with the power off and proved dead. Use a meter of this panel's category and fused leads.",
    "no-insulation-test-into-electronics": "Never make an insulation test into electronics: drive and "
    "{transducer:region} must both be off the cable.",
    "tag-wires": "Tag each wire with its terminal before you lift it, and keep bare ends apart.",
    "source-never-against-powered-loop": "Never set a signal source against a powered loop. The "
    "{transducer:region}'s wires are off first.",
    "milliamp-jack-and-back": "Red lead into the mA jack for this reading. Back to the volts jack straight after: "
    "in the mA jack the meter is a dead short.",
    "wait-for-recovery": "Sensor power that was pulled down comes back late. Wait a minute before you read.",
    "water-is-off": "Tell the people who depend on the water before it goes off.",
    "meter-category": "Use a meter of this panel's category and fused leads.",
}
