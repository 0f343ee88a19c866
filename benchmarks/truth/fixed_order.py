"""The manuals' fixed order, to be compared with: the same steps for everybody, at the manuals' own minutes.

Rules
-----
1. Tug and reseat every wire, 5 min: finds what a tug finds, a loose terminal or plug: `repair-cable`.
2. Ohms end to end, power off, 12 min: open, high resistance or a hard short: `repair-cable`.
3. Wiring order, 4 min: `correct-wiring`. Then the gauge, 0.5 min.
4. Voltage sensor: signal against chart, 3 min; below -8 psi `clear-vacuum`; on the chart `none`; else supply, 1.5 min:
   good, `replace-sensor`; else `replace-board`.
5. Current loop: supply, 1.5 min; out of 15 %, all wires lifted, 6 min: still out, `replace-board`; come back,
   `replace-sensor`; loop current against chart, 5 min: on it `none`, else `replace-sensor`.

Numbers that the manuals leave open (common practice): high resistance above 50 ohm, a hard short below 100 ohm, a good
supply within 10 % of its nominal volts. On the chart is within 0.15 V of a 4 V span or 0.6 mA, scaled with the span.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from benchmarks.truth.case import CONDUCTORS, PSI_PER_BAR, Case
from benchmarks.truth.witness import Check, Witness

HIGH_OHM = 50.0
SHORT_OHM = 100.0
CHART_SHARE = 0.15 / 4.0
VACUUM_PSI = -8.0
_UNITS = {"V": 1.0, "mA": 1e-3, "ohm": 1.0, "kohm": 1e3, "Mohm": 1e6, "psi": 1.0, "bar": PSI_PER_BAR}


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the fixed order says, and after how many minutes."""

    remedy: str
    minutes: float


def number(text: str) -> float:
    """Return the figure of a reading in SI (or psi); a spread counts as its middle, ``OL`` as infinite.

    >>> number("4.70 kohm"), number("2.0..3.0 V jumping"), number("OL")
    (4700.0, 2.5, inf)
    """
    if text in ("OL", "pegged"):
        return float("inf")
    match = re.match(r"(-?[\d.]+?)(?:\.\.(-?[\d.]+))? (\w+)", text)
    if match is None:
        raise ValueError(f"no figure in {text!r}")
    low, high, unit = match.groups()
    return 0.5 * (float(low) + float(high or low)) * _UNITS[unit]


class _Walk:
    """The fixed order on one case: asks, and adds up its own minutes."""

    def __init__(self, case: Case, witness: Witness) -> None:
        self.case = case
        self.witness = witness
        self.minutes = 0.0

    def read(self, check: Check) -> float:
        """Return one figure."""
        return number(self.witness.ask(check).value)

    def looks_wrong(self, item: str) -> bool:
        """Return whether a look finds its item wrong."""
        return self.witness.ask({"measure": "inspection", "item": item}).value == "wrong"

    def ohms(self, red: str, black: str) -> float:
        """Return ohms with both cable ends free."""
        check = {"measure": "ohms", "arrangement": "dead-both-free", "red": red, "black": black}
        return self.read(check)

    def supply(self, arrangement: str) -> float:
        """Return the supply as a share of its nominal volts."""
        check = {
            "measure": "volts",
            "arrangement": arrangement,
            "red": "controller.supply",
            "black": "controller.common",
        }
        return self.read(check) / self.case.signal.supply_v

    def cable_is_bad(self) -> bool:
        """Return whether ohms end to end, or between two conductors, convict the cable."""
        wires = CONDUCTORS[self.case.kind]
        if any(self.ohms(f"wire.{wire}", f"sensor.{wire}") > HIGH_OHM for wire in wires):
            return True
        pairs = [(a, b) for i, a in enumerate(wires) for b in wires[i + 1 :]]
        return any(self.ohms(f"wire.{a}", f"wire.{b}") < SHORT_OHM for a, b in pairs)

    def off_chart(self, signal: float, gauge_psi: float) -> bool:
        """Return whether a signal is off the chart at the gauge's pressure."""
        low, high = self.case.range_psi
        plate = self.case.signal
        chart = plate.low + plate.span * (gauge_psi - low) / (high - low)
        return abs(signal - chart) > CHART_SHARE * plate.span


def _voltage(walk: _Walk, gauge_psi: float) -> str:
    walk.minutes += 3
    signal = walk.read({"measure": "volts", "red": "controller.signal", "black": "controller.common"})
    if gauge_psi < VACUUM_PSI:
        return "clear-vacuum"
    if not walk.off_chart(signal, gauge_psi):
        return "none"
    walk.minutes += 1.5
    return "replace-sensor" if abs(walk.supply("connected") - 1) < 0.10 else "replace-board"


def _current(walk: _Walk, gauge_psi: float) -> str:
    walk.minutes += 1.5
    if abs(walk.supply("connected") - 1) > 0.15:
        walk.minutes += 6
        return "replace-board" if abs(walk.supply("all-lifted") - 1) > 0.15 else "replace-sensor"
    walk.minutes += 5
    amps = walk.read({"measure": "milliamps", "arrangement": "meter-in-signal"})
    return "replace-sensor" if walk.off_chart(amps, gauge_psi) else "none"


def fixed_order(case: Case, witness: Witness) -> Verdict:
    """Return what the manuals' fixed order makes of a case."""
    walk = _Walk(case, witness)
    walk.minutes += 5
    if walk.looks_wrong("connections"):
        return Verdict("repair-cable", walk.minutes)
    walk.minutes += 12
    if walk.cable_is_bad():
        return Verdict("repair-cable", walk.minutes)
    walk.minutes += 4
    if walk.looks_wrong("wiring-order"):
        return Verdict("correct-wiring", walk.minutes)
    walk.minutes += 0.5
    gauge = walk.read({"measure": "gauge-pressure"})
    judge = _voltage if case.kind == "three-wire" else _current
    return Verdict(judge(walk, gauge), walk.minutes)
