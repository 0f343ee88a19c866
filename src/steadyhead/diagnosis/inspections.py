"""What can be seen and felt: how likely each look is to find something wrong, under each fault.

Everything that affects what an inspection proves lives in this file. Chances are our own estimates (common practice).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import prod

from steadyhead.diagnosis.cells import Cell, Part

#: A look that finds something wrong where nothing is.
FALSE_ALARM = 0.025

_Find = Callable[[Part], float]


def _prefix(part: Part, *starts: str) -> bool:
    return part.fault.startswith(starts)


def _connections(part: Part) -> float:
    if not (_prefix(part, "open-", "resistive-", "intermittent-") or part.fault == "cable-cut"):
        return 0.0
    return {"terminal": 0.85, "plug:mating": 0.7, "plug:crimp": 0.5}.get(part.place, 0.03)


_DAMP_SEEN = {"plug:crimp": 0.75, "plug:mating": 0.75, "terminal": 0.45, "terminal:block": 0.6, "run": 0.2}


def _moisture(part: Part) -> float:
    if _prefix(part, "leakage-"):
        return _DAMP_SEEN[part.place]
    return 0.25 if _prefix(part, "short-") else 0.35 if part.fault == "sensor-wet-vent" else 0.0


def _damage(part: Part) -> float:
    broken = _prefix(part, "open-", "leakage-", "short-", "resistive-", "intermittent-") or part.fault == "cable-cut"
    return 0.5 if broken and part.place == "run" else 0.0


def _order(part: Part) -> float:
    if _prefix(part, "swapped-", "rotated-") or part.fault == "reversed":
        return 0.97
    if part.fault == "shield-looped":
        return 0.4
    return 0.2 if part.place == "pinout" else 0.0


def _routing(part: Part) -> float:
    """Beside motor leads is seen along the way; a screen that is tied twice rather where the wires land."""
    return {"noise-pickup": 0.8, "shield-looped": 0.3}.get(part.fault, 0.0)


def _wiggle(part: Part) -> float:
    if _prefix(part, "intermittent-"):
        return 0.8
    loose = _prefix(part, "open-", "resistive-") or part.fault == "cable-cut"
    return 0.3 if loose and part.place in ("terminal", "plug:mating", "plug:crimp") else 0.0


def _min_max(part: Part) -> float:
    if _prefix(part, "intermittent-"):
        return 0.9
    if part.noisy:
        return 0.85
    loose = _prefix(part, "open-", "resistive-") or part.fault == "cable-cut"
    return 0.15 if loose and part.place in ("terminal", "plug:mating", "plug:crimp") else 0.0


def _one_of(chance: float, *faults: str) -> _Find:
    return lambda part: chance if part.fault in faults else 0.0


def _range_setting(part: Part) -> float:
    if part.fault == "sensor-wrong-part" and part.place == "range":
        return 0.5
    return {"setting-range": 0.96, "setting-unit": 0.9}.get(part.fault, 0.0)


@dataclass(frozen=True, slots=True)
class Inspection:
    """One look: its item, and the chance that it finds something wrong under a cell's fault."""

    item: str
    finds: _Find


INSPECTIONS: dict[str, Inspection] = {
    look.item: look
    for look in (
        Inspection("connections", _connections),
        Inspection("wiring-order", _order),
        Inspection("range-setting", _range_setting),
        Inspection(
            "input-setting",
            _one_of(0.95, "setting-signal-kind", "setting-input", "setting-offset", "setting-simulated"),
        ),
        Inspection("moisture", _moisture),
        Inspection("cable-routing", _routing),
        Inspection("port", _one_of(0.8, "port-blocked")),
        Inspection("cock", _one_of(0.95, "sensor-cock-shut")),
        Inspection("tap-place", _one_of(0.85, "tap-wrong-side")),
        Inspection("cable-damage", _damage),
        # Every second gauge has a stop pin, which hides a zero that has moved below it.
        Inspection("gauge-zero", _one_of(0.75, "site-gauge-wrong", "own-gauge-wrong")),
        Inspection("meter-check", _one_of(0.93, "meter-wrong")),
        Inspection("wiggle", _wiggle),
        Inspection("min-max", _min_max),
    )
}


def chance(cell: Cell, item: str, word: str) -> float:
    """Return the chance that a look at `item` says `word`, under a cell's faults; 1 where nobody could see.

    Of a pair it is enough that one of the two is found.
    """
    if word == "not-seen":
        return 1.0
    missed = prod([1.0 - INSPECTIONS[item].finds(part) for part in cell.parts])
    wrong = max(1.0 - missed, FALSE_ALARM)
    return wrong if word == "wrong" else 1.0 - wrong
