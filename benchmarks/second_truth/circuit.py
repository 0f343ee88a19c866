"""The loop as it stands in an arrangement, as a circuit, and its operating points.

A wire is a chain: terminal (``cs``, ``0``, ``cg``), its controller end ``w?``, its run ``m?``, the plug's
contact ``p?``, the sensor's pin ``q?``; ``u``, ``k``, ``g`` stand for supply, common, signal; ``e`` is earth.
A fault that comes and goes, and a supply that hiccups, give several operating points: a jumping reading.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchmarks.second_truth.case import Case
from benchmarks.second_truth.devices import MODELS, SensorState, controller_input, supply, three_wire, two_wire
from benchmarks.second_truth.faults import Fault
from benchmarks.second_truth.makes import SensorMake
from benchmarks.second_truth.spice import solve

LETTER = {"supply": "u", "common": "k", "signal": "g"}
TERMINAL = {"supply": "cs", "common": "0", "signal": "cg"}
LANDED = {"connected", "sensor-unplugged", "spare-at-plug", "vented", "meter-in-signal", "supply-terminal-clear"}
DEAD = {"dead-both-free", "dead-looped"}
PLUGGED = LANDED - {"sensor-unplugged", "spare-at-plug"} | {"sensor-leads-lifted", "all-lifted"}
ARRANGEMENTS = (
    LANDED
    | DEAD
    | {"sensor-leads-lifted", "all-lifted", "spare-at-controller", "temporary-cable", "source-at-controller"}
)
GOOD_LEAD_OHM = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """How the loop stands for one reading."""

    arrangement: str
    source: float | None = None  #: V or mA on the input
    sway: float = 0.0  #: what a wandering sensor adds to its fraction now
    bridge: tuple[str, ...] = ()  #: lines of the meter itself
    steady: bool | None = None  #: a bad contact that happens to hold (True) or not (False)


def lifted(case: Case, setup: Setup) -> set[str]:
    """Return the wires that are off their terminals."""
    where = case.terminals()
    if setup.arrangement == "supply-terminal-clear":
        return {wire for wire, terminal in where.items() if terminal == "supply"}
    if setup.arrangement == "meter-in-signal":
        return {wire for wire, terminal in where.items() if terminal == "signal"}
    return set() if setup.arrangement in LANDED else set(where)


def body(case: Case, setup: Setup, supply_state: str, *, bad: bool) -> list[str]:
    """Return the whole circuit; ``bad`` says whether a fault that comes and goes is there."""
    arrangement, system = setup.arrangement, case.system
    lines = [*MODELS, f"Rbond 0 e {system.bond_ohm:.6g}", *_cable(case, setup, bad=bad)]
    if arrangement in DEAD:
        return [*lines, *setup.bridge]
    lines += _controller(case, setup, supply_state)
    if arrangement in PLUGGED:
        lines += _own_sensor(case, setup, "q")
    if arrangement == "temporary-cable":
        lines += [f"Rtmp{wire} x{LETTER[wire]} {TERMINAL[wire]} {GOOD_LEAD_OHM}" for wire in system.wires]
        lines += _own_sensor(case, setup, "x")
    if arrangement == "spare-at-plug":
        lines += _sensor_lines(
            "sp",
            {wire: f"p{LETTER[wire]}" for wire in system.wires},
            system.spare,
            _spare_state(system.spare),
            two=system.two_wire,
        )
    if arrangement == "spare-at-controller":
        lines += _sensor_lines(
            "sp",
            {wire: TERMINAL[wire] for wire in system.wires},
            system.spare,
            _spare_state(system.spare),
            two=system.two_wire,
        )
    return [*lines, *setup.bridge]


def _spare_state(make: SensorMake) -> SensorState:
    return SensorState(fraction=make.zero)


def _own_sensor(case: Case, setup: Setup, prefix: str) -> list[str]:
    state = case.sensor_state(case.sensed(setup.arrangement))
    state = replace(state, fraction=state.fraction + setup.sway)
    pins = {wire: f"{prefix}{LETTER[wire]}" for wire in case.system.wires}
    if case.fault.id == "sensor-wrong-part" and case.fault.variant == "pinout":
        orders = [(0, 2, 1), (1, 0, 2), (2, 1, 0), (1, 2, 0), (2, 0, 1)]
        names = list(pins.values())
        pins = dict(zip(pins, (names[at] for at in orders[int(case.fault.get("turn")) - 1]), strict=True))
    return _sensor_lines("se", pins, case.fitted, state, two=case.fitted_two_wire)


def _sensor_lines(tag: str, pins: dict[str, str], make: SensorMake, state: SensorState, *, two: bool) -> list[str]:
    if two:
        return two_wire(tag, (pins["supply"], pins["signal"]), make, state)
    return three_wire(tag, (pins["supply"], pins.get("common", "nc"), pins["signal"]), make, state)


def _controller(case: Case, setup: Setup, supply_state: str) -> list[str]:
    fault, make = case.fault, case.supply()
    lines = [*supply(make, "cs", supply_state), *controller_input(case.input(), "cg")]
    if setup.arrangement not in {"all-lifted", "supply-terminal-clear"}:
        if make.other_a:
            lines.append(f"Rother cs 0 {case.system.supply.volts / make.other_a:.6g}")
        if fault.id == "other-load" and fault.variant == "resistor":
            lines.append(f"Rload cs 0 {fault.get('ohm'):.6g}")
        elif fault.id == "other-load":
            lines += ["Dload cs ol dpw", f"Vload ol 0 {fault.get('volts') * make.volts:.6g}"]
    if fault.id == "controller-input-dead" and fault.variant == "to-supply":
        lines += [f"Rbad cg vbad {fault.get('ohm') + 20:.6g}", "Vbad vbad 0 5"]
    if setup.source is not None:
        lines += _source(case, setup.source)
    return lines


def _source(case: Case, level: float) -> list[str]:
    """Return a signal source: volts behind some ohms, or milliamps with a compliance of 20 V."""
    if case.system.two_wire:
        return [f"Ical 0 cg {level / 1e3:.6g}", "Dcal cg cal dpw", "Vcal cal 0 20"]
    return [f"Vcal cal 0 {level:.6g}", "Rcal cal cg 20"]


def _cable(case: Case, setup: Setup, *, bad: bool) -> list[str]:
    """Return conductors, joints, damp and shorts, as far as they are there in this arrangement."""
    system, fault, arrangement = case.system, case.fault, setup.arrangement
    off = lifted(case, setup)
    lines: list[str] = []
    for wire, terminal in case.terminals().items():
        letter = LETTER[wire]
        extra = dict.fromkeys(("terminal", "run", "crimp", "pin"), 0.0)
        for spot in _spots(fault, wire, bad=bad):
            extra[spot] += fault.get("ohm")
        half = system.wire_ohm / 2
        lines.append(f"Ra{letter} w{letter} m{letter} {half + system.protector_ohm + extra['run']:.6g}")
        lines.append(f"Rb{letter} m{letter} p{letter} {half + extra['crimp'] + 1e-3:.6g}")
        if wire not in off:
            lines.append(
                f"Rt{letter} w{letter} {TERMINAL[terminal]} {system.contacts[wire, 'terminal'] + extra['terminal']:.6g}"
            )
        if arrangement in PLUGGED:
            lines.append(f"Rp{letter} p{letter} q{letter} {system.contacts[wire, 'plug'] + extra['pin']:.6g}")
        if arrangement == "dead-looped":
            lines.append(f"Rj{letter} p{letter} loop 0.05")
    for pair, ohm in system.leaks.items():
        lines.append(f"Rk{pair.replace('-', '')} {_pair_nodes(pair, 'm')[0]} {_pair_nodes(pair, 'm')[1]} {ohm:.6g}")
    return [*lines, *_bridges(case, setup)]


def _spots(fault: Fault, wire: str, *, bad: bool) -> list[str]:
    """Return where in this wire the fault adds its ohms now."""
    if fault.head == "intermittent" and not bad:
        return []
    if fault.id == "cable-cut":
        return ["run" if fault.place == "run" else fault.side]
    if fault.head in {"open", "resistive", "intermittent"} and fault.tail == wire:
        return [fault.side if fault.place == "plug" else str(fault.place)]
    return []


def _pair_nodes(pair: str, spot: str) -> tuple[str, str]:
    first, second = pair.split("-")
    return f"{spot}{LETTER[first]}", "e" if second == "earth" else f"{spot}{LETTER[second]}"


def _bridges(case: Case, setup: Setup) -> list[str]:
    """Return the short or the damp between two conductors.

    A stray strand between terminals goes with the wires that are lifted; damp on a terminal strip stays
    on the strip. Damp in a plug stays in part in the cable's half when the plug is pulled.
    """
    fault, arrangement = case.fault, setup.arrangement
    if fault.head not in {"short", "leakage"}:
        return []
    spot = {"terminal": "w", "run": "m", "plug": "p"}[str(fault.place)]
    first, second = _pair_nodes(fault.tail, spot)
    ohm = fault.get("ohm")
    if fault.place == "terminal":
        if fault.head == "short" and arrangement not in LANDED:
            return []
        if fault.head == "leakage":
            if arrangement in DEAD:
                return []
            pair = fault.tail.split("-")
            first, second = (("e" if name == "earth" else TERMINAL[name]) for name in pair)
    if fault.head == "leakage" and fault.place == "plug" and arrangement not in PLUGGED:
        ohm /= fault.get("share", 1.0)
    if fault.head == "short":
        return [f"Rflt {first} {second} {ohm:.6g}"]
    return [f"Rflt {first} wet {ohm:.6g}", f"Vwet wet {second} {fault.get('emf'):.6g}"]


def operate(case: Case, setup: Setup, nodes: tuple[str, ...]) -> list[dict[str, float]]:
    """Return the operating points that this set-up goes through: one, or the two of a jumping loop."""
    comes_and_goes = case.fault.head == "intermittent"
    phases = [True] if not comes_and_goes or setup.steady is False else ([False] if setup.steady else [True, False])
    return [point for bad in phases for point in _with_supply(case, setup, nodes, bad=bad)]


def _with_supply(case: Case, setup: Setup, nodes: tuple[str, ...], *, bad: bool) -> list[dict[str, float]]:
    """Solve, and let a fuse heat up or a hiccuping supply pause where it is overloaded."""
    celsius, make = case.system.celsius, case.supply()
    if setup.arrangement in DEAD:
        return [solve(body(case, setup, "on", bad=bad), nodes, celsius)]
    wanted = tuple({*nodes, "cs"})
    on = solve(body(case, setup, "on", bad=bad), wanted, celsius)
    amps = (make.volts - on["cs"]) / make.source_ohm
    if make.kind == "fuse" and amps > make.limit_a:
        return [_hot_fuse(case, setup, wanted, bad=bad)]
    if make.kind == "hiccup" and amps > 0.98 * make.limit_a:
        return [on, solve(body(case, setup, "off", bad=bad), wanted, celsius)]
    return [on]


def _hot_fuse(case: Case, setup: Setup, nodes: tuple[str, ...], *, bad: bool) -> dict[str, float]:
    """Find the resistance at which a tripped fuse burns what keeps it hot."""
    make = case.supply()
    ohm = make.volts**2 / make.hold_w
    point: dict[str, float] = {}
    for _ in range(5):
        point = solve(body(case, setup, f"hot:{ohm:.6g}", bad=bad), nodes, case.system.celsius)
        across = max(make.volts - point["cs"], 0.05 * make.volts)
        ohm = (ohm * max(across**2 / make.hold_w, 1.0)) ** 0.5
    return point
