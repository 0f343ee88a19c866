"""All estimates in one frozen value, so that a company's own figures reach every sum that uses one.

Rules
-----
1. An estimate is a row: a section, a name in it, a figure, a reason. The shipped rows are `SHIPPED`.
2. Another set is made by replacing rows; rows are never added, taken away or changed in place.
3. Shares are above zero: no row can exclude a fault, readings must always be able to win.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Literal, NamedTuple

from steadyhead.diagnosis import shipped, shipped_parts
from steadyhead.diagnosis.complaint_effects import EFFECTS, MOST
from steadyhead.loop.faults import FAULTS
from steadyhead.loop.vocabulary import ARRANGEMENTS

NONE_OF_THESE = "none-of-these"


class Row(NamedTuple):
    """One estimate: its figure in the unit of its section, and why."""

    value: float
    reason: str


class Section(NamedTuple):
    """What a section's figures are: their unit, between which ends they must lie, and what they say."""

    name: str
    unit: Literal["calls", "share", "times", "min", "chance"]
    least: float
    most: float
    says: str


SECTIONS: dict[str, Section] = {
    section.name: section
    for section in (
        Section("families", "calls", 0.01, 100.0, "How many of 100 calls a family of faults is met in."),
        Section("faults", "share", 0.001, 100.0, "How large a part of its family a fault is, beside the others."),
        Section("complaint", "times", 1.0 / MOST, MOST, "How many times likelier what was said makes faults."),
        Section("arrangements", "min", 0.0, 600.0, "Minutes to set a hook-up up."),
        Section("readings", "min", 0.0, 120.0, "Minutes of one reading; `meter` is any that a meter makes."),
        Section("inspections", "min", 0.0, 120.0, "Minutes of a look."),
        Section("walk", "min", 0.0, 240.0, "Minutes of the leads' way from panel to sensor, and back."),
        Section("repairs", "min", 0.0, 6000.0, "Minutes of a repair's work."),
        Section("parts", "min", 0.0, 60000.0, "A repair's parts, their price counted as minutes."),
        Section("trips", "min", 0.0, 60000.0, "Minutes of a second trip, and of loading one thing."),
        Section("needs", "chance", 0.0, 1.0, "How likely a repair, at a place, needs a part: `repair/place/part`."),
        Section("fits", "chance", 0.0, 1.0, "How likely a part that was loaded will do."),
    )
}


@dataclass(frozen=True)
class Estimates:
    """Every estimate that the diagnosis uses.

    Parameters
    ----------
    rows
        By section and name.

    Examples
    --------
    >>> SHIPPED.families["sensor"], SHIPPED.arrangements["vented"], SHIPPED.second_trip
    (30.0, 7.0, 120.0)
    >>> slower = SHIPPED.replaced({("arrangements", "vented"): Row(25.0, "no cocks here")})
    >>> slower.arrangements["vented"], SHIPPED.arrangements["vented"]
    (25.0, 7.0)
    """

    rows: Mapping[str, Mapping[str, Row]]

    def replaced(self, changes: Mapping[tuple[str, str], Row]) -> Estimates:
        """Return the estimates with other figures in some rows.

        Raises
        ------
        KeyError
            A row that does not exist: a mistake of the program.
        """
        rows = {section: dict(names) for section, names in self.rows.items()}
        for (section, name), row in changes.items():
            if name not in rows[section]:
                raise KeyError(name)
            rows[section][name] = row
        return Estimates(rows)

    def _values(self, section: str) -> Mapping[str, float]:
        return MappingProxyType({name: row.value for name, row in self.rows[section].items()})

    @cached_property
    def families(self) -> Mapping[str, float]:
        """Calls in 100 of each family, ``none-of-these`` among them."""
        return self._values("families")

    @cached_property
    def faults(self) -> Mapping[str, float]:
        """Share of each fault within its family; only their ratios count."""
        return self._values("faults")

    @cached_property
    def complaint(self) -> Mapping[str, float]:
        """How many times likelier each word of a complaint makes some faults, by ``key/word/what``."""
        return self._values("complaint")

    @cached_property
    def arrangements(self) -> Mapping[str, float]:
        """Minutes to set each arrangement up [min]."""
        return self._values("arrangements")

    @cached_property
    def readings(self) -> Mapping[str, float]:
        """Minutes of one reading by its measure; ``meter`` is any that a meter makes [min]."""
        return self._values("readings")

    @cached_property
    def inspections(self) -> Mapping[str, float]:
        """Minutes of each look [min]."""
        return self._values("inspections")

    @cached_property
    def walk(self) -> Mapping[str, float]:
        """Minutes of the way ``to-sensor`` and ``back`` [min]."""
        return self._values("walk")

    @cached_property
    def costs(self) -> Mapping[str, float]:
        """What each repair costs, its parts' price counted as minutes [min]."""
        parts = self.rows["parts"]
        return {remedy: row.value + parts[remedy].value for remedy, row in self.rows["repairs"].items()}

    def cost(self, remedy: str) -> float:
        """Return what a repair costs; a pair, ``a+b``, costs what its two cost [min]."""
        return self.costs[remedy] if remedy in self.costs else sum(self.costs[one] for one in remedy.split("+"))

    @cached_property
    def needs(self) -> Mapping[str, float]:
        """How likely a repair needs a part, by ``repair/part`` and ``repair/place/part``."""
        return self._values("needs")

    @cached_property
    def fits(self) -> Mapping[str, float]:
        """How likely each part that was loaded will do."""
        return self._values("fits")

    @cached_property
    def loading(self) -> float:
        """Minutes to load one thing [min]."""
        return self.rows["trips"]["loading"].value

    @cached_property
    def second_trip(self) -> float:
        """Minutes of a second trip [min]."""
        return self.rows["trips"]["second-trip"].value


def _why_of_family(fault: str) -> str:
    """Return the reason of a fault's share, by its id or the longest beginning that has one."""
    known = [start for start in shipped.WHY_OF_FAMILY if fault.startswith(start)]
    return shipped.WHY_OF_FAMILY[max(known, key=len)]


def _shipped() -> dict[str, dict[str, Row]]:
    families = {name: Row(share.per_100, share.reason) for name, share in shipped.FAMILIES.items()}
    return {
        "families": {**families, NONE_OF_THESE: Row(shipped.NONE_OF_THESE, shipped.WHY_NONE_OF_THESE)},
        "faults": {fault.id: Row(fault.share, _why_of_family(fault.id)) for fault in FAULTS},
        "complaint": {effect.row: Row(effect.times, effect.reason) for effect in EFFECTS},
        "arrangements": {
            name: Row(float(ARRANGEMENTS[name].minutes), reason) for name, reason in shipped.WHY_ARRANGEMENTS.items()
        },
        "readings": {name: Row(*spent) for name, spent in shipped.READING_MINUTES.items()},
        "inspections": {name: Row(*spent) for name, spent in shipped.INSPECTION_MINUTES.items()},
        "walk": {name: Row(*spent) for name, spent in shipped.WALK_MINUTES.items()},
        "repairs": {name: Row(repair.work, repair.reason) for name, repair in shipped.REPAIRS.items()},
        "parts": {name: Row(repair.part, repair.reason) for name, repair in shipped.REPAIRS.items()},
        "trips": {"second-trip": Row(*shipped.SECOND_TRIP), "loading": Row(*shipped.LOADING)},
        "needs": {name: Row(*chance) for name, chance in shipped_parts.NEEDS.items()},
        "fits": {name: Row(*chance) for name, chance in shipped_parts.FITS.items()},
    }


SHIPPED = Estimates(_shipped())
