"""The technician at the loop: answers any check with what the instrument in hand would show.

With the plug on, a reading at a sensor pin is taken from behind the plug, on the cable's contact: so a pin
that does not touch its contact shows the cable's volts. Moulded plugs cannot be probed at all.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from benchmarks.second_truth import formats
from benchmarks.second_truth.case import Case
from benchmarks.second_truth.circuit import (
    ARRANGEMENTS,
    DEAD,
    LANDED,
    LETTER,
    PLUGGED,
    TERMINAL,
    Setup,
    lifted,
    operate,
)
from benchmarks.second_truth.display import Screen, expected_signal, screens
from benchmarks.second_truth.looks import ITEMS, look
from benchmarks.second_truth.streams import Stream, stream

Check = Mapping[str, object]
NEEDS = {
    "spare-at-plug": "spare-sensor",
    "spare-at-controller": "spare-sensor",
    "temporary-cable": "spare-lead",
    "source-at-controller": "signal-source",
}
KEYS = ("measure", "arrangement", "red", "black", "source", "item", "whose", "tap", "drive")


class CannotAnswerError(Exception):
    """A check that cannot be done here; its text says why, for the declined table."""


class Witness:
    """Answers checks for one case; a repeated check gets fresh noise, its order does not matter."""

    def __init__(self, case: Case) -> None:
        """Stand at the loop of this case with no check asked yet."""
        self.case = case
        self._times: dict[str, int] = {}
        self._measures: dict[str, Callable[[Check, Stream], str]] = {
            "gauge-pressure": self._gauge,
            "displayed-pressure": self._displayed_pressure,
            "displayed-fault": self._displayed_fault,
            "displayed-signal": self._displayed_signal,
            "volts": self._volts,
            "volts-ac": self._volts_ac,
            "ohms": self._ohms,
            "megohms": self._megohms,
            "milliamps": self._milliamps,
            "inspection": self._inspection,
        }

    def answer(self, check: Check) -> str:
        """Return the text that goes into the file's ``value``.

        Raises
        ------
        CannotAnswerError
            When an instrument, a terminal or a cock is missing, or the check makes no sense there.
        """
        name = "|".join(str(check.get(key) or "") for key in KEYS)
        repeat = self._times[name] = self._times.get(name, 0) + 1
        rng = stream(self.case.seed, "reading", name, repeat)
        measure = self._measures.get(str(check.get("measure")))
        if measure is None:
            raise CannotAnswerError(f"no way to take {check.get('measure')}")
        self._allow(check)
        return measure(check, rng)

    def _allow(self, check: Check) -> None:
        arrangement = str(check.get("arrangement") or "connected")
        if arrangement not in ARRANGEMENTS:
            raise CannotAnswerError(f"not possible here: {arrangement}")
        need = NEEDS.get(arrangement)
        if need and need not in self.case.system.have:
            raise CannotAnswerError(f"no {need}")
        if arrangement == "vented" and not self.case.system.cock and stream(self.case.seed, "no-vent").chance(0.3):
            raise CannotAnswerError("no cock, and the thread will not come loose")

    # What the meter shows ------------------------------------------------------------------------

    def _node(self, point: str, arrangement: str) -> str:
        """Return the node that a lead touches."""
        place, _, wire = point.partition(".")
        if point in {"earth", "shield"}:
            return "e"
        if wire not in LETTER or (self.case.system.two_wire and wire == "common" and place != "controller"):
            raise CannotAnswerError(f"there is no {point}")
        if place == "controller":
            return TERMINAL[wire]
        if place == "sensor":
            if arrangement == "temporary-cable":
                return f"x{LETTER[wire]}"
            if self.case.system.moulded and arrangement in PLUGGED:
                raise CannotAnswerError("moulded plug, nothing to probe")
            return f"p{LETTER[wire]}"
        if wire not in lifted(self.case, Setup(arrangement=arrangement)):
            raise CannotAnswerError(f"{point} is on its terminal")
        return f"w{LETTER[wire]}"

    def _leads(self, check: Check) -> tuple[str, str, str]:
        arrangement = str(check.get("arrangement") or "connected")
        red, black = (self._node(str(check.get(lead)), arrangement) for lead in ("red", "black"))
        return arrangement, red, black

    def _setup(self, check: Check, rng: Stream, *bridge: str) -> Setup:
        fault = self.case.fault
        source = check.get("source")
        steady = None
        if fault.head == "intermittent" and rng.chance(0.35):
            steady = rng.chance(0.7)
        return Setup(
            arrangement=str(check.get("arrangement") or "connected"),
            source=None if source is None else formats.number(str(source)),
            sway=rng.gauss(0, 1) * fault.get("wander"),
            bridge=bridge,
            steady=steady,
        )

    def _volts(self, check: Check, rng: Stream) -> str:
        arrangement, red, black = self._leads(check)
        meter, fault = self.case.system.meter, self.case.fault
        load = fault.get("ohm") if fault.id == "meter-wrong" and fault.variant == "loz" else 1e7
        points = operate(self.case, self._setup(check, rng, f"Rdmm {red} {black} {load:.6g}"), (red, black))
        values = [point[red] - point[black] for point in points]
        values = [
            value + rng.gauss(0, self.case.system.stray_v) * (arrangement in DEAD or abs(value) < 0.02)
            for value in values
        ]
        size, shift = self._noise(check) if {red, black} & {"cg", "wg", "pg"} else (0.0, 0.0)
        span = self.case.system.signal.high - self.case.system.signal.low
        scale = span if not self.case.system.two_wire else span * self.case.input().ohms / 1e3
        values = [value + scale * (shift + wag * size * 0.4) for value in values for wag in ((-1, 1) if size else (0,))]
        if fault.id == "meter-wrong" and fault.variant in {"lead", "ac"}:
            values = [rng.gauss(0, 0.002)]
        factor = fault.get("factor") if fault.id == "meter-wrong" and fault.variant == "battery" else 1.0
        return formats.meter_volts(values, meter, factor, rng)

    def _noise(self, check: Check) -> tuple[float, float]:
        """Return jitter and shift on the signal, as fractions of its span."""
        fault = self.case.fault
        arrangement = str(check.get("arrangement") or "connected")
        if fault.id not in {"noise-pickup", "shield-looped"} or arrangement not in LANDED:
            return 0.0, 0.0
        drive = str(check.get("drive") or ("auto" if arrangement in {"connected", "meter-in-signal"} else "stopped"))
        part = 1.0 if fault.variant == "mains" or drive in {"auto", "fixed-speed"} else 0.08
        return fault.get("size") * part, fault.get("shift") * part

    def _volts_ac(self, check: Check, rng: Stream) -> str:
        arrangement, _red, _black = self._leads(check)
        if arrangement in DEAD:
            return "0.00 V"
        span = self.case.system.signal.high if not self.case.system.two_wire else 20e-3 * self.case.input().ohms
        size = self._noise(check)[0] * span * rng.uniform(0.15, 0.8)
        running = str(check.get("drive") or "auto") in {"auto", "fixed-speed"}
        return f"{size + rng.log_uniform(0.003, 0.25) * (1.0 if running else 0.2):.3f} V"

    def _milliamps(self, check: Check, rng: Stream) -> str:
        if check.get("arrangement") != "meter-in-signal":
            raise CannotAnswerError("milliamps only in the signal wire")
        meter, fault = self.case.system.meter, self.case.fault
        wire = next((wire for wire, terminal in self.case.terminals().items() if terminal == "signal"), "signal")
        blown = fault.id == "meter-wrong" and fault.variant in {"fuse", "lead", "ac"}
        ohm = 1e9 if blown else meter.burden_ohm
        points = operate(
            self.case, self._setup(check, rng, f"Rma w{LETTER[wire]} cg {ohm:.6g}"), (f"w{LETTER[wire]}", "cg")
        )
        values = [(point[f"w{LETTER[wire]}"] - point["cg"]) / ohm * 1e3 for point in points]
        size, shift = self._noise(check)
        values = [
            value + 16 * (shift + wag * size * 0.4) * self.case.system.two_wire
            for value in values
            for wag in ((-1, 1) if size else (0,))
        ]
        factor = fault.get("factor") if fault.id == "meter-wrong" and fault.variant == "battery" else 1.0
        return formats.meter_milliamps([0.0] if blown else values, meter, factor, rng)

    def _ohms(self, check: Check, rng: Stream) -> str:
        arrangement, red, black = self._leads(check)
        if arrangement not in DEAD:
            raise CannotAnswerError("ohms only on a dead cable with free ends")
        meter, fault = self.case.system.meter, self.case.fault
        if fault.id == "meter-wrong" and fault.variant == "lead":
            return "OL"
        setup = self._setup(check, rng)
        if fault.head == "intermittent" and setup.steady is None:
            setup = Setup(arrangement=arrangement, steady=rng.chance(0.5))
        return formats.meter_ohms(lambda reference: self._ratio(setup, red, black, reference), meter, rng)

    def _ratio(self, setup: Setup, red: str, black: str, reference: float) -> float:
        """Return what an ohmmeter makes of the volts across its leads, for one of its reference resistors."""
        meter = self.case.system.meter
        bridge = (
            f"Vohm tv {black} {meter.test_v:.6g}",
            f"Rohm tv tr {reference:.6g}",
            f"Rlead tr {red} {meter.lead_ohm:.6g}",
        )
        point = operate(
            self.case, Setup(arrangement=setup.arrangement, steady=setup.steady, bridge=bridge), ("tv", "tr", black)
        )[0]
        across, rest = point["tr"] - point[black], point["tv"] - point["tr"]
        return reference * across / rest if rest > 1e-12 else float("inf")

    def _megohms(self, check: Check, rng: Stream) -> str:
        arrangement, red, black = self._leads(check)
        if "insulation-tester" not in self.case.system.have:
            raise CannotAnswerError("no insulation-tester")
        if arrangement != "dead-both-free":
            raise CannotAnswerError("an insulation test only with both ends free")
        bridge = (f"Vmeg tv {black} 250", f"Rmeg tv {red} 50k")
        point = operate(self.case, Setup(arrangement=arrangement, bridge=bridge, steady=True), ("tv", red, black))[0]
        rest = point["tv"] - point[red]
        ohm = (point[red] - point[black]) / rest * 5e4 if rest > 1e-9 else float("inf")
        return formats.insulation(ohm, rng)

    # What is read off without a meter --------------------------------------------------------------

    def _gauge(self, check: Check, rng: Stream) -> str:
        if check.get("whose") == "own" and stream(self.case.seed, "no-tap").chance(0.15):
            raise CannotAnswerError("no hose tap, and no plugged port within reach")
        return formats.gauge(
            self.case,
            str(check.get("whose") or self.case.system.whose),
            rng,
            vented=check.get("arrangement") == "vented",
        )

    def _screens(self, check: Check, rng: Stream) -> list[Screen]:
        if str(check.get("arrangement")) in DEAD:
            raise CannotAnswerError("the power is off")
        if check.get("arrangement") == "source-at-controller" and check.get("source") is None:
            raise CannotAnswerError("no source level given")
        bridge: tuple[str, ...] = ()
        if check.get("arrangement") == "meter-in-signal":
            wire = next(wire for wire, terminal in self.case.terminals().items() if terminal == "signal")
            bridge = (f"Rma w{LETTER[wire]} cg {self.case.system.meter.burden_ohm:.6g}",)
        return screens(self.case, self._setup(check, rng, *bridge))

    def _displayed_pressure(self, check: Check, rng: Stream) -> str:
        system, (size, shift) = self.case.system, self._noise(check)
        values = [shown.pressure + rng.gauss(0, 0.001) * system.top for shown in self._screens(check, rng)]
        values = [value + system.top * (shift + wag * size) for value in values for wag in ((-1, 1) if size else (0,))]
        if system.clamped:
            values = [min(max(value, 0.0), max(system.top, value - 0.004 * system.top)) for value in values]
        return formats.spread(values, system.decimals, system.unit)

    def _displayed_fault(self, check: Check, rng: Stream) -> str:
        words = [shown.word for shown in self._screens(check, rng)]
        return next((word for word in words if word != "none"), "none")  # a fault latches

    def _displayed_signal(self, check: Check, rng: Stream) -> str:
        system = self.case.system
        if not system.shows_signal:
            raise CannotAnswerError("this controller does not show its raw signal")
        low, high, unit = expected_signal(self.case)
        if unit != system.signal.unit:
            raise CannotAnswerError("its screen shows another unit")
        size, shift = self._noise(check)
        values = [shown.raw + rng.gauss(0, 0.001) * (high - low) for shown in self._screens(check, rng)]
        values = [
            value + (high - low) * (shift + wag * size) for value in values for wag in ((-1, 1) if size else (0,))
        ]
        return formats.spread(values, 2, unit)

    def _inspection(self, check: Check, rng: Stream) -> str:
        item = str(check.get("item"))
        if item not in ITEMS:
            raise CannotAnswerError(f"nothing to look at: {item}")
        if item == "cock" and not self.case.system.cock and self.case.fault.id != "sensor-cock-shut":
            raise CannotAnswerError("no cock")
        return look(self.case, item, rng)
