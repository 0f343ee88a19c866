"""The devices of the loop as netlist lines: supply, input, sensors, damp bridges, with soft limits and real junctions.

Rules
-----
1. Each function returns lines for ngspice and takes the names of its nodes; `tag` makes names unique.
2. Limits are soft and written as volts against current, which Newton's method likes; diodes are junctions whose volts
   go with temperature.
"""

from __future__ import annotations

import math

from benchmarks.truth.case import Input, Leak, Sensor, Signal, Supply

MODELS = (
    ".model junction d(is=2e-9 n=1.75 rs=0.3)",
    ".model clamp d(is=1e-14 n=1.05 rs=1)",
    ".model protect d(is=1e-8 n=1.6 rs=0.1)",
)
NOWHERE_OHM = 1e12
BACKFEED_OHM = 2000.0


def _resistor(tag: str, a: str, b: str, ohm: float) -> list[str]:
    """Return a resistor, or nothing where it is infinite."""
    return [] if math.isinf(ohm) else [f"R{tag} {a} {b} {max(ohm, 1e-4):.9g}"]


def supply(part: Supply, *, terminal: str, common: str, tripped: bool, loaded: bool) -> list[str]:
    """Return the sensor supply and, while `loaded`, what else hangs on its terminal."""
    limit = part.after_trip_a if tripped else part.limit_a
    back = f"{BACKFEED_OHM:.6g}*max(-i(Vsupply),0)"
    drop = f"{part.source_ohm:.9g}*i(Vsupply)+{_beyond('i(Vsupply)', limit, part.volts)}-{back}"
    lines = [f"Bsupply regulated {common} V={part.volts:.9g}-({drop})", f"Vsupply regulated {terminal} 0"]
    lines += _resistor("bleed", terminal, common, part.bleeder_ohm)
    if loaded:
        lines += _resistor("load", terminal, common, part.other_load_ohm)
        reach = f"min(max(v({terminal},{common}),0)/1.5,30)"
        lines += [f"Bload {terminal} {common} I={part.other_load_a:.9g}*tanh({reach})"]
    return lines


def analogue_input(part: Input, *, terminal: str, common: str, rail_v: float, shunt_ohm: float) -> list[str]:
    """Return the input: its resistance, a wrong burden across it, its pull-up, and a clamp on either side."""
    lines = _resistor("in", terminal, common, part.ohm) + _resistor("shunt", terminal, common, shunt_ohm)
    if not math.isinf(part.pull_up_ohm):
        lines += [f"Vpull pull {common} {rail_v:.9g}", *_resistor("pull", "pull", terminal, part.pull_up_ohm)]
    lines += [
        f"Vclamp clamped {common} {part.clamp_v:.9g}",
        f"Rclamp {terminal} inside {part.clamp_ohm:.9g}",
        "Dhigh inside clamped clamp",
        f"Dlow {common} inside clamp",
    ]
    return lines


def _stage(part: Sensor, signal: Signal, *, nodes: tuple[str, str, str], fraction: float, tag: str) -> list[str]:
    """Return the output stage: a target between rails, sourced from the supply pin and sunk to the common pin."""
    plus, out, minus = nodes
    across = f"v({plus},{minus})"
    low = signal.low if part.low is None else part.low
    high = signal.high if part.high is None else part.high
    volts = low + fraction * (high - low)
    wanted = f"{volts / signal.supply_v:.9g}*{across}" if signal.ratiometric else f"{volts:.9g}"
    top = f"max({across}-{part.high_room_v:.9g},0)"
    held = f"min(max({wanted},{part.low_room_v:.9g}),{top})"
    alive = f"(0.5+0.5*tanh(min(max(({across}-{part.least_v:.9g})/0.15,-30),30)))"
    other = {"common": "0", "floating": held, "supply": f"(1-{alive})*max({across},0)"}[part.starved]
    target = held if part.starved == "floating" else f"{alive}*({held})+{other}"
    drive = alive if part.starved == "floating" else f"(0.5+0.5*tanh(min(max(({across}-1.1)/0.15,-30),30)))"
    amps = f"i(Vout{tag})"
    scale = signal.supply_v
    drop = f"{amps}*({part.out_ohm:.9g}+3e5*(1-{drive}))"
    drop += f"+{_beyond(amps, part.source_a, scale)}-{_beyond('-' + amps, part.sink_a, scale)}"
    return [
        f"Bwant{tag} want{tag} {minus} V={target}-({drop})",
        f"Vout{tag} want{tag} {out} 0",
        f"Bsrc{tag} {plus} {minus} I={drive}*0.5*({amps}+sqrt({amps}*{amps}+4e-14))",
    ]


def _beyond(amps: str, limit_a: float, volts: float) -> str:
    """Return the volts that a current past a soft limit costs: nothing at rest, all of them some 6 % past the limit."""
    slope, square = max(volts, 1.0) / (0.06 * limit_a), (0.02 * limit_a) ** 2
    at_rest = 0.5 * (math.sqrt(limit_a * limit_a + square) - limit_a)
    past = f"({amps}-{limit_a:.9g})"
    return f"{slope:.9g}*(0.5*({past}+sqrt({past}*{past}+{square:.9g}))-{at_rest:.9g})"


def voltage_sensor(part: Sensor, signal: Signal, *, pins: tuple[str, str, str], fraction: float, tag: str) -> list[str]:
    """Return a three-wire sensor on its pins (supply, signal, common)."""
    supply_pin, out, minus = pins
    lines = _resistor(f"sshort{tag}", supply_pin, minus, part.short_ohm)
    lines += _resistor(f"oshort{tag}", out, minus, part.output_short_ohm)
    if part.supply_open:
        return [*lines, f"Roff{tag} {out} {minus} 3e5"]
    plus = f"in{tag}" if part.reverse == "series" else supply_pin
    if part.reverse == "series":
        lines += [f"Dser{tag} {supply_pin} {plus} junction"]
    if part.reverse == "shunt":
        lines += [f"Dshunt{tag} {minus} {supply_pin} junction"]
    across = f"max(v({plus},{minus}),0)"
    slope = f"max(1+{part.quiescent_per_v:.9g}*({across}-{signal.supply_v:.9g}),0.2)"
    lines += [
        f"Bquiet{tag} {plus} {minus} I={part.quiescent_a:.9g}*tanh(min(max({across}/1.2,-30),30))*{slope}",
        f"Rplus{tag} {plus} {minus} 1e6",
    ]
    if part.output_open:
        return [*lines, f"Roff{tag} {out} {minus} 1e8"]
    lines += _stage(part, signal, nodes=(plus, out, minus), fraction=fraction, tag=tag)
    lines += [f"Rpd{tag} {out} {minus} {part.pull_down_ohm:.6g}"]
    if part.output_diode:
        lines += [f"Rbody{tag} {out} body{tag} 10", f"Dbody{tag} {minus} body{tag} protect"]
    if part.reverse != "blocking":
        lines += [
            f"Resd{tag} {out} esd{tag} 20",
            f"Desdh{tag} esd{tag} {plus} protect",
            f"Desdl{tag} {minus} esd{tag} protect",
        ]
    return lines


def current_sensor(part: Sensor, *, pins: tuple[str, str], fraction: float, tag: str) -> list[str]:
    """Return a two-wire sensor on its pins (plus, minus): a current sink that fades below its least volts."""
    plus, minus = pins
    lines = _resistor(f"sshort{tag}", plus, minus, part.short_ohm)
    if part.supply_open:
        return [*lines, f"Roff{tag} {plus} {minus} 5e7"]
    inner = f"in{tag}" if part.reverse == "series" else plus
    if part.reverse == "series":
        lines += [f"Dser{tag} {plus} {inner} junction"]
    if part.reverse == "shunt":
        lines += [f"Dshunt{tag} {minus} {plus} junction"]
    amps = 0.004 + 0.016 * min(max(fraction, part.floor), part.ceiling)
    ratio = f"(max(v({inner},{minus}),0)/{part.least_v / 1.35:.9g})"
    lines += [
        f"Bsink{tag} {inner} {minus} I={max(amps, 0):.9g}*tanh(min(max({ratio}*{ratio}*{ratio},-30),30))",
        f"Rslope{tag} {inner} {minus} 3e6",
    ]
    return lines


def bridge(leak: Leak, *, a: str, b: str, tag: str) -> list[str]:
    """Return a bridge between two conductors; damp is a cell whose resistance differs with the direction."""
    if leak.emf_v == 0.0 and leak.skew == 0.0:
        return _resistor(f"leak{tag}", a, b, leak.ohm)
    across = f"(v({a},{b})-{leak.emf_v:.9g})"
    return [f"Bleak{tag} {a} {b} I={across}/{leak.ohm:.9g}*(1+{leak.skew:.9g}*tanh(min(max({across}/0.3,-30),30)))"]
