"""One hidden case: a system with one fault, and what the fault makes of its parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from benchmarks.second_truth.devices import SensorState
from benchmarks.second_truth.faults import Fault, remedy_of
from benchmarks.second_truth.makes import InputMake, SensorMake, SupplyMake
from benchmarks.second_truth.system import System


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A system, its fault, and what is fitted; the complaint and the site data come with the visit."""

    seed: str
    kind: str
    system: System
    fault: Fault
    fitted: SensorMake
    fitted_two_wire: bool
    complaint: Mapping[str, object]

    @property
    def truth(self) -> str:
        """The remedy that is right."""
        return remedy_of(self.fault.id)

    @property
    def make(self) -> dict[str, str]:
        """Say which kinds of devices this case has, for tables of where a tool fails."""
        system, sensor = self.system, self.fitted
        return {
            "signal": system.signal.text,
            "fitted": sensor.signal.text,
            "starved": sensor.starved,
            "reverse": sensor.reverse,
            "output-ohm": f"{sensor.out_ohm:.0f}",
            "sink-ma": f"{sensor.sink_a * 1e3:.2f}",
            "output-diodes": str(sensor.output_diodes),
            "supply": system.supply.kind,
            "input": "ratio" if system.input.ratio else "fixed",
            "pull-up": str(bool(system.input.pull_up_ohm)),
            "input-limit": str(bool(system.input.limit_a)),
            "protector": f"{system.protector_ohm:g}",
            "variant": self.fault.variant,
        }

    def terminals(self) -> dict[str, str]:
        """Return the terminal on which each conductor sits; a conductor is named by its sensor pin."""
        wires = {wire: wire for wire in self.system.wires}
        fault = self.fault
        if fault.head == "swapped" or fault.id == "reversed":
            first, second = ("supply", "signal") if fault.id == "reversed" else fault.tail.split("-")
            wires[first], wires[second] = second, first
        elif fault.head == "rotated":
            ring = ["supply", "common", "signal"]
            step = 1 if fault.tail == "right" else 2
            wires = {wire: ring[(place + step) % 3] for place, wire in enumerate(ring)}
        return wires

    def sensed(self, arrangement: str) -> float:
        """Return the pressure that reaches the sensor's diaphragm."""
        fault, top = self.fault, self.system.top
        vented = arrangement == "vented"
        if fault.id == "port-blocked" and (not vented or fault.get("tight")):
            return fault.get("at") * top
        if vented:
            return 0.0
        if fault.id in {"sensor-cock-shut", "tap-wrong-side", "port-blocked"}:
            return fault.get("at") * top
        return self.true_pressure()

    def true_pressure(self) -> float:
        """Return the pressure at the sensor's height in the pipe that the gauge shows."""
        if self.fault.id == "vacuum":
            psi = -self.fault.get("vacuum")
            return psi if self.system.unit == "psi" else psi / 14.503774
        return self.system.pressure

    def sensor_state(self, pressure: float) -> SensorState:
        """Return what the fitted sensor does at a pressure."""
        fault, system = self.fault, self.system
        top = system.top
        if fault.id == "sensor-wrong-part" and fault.variant == "range":
            top *= fault.get("factor")
        if fault.id == "sensor-wrong-part" and fault.variant == "absolute":
            pressure += system.atmosphere
        span, zero = (fault.get("span"), fault.get("zero")) if fault.head == "sensor" else (0.0, 0.0)
        fraction = pressure / top * (1 + self.fitted.span + span) + self.fitted.zero + zero
        modes = {"sensor-low": "low", "sensor-high": "high", "sensor-open": "open", "sensor-shorted": "shorted"}
        mode = modes.get(fault.id, "works")
        if fault.id == "sensor-low" and fault.variant == "dead-output":
            mode = "dead-output"
        if fault.id == "sensor-open" and fault.variant == "supply":
            mode = "open-supply"
        if fault.id == "sensor-frozen":
            fraction = fault.get("stuck")
        leak = fault.get("leak") if fault.id == "sensor-wet-vent" and not self.fitted_two_wire else None
        return SensorState(
            fraction=fraction, mode=mode, level=fault.get("level"), ohm=fault.get("ohm", 1e9), leak_ohm=leak
        )

    def supply(self) -> SupplyMake:
        """Return the sensor supply with its fault in it."""
        make, fault = self.system.supply, self.fault
        if fault.id == "controller-supply-dead":
            return replace(
                make, volts=max(fault.get("level"), 1e-3), source_ohm=fault.get("ohm"), limit_a=10.0, kind="limit"
            )
        if fault.id == "controller-supply-low":
            return replace(make, volts=make.nominal_v * fault.get("level"))
        if fault.id == "controller-supply-weak" and fault.variant == "ohm":
            return replace(make, source_ohm=make.source_ohm + fault.get("ohm"), kind="limit")
        if fault.id == "controller-supply-weak":
            return replace(make, limit_a=fault.get("limit"), kind="limit", source_ohm=max(make.source_ohm, 5.0))
        return make

    def input(self) -> InputMake:
        """Return the controller's input as it is switched and as it is broken."""
        make, fault = self.system.input, self.fault
        if fault.id == "setting-signal-kind" and fault.variant == "milliamps":
            return InputMake(current=True, ohms=fault.get("burden"), full=22.5)
        if fault.id == "setting-signal-kind" and fault.variant == "volts":
            return InputMake(current=False, ohms=fault.get("ohm"), clamp_v=12.0, full=10.5)
        if fault.id == "controller-input-dead" and fault.variant == "shorted":
            return replace(make, ohms=min(fault.get("ohm"), make.ohms * 0.5))
        if fault.id == "controller-input-dead" and fault.variant == "open":
            return replace(make, ohms=2e7, pull_up_ohm=None)
        return make
