"""The whole loop in one arrangement as a netlist, and which node each point is.

Rules
-----
1. Node ``0`` is earth. The controller's common is bonded to it.
2. A conductor goes terminal - wire end - (surge protector) - run - crimp - plug contact - pin; a bridge at ``terminal``
   lies on the wire ends, at ``run`` in the middle, at ``plug`` on the contacts, so that it stays with the cable.
3. An arrangement only takes away and adds; a bad contact stays as it was found, also where it was opened and closed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchmarks.truth import devices
from benchmarks.truth.case import CONDUCTORS, Case, Sensor

WIRES_OFF = frozenset({"sensor-leads-lifted", "all-lifted", "source-at-controller", "spare-at-controller"})
DEAD = frozenset({"dead-both-free", "dead-looped"})
NO_OTHER_LOAD = frozenset({"all-lifted", "supply-terminal-clear"})
NO_SENSOR = frozenset({"sensor-unplugged", "spare-at-plug", "temporary-cable", *DEAD})
BOND_OHM = 0.02
SMALL_OHM = 0.01
GOOD_LEAD_OHM = 0.15
NODE_OF_PLACE = {"terminal": "w", "run": "m", "plug": "k"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """How the loop stands: arrangement, the own sensor's fraction, source [V or A], meter in the signal [ohm]."""

    arrangement: str = "connected"
    fraction: float = 0.0
    source: float = 0.0
    burden_ohm: float = 0.0
    tripped: bool = False


def node_of(case: Case, point: str, arrangement: str) -> str | None:
    """Return the node of a point, or None where the point does not exist in this arrangement."""
    if point == "earth":
        return "0"
    if point == "shield":
        return "screen"
    owner, _, name = point.partition(".")
    if name not in CONDUCTORS[case.kind] and point != "controller.common":
        return None
    if owner == "controller":
        return None if arrangement in DEAD else f"t_{name}"
    if owner == "sensor":
        return f"{'k' if arrangement in NO_SENSOR - {'temporary-cable'} else 'n'}_{name}"
    return f"w_{name}" if _is_free(case, name, arrangement) else None


def _is_free(case: Case, wire: str, arrangement: str) -> bool:
    """Return whether a conductor's controller end is off its terminal."""
    lands = case.cable.lands[wire]
    if arrangement == "supply-terminal-clear":
        return lands == "supply"
    if arrangement == "meter-in-signal":
        return lands == "signal"
    return arrangement in WIRES_OFF or arrangement in DEAD or arrangement == "temporary-cable"


def _controller(case: Case, stand: Stand) -> list[str]:
    """Return supply, input and bond; nothing where the power is off and the cable is free."""
    if stand.arrangement in DEAD:
        return []
    loaded = stand.arrangement not in NO_OTHER_LOAD
    common = "t_common"
    lines = devices.supply(case.supply, terminal="t_supply", common=common, tripped=stand.tripped, loaded=loaded)
    lines += devices.analogue_input(
        case.input,
        terminal="t_signal",
        common=common,
        rail_v=case.supply.volts,
        shunt_ohm=case.setting.shunt_ohm,
    )
    return [*lines, f"Rbond {common} 0 {BOND_OHM}"]


def _chain(case: Case, stand: Stand, wire: str) -> list[str]:
    """Return one conductor's resistances from its terminal to the sensor's pin."""
    part = case.cable.conductors[wire]
    lines = [
        f"Rp_{wire} w_{wire} q_{wire} {part.protector_ohm + SMALL_OHM:.9g}",
        f"Ra_{wire} q_{wire} m_{wire} {0.5 * part.run_ohm + SMALL_OHM:.9g}",
        f"Rb_{wire} m_{wire} k_{wire} {0.5 * part.run_ohm + part.crimp_ohm + SMALL_OHM:.9g}",
        f"Re_{wire} m_{wire} screen {case.cable.insulation_ohm:.9g}",
    ]
    if not _is_free(case, wire, stand.arrangement):
        lines.append(f"Rt_{wire} t_{case.cable.lands[wire]} w_{wire} {part.terminal_ohm:.9g}")
    elif stand.arrangement == "meter-in-signal":
        lines.append(f"Rt_{wire} t_signal w_{wire} {part.terminal_ohm + stand.burden_ohm:.9g}")
    if stand.arrangement not in NO_SENSOR or stand.arrangement == "spare-at-plug":
        lines.append(f"Rn_{wire} k_{wire} n_{wire} {part.pin_ohm:.9g}")
    if stand.arrangement == "temporary-cable":
        lines.append(f"Rg_{wire} t_{wire} n_{wire} {GOOD_LEAD_OHM}")
    return lines


def _cable(case: Case, stand: Stand) -> list[str]:
    wires = CONDUCTORS[case.kind]
    lines = [f"Rscreen screen 0 {0.2 if case.cable.screen_tied else 3e9}"]
    for wire in wires:
        lines += _chain(case, stand, wire)
    for i, (a, b) in enumerate(zip(wires, wires[1:] + wires[:1], strict=True)):
        lines.append(f"Ri_{i} m_{a} m_{b} {case.cable.insulation_ohm:.9g}")
    for i, leak in enumerate(case.cable.leaks):
        side = NODE_OF_PLACE[leak.place]
        a, b = (_bridged(case, side, end) for end in (leak.a, leak.b))
        lines += devices.bridge(leak, a=a, b=b, tag=str(i))
    if stand.arrangement == "dead-looped":
        lines += [f"Rloop_{wire} k_{wires[0]} k_{wire} 0.05" for wire in wires[1:]]
    return lines


def _bridged(case: Case, side: str, end: str) -> str:
    """Return the node at one end of a bridge; earth is the screen where that is tied, else true earth."""
    if end != "earth":
        return f"{side}_{end}"
    return "screen" if case.cable.screen_tied else "0"


def _one_sensor(case: Case, part: Sensor, side: str, fraction: float, pins: dict[str, str]) -> list[str]:
    nodes = [f"{side}_{pins[wire]}" for wire in CONDUCTORS[case.kind]]
    if case.kind == "two-wire":
        return devices.current_sensor(part, pins=(nodes[0], nodes[1]), fraction=fraction, tag="x")
    return devices.voltage_sensor(part, case.signal, pins=(nodes[0], nodes[1], nodes[2]), fraction=fraction, tag="x")


def _sensors(case: Case, stand: Stand) -> list[str]:
    """Return the sensor that is in the loop now: its own, a spare open to the air, or none."""
    straight = {wire: wire for wire in CONDUCTORS[case.kind]}
    if stand.arrangement == "spare-at-plug":
        return _one_sensor(case, case.spare, "n", 0.0, straight)
    if stand.arrangement == "spare-at-controller":
        return _one_sensor(case, case.spare, "t", 0.0, straight)
    if stand.arrangement == "sensor-unplugged" or stand.arrangement in DEAD:
        return []
    return _one_sensor(case, case.sensor, "n", stand.fraction, case.cable.pins)


def _source(case: Case, stand: Stand) -> list[str]:
    """Return the technician's signal source on the input; a current source gives way at its compliance."""
    if stand.arrangement != "source-at-controller":
        return []
    value = stand.source * case.source_gain
    if case.kind == "three-wire":
        return [f"Vsource lead t_common {value:.9g}", f"Rsource lead t_signal {case.source_ohm:.9g}"]
    return [f"Bsource t_common t_signal I={value:.9g}*tanh(max(20-v(t_signal,t_common),0)/0.5)"]


def build(case: Case, stand: Stand) -> list[str]:
    """Return the netlist of a case as it stands, without a meter."""
    lines = [*devices.MODELS, f".temp {case.celsius:.1f}"]
    lines += _controller(case, stand) + _cable(case, stand) + _sensors(case, stand) + _source(case, stand)
    names = {token for line in lines if line[0] == "R" for token in line.split()[1:3]} - {"0"}
    return lines + [f"Rfloat{i} {name} 0 {devices.NOWHERE_OHM:.3g}" for i, name in enumerate(sorted(names))]


def sensor_fraction(case: Case, part: Sensor, pressure_psi: float) -> float:
    """Return what fraction of its signal a sensor wants to give at a pressure."""
    low, high = case.range_psi
    true = (pressure_psi + part.pressure_shift - low) / ((high - low) * part.range_factor)
    fraction = part.zero + part.gain * true if part.stuck is None else part.stuck
    return min(max(fraction, part.floor), part.ceiling)


def standing(case: Case, arrangement: str, *, source: float = 0.0) -> Stand:
    """Return how the loop stands in an arrangement at the case's true pressure."""
    vented = arrangement == "vented" and not case.water.trapped
    pressure = 0.0 if vented else case.water.sensor_psi
    burden = case.meter.burden_ohm if arrangement == "meter-in-signal" else 0.0
    if arrangement == "meter-in-signal" and case.meter.fuse_blown:
        burden = devices.NOWHERE_OHM
    fraction = sensor_fraction(case, case.sensor, pressure)
    return Stand(arrangement=arrangement, fraction=fraction, source=source, burden_ohm=burden)


def tripped(stand: Stand) -> Stand:
    """Return the same with the supply's protection tripped."""
    return replace(stand, tripped=True)
