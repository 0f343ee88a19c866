"""Which parts a repair needs, and whether what was loaded will do: the shipped estimates, each with its reason.

Everything that affects what is loaded before the drive lives in this file.

Rules
-----
1. A row is ``repair/part`` or ``repair/place/part``: its repair is a remedy or, where faults of one remedy differ, a
   fault; its place is one that the fault can have. No part of one repair is named by two rows.
2. The figures are common practice, no source; a company's own override them row by row.
3. `UNFORESEEN` is what nobody can load: its row is the floor under a second trip when the fault is none of ours.
"""

from __future__ import annotations

from typing import NamedTuple

UNFORESEEN = "unforeseen"


class Chance(NamedTuple):
    """A chance, and why."""

    chance: float
    reason: str


NEEDS: dict[str, Chance] = {
    "repair-cable/plug/plug-kit": Chance(0.6, "pins or the whole plug made anew; else it is reseated"),
    "repair-cable/plug/sealing": Chance(0.5, "a wet plug is dried and sealed, or it comes back"),
    "repair-cable/terminal/ferrules": Chance(0.5, "strands broken off; else a screw is turned"),
    "repair-cable/terminal/terminal-block": Chance(0.15, "burnt, cracked, or its thread gone"),
    "repair-cable/run/cable": Chance(0.8, "laid anew, or a length let in"),
    "repair-cable/run/splice-kit": Chance(0.4, "mended where it is damaged"),
    "correct-wiring/ferrules": Chance(0.2, "wires that were moved about"),
    "reroute-cable/cable": Chance(0.6, "a screened one, and longer than the old"),
    "reroute-cable/clips": Chance(0.6, "held away from the power leads"),
    "replace-sensor/sensor": Chance(1.0, "the part itself"),
    "replace-sensor/fitting": Chance(0.25, "another thread, a washer, a nipple that came out with it"),
    "replace-sensor/plug-kit": Chance(0.15, "the new one has another plug"),
    "clear-port/fitting": Chance(0.3, "a snubber or a nipple rusted through"),
    "open-cock/cock": Chance(0.1, "it turns no more, or drips afterwards"),
    "move-tap/fitting": Chance(0.95, "a new tapping"),
    "move-tap/cock": Chance(0.5, "a tapping that can be shut"),
    "replace-board/board": Chance(1.0, "a board, or the whole drive where it has no loose board"),
    "remove-load/terminal-block": Chance(0.1, "the other device gets terminals of its own"),
    "clear-vacuum/check-valve": Chance(0.4, "its root: the pump-side check valve passes"),
    "clear-vacuum/fitting": Chance(0.2, "its root: the tapping is moved"),
    "site-gauge-wrong/gauge": Chance(1.0, "the part itself"),
    "meter-wrong/fuse/meter-fuse": Chance(1.0, "the part itself"),
    "meter-wrong/battery/meter-battery": Chance(1.0, "the part itself"),
    "meter-wrong/dead/second-meter": Chance(1.0, "this one is past mending"),
    "look-further/unforeseen": Chance(0.5, "half of what nobody thought of needs something that nobody loaded"),
}

FITS: dict[str, Chance] = {
    "sensor": Chance(0.9, "range and signal are known; thread, plug or drinking-water approval may not be"),
    "board": Chance(0.8, "the drive's exact make is seldom known before the drive there"),
    "plug-kit": Chance(0.9, "four usual plugs; a moulded one needs its own"),
    "fitting": Chance(0.85, "a box of nipples, reducers and washers"),
    "check-valve": Chance(0.7, "the pipe's size is seldom known"),
    "cock": Chance(0.9, "two usual threads"),
    "gauge": Chance(0.95, "two usual threads, two usual scales"),
    "cable": Chance(0.95, "long enough, unless it goes through a wall"),
    "splice-kit": Chance(0.98, "one size does for all"),
    "sealing": Chance(1.0, "does for all"),
    "ferrules": Chance(1.0, "a box of all sizes"),
    "terminal-block": Chance(0.9, "some boards have their own"),
    "clips": Chance(1.0, "does for all"),
    "meter-fuse": Chance(0.9, "every meter has its own"),
    "meter-battery": Chance(0.95, "two usual kinds"),
    "second-meter": Chance(1.0, "any will do"),
}
