"""The estimates that are shipped: how often each fault is met, what each check and each repair takes, and why.

Everything that affects the odds before the first reading, a check's minutes and a repair's price lives in this file,
but for two columns that stand with what they belong to: a fault's share of its family (`steadyhead.loop.faults`) and
the minutes of setting an arrangement up (`steadyhead.loop.vocabulary`).

Rules
-----
1. A family has a share of 100 calls; its members divide the share, so that many variants of a rare thing do not
   outvote one common one.
2. The figures are the estimates of an experienced eye for a house call whose display shows a sensor fault or a wrong
   pressure: common practice, no source. A company's own figures override them row by row.
3. A part's price counts as minutes, so that one sum decides.
"""

from __future__ import annotations

from typing import NamedTuple


class Share(NamedTuple):
    """A family's share of 100 calls, and why."""

    per_100: float
    reason: str


class Spent(NamedTuple):
    """What something takes [min], and why."""

    minutes: float
    reason: str


class Repair(NamedTuple):
    """What a repair takes, its part's price counted as minutes, both [min], and why."""

    work: float
    part: float
    reason: str


FAMILIES: dict[str, Share] = {
    "nothing": Share(5.0, "display and gauge agree; somebody misread, or it has passed"),
    "sensor": Share(30.0, "dead, wet, drifted or surge-killed: the part that ages first"),
    "wrong-part": Share(2.0, "a spare of another range, signal or pinout fitted at night"),
    "all-cores": Share(8.0, "cut, crushed, plug off or half screwed: two in three cable faults take all cores"),
    "wires-open": Share(11.0, "one wire out of its terminal, pin or crimp"),
    "joints": Share(4.0, "a corroded joint that still conducts"),
    "loose": Share(1.5, "a joint that opens now and then"),
    "damp": Share(6.0, "water in plug or splice"),
    "shorts": Share(2.5, "a core bare against another"),
    "miswired": Share(5.0, "after any work at the panel or plug"),
    "noise": Share(2.0, "run beside power leads, screen tied at both ends"),
    "port": Share(6.0, "cock left shut after service, port plugged or iced, tap in the wrong place"),
    "board-supply": Share(6.0, "the controller's sensor power"),
    "other-load": Share(2.0, "another device on the same power"),
    "board-input": Share(4.0, "the controller's input, after a surge"),
    "setting": Share(6.0, "range, signal kind, unit, input, offset or simulation"),
    "vacuum": Share(3.0, "pump-side check or drop pipe leaks, the tapping hangs on the column"),
    "gauge": Share(4.0, "a fixed gauge is stuck or out at one site in four or five"),
    "meter": Share(1.0, "fuse blown, jack left in amps, flat battery"),
}

#: Share of calls that none of the faults here explains.
NONE_OF_THESE = 1.5
WHY_NONE_OF_THESE = "the water side, or something that nobody thought of"

#: Why a fault has its share of its family: by fault, or by the beginning of its id.
WHY_OF_FAMILY: dict[str, str] = {
    "none": "all of its family",
    "cable-cut": "all of its family",
    "open-": "no wire is likelier to open than another",
    "resistive-": "no joint is likelier to corrode than another",
    "intermittent-": "no joint is likelier to work loose than another",
    "leakage-": "a path to earth needs an earthed box or screen, so a third of a path between wires",
    "short-": "a core against earth needs bare metal, so a third of core against core",
    "swapped-": "two wires changed over: the usual mistake",
    "rotated-": "all three moved on by one: rarer than two changed over",
    "reversed": "the only mistake that two wires allow",
    "noise-pickup": "run beside power leads: the usual way",
    "shield-looped": "a screen tied at both ends: a quarter as often",
    "sensor-open": "a bond or a pin inside gives way: a common death",
    "sensor-shorted": "water or a surge inside: half as common",
    "sensor-low": "dead low: a common death",
    "sensor-high": "dead high: nearly as common",
    "sensor-zero-shift": "an overpressure or ice bends it",
    "sensor-span-shift": "rarer than a shifted zero",
    "sensor-frozen": "an electronics fault that holds its last figure",
    "sensor-wet-vent": "water in the vent of the cable",
    "sensor-wrong-part": "all of its family",
    "port-blocked": "scale, rust or ice in a small hole",
    "sensor-cock-shut": "left shut after service: the commonest of the three",
    "tap-wrong-side": "built so, seldom found late",
    "controller-supply-dead": "dead is commoner than low or weak",
    "controller-supply-low": "half as often as dead",
    "controller-supply-weak": "half as often as dead",
    "other-load": "all of its family",
    "controller-input-dead": "a surge kills three for one that it shifts",
    "controller-input-shifted": "a surge kills three for one that it shifts",
    "setting-range": "the usual wrong setting after a sensor or a drive was changed",
    "setting-signal-kind": "a switch or a parameter, left at the maker's own",
    "setting-unit": "bar for psi",
    "setting-input": "another input chosen",
    "setting-offset": "an old zero trim left in",
    "setting-simulated": "a test left on",
    "vacuum": "all of its family",
    "site-gauge-wrong": "a fixed gauge hammers for years",
    "own-gauge-wrong": "a technician's own is looked after: a tenth",
    "meter-wrong": "all of its family",
}

WHY_ARRANGEMENTS: dict[str, str] = {
    "connected": "covers off, leads on",
    "sensor-unplugged": "one plug, the pump stopped first",
    "supply-terminal-clear": "one terminal",
    "meter-in-signal": "one wire lifted, meter moved to milliamps, pump stopped and started",
    "sensor-leads-lifted": "two or three wires tagged and lifted",
    "vented": "cock shut, relieved, and set back",
    "all-lifted": "every control wire tagged and lifted",
    "source-at-controller": "wires lifted, source wired and set",
    "temporary-cable": "a lead laid on the floor, both ends changed",
    "dead-both-free": "locked out, waited, proved dead, both ends freed",
    "spare-at-controller": "wires lifted, the spare's leads made up",
    "dead-looped": "as dead-both-free, and the far end joined",
    "spare-at-plug": "carried to the sensor, fly-leads made up",
}

READING_MINUTES: dict[str, Spent] = {
    "displayed-fault": Spent(0.2, "a glance"),
    "displayed-pressure": Spent(0.3, "a glance"),
    "displayed-signal": Spent(0.5, "one screen down"),
    "gauge-pressure": Spent(0.5, "a tap on the glass and a look"),
    "own-gauge": Spent(5.0, "three minutes on a hose tap, which most houses have, fifteen in a plugged port"),
    "meter": Spent(1.0, "leads on, wait until it stands, write it down"),
}

_LOOK = "a few minutes at one place, with a lamp"
INSPECTION_MINUTES: dict[str, Spent] = {
    item: Spent(4.0, _LOOK)
    for item in (
        "connections", "wiring-order", "range-setting", "input-setting", "moisture", "cable-routing", "port", "cock",
        "tap-place", "cable-damage", "gauge-zero", "meter-check", "wiggle",
    )
} | {"min-max": Spent(10.0, "the meter is left alone for ten minutes")}  # fmt: skip

WALK_MINUTES: dict[str, Spent] = {
    "to-sensor": Spent(5.0, "the leads go from panel to sensor; a site's own walk replaces it"),
    "back": Spent(1.0, "the leads come back"),
}

REPAIRS: dict[str, Repair] = {
    "none": Repair(0.0, 0.0, "nothing to do"),
    "look-further": Repair(60.0, 0.0, "an hour on the water side"),
    "repair-cable": Repair(30.0, 10.0, "a plug remade takes 10, a terminal 3, a cable 45 to 150; a plug, or metres"),
    "correct-wiring": Repair(10.0, 0.0, "locked out, wires changed over"),
    "reroute-cable": Repair(60.0, 5.0, "some metres moved away from the power leads, clips"),
    "replace-sensor": Repair(30.0, 60.0, "8 with a cock, 25 to 40 with a drain-down; a sensor"),
    "clear-port": Repair(25.0, 0.0, "unscrewed, cleaned, screwed in"),
    "open-cock": Repair(2.0, 0.0, "a quarter turn"),
    "move-tap": Repair(60.0, 10.0, "pipe work; fittings"),
    "replace-board": Repair(60.0, 240.0, "settings copied, wires moved; a board or a whole drive"),
    "remove-load": Repair(15.0, 0.0, "one device taken off"),
    "correct-setting": Repair(5.0, 0.0, "a menu"),
    "clear-vacuum": Repair(15.0, 0.0, "air let in; its root is another repair"),
    "replace-gauge": Repair(15.0, 20.0, "a gauge"),
    "mend-meter": Repair(5.0, 2.0, "a fuse or a battery"),
}

#: A wrong remedy, or a part that was not on the van; and what it takes to find one thing and carry it along.
SECOND_TRIP = Spent(120.0, "there and back again, and a day lost for the customer")
LOADING = Spent(1.0, "found in the store, carried to the van, and back again")
