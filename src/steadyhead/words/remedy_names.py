"""What mends it, as one says it on the telephone, and once it was done; how a diagnosis and a visit stand."""

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

#: The same once it was done, as one tells a customer.
DONE: dict[str, str] = {
    "none": "nothing was found to mend in the sensing loop",
    "look-further": "the fault was traced to somewhere outside the sensing loop",
    "repair-cable": "the sensing cable, its plug or a terminal was mended",
    "correct-wiring": "the sensing wires were put on their right terminals",
    "reroute-cable": "the sensing cable was laid away from power leads",
    "replace-sensor": "the pressure {transducer:region} was replaced",
    "clear-port": "the pressure port was cleared",
    "open-cock": "the cock at the pressure {transducer:region} was opened",
    "move-tap": "the tapping of the pressure {transducer:region} was moved",
    "replace-board": "the drive's control board, or the drive, was replaced",
    "remove-load": "another device was taken off the sensor power",
    "correct-setting": "a setting of the drive was put right",
    "clear-vacuum": "air was let in, and what pulled the vacuum was mended",
    "replace-gauge": "the pressure gauge was replaced",
    "mend-meter": "a measuring instrument was put right",
    "restore-source": "the well or the incoming main was restored",
    "repair-leak": "a water leak was mended",
    "service-pump": "the pump was serviced",
    "correct-rotation": "the pump's direction of rotation was put right",
    "clean-filter": "the filter was cleaned",
    "open-valve": "a valve was opened",
    "service-valve": "a valve was serviced",
    "repair-check-valve": "the check valve was mended",
    "recharge-vessel": "the {tank:region} was charged anew",
    "replace-vessel": "the {tank:region} was replaced",
    "advise-owner": "the owner was advised",
    "repair-power": "the incoming power was mended",
    "cool-drive": "the drive's cooling was put right",
    "replace-motor": "the motor was replaced",
    "tune-control": "the drive's control was tuned",
}

#: How a visit stands, to whoever has the paper in hand.
KEPT_STATES: dict[str, str] = {
    "open": "not ended yet",
    "proved-on-site": "mended, and proved on site",
    "night-pending": "mended, and proved on site; what a night gives is still to come",
    "watching": "being watched: nothing is proved yet",
    "left-temporary": "left with something temporary",
    "made-safe": "left off, made safe",
    "declined": "the customer declined the repair",
}

#: What may protect a system no longer, and what is asked of something temporary.
PROTECTIONS: dict[str, str] = {
    "sensor-fault-stop": "the drive's stop when the {transducer:region} fails",
    "pressure-control": "pressure held by the drive",
    "dry-run": "the stop when the pump runs dry",
    "over-pressure": "the stop when the pressure is too high",
}
TEMPORARY_KEYS: dict[str, str] = {
    "what": "what was left, and how", "why": "why", "until": "until when", "watch": "who watches",
    "lost": "what protects no longer",
}  # fmt: skip

STANDINGS: dict[str, str] = {
    "proved": "proved",
    "best-guess": "best guess, not proved",
    "open": "not settled yet",
}
