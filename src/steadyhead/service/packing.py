"""Use case: before the drive, what to load so that a second trip is least likely, as JSON values."""

from __future__ import annotations

from typing import Any

from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Asked, Memory
from steadyhead.diagnosis.packing import Loaded, Packed, pack
from steadyhead.diagnosis.packing_instruments import Carried, Kit, kit
from steadyhead.diagnosis.system import System
from steadyhead.quantities import spell_range
from steadyhead.visit.record import Visit

#: What is worked out of a visit: parts, and instruments.
PARTS, INSTRUMENTS = Asked("pack:parts", Packed, (Loaded,)), Asked("pack:instruments", Kit, (Carried,))


def pack_json(visit: Visit, estimates: Estimates = SHIPPED, *, memory: Memory | None = None) -> dict[str, Any]:
    """Return what to load for a visit, parts and instruments, with all that is known of it.

    Parameters
    ----------
    visit
        The visit.
    estimates
        How often faults are met, which parts a repair needs.
    memory
        What was worked out of this visit before.
    """
    known = Memory() if memory is None else memory
    parts = known.answer(visit, estimates, PARTS, lambda: pack(System(visit, estimates, known)))
    instruments = known.answer(visit, estimates, INSTRUMENTS, lambda: kit(System(visit, estimates, known)))
    return {**_parts(parts, visit), **_instruments(instruments)}


def _parts(packed: Packed, visit: Visit) -> dict[str, Any]:
    return {
        "second_trip": {"before": packed.before, "advised": packed.advised, "floor": packed.floor},
        "parts_at_hand": list(packed.at_hand),
        "parts": [
            {
                "part": each.part,
                "which": which(each.part, visit),
                "needed": each.needed,
                "second_trip": each.second_trip,
                "saves_minutes": each.saves_minutes,
                "load": each.load,
            }
            for each in packed.parts
        ],
    }


def _instruments(found: Kit) -> dict[str, Any]:
    return {
        "unproved": {"before": found.before, "floor": found.floor},
        "instruments_at_hand": list(found.at_hand),
        "instruments": [
            {"instrument": each.instrument, "unproved": each.unproved, "saves_minutes": each.saves_minutes}
            for each in found.instruments
        ],
    }


def which(part: str, visit: Visit) -> str | None:
    """Return which one of a part this system needs, as a file spells it; None where nothing here says it.

    What is printed on the sensor's plate stands in brackets where the visit is in another unit of pressure.
    """
    if part == "sensor":
        sensor = visit.sensor
        signal = spell_range(sensor.signal.low, sensor.signal.high, "mA" if sensor.signal.kind == "current" else "V")
        ranges = [
            spell_range(sensor.range.low, sensor.range.high, unit)
            for unit in dict.fromkeys((visit.pressure_unit, visit.plate_unit or visit.pressure_unit))
        ]
        return f"{' ('.join(ranges)}{')' * (len(ranges) - 1)}, {signal}"
    if part == "cable" and visit.cable.length_m is not None:
        return f"{visit.cable.length_m:g} m"
    return None
