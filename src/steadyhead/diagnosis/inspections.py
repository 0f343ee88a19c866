"""What can be seen and felt: how likely each look is to find something wrong, under each fault.

Everything that affects what an inspection proves lives in this file. Chances are our own estimates (common practice).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from steadyhead.diagnosis.cells import Cell

#: A look that finds something wrong where nothing is.
FALSE_ALARM = 0.015

_Find = Callable[[Cell], float]


def _prefix(cell: Cell, *starts: str) -> bool:
    return cell.fault.startswith(starts)


def _connections(cell: Cell) -> float:
    if not (_prefix(cell, "open-", "resistive-", "intermittent-") or cell.fault == "cable-cut"):
        return 0.0
    return {"terminal": 0.85, "plug:mating": 0.7, "plug:crimp": 0.5}.get(cell.place, 0.03)


def _moisture(cell: Cell) -> float:
    if _prefix(cell, "leakage-"):
        return {"plug:crimp": 0.75, "plug:mating": 0.75, "terminal": 0.45, "run": 0.2}[cell.place]
    return 0.25 if _prefix(cell, "short-") else 0.35 if cell.fault == "sensor-wet-vent" else 0.0


def _damage(cell: Cell) -> float:
    broken = _prefix(cell, "open-", "leakage-", "short-", "resistive-", "intermittent-") or cell.fault == "cable-cut"
    return 0.5 if broken and cell.place == "run" else 0.0


def _order(cell: Cell) -> float:
    if _prefix(cell, "swapped-", "rotated-") or cell.fault == "reversed":
        return 0.97
    return 0.2 if cell.place == "pinout" else 0.0


def _wiggle(cell: Cell) -> float:
    if _prefix(cell, "intermittent-"):
        return 0.8
    loose = _prefix(cell, "open-", "resistive-") or cell.fault == "cable-cut"
    return 0.3 if loose and cell.place in ("terminal", "plug:mating", "plug:crimp") else 0.0


def _one_of(chance: float, *faults: str) -> _Find:
    return lambda cell: chance if cell.fault in faults else 0.0


def _range_setting(cell: Cell) -> float:
    if cell.fault == "sensor-wrong-part" and cell.place == "range":
        return 0.5
    return {"setting-range": 0.96, "setting-unit": 0.9}.get(cell.fault, 0.0)


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
        Inspection("cable-routing", _one_of(0.8, "noise-pickup", "shield-looped")),
        Inspection("port", _one_of(0.8, "port-blocked")),
        Inspection("cock", _one_of(0.95, "sensor-cock-shut")),
        Inspection("tap-place", _one_of(0.85, "tap-wrong-side")),
        Inspection("cable-damage", _damage),
        Inspection("gauge-zero", _one_of(0.65, "site-gauge-wrong")),
        Inspection("meter-check", _one_of(0.93, "meter-wrong")),
        Inspection("wiggle", _wiggle),
    )
}


def chance(cell: Cell, item: str, word: str) -> float:
    """Return the chance that a look at `item` says `word`, under a cell's fault; 1 where nobody could see."""
    if word == "not-seen":
        return 1.0
    wrong = max(INSPECTIONS[item].finds(cell), FALSE_ALARM)
    return wrong if word == "wrong" else 1.0 - wrong
