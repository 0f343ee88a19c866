"""Spice text of the devices in a loop: sensors, supplies, inputs.

Each function returns the lines of one device between named nodes. A limit of current is a current source
with a sharp diode back across it: it passes what is asked, up to the source's current, and ngspice finds its
operating point where a saturating formula makes Newton's method cycle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchmarks.second_truth.makes import InputMake, SensorMake, SupplyMake

MODELS = (
    ".model dsi d(is=2e-12 n=1.2 rs=8)",
    ".model dpw d(is=5e-10 n=1.5 rs=0.5)",
    ".model dsk d(is=2e-7 n=1.1 rs=3)",
    ".model dli d(is=1e-9 n=0.1)",
    ".model dcl d(is=1e-11 n=1.2 rs=15)",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SensorState:
    """What a sensor does now: a pressure as a fraction of its span, or a way of being dead."""

    fraction: float
    mode: str = "works"  #: works, open, open-supply, shorted, low, high, frozen, dead-output
    level: float = 0.0
    ohm: float = 1e9
    leak_ohm: float | None = None  #: damp inside, from output to common


def _tanh(argument: str) -> str:
    """Return tanh with its argument held in bounds: its derivative overflows in ngspice far out."""
    return f"tanh(max(min({argument},25),-25))"


def _limit(tag: str, here: str, there: str, amps: float) -> list[str]:
    """Return a part that passes at most these amperes from here to there, and drops next to nothing below.

    The small source cancels what the sharp diode holds, or the part would drive a current of its own.
    """
    hold = f"Vl{tag} {here} l{tag} {_sharp_volts(amps):.6g}"
    return [hold, f"Il{tag} l{tag} {there} {amps:.6g}", f"Dl{tag} {there} l{tag} dli temp=27"]


def _sharp_volts(amps: float) -> float:
    """Return the volts over the sharp diode ``dli`` at these amperes, 27 degrees Celsius."""
    return 0.1 * 0.025865 * math.log(amps / 1e-9 + 1)


def three_wire(tag: str, pins: tuple[str, str, str], make: SensorMake, state: SensorState) -> list[str]:
    """Return a three-wire sensor between its supply, common and signal pins."""
    supply, common, signal = pins
    if state.mode == "open":
        return [
            f"Ro{tag}a {supply} {common} {state.ohm:.6g}",
            f"Ro{tag}b {signal} {common} {max(state.ohm * 3, 2e6):.6g}",
        ]
    inner = f"i{tag}"
    lines = _reverse_part(tag, supply, inner, common, make)
    if state.mode == "shorted":
        lines.append(f"Rsh{tag} {supply} {common} {state.ohm:.6g}")
    if state.mode == "open-supply":
        lines[0] = f"Rin{tag} {supply} {inner} {state.ohm:.6g}"
    volts = f"max(v({inner},{common}),0)"
    alive = f"(0.5+0.5*{_tanh(f'(v({inner},{common})-{make.least_v:.4g})/0.2')})"
    lines += [f"Rqa{tag} {inner} n{tag} {1.0 / make.quiet_a:.6g}", *_limit(f"q{tag}", f"n{tag}", common, make.quiet_a)]
    lines.append(f"Rq{tag} {inner} {common} 3meg")
    if make.output_diodes:
        lines += [f"Du{tag} {signal} {inner} dsi", f"Dd{tag} {common} {signal} dsi"]
    if state.leak_ohm:
        lines.append(f"Rl{tag} {signal} {common} {state.leak_ohm:.6g}")
    lines.append(f"Rz{tag} {signal} {common} 4meg")
    if state.mode == "dead-output":
        return [*lines, f"Rd{tag} {signal} {common} {state.ohm:.6g}"]
    rest = {"common": "0", "supply": volts, "float": "0"}[make.starved]
    lines.append(f"Bt{tag} t{tag} {common} V={alive}*({_target(make, state, volts)})+(1-{alive})*{rest}")
    gate = f"(0.5+0.5*{_tanh(f'({volts}-0.9)/0.15')})" if make.starved != "float" else alive
    lines += [
        f"Vx{tag} t{tag} x{tag} 0",
        f"Bo{tag} x{tag} y{tag} I=v(x{tag},y{tag})*({gate}+1e-7)/{make.out_ohm:.6g}",
        f"Bs{tag} {inner} {common} I=max(i(Vx{tag}),0)",  # what the stage sources comes out of its supply
    ]
    return [
        *lines,
        *_limit(f"s{tag}", f"y{tag}", f"z{tag}", make.source_a),
        *_limit(f"k{tag}", signal, f"z{tag}", make.sink_a),
    ]


def _target(make: SensorMake, state: SensorState, volts: str) -> str:
    """Return the output that the stage aims at, as an expression of the sensor's own supply."""
    signal = make.signal
    if state.mode in {"low", "high"}:
        return f"{state.level:.6g}*{volts}"
    wanted = signal.low + state.fraction * (signal.high - signal.low)
    wanted = min(max(wanted, make.clip_low), make.clip_high)
    if signal.ratiometric:
        return f"{wanted / 5.0:.6g}*{volts}"
    return f"min({wanted:.6g},max({volts}-0.8,0))"


def _reverse_part(tag: str, supply: str, inner: str, common: str, make: SensorMake) -> list[str]:
    """Return what stands between the supply pin and the inside: the makers differ most here."""
    if make.reverse == "blocked" and not make.signal.ratiometric:
        return [f"Din{tag} {supply} {inner} dsk"]
    if make.reverse == "blocked":
        gate = f"(0.5+0.5*{_tanh(f'(v({supply},{common})-1.2)/0.2')})"
        body_diode = f"Dbd{tag} {supply} {inner} dsi"
        return [f"Bin{tag} {supply} {inner} I=v({supply},{inner})*(1e-9+0.25*{gate})", body_diode]
    lines = [f"Rin{tag} {supply} {inner} 1.5"]
    if make.reverse == "diode":
        lines.append(f"Drv{tag} {common} {inner} dpw")
    return lines


def two_wire(tag: str, pins: tuple[str, str], make: SensorMake, state: SensorState) -> list[str]:
    """Return a two-wire sensor between its plus and minus pins."""
    plus, minus = pins
    if state.mode in {"open", "open-supply"}:
        return [f"Ro{tag} {plus} {minus} {max(state.ohm, 5e5):.6g}"]
    lines: list[str] = []
    if state.mode == "shorted":
        lines.append(f"Rsh{tag} {plus} {minus} {state.ohm:.6g}")
    inner, foot = f"i{tag}", minus
    if make.reverse == "bridge":
        foot = f"f{tag}"
        lines += [
            f"Dw{tag} {plus} {inner} dpw",
            f"Dx{tag} {minus} {inner} dpw",
            f"Dy{tag} {foot} {plus} dpw",
            f"Dz{tag} {foot} {minus} dpw",
        ]
    elif make.reverse == "series":
        lines.append(f"Dw{tag} {plus} {inner} dpw")
    else:
        lines.append(f"Rw{tag} {plus} {inner} 2")
        if make.reverse == "diode":
            lines.append(f"Dx{tag} {foot} {inner} dpw")
    milliamps = 4.0 + 16.0 * state.fraction
    milliamps = min(max(milliamps, make.clip_low), make.clip_high)
    if state.mode in {"low", "high"}:
        milliamps = state.level
    knee = 0.5 * make.least_v
    ohm = max(make.least_v - knee - 0.7, 0.5) / max(milliamps / 1e3, 1e-4)
    lines += [f"Da{tag} {inner} a{tag} dsi", f"Va{tag} a{tag} b{tag} {knee:.6g}", f"Rc{tag} b{tag} c{tag} {ohm:.6g}"]
    lines += _limit(f"i{tag}", f"c{tag}", foot, milliamps / 1e3)
    return [*lines, f"Ri{tag} {inner} {foot} 20meg"]


def supply(make: SupplyMake, node: str, state: str) -> list[str]:
    """Return the sensor supply into a node; ``state`` is on, off (a hiccup's pause) or hot:OHM (a tripped fuse)."""
    if state == "off":
        return [f"Rvs {node} 0 2k"]
    out = node if not state.startswith("hot:") else "vsx"
    limit = make.limit_a if make.kind != "fuse" else max(make.limit_a * 4, 0.5)
    fold = f"*(0.3+0.7*min(max(v(vr),0)/{make.volts:.6g},1))" if make.kind == "fold-back" else ""
    lines = [
        f"Bvs 0 vr I={limit:.6g}{fold}",
        "Dvs vr vset dli temp=27",
        f"Vset vset 0 {make.volts - _sharp_volts(limit):.6g}",
    ]
    lines += [f"Rso vr {out} {make.source_ohm:.6g}", f"Rvs {out} 0 47k"]
    if state.startswith("hot:"):
        lines.append(f"Rhot vsx {node} {float(state[4:]):.6g}")
    return lines


def controller_input(make: InputMake, node: str) -> list[str]:
    """Return the signal input at a terminal; its converter reads node ``ci``, or the current through ``Vadc``."""
    if make.current:
        inside = 6.0 if make.limit_a else 0.0  # the limiter's own share of the burden that its paper states
        lines = [f"Rb cb 0x {max(make.ohms - inside, 0.1):.6g}", "Vadc 0x 0 0"]
        if make.limit_a:
            lines += [f"Rlim {node} cl 6", *_limit("in", "cl", "cb", make.limit_a)]
        else:
            lines.append(f"Vlim {node} cb 0")
        if make.clamp_v:
            lines += ["Dcl cb cz dcl", f"Vcl cz 0 {make.clamp_v - 0.6:.6g}"]
        return lines
    lines = [f"Rb {node} 0 {make.ohms:.6g}", f"Rsi {node} ci {make.series_ohm:.6g}", "Rci ci 0 1g", "Dcn 0 ci dcl"]
    if make.clamp_v:
        lines += ["Dcp ci cz dcl", f"Vcz cz 0 {make.clamp_v:.6g}"]
    if make.pull_up_ohm:
        lines += [f"Rpull {node} cpu {make.pull_up_ohm:.6g}", f"Vpull cpu 0 {make.pull_up_v:.6g}"]
    return lines
