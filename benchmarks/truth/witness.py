"""The witness: answers one check after another about one case, as instruments and eyes would.

Rules
-----
1. A reading's noise depends on the noise seed, the check and how often it was asked, never on what was asked before.
2. What a look finds stays found: the same item gives the same word again.
3. A check that does not exist in this loop, or for whose tool the van has no room, raises `CannotAnswerError`.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from benchmarks.truth import instruments as ins
from benchmarks.truth.case import Case
from benchmarks.truth.netlist import DEAD, Stand, build, node_of, standing
from benchmarks.truth.screen import RUNNING, Screen, jumping, settle, show
from benchmarks.truth.spice import NoOperatingPointError, ngspice
from benchmarks.truth.wiring_faults import opened

Check = Mapping[str, Any]
KEYS = ("measure", "red", "black", "arrangement", "source", "item")
NEEDS = {
    "source-at-controller": ("signal-source", "potentiometer", "resistors"),
    "temporary-cable": ("spare-lead",),
    "spare-at-controller": ("spare-sensor",),
    "spare-at-plug": ("spare-sensor",),
}
FALSE_ALARM = {"cable-routing": 0.1, "moisture": 0.02}
NOT_SEEN = {"tap-place": 0.08, "port": 0.05, "cable-damage": 0.08, "gauge-zero": 0.06}
ALTERNATING_FALL_V = 0.6


class CannotAnswerError(ValueError):
    """A check that this loop or these instruments cannot answer; the text says why."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One answer: the check as its keys, the value as text, and whether a slip was made."""

    check: tuple[tuple[str, Any], ...]
    value: str
    slipped: bool


def check_key(check: Check) -> tuple[tuple[str, Any], ...]:
    """Return what identifies a check."""
    return *((key, check.get(key)) for key in KEYS), *((key, check[key]) for key in ("whose",) if check.get(key))


class Witness:
    """Everything that can be asked of one case; `slips` is the chance of a slip in a reading."""

    def __init__(self, case: Case, noise_seed: str, slips: float = 0.0) -> None:
        self.case = case
        self.seed = noise_seed
        self._slips = slips
        self._asked: Counter[tuple[tuple[str, Any], ...]] = Counter()
        self._screens: dict[tuple[bool, str, float], Screen] = {}
        self.slipped = 0

    def ask(self, check: Check, *, slips: bool = True) -> Reading:
        """Return one reading.

        Raises
        ------
        CannotAnswerError
            Where the loop has no such point in this arrangement, the tool is not at hand, or the simulator gives up.
        """
        key = check_key(check)
        self._asked[key] += 1
        rng = random.Random(f"{self.seed}|{key}|{self._asked[key]}")
        arrangement = check.get("arrangement") or "connected"
        _refuse(self.case, check, arrangement)
        chance = self._slips if slips else 0.0
        answer = ANSWERS.get(check["measure"])
        if answer is None:
            raise CannotAnswerError(f"no such measure here: {check['measure']}")
        before = self.slipped
        try:
            value = answer(self, check, arrangement, _Hand(rng, chance, self))
        except NoOperatingPointError as unsolved:
            raise CannotAnswerError(f"the simulator finds no operating point: {arrangement}") from unsolved
        return Reading(key, value, self.slipped > before)

    def contacts(self, rng: random.Random) -> tuple[Case, ...]:
        """Return the case as its contacts are during one reading: one state, or the two between which it jumps."""
        share = self.case.unsteady.share
        if not share:
            return (self.case,)
        if rng.random() < 0.4:
            return self.case, opened(self.case)
        return (opened(self.case),) if rng.random() < share else (self.case,)

    def screen(self, case: Case, arrangement: str, source: float) -> Screen:
        """Return the display, solved once for each state of contacts, arrangement and source."""
        key = (case is self.case, arrangement, source)
        if key not in self._screens:
            self._screens[key] = show(case, arrangement, source=source)
        return self._screens[key]

    def volts(self, case: Case, check: Check, stand: Stand, probe: str) -> float:
        """Return the volts from red to black [V] with the lines of `probe` between the leads."""
        arrangement = stand.arrangement
        red, black = (node_of(case, check[lead], arrangement) for lead in ("red", "black"))
        if red is None or black is None or red == black:
            raise CannotAnswerError(f"no such pair of points in {arrangement}: {check['red']}, {check['black']}")
        lines = [*build(case, stand), *probe.format(red=red, black=black).split("\n")]
        found = ngspice().node_volts(lines, (red, black))
        return found[red] - found[black]


class _Hand:
    """One reading's chance: its noise and its slip."""

    def __init__(self, rng: random.Random, chance: float, witness: Witness) -> None:
        self.rng = rng
        self._chance = chance
        self._witness = witness

    def slip(self, value: float) -> float:
        """Return the figure, or what a slip makes of it."""
        value, made = ins.slip(value, self.rng, self._chance)
        self._witness.slipped += made
        return value


def _refuse(case: Case, check: Check, arrangement: str) -> None:
    needs = NEEDS.get(arrangement)
    if needs and not set(needs) & set(case.have):
        raise CannotAnswerError(f"{arrangement} needs one of {needs}")
    if check["measure"] == "megohms" and "insulation-tester" not in case.have:
        raise CannotAnswerError("megohms needs an insulation tester")
    if check["measure"] in ("ohms", "megohms") and arrangement not in DEAD and not arrangement.endswith("lifted"):
        raise CannotAnswerError(f"{check['measure']} with power on: {arrangement}")
    if check["measure"] == "milliamps" and arrangement != "meter-in-signal":
        raise CannotAnswerError(f"milliamps only in meter-in-signal, not {arrangement}")


def source_of(check: Check) -> float:
    """Return the source of a check [V or A]; 0 where it has none."""
    text = check.get("source")
    if not text:
        return 0.0
    value, _, unit = str(text).partition(" ")
    return float(value) * {"mA": 1e-3, "A": 1.0, "V": 1.0}[unit.strip()]


def _stand(case: Case, check: Check, arrangement: str) -> Stand:
    return settle(case, standing(case, arrangement, source=source_of(check)))


def _volts(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> str:
    meter = witness.case.meter
    probe = f"Rmeter {{red}} {{black}} {meter.volts_ohm:.6g}"
    states = witness.contacts(hand.rng)
    true = [witness.volts(case, check, _stand(case, check, arrangement), probe) for case in states]
    true = [value + _pickup(witness.case, check, arrangement) for value in true]
    step = 0.0
    read = []
    for value in true:
        figure, last = ins.shown(value, meter.volts_gain, meter.volts[1], meter.volts[2], hand.rng)
        read.append(hand.slip(figure))
        step = max(step, last)
    return ins.span_text(min(read), max(read), step, "V")


def _pickup(case: Case, check: Check, arrangement: str) -> float:
    """Return the shift of a signal's mean by rectified noise, while the motor runs [V]."""
    across = {"controller.signal", "sensor.signal"} & {check["red"], check["black"]}
    if arrangement not in RUNNING or not across or not case.unsteady.shift:
        return 0.0
    scale = case.input.nominal_ohm if case.kind == "two-wire" else 1.0
    sign = 1 if check["red"] in across else -1
    return sign * case.unsteady.shift * case.signal.span * scale


def _volts_ac(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> str:
    for lead in ("red", "black"):
        if node_of(witness.case, check[lead], arrangement) is None:
            raise CannotAnswerError(f"no such point in {arrangement}: {check[lead]}")
    running = arrangement in RUNNING and "signal" in f"{check['red']} {check['black']}"
    noise = witness.case.unsteady.pickup_v if running else min(witness.case.unsteady.pickup_v, 0.02)
    seen = noise * hand.rng.uniform(0.4, 1.1) * (ALTERNATING_FALL_V if noise > 0.06 else 1.0)
    meter = witness.case.meter
    read, step = ins.shown(abs(seen), meter.volts_gain, meter.volts[1], meter.volts[2], hand.rng)
    return ins.figure(abs(hand.slip(read)), step, "V")


def _milliamps(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> str:
    case, meter = witness.case, witness.case.meter
    wire = next(wire for wire, terminal in case.cable.lands.items() if terminal == "signal")
    leads = {"red": f"wire.{wire}", "black": "controller.signal"}
    read, step = [], 0.0
    for state in witness.contacts(hand.rng):
        stand = _stand(state, check, arrangement)
        ohm = state.cable.conductors[wire].terminal_ohm + stand.burden_ohm
        amps = witness.volts(state, leads, stand, "Rmeter {red} {black} 1e12") / ohm
        amps += state.unsteady.shift * state.signal.span if state.kind == "two-wire" else 0.0
        value = 0.0 if meter.fuse_blown else amps * 1e3
        figure, last = ins.shown(value, meter.milliamps_gain, meter.milliamps[1], meter.milliamps[2], hand.rng)
        read.append(hand.slip(figure))
        step = max(step, last)
    return ins.span_text(min(read), max(read), step, "mA")


def _ohms(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> str:
    case = witness.contacts(hand.rng)[-1]
    stand = standing(_unpowered(case), arrangement)
    behind = witness.case.meter.open_volts

    def volts_at(ohm: float) -> float:
        probe = f"Vmeter meter {{black}} {behind:.6g}\nRmeter meter {{red}} {ohm:.6g}"
        return witness.volts(_unpowered(case), check, stand, probe)

    found = ins.ohmmeter(volts_at, case)
    return ins.ohms_text(hand.slip(found) if math.isfinite(found) else found, case, hand.rng)


def _unpowered(case: Case) -> Case:
    """Return the case with its controller off, for ohms through a sensor whose leads are lifted."""
    return replace(case, supply=replace(case.supply, volts=1e-6))


def _megohms(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> str:
    case = witness.contacts(hand.rng)[-1]
    found = 0.0
    for amps in ins.INSULATION_A:
        probe = f"Imeter {{black}} {{red}} {amps:.6g}"
        found = abs(witness.volts(_unpowered(case), check, standing(case, arrangement), probe)) / amps
        if found * amps < ins.INSULATION_V:
            break
    return ins.megohms_text(found, hand.rng)


def _displays(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> list[Screen]:
    if arrangement in DEAD:
        raise CannotAnswerError(f"the display is dead in {arrangement}")
    source = source_of(check)
    screens = [witness.screen(case, arrangement, source) for case in witness.contacts(hand.rng)]
    jump = witness.case.unsteady.jump
    if jump and arrangement in RUNNING and witness.case.setting.simulated_psi is None:
        return list(jumping(witness.case, screens[0], share=jump * hand.rng.uniform(0.7, 1.1)))
    return screens


def _displayed_pressure(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> str:
    read = [hand.slip(screen.psi) for screen in _displays(witness, check, arrangement, hand)]
    texts = [ins.pressure_text(psi, witness.case, 0.1) for psi in read]
    low, high = (float(text.split()[0]) for text in (texts[0], texts[-1]))
    return ins.span_text(low, high, 0.1 if witness.case.unit == "psi" else 0.01, witness.case.unit)


def _displayed_signal(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> str:
    screens = _displays(witness, check, arrangement, hand)
    scale, unit = (1e3, "mA") if screens[0].amps else (1.0, "V")
    read = [hand.slip(screen.signal * scale) for screen in screens]
    return ins.span_text(read[0], read[-1], 0.01, unit)


def _displayed_fault(witness: Witness, check: Check, arrangement: str, hand: _Hand) -> str:
    words = [screen.fault for screen in _displays(witness, check, arrangement, hand)]
    return next((word for word in words if word != "none"), "none")


def _gauge(witness: Witness, check: Check, _arrangement: str, hand: _Hand) -> str:
    case = witness.case
    gauge = case.own_gauge if check.get("whose") == "own" else case.gauge
    if gauge is None:
        raise CannotAnswerError("no hose tap within reach")
    needle = ins.needle_psi(gauge, case.water.gauge_psi, hand.rng)
    return ins.needle_text(gauge, hand.slip(needle) if needle > 0 else needle, case)


def _inspection(witness: Witness, check: Check, _arrangement: str, _hand: _Hand) -> str:
    item = check.get("item")
    rng = random.Random(f"{witness.seed}|look|{item}")
    missed = math.prod(1 - fault.found_by.get(str(item), 0.0) for fault in witness.case.faults)
    if rng.random() < 1 - missed:
        return "wrong"
    if rng.random() < FALSE_ALARM.get(str(item), 0.01):
        return "wrong"
    return "not-seen" if rng.random() < NOT_SEEN.get(str(item), 0.02) else "right"


ANSWERS: dict[str, Callable[[Witness, Check, str, _Hand], str]] = {
    "volts": _volts,
    "volts-ac": _volts_ac,
    "milliamps": _milliamps,
    "ohms": _ohms,
    "megohms": _megohms,
    "displayed-pressure": _displayed_pressure,
    "displayed-signal": _displayed_signal,
    "displayed-fault": _displayed_fault,
    "gauge-pressure": _gauge,
    "inspection": _inspection,
}
