"""Toy beliefs for the planner: a few cells, and what each check would show under them written down by hand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.cells import Cell, cells
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Question, no_gauge
from steadyhead.diagnosis.planning import Planner
from steadyhead.diagnosis.predicting import Bins, Outlook
from steadyhead.diagnosis.system import System
from tests.diagnosis.visits import HOUSE, VAN, system

#: Faults with one place each and a remedy of their own or of a neighbour.
CABLE, CABLE_TOO = "open-signal", "open-common"
SENSOR, SENSOR_TOO = "sensor-frozen", "sensor-zero-shift"
BOARD, SETTING = "controller-input-shifted", "setting-offset"

#: Looks cost 4 minutes each, wherever one stands.
LOOK, LOOK_TOO = Question("inspection", item="cock"), Question("inspection", item="port")
#: The first volts cost 2 to set up and 1 to read, the next there 1.
SUPPLY = Question("volts", "connected", "controller.supply", "controller.common")
SIGNAL = Question("volts", "connected", "controller.signal", "controller.common")
LIFTED = Question("volts", "all-lifted", "controller.supply", "controller.common")
A_LOOK, SET_UP, READING = 4.0, 2.0, 1.0

Shown = Mapping[Question, Mapping[str, Bins]]


@cache
def house() -> System:
    """Return the system that all toy beliefs are about."""
    return system(HOUSE + VAN)


@cache
def one_cell(fault: str) -> Cell:
    """Return the first cell of a fault alone."""
    return next(cell for cell in cells(house()) if cell.fault == fault)


def planner(shares: Mapping[str, float], shown: Shown) -> Planner:
    """Return a planner of one cell for each fault, which foresees what is written down."""
    held = [Weighed(one_cell(fault), share, Latents(), ()) for fault, share in shares.items()]
    found = Planner(house(), held, no_gauge(house()))
    found.looks = {
        q: [Outlook(0.0, by_fault[w.cell.fault]) for w in found.weighed] for q, by_fault in shown.items()
    }
    return found


def told(faults: Sequence[str], *tell: str) -> dict[str, Bins]:
    """Return what a check shows that tells some faults from the rest, without a doubt."""
    return {fault: (("wrong" if fault in tell else "right", 1.0),) for fault in faults}
