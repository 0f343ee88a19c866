"""How often each family of faults is met, and what it costs to be wrong: our own estimates, each with its reason.

Everything that affects the odds before the first reading, and the price of a repair, lives in this file.

Rules
-----
1. A family has a share of 100 calls; its members divide the share, so that many variants of a rare thing do not
   outvote one common one.
2. The figures are the estimates of an experienced eye for a house call whose display shows a sensor fault or a wrong
   pressure: common practice, no source.
3. A part's price counts as minutes, so that one sum decides.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.loop.faults import Fault, faults_of


@dataclass(frozen=True, slots=True)
class Share:
    """A family's share of 100 calls, and why."""

    per_100: float
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


def prior(wires: int, kind: str) -> dict[str, float]:
    """Return each fault's probability before the first reading, for a loop with this many wires and kind of sensor."""
    members: dict[str, list[Fault]] = {}
    for fault in faults_of(wires, kind):
        members.setdefault(fault.family, []).append(fault)
    raw: dict[str, float] = {}
    for family, faults in members.items():
        total = sum(f.share for f in faults)
        for fault in faults:
            raw[fault.id] = FAMILIES[family].per_100 * fault.share / total
    raw["none-of-these"] = NONE_OF_THESE
    whole = sum(raw.values())
    return {fault: value / whole for fault, value in raw.items()}


#: Minutes of a repair, and its part's price in minutes.
REPAIR_MINUTES: dict[str, tuple[float, float]] = {
    "none": (0.0, 0.0),
    "look-further": (60.0, 0.0),
    "repair-cable": (30.0, 10.0),
    "correct-wiring": (10.0, 0.0),
    "reroute-cable": (60.0, 5.0),
    "replace-sensor": (30.0, 60.0),
    "clear-port": (25.0, 0.0),
    "open-cock": (2.0, 0.0),
    "move-tap": (60.0, 10.0),
    "replace-board": (60.0, 240.0),
    "remove-load": (15.0, 0.0),
    "correct-setting": (5.0, 0.0),
    "clear-vacuum": (15.0, 0.0),
    "replace-gauge": (15.0, 20.0),
    "mend-meter": (5.0, 2.0),
}
#: A wrong remedy: a second trip [min].
SECOND_TRIP_MINUTES = 120.0
#: Remedies that need a part.
COSTS_MONEY = frozenset(("replace-sensor", "replace-board", "replace-gauge"))


def cost_minutes(remedy: str) -> float:
    """Return what a repair costs, its part's price counted as minutes [min]."""
    work, part = REPAIR_MINUTES[remedy]
    return work + part
