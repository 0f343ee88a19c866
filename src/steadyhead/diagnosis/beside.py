"""A second gauge read beside the first: what it shows is a figure like any other, and tells which of the two lies.

Rules
-----
1. A gauge says where the pressure stands, give or take its error, for the readings after it. Where a gauge of the other
   owner is read later, that reading is foretold as well: by the pressure as the first one left it.
2. Each of the two has an error of its own, which all of its readings share.
3. A gauge that lies misleads by what it shows alone. Where one alone was read, nobody knows for sure whose it is.
4. The pressure may have moved a little until the second one is on the pipe; display and both gauges are read together.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import sqrt
from typing import NamedTuple

from steadyhead.diagnosis.doubt import BOUND_IN_SD
from steadyhead.diagnosis.system import System
from steadyhead.loop.draft import LoopDraft
from steadyhead.visit.record import Visit

#: How far the pressure may have drifted until a second gauge is on the pipe [parts of span].
DRIFT = 0.01
OWN, SITE = "own", "site"


class Owners(NamedTuple):
    """Whose gauge was read first, and whose second: empty where only one was."""

    first: str = ""
    second: str = ""


def owners(visit: Visit) -> Owners:
    """Return whose gauges have been read, in their order."""
    found = list(dict.fromkeys(_read_off(visit)))
    return Owners(*found[:2]) if len(found) > 1 else Owners()


def own_is_left(visit: Visit) -> bool:
    """Tell whether the site's gauge was read, and the technician's own was not."""
    return set(_read_off(visit)) == {SITE}


def _read_off(visit: Visit) -> Iterable[str]:
    """Return whose gauge each reading of one was."""
    return (r.whose for r in visit.readings if r.measure == "gauge-pressure")


def off_pa(draft: LoopDraft, whose: str) -> float:
    """Return by how much a gauge shows too much [Pa]: any gauge that lies, where nobody knows whose was read."""
    if not whose:
        return draft.gauge_off_pa + draft.own_gauge_off_pa
    return draft.own_gauge_off_pa if whose == OWN else draft.gauge_off_pa


def own_error(system: System, pressure_pa: float) -> float:
    """Return a gauge's own error as a standard deviation [Pa]."""
    return system.gauge_error(pressure_pa) / BOUND_IN_SD


def alone(system: System, resolution_pa: float) -> float:
    """Return what a second gauge's reading is off by itself: as it is read, and as the pressure drifts [Pa]."""
    return sqrt(resolution_pa**2 / 12.0 + (DRIFT * system.range.width) ** 2)
