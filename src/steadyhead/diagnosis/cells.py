"""Cells: small neighbourhoods of imagined systems, each with one fault of one size in one place.

Theory of operation
-------------------
1. A suspect is a set of cells. A cell fixes what does not vary smoothly: the fault, its place, the make of the devices.
   What does vary smoothly (`Latents`) has a normal distribution in it, the fault's size one about the cell's own.
2. A cell predicts a reading by a straight line in its latents about the point where it was looked at. So all readings
   of one visit share the same unknown gauge error, and a dozen cells do the work of thousands of drawn systems.
3. Cells of a fault divide its probability evenly but for the shares of its places.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

from steadyhead.diagnosis.complaint import factor
from steadyhead.diagnosis.makes import BATTERY_V, DIMENSIONS, Latents, evenly, healthy, points, sensor_of
from steadyhead.diagnosis.priors import prior
from steadyhead.diagnosis.system import System, last_mended
from steadyhead.loop.draft import LoopDraft
from steadyhead.loop.faults import FAULTS, Fault, faults_of

#: Cells of a fault with and without a size.
SIZED, UNSIZED = 14, 5
#: Cells of a wrong wiring, which every make of device takes differently.
DEVICES = 14
#: How much likelier it is that nothing is wrong once something has been mended.
MENDED = 12.0
#: Standard deviation of a cell's size, in the distance to the next cell's.
OVERLAP = 0.6


@dataclass(frozen=True, slots=True)
class Cell:
    """One neighbourhood.

    Parameters
    ----------
    fault
        Id of the fault.
    remedy
        What mends it.
    place
        Where it is, in the fault's own words.
    weight
        Its share of all probability before the first reading.
    size
        Middle of the fault's size, as a part of its scale.
    width
        Standard deviation of that part; 0 where the fault has no size.
    make
        Point of the unit cube from which the devices' makes are drawn.
    good_now
        Whether an intermittent fault is making contact.
    said
        How many times the complaint multiplied its weight.
    """

    fault: str
    remedy: str
    place: str
    weight: float
    size: float
    width: float
    make: tuple[float, ...]
    good_now: bool = False
    said: float = 1.0

    def severity(self, z: Latents) -> float:
        """Return the fault's size on its own scale."""
        scale = BY_ID[self.fault].severity
        return scale.at(self.size + self.width * z.severity) if scale else 0.0

    def draft(self, system: System, z: Latents, *, spare: bool = False, quiet: bool = False) -> LoopDraft:
        """Return the loop of this cell at one point of its latents.

        With `spare` a good sensor lies beside it; `quiet`, there is nothing that the cable could pick up.
        """
        draft = healthy(system, self.make, z)
        if spare:
            draft.spare = sensor_of(system, self.make, z._replace(sensor=0.0))
        as_read = self.fault == "setting-range" and system.scaled is not None
        if not (self.good_now or as_read or (quiet and self.noisy)):
            BY_ID[self.fault].change(draft, self.severity(z), self.place)
        if self.damp:
            draft.leaks = [replace(leak, volts=BATTERY_V * z.battery) for leak in draft.leaks]
        return draft

    @property
    def noisy(self) -> bool:
        """Whether the fault is what the cable picks up."""
        return self.fault in {"noise-pickup", "shield-looped"}

    @property
    def damp(self) -> bool:
        """Whether the fault is a wet joint, which is a battery too."""
        return self.fault.startswith("leakage-")


BY_ID: dict[str, Fault] = {fault.id: fault for fault in FAULTS}


def cells(system: System) -> list[Cell]:
    """Return all cells of a system, their weights summing to one."""
    odds = prior(system.wires, system.kind, system.estimates)
    found: list[Cell] = []
    for index, fault in enumerate(faults_of(system.wires, system.kind)):
        weight = odds[fault.id] * _by_setting(system, fault.id)
        if weight > 0.0:
            found += _of(fault, index, weight)
    said = {cell.fault: factor(system.visit.complaint, cell.fault, system.estimates) for cell in found}
    total = sum(cell.weight * said[cell.fault] for cell in found)
    return [replace(c, weight=c.weight * said[c.fault] / total, said=said[c.fault]) for c in found]


def _by_setting(system: System, fault: str) -> float:
    """Return the factor that the setting read on this visit puts on a fault's odds."""
    if fault == "setting-range" and system.scaled is not None:
        return 12.0 if system.scaled_differs else 0.02
    if fault == "none" and system.scaled_differs:
        return 0.0
    return MENDED if fault == "none" and last_mended(system.visit) else 1.0


def _of(fault: Fault, index: int, weight: float) -> list[Cell]:
    count = SIZED if fault.severity else DEVICES if fault.family == "miswired" else UNSIZED
    places = _places(fault, count)
    makes = evenly(points(index, len(places), DIMENSIONS))
    share = {place: part / sum(1 for p in places if p == place) for place, part in fault.places}
    found = []
    seen: dict[str, int] = {}
    for place, make in zip(places, makes, strict=True):
        number = seen.get(place, 0)
        seen[place] = number + 1
        spacing = 1.0 / sum(1 for p in places if p == place)
        size = (number + 0.5) * spacing
        width = OVERLAP * spacing if fault.severity else 0.0
        good = fault.id.startswith("intermittent") and number % 2 == 1
        found.append(
            Cell(fault.id, fault.remedy, place, weight * share[place], size, width, make, good_now=good)
        )
    return found


def _places(fault: Fault, count: int) -> list[str]:
    """Return a place for each cell: at least four cells where the fault has a size, and two elsewhere."""
    least = 4 if fault.severity else 2
    found: list[str] = []
    for place, part in fault.places:
        found += [place] * max(least, ceil(count * part))
    return found
