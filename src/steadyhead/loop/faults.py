"""Every fault of the sensing loop: what it does to a loop, how severe it can be, where it can be, what mends it.

Everything that affects which faults exist lives in this file.

Rules
-----
1. A fault changes a `LoopDraft`, by a severity and a place; it never looks at readings.
2. Severity is a number on the fault's own scale: resistance by its logarithm, errors in parts of span. Scales are wide
   and overlap: a narrow one would be false evidence.
3. A wiring fault has a place. At the terminal it leaves with the wire; in the run it stays in the cable; at the plug it
   is in the crimp, which stays with the cable, or between contact and pin, which parts when the plug comes off.
4. A two-wire cable has no common wire: its leak to common goes by the screen or by earth.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import exp, log

from steadyhead.loop.draft import LoopDraft, SensorDraft
from steadyhead.loop.network import COMMON
from steadyhead.loop.parts import OPEN_OHM, Leak, Wire

#: What a broken place still lets through [ohm]: from damp air to clean, dry plastic.
BROKEN_OHM = 3e9

Change = Callable[[LoopDraft, float, str], None]

TERMINAL, RUN, CRIMP, MATING = "terminal", "run", "plug:crimp", "plug:mating"
#: Where a wiring fault sits, with its share: 60 % at the plug, 25 % at the terminal, 15 % in the run (common practice).
WIRING_PLACES: tuple[tuple[str, float], ...] = ((TERMINAL, 0.25), (RUN, 0.15), (CRIMP, 0.2), (MATING, 0.4))
LEAK_PLACES: tuple[tuple[str, float], ...] = ((TERMINAL, 0.2), (RUN, 0.25), (CRIMP, 0.4), (MATING, 0.15))
NOWHERE: tuple[tuple[str, float], ...] = (("", 1.0),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Severity:
    """The scale of a fault's size: from `low` to `high`, by its logarithm or straight, in `unit`."""

    low: float
    high: float
    unit: str
    logarithmic: bool = True

    def at(self, part: float) -> float:
        """Return the severity at a part of the scale, 0 to 1."""
        if self.logarithmic:
            return exp(log(self.low) + part * log(self.high / self.low))
        return self.low + part * (self.high - self.low)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault of the sensing loop.

    Parameters
    ----------
    id
        The word in files.
    remedy
        What mends it.
    family
        Whose share of calls it takes part in.
    share
        How much of the family's calls it is.
    change
        What it does to a loop.
    severity
        Scale of its size, or None where it has none.
    places
        Where it can be, with shares.
    wires
        Sensors that can have it: 2 or 3 wires, or both.
    kinds
        Sensor kinds that can have it.
    """

    id: str
    remedy: str
    family: str
    share: float
    change: Change
    severity: Severity | None = None
    places: tuple[tuple[str, float], ...] = NOWHERE
    wires: tuple[int, ...] = (2, 3)
    kinds: tuple[str, ...] = ("ratiometric", "voltage", "loop", "current")


def place_word(place: str) -> str | None:
    """Return the place as files spell it: ``plug`` for both halves of a plug, None for none."""
    return place.split(":")[0] or None


# what the faults do ----------------------------------------------------------------------------------------------


def _nothing(draft: LoopDraft, severity: float, place: str) -> None:
    """Leave the loop as it is."""


def _in_series(draft: LoopDraft, wire: Wire, ohm: float, place: str) -> None:
    chain = draft.wires[wire]
    if place == TERMINAL:
        chain.terminal += ohm
    elif place == RUN:
        chain.run += ohm
        chain.kink = 0.5
    elif place == CRIMP:
        chain.crimp += ohm
    else:
        chain.mating += ohm


def _open(wire: Wire) -> Change:
    def change(draft: LoopDraft, severity: float, place: str) -> None:
        _in_series(draft, wire, BROKEN_OHM, place)

    return change


def _resistive(wire: Wire) -> Change:
    def change(draft: LoopDraft, severity: float, place: str) -> None:
        _in_series(draft, wire, severity, place)

    return change


def _cut(draft: LoopDraft, severity: float, place: str) -> None:
    for wire in draft.wires:
        _in_series(draft, wire, BROKEN_OHM, place)


_END = {TERMINAL: "wire", RUN: "run", CRIMP: "sensor", MATING: "pin"}


def _between(first: str, second: str) -> Change:
    """Return a path between two wires, or from a wire to common by the screen, or to earth."""

    def change(draft: LoopDraft, severity: float, place: str) -> None:
        end = _END[place]
        a = f"{end}.{first}"
        if second == "earth":
            b = "earth"
        elif second == "common" and "common" not in draft.wires:
            b = COMMON
        else:
            b = f"{end}.{second}"
        draft.leaks.append(Leak(a=a, b=b, ohm=severity))

    return change


def _lands(*, supply: Wire, signal: Wire, common: Wire) -> Change:
    def change(draft: LoopDraft, severity: float, place: str) -> None:
        lands: dict[Wire, Wire] = {"supply": supply, "signal": signal, "common": common}
        draft.lands_on = {wire: lands[wire] for wire in draft.wires}

    return change


def _noise(draft: LoopDraft, severity: float, place: str) -> None:
    draft.noise_v = severity * 4.0
    draft.jump = severity
    draft.sensor.shift += 0.15 * severity


def _screen_looped(draft: LoopDraft, severity: float, place: str) -> None:
    draft.noise_v = severity * 2.0
    draft.jump = 0.5 * severity
    draft.sensor.shift += 0.3 * severity


def _sensor_open(draft: LoopDraft, severity: float, place: str) -> None:
    if place == "output":
        draft.sensor.open_output = True
        draft.sensor.diodes = False
    else:
        draft.sensor.open_supply = True
        draft.sensor.diodes = place == "supply-diodes"


def _sensor_shorted(draft: LoopDraft, severity: float, place: str) -> None:
    draft.sensor.short_ohm = severity


def _sensor_low(draft: LoopDraft, severity: float, place: str) -> None:
    sensor = draft.sensor
    if sensor.kind in ("loop", "current"):
        floor = 0.05e-3
        sensor.stuck = floor + severity * (sensor.low - floor)
    else:
        sensor.stuck = severity * sensor.low


def _sensor_high(draft: LoopDraft, severity: float, place: str) -> None:
    sensor = draft.sensor
    top = 0.026 if sensor.kind in ("loop", "current") else sensor.high * 1.1
    sensor.stuck = sensor.high + severity * (top - sensor.high)
    sensor.most = max(sensor.most, sensor.stuck)


def _zero_shift(draft: LoopDraft, severity: float, place: str) -> None:
    draft.sensor.shift += severity


def _span_shift(draft: LoopDraft, severity: float, place: str) -> None:
    draft.sensor.gain *= severity


def _frozen(draft: LoopDraft, severity: float, place: str) -> None:
    sensor = draft.sensor
    sensor.stuck = sensor.low + severity * (sensor.high - sensor.low)


#: Ranges sold beside the right one, as a ratio to it (common practice: 60, 75, 100, 150, 200, 300 psi).
def _wrong_range(draft: LoopDraft, severity: float, place: str) -> None:
    sensor = draft.sensor
    if place == "kind":
        _other_kind(sensor, severity)
    elif place == "pinout" and "common" in draft.wires:
        _swap_pins(draft, severity)
    else:
        sensor.range_high = sensor.range_low + severity * (sensor.range_high - sensor.range_low)


def _other_kind(sensor: SensorDraft, severity: float) -> None:
    """Make it a sensor with another output of the same wires: a 1 to 5 V one for 0.5 to 4.5 V, and the like."""
    width = sensor.high - sensor.low
    if sensor.kind == "ratiometric":
        sensor.kind = "voltage"
        sensor.low, sensor.high = (0.0, 5.0) if severity > 1.0 else (0.0, 10.0)
        sensor.least, sensor.most = 0.0, sensor.high
    else:
        sensor.low -= 0.25 * width
        sensor.least -= 0.25 * width


def _swap_pins(draft: LoopDraft, severity: float) -> None:
    """Make pins and plug disagree, as a sensor with another pinout does."""
    swapped: dict[Wire, Wire] = (
        {"supply": "supply", "signal": "common", "common": "signal"}
        if severity > 1.0
        else {"supply": "common", "signal": "signal", "common": "supply"}
    )
    draft.lands_on = {wire: swapped[wire] for wire in draft.wires}


def _port_blocked(draft: LoopDraft, severity: float, place: str) -> None:
    draft.trapped_pa = _span_part(draft, severity)
    draft.vents = False


def _cock_shut(draft: LoopDraft, severity: float, place: str) -> None:
    draft.trapped_pa = _span_part(draft, severity)


def _beside(draft: LoopDraft, severity: float, place: str) -> None:
    draft.beside_pa += severity * (draft.sensor.range_high - draft.sensor.range_low)


def _span_part(draft: LoopDraft, severity: float) -> float:
    sensor = draft.sensor
    return sensor.range_low + severity * (sensor.range_high - sensor.range_low)


def _supply_dead(draft: LoopDraft, severity: float, place: str) -> None:
    draft.supply_v *= severity


def _supply_weak(draft: LoopDraft, severity: float, place: str) -> None:
    if place == "limit":
        draft.limit_a = 0.02 / severity
    else:
        draft.source_ohm += 20.0 * severity * draft.supply_v


def _other_load(draft: LoopDraft, severity: float, place: str) -> None:
    draft.other_load_ohm = severity * draft.supply_v / max(draft.limit_a, 1e-3)


def _input_dead(draft: LoopDraft, severity: float, place: str) -> None:
    if place == "converter":
        draft.screen = replace(draft.screen, dead=True)
    elif place == "shorted":
        draft.input_ohm = severity
    else:
        draft.input_ohm = OPEN_OHM


def _input_shifted(draft: LoopDraft, severity: float, place: str) -> None:
    screen = draft.screen
    draft.screen = replace(screen, zero=screen.zero + severity * (screen.high - screen.low))


def _range_set(draft: LoopDraft, severity: float, place: str) -> None:
    screen = draft.screen
    span = draft.sensor.range_high - draft.sensor.range_low
    draft.screen = replace(screen, scale_high=screen.scale_low + severity * span)


def _kind_set(draft: LoopDraft, severity: float, place: str) -> None:
    """Set the parameter, or the slide switch, for another kind of signal."""
    screen, kind = draft.screen, draft.sensor.kind
    if kind in ("loop", "current"):
        if place == "switch":
            draft.input_ohm = 100e3
        else:
            draft.screen = replace(screen, low=0.0)
    elif place == "switch":
        draft.input_ohm = 250.0
    else:
        low, high = (0.0, 5.0) if severity < 0.4 else (0.0, 10.0) if severity < 0.7 else (1.0, 5.0)
        if (low, high) == (screen.low, screen.high):
            low, high = 0.5, 4.5
        draft.screen = replace(screen, kind="voltage", low=low, high=high)


#: psi shown as bar, bar shown as psi, psi shown as feet, kPa as psi (factors by NIST SP 811).
_UNIT_RATIOS = (14.5038, 1 / 14.5038, 2.3067, 6.8948)


def _unit_set(draft: LoopDraft, severity: float, place: str) -> None:
    ratio = _UNIT_RATIOS[min(int(severity * len(_UNIT_RATIOS)), len(_UNIT_RATIOS) - 1)]
    screen = draft.screen
    draft.screen = replace(screen, scale_low=screen.scale_low * ratio, scale_high=screen.scale_high * ratio)


def _input_set(draft: LoopDraft, severity: float, place: str) -> None:
    draft.screen = replace(draft.screen, dead=True)


def _offset_set(draft: LoopDraft, severity: float, place: str) -> None:
    screen = draft.screen
    draft.screen = replace(screen, offset_pa=severity * (screen.scale_high - screen.scale_low))


def _simulated_set(draft: LoopDraft, severity: float, place: str) -> None:
    draft.screen = replace(draft.screen, simulated_pa=_span_part(draft, severity))


def _gauge_wrong(draft: LoopDraft, severity: float, place: str) -> None:
    draft.gauge_off_pa = severity * (draft.sensor.range_high - draft.sensor.range_low)


def _meter_wrong(draft: LoopDraft, severity: float, place: str) -> None:
    if place == "fuse":
        draft.meter_milliamps = 0.0
    elif place == "battery":
        draft.meter_volts = draft.meter_milliamps = draft.meter_ohms = severity
    else:
        draft.meter_volts = draft.meter_ohms = 0.0


# the table -------------------------------------------------------------------------------------------------------

RESISTIVE = Severity(low=5.0, high=50e3, unit="ohm")
LEAKAGE = Severity(low=40.0, high=50e3, unit="ohm")
SHORT = Severity(low=0.1, high=40.0, unit="ohm")
SHIFT = Severity(low=-0.35, high=0.35, unit="parts of span", logarithmic=False)
PART = Severity(low=0.0, high=1.0, unit="parts of span", logarithmic=False)


def _wiring() -> list[Fault]:
    wires: tuple[tuple[Wire, tuple[int, ...]], ...] = (("supply", (2, 3)), ("signal", (2, 3)), ("common", (3,)))
    pairs: tuple[tuple[str, str], ...] = (
        ("supply", "common"), ("supply", "signal"), ("signal", "common"),
        ("supply", "earth"), ("signal", "earth"), ("common", "earth"),
    )  # fmt: skip
    found: list[Fault] = []
    for wire, has in wires:
        mend = {"remedy": "repair-cable", "places": WIRING_PLACES, "wires": has}
        found += [
            Fault(id=f"open-{wire}", family="wires-open", share=1.0, change=_open(wire), **mend),
            Fault(id=f"resistive-{wire}", family="joints", share=1.0, change=_resistive(wire), severity=RESISTIVE, **mend),
            Fault(id=f"intermittent-{wire}", family="loose", share=1.0, change=_open(wire), **mend),
        ]
    for a, b in pairs:
        has = (3,) if a == "common" else (2, 3)
        rest = {"remedy": "repair-cable", "places": LEAK_PLACES, "wires": has, "change": _between(a, b)}
        share = 0.3 if b == "earth" else 1.0
        found += [
            Fault(id=f"leakage-{a}-{b}", family="damp", share=share, severity=LEAKAGE, **rest),
            Fault(id=f"short-{a}-{b}", family="shorts", share=share, severity=SHORT, **rest),
        ]
    return found


_THREE = {"remedy": "correct-wiring", "family": "miswired", "wires": (3,)}

FAULTS: tuple[Fault, ...] = (
    Fault(id="none", remedy="none", family="nothing", share=1.0, change=_nothing),
    Fault(id="cable-cut", remedy="repair-cable", family="all-cores", share=1.0, change=_cut, places=WIRING_PLACES),
    *_wiring(),
    Fault(id="swapped-supply-common", share=1.0, change=_lands(supply="common", signal="signal", common="supply"), **_THREE),
    Fault(id="swapped-supply-signal", share=1.0, change=_lands(supply="signal", signal="supply", common="common"), **_THREE),
    Fault(id="swapped-common-signal", share=1.0, change=_lands(supply="supply", signal="common", common="signal"), **_THREE),
    Fault(id="rotated-left", share=0.4, change=_lands(supply="signal", signal="common", common="supply"), **_THREE),
    Fault(id="rotated-right", share=0.4, change=_lands(supply="common", signal="supply", common="signal"), **_THREE),
    Fault(id="reversed", remedy="correct-wiring", family="miswired", share=1.0, wires=(2,),
          change=_lands(supply="signal", signal="supply", common="common")),
    Fault(id="noise-pickup", remedy="reroute-cable", family="noise", share=1.0, change=_noise,
          severity=Severity(low=0.01, high=0.25, unit="parts of span")),
    Fault(id="shield-looped", remedy="correct-wiring", family="noise", share=0.25, change=_screen_looped,
          severity=Severity(low=0.01, high=0.15, unit="parts of span")),
    Fault(id="sensor-open", remedy="replace-sensor", family="sensor", share=6.0, change=_sensor_open,
          places=(("output", 0.4), ("supply", 0.4), ("supply-diodes", 0.2))),
    Fault(id="sensor-shorted", remedy="replace-sensor", family="sensor", share=3.0, change=_sensor_shorted,
          severity=Severity(low=0.5, high=400.0, unit="ohm")),
    Fault(id="sensor-low", remedy="replace-sensor", family="sensor", share=6.0, change=_sensor_low, severity=PART),
    Fault(id="sensor-high", remedy="replace-sensor", family="sensor", share=5.0, change=_sensor_high, severity=PART),
    Fault(id="sensor-zero-shift", remedy="replace-sensor", family="sensor", share=4.0, change=_zero_shift, severity=SHIFT),
    Fault(id="sensor-span-shift", remedy="replace-sensor", family="sensor", share=2.0, change=_span_shift,
          severity=Severity(low=0.5, high=1.6, unit="of its slope")),
    Fault(id="sensor-frozen", remedy="replace-sensor", family="sensor", share=3.0, change=_frozen, severity=PART),
    Fault(id="sensor-wet-vent", remedy="replace-sensor", family="sensor", share=2.0, change=_zero_shift,
          severity=Severity(low=-0.15, high=0.15, unit="parts of span", logarithmic=False)),
    Fault(id="sensor-wrong-part", remedy="replace-sensor", family="wrong-part", share=1.0, change=_wrong_range,
          severity=Severity(low=0.3, high=3.5, unit="of the right range"),
          places=(("range", 0.6), ("kind", 0.2), ("pinout", 0.2))),
    Fault(id="port-blocked", remedy="clear-port", family="port", share=1.0, change=_port_blocked, severity=PART),
    Fault(id="sensor-cock-shut", remedy="open-cock", family="port", share=1.2, change=_cock_shut, severity=PART),
    Fault(id="tap-wrong-side", remedy="move-tap", family="port", share=0.6, change=_beside,
          severity=Severity(low=-0.3, high=0.3, unit="parts of span", logarithmic=False)),
    Fault(id="controller-supply-dead", remedy="replace-board", family="board-supply", share=3.0, change=_supply_dead,
          severity=Severity(low=1e-3, high=0.1, unit="of its volts")),
    Fault(id="controller-supply-low", remedy="replace-board", family="board-supply", share=1.5, change=_supply_dead,
          severity=Severity(low=0.15, high=0.88, unit="of its volts", logarithmic=False)),
    Fault(id="controller-supply-weak", remedy="replace-board", family="board-supply", share=1.5, change=_supply_weak,
          severity=Severity(low=1.0, high=100.0, unit="times as soft"), places=(("limit", 0.5), ("resistance", 0.5))),
    Fault(id="other-load", remedy="remove-load", family="other-load", share=1.0, change=_other_load,
          severity=Severity(low=0.01, high=0.9, unit="of the least load it carries")),
    Fault(id="controller-input-dead", remedy="replace-board", family="board-input", share=3.0, change=_input_dead,
          severity=Severity(low=1.0, high=2000.0, unit="ohm"),
          places=(("converter", 0.35), ("shorted", 0.35), ("open", 0.3))),
    Fault(id="controller-input-shifted", remedy="replace-board", family="board-input", share=1.0, change=_input_shifted,
          severity=Severity(low=-0.4, high=0.4, unit="parts of span", logarithmic=False)),
    Fault(id="setting-range", remedy="correct-setting", family="setting", share=2.0, change=_range_set,
          severity=Severity(low=0.4, high=3.2, unit="of the sensor's range")),
    Fault(id="setting-signal-kind", remedy="correct-setting", family="setting", share=1.2, change=_kind_set,
          severity=PART, places=(("parameter", 0.6), ("switch", 0.4))),
    Fault(id="setting-unit", remedy="correct-setting", family="setting", share=0.5, change=_unit_set, severity=PART),
    Fault(id="setting-input", remedy="correct-setting", family="setting", share=0.8, change=_input_set),
    Fault(id="setting-offset", remedy="correct-setting", family="setting", share=0.8, change=_offset_set, severity=SHIFT),
    Fault(id="setting-simulated", remedy="correct-setting", family="setting", share=0.3, change=_simulated_set,
          severity=PART),
    Fault(id="vacuum", remedy="clear-vacuum", family="vacuum", share=1.0, change=_nothing),
    Fault(id="site-gauge-wrong", remedy="replace-gauge", family="gauge", share=1.0, change=_gauge_wrong, severity=SHIFT),
    Fault(id="own-gauge-wrong", remedy="replace-gauge", family="gauge", share=0.1, change=_gauge_wrong, severity=SHIFT),
    Fault(id="meter-wrong", remedy="mend-meter", family="meter", share=1.0, change=_meter_wrong,
          severity=Severity(low=0.5, high=1.6, unit="of the right figure"),
          places=(("fuse", 0.5), ("battery", 0.3), ("dead", 0.2))),
)  # fmt: skip


def faults_of(wires: int, kind: str) -> tuple[Fault, ...]:
    """Return the faults that a loop with this many wires and this kind of sensor can have."""
    return tuple(f for f in FAULTS if wires in f.wires and kind in f.kinds)
