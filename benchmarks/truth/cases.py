"""Draws a whole case from a seed: a system, a fault in it, and proof that somebody would have called.

Rules
-----
1. The fault is drawn first, by weight; then systems are drawn until the fault shows on the display or the gauge.
2. ``none``, ``meter-wrong`` and ``vacuum`` need not show: those calls have other causes.
3. The same seed gives the same case for ever on the same version of this file.
"""

from __future__ import annotations

import random
from collections.abc import Callable

from benchmarks.truth.case import Case, Kind
from benchmarks.truth.draw import healthy
from benchmarks.truth.faults import draw_fault, draw_pair
from benchmarks.truth.part_faults import PARTS, break_part
from benchmarks.truth.screen import show
from benchmarks.truth.spice import NoOperatingPointError
from benchmarks.truth.wiring_faults import (
    break_all_cores,
    break_bridge,
    break_intermittent,
    break_open,
    break_order,
    break_pickup,
    break_resistive,
)

ATTEMPTS = 400
SEEN_SHARE = 0.045
PAIR_SHARE = 0.12
SILENT = frozenset({"none", "meter-wrong", "vacuum"})
WIRING: tuple[tuple[str, Callable[[Case, str, str, random.Random], Case]], ...] = (
    ("open-", break_open),
    ("resistive-", break_resistive),
    ("intermittent-", break_intermittent),
    ("cable-cut", break_all_cores),
    ("short-", break_bridge),
    ("leakage-", break_bridge),
    ("swapped-", break_order),
    ("rotated-", break_order),
    ("reversed", break_order),
    ("noise-pickup", break_pickup),
    ("shield-looped", break_pickup),
)
PLACES = {"plug, pin, terminal": (("plug", 70), ("terminal", 30)), "cable run": (("run", 100),)}
DAMP_PLACES = (("plug", 85), ("terminal", 15))


class NoSuchCaseError(RuntimeError):
    """No system was found in which the fault shows."""


def _place(rng: random.Random, family: str, fault_id: str) -> str:
    choices = PLACES.get(family, PLACES["plug, pin, terminal"])
    if fault_id.startswith("leakage-") and family != "cable run":
        choices = DAMP_PLACES
    return rng.choices([place for place, _ in choices], [weight for _, weight in choices])[0]


def _break(case: Case, fault_id: str, place: str, rng: random.Random) -> Case:
    if fault_id == "none":
        return case
    if fault_id in PARTS:
        return break_part(case, fault_id, rng)
    return next(make for prefix, make in WIRING if fault_id.startswith(prefix))(case, fault_id, place, rng)


def shows(case: Case) -> bool:
    """Return whether somebody would call: display off from the gauge, a fault word, or something that jumps."""
    if case.unsteady.share or case.unsteady.jump:
        return True
    screen = show(case, "connected")
    gauge = case.gauge
    needle = (case.water.gauge_psi if gauge.stuck is None else gauge.stuck) + gauge.bias_psi + gauge.zero_psi
    span = case.range_psi[1] - case.range_psi[0]
    return screen.fault != "none" or abs(screen.psi - max(needle, gauge.low)) > SEEN_SHARE * span


def _acceptable(case: Case) -> bool:
    """Return whether the case converges, and shows unless it may be silent."""
    try:
        seen = shows(case)
    except NoOperatingPointError:
        return False
    return seen or set(case.fault_id.split("+")) <= SILENT


def draw_case(seed: str, kind: Kind, *, pairs: bool = False, fault: str | None = None) -> Case:
    """Return the case of a seed.

    Raises
    ------
    NoSuchCaseError
        Where no system was found in which the fault shows.
    """
    rng = random.Random(f"{seed}|{kind}|{pairs}")
    family, single = draw_fault(rng, kind)
    faults: tuple[str, ...] = (single,)
    if pairs and rng.random() < PAIR_SHARE:
        family, faults = "pair", draw_pair(rng)
    if fault is not None:
        family, faults = "plug, pin, terminal", tuple(fault.split("+"))
    place = _place(rng, family, faults[0])
    for _ in range(ATTEMPTS):
        case = healthy(rng, seed, kind)
        for fault_id in faults:
            case = _break(case, fault_id, place, rng)
        if _acceptable(case):
            return case
    raise NoSuchCaseError(f"{seed}: {faults} never shows")
