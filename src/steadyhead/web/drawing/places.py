"""Where everything stands on the drawing: how each arrangement leaves the loop, and the place of each of its points.

Everything that affects how an arrangement is drawn lives in this file.

Rules
-----
1. The drawing is 360 units wide, so that on the narrowest phone a unit is a pixel and a target of 48 is a thumb's.
2. Points of one column are 50 apart, so that their targets never touch.
3. A lifted wire ends in the air, one target away from its terminal. Where a spare or a source takes its place, it ends
   on the far side of that.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

WIDE, HIGH = 360.0, 348.0
CORES = ("supply", "signal", "common")
ROWS = {"supply": 74.0, "signal": 124.0, "common": 174.0}
#: Left and right edges.
CONTROLLER = (6.0, 112.0)
SENSOR = (266.0, 354.0)
TOP, BOTTOM = 22.0, 214.0
TERMINAL, FREE, BEHIND, PLUG = 112.0, 160.0, 240.0, 230.0
EARTH, SHIELD = (30.0, 236.0), (183.0, 230.0)
#: Middle of what stands between the terminals and the lifted wires.
BETWEEN = (140.0, 214.0)

Far = Literal["sensor", "plug-off", "free", "looped", "spare"]
Middle = Literal["", "spare", "source", "temporary"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HookUp:
    """How the loop stands: which wires are lifted, what stands between, what is at the far end."""

    lifted: tuple[str, ...] = ()
    others_lifted: bool = False
    far: Far = "sensor"
    middle: Middle = ""
    power: bool = True
    vented: bool = False
    in_series: bool = False


AS_FOUND = HookUp()
HOOK_UPS: dict[str, HookUp] = {
    "connected": AS_FOUND,
    "sensor-unplugged": HookUp(far="plug-off"),
    "supply-terminal-clear": HookUp(lifted=("supply",)),
    "meter-in-signal": HookUp(lifted=("signal",), in_series=True),
    "sensor-leads-lifted": HookUp(lifted=CORES),
    "vented": HookUp(vented=True),
    "all-lifted": HookUp(lifted=CORES, others_lifted=True),
    "source-at-controller": HookUp(lifted=CORES, middle="source"),
    "temporary-cable": HookUp(middle="temporary"),
    "dead-both-free": HookUp(lifted=CORES, others_lifted=True, far="free", power=False),
    "spare-at-controller": HookUp(lifted=CORES, middle="spare"),
    "dead-looped": HookUp(lifted=CORES, others_lifted=True, far="looped", power=False),
    "spare-at-plug": HookUp(far="spare"),
}

Place = tuple[float, float]
AnchorWord = Literal["start", "middle", "end"]


def hook_up(arrangement: str) -> HookUp:
    """Return how the loop stands in an arrangement; those of the water side leave the loop as found."""
    return HOOK_UPS.get(arrangement, AS_FOUND)


def cores(wires: int) -> tuple[str, ...]:
    """Return the cable's cores: a two-wire cable has no common one."""
    return CORES if wires == 3 else CORES[:2]


def place_of(point: str, stands: HookUp) -> Place | None:
    """Return where a point is, None where it does not exist in this hook-up.

    >>> place_of("wire.signal", AS_FOUND), place_of("wire.signal", HOOK_UPS["sensor-leads-lifted"])
    (None, (160.0, 124.0))
    """
    if point == "earth":
        return EARTH
    if point == "shield":
        return SHIELD
    side, _, core = point.partition(".")
    if side == "controller":
        return TERMINAL, ROWS[core]
    if side == "wire":
        return (wire_end(stands), ROWS[core]) if core in stands.lifted else None
    return contact(stands), ROWS[core]


def wire_end(stands: HookUp) -> float:
    """Return where a lifted wire ends."""
    return BEHIND if stands.middle in {"spare", "source"} else FREE


def contact(stands: HookUp) -> float:
    """Return where the far end's contacts are: at the sensor, or on the plug that is off."""
    return SENSOR[0] if stands.far in {"sensor", "spare"} else PLUG
