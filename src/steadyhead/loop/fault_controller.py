"""What the faults of a controller, of its settings and of the instruments do to a loop."""

from __future__ import annotations

from math import log
from typing import Literal

from steadyhead.loop.draft import LoopDraft
from steadyhead.loop.fault_sensor import CURRENTS
from steadyhead.loop.parts import Leak, Screen

#: Which unit's figure stands under which one's name, by how many times it is too large (factors by NIST SP 811).
TOO_LARGE = {
    "psi-as-bar": 14.5038, "bar-as-psi": 1 / 14.5038, "feet-as-psi": 2.3067, "psi-as-feet": 1 / 2.3067,
    "kpa-as-psi": 6.8948, "psi-as-kpa": 1 / 6.8948, "metres-as-bar": 10.1974, "bar-as-metres": 1 / 10.1974,
}  # fmt: skip
#: How often each (common practice: psi and bar are what most screens have).
UNITS = tuple(zip(TOO_LARGE, (0.3, 0.3, 0.1, 0.06, 0.08, 0.04, 0.08, 0.04), strict=True))
#: Signals that another setting of the parameter stands for, with the severity up to which each is chosen [V].
_OTHER_VOLTS = ((0.4, (0.0, 5.0)), (0.7, (0.0, 10.0)), (float("inf"), (1.0, 5.0)))
#: The same for a current input: 0 to 20 mA, 0 to 10 mA, and 4 to 12 mA [A].
_OTHER_AMPERES = ((0.55, (0.0, 0.02)), (0.85, (0.0, 0.01)), (float("inf"), (0.004, 0.012)))
#: Ends of a flat battery's factor, and of what a meter on a setting of low resistance loads its circuit with [ohm]
#: (common practice: 3 kohm to 400 kohm).
FACTOR, LOADING_OHM = (0.25, 2.0), (2e3, 500e3)
#: Ways of dying that take an input's own protection along.
BROKEN = ("shorted", "open", "cut-off")
#: Ends of the scale of a dead input's severity [ohm], and of what a stuck converter shows [parts of span].
DEAD_INPUT_OHM, STUCK = (1.0, 2000.0), (-0.15, 1.3)
#: How many times its own resistance the volts of a dead supply come through that has no strength left.
FAINT = 300.0
#: Volts of the controller's own logic, which live on without the sensor's power [V].
LOGIC_V = 3.3
#: What a burnt input still has at least [ohm].
LEAST_OPEN_OHM = 1e6
#: What the other position of the slide switch makes of a current input and of a voltage input: ends [ohm] (common
#: practice). From `RESCALED` on, the severity means that it changes what the display makes of the signal as well; it
#: goes once from end to end on either side.
_SWITCHED_OHM = {True: (3e3, 500e3), False: (60.0, 600.0)}
RESCALED = 0.4
#: The signal that the display then takes it for: 0 to 10 V on what was a current input, 4 to 20 mA on a voltage one.
_SWITCHED_ENDS: dict[bool, tuple[Literal["voltage", "current"], float, float]] = {
    True: ("voltage", 0.0, 10.0),
    False: ("current", 0.004, 0.020),
}


def nothing(draft: LoopDraft, severity: float, place: str) -> None:
    """Leave the loop as it is."""


def supply_fraction(draft: LoopDraft, severity: float, place: str) -> None:
    """Leave the severity's part of the sensor supply's volts, as strong as it was or through what is left of it.

    A pull-up that hangs on the sensor's power, and not on the logic's 3.3 V or on a supply apart, goes with it.
    """
    draft.supply_v *= severity
    if draft.pull_v > LOGIC_V and place != "apart":
        draft.pull_v *= severity
    if place == "faint":
        draft.source_ohm *= FAINT


def supply_weak(draft: LoopDraft, severity: float, place: str) -> None:
    """Make the supply soft, by the severity: a low current limit, or a resistance in series."""
    if place == "limit":
        draft.limit_a *= 0.5 / severity
    else:
        draft.source_ohm += 20.0 * severity * draft.supply_v


def other_load(draft: LoopDraft, severity: float, place: str) -> None:
    """Hang another device on the supply: the severity is its resistance over the least that the supply carries."""
    draft.other_load_ohm, draft.load_is_sound = severity, False


def input_dead(draft: LoopDraft, severity: float, place: str) -> None:
    """Kill the input: its converter, or its resistance: shorted to the severity [ohm], or open to as many megohms.

    A dead converter sees nothing, or stands at a figure of its own: the severity's part of the way along `STUCK`. What
    a surge fuses may join the input to the sensor's supply; what it burns off leaves the terminal open, and nothing to
    see for the converter.
    """
    draft.input_limit_a = float("inf") if place in BROKEN else draft.input_limit_a
    if place == "converter":
        draft.screen = draft.screen._replace(blind=0.0)
    elif place == "stuck":
        low, high = DEAD_INPUT_OHM
        draft.screen = _stuck(draft.screen, log(severity / low) / log(high / low))
    elif place == "shorted":
        draft.input_ohm = severity
    elif place == "to-supply":
        draft.leaks.append(Leak(a="controller.supply", b="controller.signal", ohm=severity))
    else:
        draft.input_ohm = severity * LEAST_OPEN_OHM
        if place == "cut-off":
            draft.screen = draft.screen._replace(blind=0.0)


def _stuck(screen: Screen, part: float) -> Screen:
    """Return a screen whose converter stands at a part of the way between the ends of `STUCK`, whatever it is given."""
    at = STUCK[0] + part * (STUCK[1] - STUCK[0])
    return screen._replace(blind=screen.low + at * (screen.high - screen.low))


def input_shifted(draft: LoopDraft, severity: float, place: str) -> None:
    """Shift what the converter sees by the severity [parts of span], or as much of what it sees."""
    screen = draft.screen
    if place == "gain":
        draft.screen = screen._replace(gain=screen.gain * (1.0 + severity))
        return
    draft.screen = screen._replace(zero=screen.zero + severity * (screen.high - screen.low))


def range_set(draft: LoopDraft, severity: float, place: str) -> None:
    """Set the display's range to the severity's multiple of the sensor's."""
    screen = draft.screen
    span = draft.sensor.range_high - draft.sensor.range_low
    draft.screen = screen._replace(scale_high=screen.scale_low + severity * span)


def kind_set(draft: LoopDraft, severity: float, place: str) -> None:
    """Set the slide switch, or the parameter (the severity chooses), for another kind of signal."""
    screen, amperes = draft.screen, draft.sensor.kind in CURRENTS
    if place == "switch":
        rescaled = severity > RESCALED
        part = (severity - RESCALED) / (1.0 - RESCALED) if rescaled else severity / RESCALED
        low_ohm, high_ohm = _SWITCHED_OHM[amperes]
        draft.input_limit_a = float("inf")
        draft.input_ohm = low_ohm * (high_ohm / low_ohm) ** part
        if rescaled:
            kind, low, high = _SWITCHED_ENDS[amperes]
            draft.screen = screen._replace(kind=kind, low=low, high=high, burden_ohm=draft.input_ohm)
    elif amperes:
        low, high = next(signal for top, signal in _OTHER_AMPERES if severity < top)
        draft.screen = screen._replace(low=low, high=high)
    else:
        low, high = next(signal for top, signal in _OTHER_VOLTS if severity < top)
        if (low, high) == (screen.low, screen.high):
            low, high = 0.5, 4.5
        draft.screen = screen._replace(kind="voltage", low=low, high=high)


def unit_set(draft: LoopDraft, severity: float, place: str) -> None:
    """Show one unit under another's name: the place says which."""
    ratio = TOO_LARGE[place]
    screen = draft.screen
    draft.screen = screen._replace(scale_low=screen.scale_low * ratio, scale_high=screen.scale_high * ratio)


def input_set(draft: LoopDraft, severity: float, place: str) -> None:
    """Choose another input, to which nothing is wired, or something else: the severity is what that sends."""
    screen = draft.screen
    draft.screen = screen._replace(blind=0.0) if place == "nothing" else _stuck(screen, severity)


def offset_set(draft: LoopDraft, severity: float, place: str) -> None:
    """Set an offset of the severity [parts of scale]."""
    screen = draft.screen
    draft.screen = screen._replace(offset_pa=severity * (screen.scale_high - screen.scale_low))


def simulated_set(draft: LoopDraft, severity: float, place: str) -> None:
    """Leave a fixed value simulated: the severity is its part of the range."""
    draft.screen = draft.screen._replace(simulated_pa=draft.sensor.pressure_at(severity))


def gauge_wrong(draft: LoopDraft, severity: float, place: str) -> None:
    """Let the site's gauge be off by the severity [parts of span]."""
    draft.gauge_off_pa = severity * (draft.sensor.range_high - draft.sensor.range_low)


def own_gauge_wrong(draft: LoopDraft, severity: float, place: str) -> None:
    """Let the technician's own gauge be off by the severity [parts of span]."""
    draft.own_gauge_off_pa = severity * (draft.sensor.range_high - draft.sensor.range_low)


def meter_wrong(draft: LoopDraft, severity: float, place: str) -> None:
    """Let the meter's fuse be blown, its battery flat (the severity is its factor), or its volts and ohms dead.

    One that stands on a setting of low resistance loads what it measures: the severity goes once over `LOADING_OHM`.
    """
    if place == "fuse":
        draft.meter_milliamps = 0.0
    elif place == "battery":
        draft.meter_volts = draft.meter_milliamps = draft.meter_ohms = severity
    elif place == "loading":
        (low, high), (least, most) = LOADING_OHM, FACTOR
        draft.voltmeter_ohm = low * (high / low) ** (log(severity / least) / log(most / least))
    else:
        draft.meter_volts = draft.meter_ohms = 0.0
