"""What a wiring fault changes: a resistance in a conductor, a bridge between two, one on the wrong terminal."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace

from benchmarks.truth.case import CONDUCTORS, Cable, Case, Fault, Leak, Unsteady
from benchmarks.truth.draw import spread
from benchmarks.truth.faults import parts_of

OPEN_OHM = 1e10
LOOSE = {"connections": 0.85, "wiggle": 0.35}
JUMPY = {"connections": 0.6, "wiggle": 0.85, "min-max": 0.95}
SEEN_OF_PLACE = {
    "run": {"cable-damage": 0.4},
    "plug": {"moisture": 0.8},
    "terminal": {"moisture": 0.6},
}
Break = Callable[[Case, str, str, random.Random], Case]


def _in_series(cable: Cable, wire: str, place: str, ohm: float, *, at_pin: bool) -> Cable:
    """Return the cable with `ohm` more in one conductor; at the plug either in the crimp or on the pin."""
    conductor = cable.conductors[wire]
    if place == "terminal":
        conductor = replace(conductor, terminal_ohm=conductor.terminal_ohm + ohm)
    elif place == "run":
        conductor = replace(conductor, run_ohm=conductor.run_ohm + ohm)
    elif at_pin:
        conductor = replace(conductor, pin_ohm=conductor.pin_ohm + ohm)
    else:
        conductor = replace(conductor, crimp_ohm=conductor.crimp_ohm + ohm)
    return replace(cable, conductors={**cable.conductors, wire: conductor})


def _note(case: Case, fault: Fault) -> Case:
    kept = tuple(old for old in case.faults if old.id != "none")
    return replace(case, faults=(*kept, fault))


def _contact_signs(place: str) -> dict[str, float]:
    return dict(SEEN_OF_PLACE["run"]) if place == "run" else dict(LOOSE)


def break_open(case: Case, fault_id: str, place: str, rng: random.Random) -> Case:
    """One conductor does not go through."""
    (wire,) = parts_of(fault_id, case.kind)
    cable = _in_series(case.cable, wire, place, OPEN_OHM, at_pin=rng.random() < 0.5)
    return _note(
        replace(case, cable=cable),
        Fault(id=fault_id, place=place, severity="open", found_by=_contact_signs(place)),
    )


def break_resistive(case: Case, fault_id: str, place: str, rng: random.Random) -> Case:
    """One conductor has a bad joint; how bad depends on what it carries."""
    (wire,) = parts_of(fault_id, case.kind)
    least, most = (300, 20000) if case.kind == "two-wire" else (30, 3000)
    ohm = (
        spread(rng, 0.05, 5) * case.input.ohm
        if case.kind == "three-wire" and wire == "signal"
        else spread(rng, least, most)
    )
    cable = _in_series(case.cable, wire, place, ohm, at_pin=rng.random() < 0.5)
    signs = {**_contact_signs(place), **({"moisture": 0.3} if place != "run" else {})}
    return _note(
        replace(case, cable=cable),
        Fault(id=fault_id, place=place, severity=f"{ohm:.0f} ohm", found_by=signs),
    )


def break_intermittent(case: Case, fault_id: str, place: str, rng: random.Random) -> Case:
    """One conductor opens now and then."""
    (wire,) = parts_of(fault_id, case.kind)
    share = rng.uniform(0.15, 0.75)
    signs = {**JUMPY, **(SEEN_OF_PLACE["run"] if place == "run" else {})}
    return _note(
        replace(case, unsteady=replace(case.unsteady, conductor=wire, place=place, share=share)),
        Fault(id=fault_id, place=place, severity=f"open {share:.0%} of the time", found_by=signs),
    )


def break_all_cores(case: Case, fault_id: str, place: str, rng: random.Random) -> Case:
    """Every core is open: cut, crushed, or the plug off or half screwed."""
    cable, at_pin = case.cable, rng.random() < 0.7
    for wire in CONDUCTORS[case.kind]:
        cable = _in_series(cable, wire, place, OPEN_OHM, at_pin=at_pin)
    signs = {"cable-damage": 0.6} if place == "run" else {"connections": 0.95, "wiggle": 0.3}
    return _note(replace(case, cable=cable), Fault(id=fault_id, place=place, severity="open", found_by=signs))


def _bridge(case: Case, fault_id: str, place: str, ohm: float, rng: random.Random) -> Leak:
    a, b = parts_of(fault_id, case.kind)
    wet = fault_id.startswith("leakage")
    return Leak(
        a=a,
        b=b,
        place=place,
        ohm=ohm,
        emf_v=rng.choice((-1, 1)) * spread(rng, 0.02, 0.45) if wet else 0.0,
        skew=rng.uniform(-0.45, 0.45) if wet else 0.0,
    )


def break_bridge(case: Case, fault_id: str, place: str, rng: random.Random) -> Case:
    """Two conductors touch, or are joined by damp."""
    wet = fault_id.startswith("leakage")
    ohm = spread(rng, 25, 3e5) if wet else spread(rng, 0.05, 15)
    leak = _bridge(case, fault_id, place, ohm, rng)
    signs = dict(SEEN_OF_PLACE[place]) if wet else {"cable-damage": 0.4, "connections": 0.3}
    return _note(
        replace(case, cable=replace(case.cable, leaks=(*case.cable.leaks, leak))),
        Fault(id=fault_id, place=place, severity=f"{ohm:.3g} ohm", found_by=signs),
    )


_ORDERS = {
    "swapped-supply-common": {"supply": "common", "common": "supply", "signal": "signal"},
    "swapped-supply-signal": {"supply": "signal", "signal": "supply", "common": "common"},
    "swapped-common-signal": {"common": "signal", "signal": "common", "supply": "supply"},
    "rotated-left": {"supply": "common", "signal": "supply", "common": "signal"},
    "rotated-right": {"supply": "signal", "signal": "common", "common": "supply"},
    "reversed": {"supply": "signal", "signal": "supply"},
}
PINOUTS = ("swapped-supply-common", "swapped-supply-signal", "swapped-common-signal", "rotated-left", "rotated-right")


def break_order(case: Case, fault_id: str, _place: str, _rng: random.Random) -> Case:
    """Conductors stand on the wrong terminals."""
    return _note(
        replace(case, cable=replace(case.cable, lands=_ORDERS[fault_id])),
        Fault(id=fault_id, place="terminal", found_by={"wiring-order": 1.0}),
    )


def order_of(fault_id: str) -> dict[str, str]:
    """Return on which terminal each conductor lands with a wiring fault (or behind which pin, for a foreign pinout)."""
    return dict(_ORDERS[fault_id])


def break_pickup(case: Case, fault_id: str, _place: str, rng: random.Random) -> Case:
    """The signal picks up the drive's switching: it jumps, and its mean shifts."""
    looped = fault_id == "shield-looped"
    jump = spread(rng, 0.03, 0.15) if looped else spread(rng, 0.05, 0.4)
    span = case.signal.span if case.kind == "three-wire" else case.signal.span * case.input.nominal_ohm
    unsteady = Unsteady(
        pickup_v=jump * span * rng.uniform(0.2, 0.8),
        jump=jump,
        shift=rng.gauss(0, 0.25) * jump,
    )
    signs = {"wiring-order": 0.3, "cable-routing": 0.5} if looped else {"cable-routing": 0.9}
    signs["min-max"] = 0.9
    return _note(replace(case, unsteady=unsteady), Fault(id=fault_id, severity=f"jumps {jump:.0%}", found_by=signs))


def opened(case: Case) -> Case:
    """Return the case as it stands while its intermittent conductor is open."""
    wire = case.unsteady.conductor
    if wire is None:
        return case
    return replace(case, cable=_in_series(case.cable, wire, case.unsteady.place, OPEN_OHM, at_pin=True))
