"""What mends it, as one says it on the telephone; and the three standings of a diagnosis."""

from __future__ import annotations

REMEDIES: dict[str, str] = {
    "none": "nothing to mend in this loop",
    "look-further": "look beyond this loop",
    "repair-cable": "mend the cable, its plug or a terminal",
    "correct-wiring": "put the wires right",
    "reroute-cable": "lay the cable away from power leads",
    "replace-sensor": "replace the {transducer:region}",
    "clear-port": "clear the pressure port",
    "open-cock": "open the cock at the {transducer:region}",
    "move-tap": "move the tapping",
    "replace-board": "replace the drive's control board (or the drive, if it has no loose board)",
    "remove-load": "take the other device off the sensor power",
    "correct-setting": "put the drive's setting right",
    "clear-vacuum": "let air in, and mend what pulled the vacuum",
    "replace-gauge": "replace the gauge",
    "mend-meter": "put the meter right (fuse, jack, battery)",
    "restore-source": "restore the well or the incoming main",
    "repair-leak": "mend the water leak",
    "service-pump": "service the pump",
    "correct-rotation": "turn the pump's rotation round",
    "clean-filter": "clean the filter",
    "open-valve": "open the valve",
    "service-valve": "service the valve",
    "repair-check-valve": "mend the check valve",
    "recharge-vessel": "recharge the {tank:region}",
    "replace-vessel": "replace the {tank:region}",
    "advise-owner": "advise the owner",
    "repair-power": "mend the incoming power",
    "cool-drive": "cool the drive",
    "replace-motor": "replace the motor",
    "tune-control": "tune the control",
}

STANDINGS: dict[str, str] = {
    "proved": "proved",
    "best-guess": "best guess, not proved",
    "open": "not settled yet",
}
