"""What is assumed of a system: a visit's plates and settings, with stated ranges where nobody looked.

Rules
-----
1. What the visit says is taken; what it does not say is a range, never a single guess, and the answer names it.
2. Ranges are wide: they stand for every make that a technician may meet. They are common practice, without source.
3. Pressures are gauge: an absolute or sealed sensor's range is moved by the air at the site's altitude.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.loop.draft import SensorKind
from steadyhead.messages import Message, message
from steadyhead.published import gauge_classes, gauge_grades, standard_atmosphere
from steadyhead.published.conductors import conductor_ohm_per_m
from steadyhead.quantities import parse
from steadyhead.visit.record import Gauge, Interval, Tolerance, Visit

PSI = 6894.757293168361
SEA_LEVEL_PA = 101325.0

#: Supplies below this are those of 5-volt sensors [V].
LOW_VOLTS = 8.0
#: Accuracy of a sensor whose plate nobody read: parts of span, everything included.
SENSOR_ACCURACY = 0.015
#: A meter of the middle class: relative, and absolute in the measure's unit.
METER = {"V": Tolerance(0.007, 0.02, 0.01), "A": Tolerance(0.012, 2e-5, 1e-5), "ohm": Tolerance(0.012, 0.3, 0.1)}
#: A gauge of which nothing is known: grade B on 0..160 psi.
GAUGE = Gauge(range=Interval(0.0, 160 * PSI), grade="B")


@dataclass(frozen=True)
class System:
    """A visit's system as the diagnosis sees it, and the estimates that it is judged by."""

    visit: Visit
    estimates: Estimates = SHIPPED
    #: What was worked out before of this visit's loop.
    memory: Memory = field(default_factory=Memory, compare=False, repr=False)

    @cached_property
    def known(self) -> Memory:
        """The memory of a loop with these plates: of all the visit, what a loop is drafted from."""
        visit = self.visit
        return self.memory.for_plates((visit.sensor, visit.site, visit.cable, visit.controller))

    @cached_property
    def kind(self) -> SensorKind:
        """Kind of sensor: by its signal and its wires."""
        signal = self.visit.sensor.signal
        if signal.kind == "current":
            return "loop" if signal.wires == 2 else "current"
        return signal.kind

    @cached_property
    def wires(self) -> int:
        """Two or three wires."""
        return self.visit.sensor.signal.wires

    @cached_property
    def unit(self) -> Literal["V", "A"]:
        """SI unit of the signal."""
        return "A" if self.visit.sensor.signal.kind == "current" else "V"

    @cached_property
    def low(self) -> float:
        """Signal at the lower end of the range [V or A]."""
        return self.visit.sensor.signal.low

    @cached_property
    def high(self) -> float:
        """Signal at the upper end of the range [V or A]."""
        return self.visit.sensor.signal.high

    @cached_property
    def air_pa(self) -> float:
        """Absolute pressure of the air at the site [Pa]."""
        altitude = self.visit.site.altitude_m
        return standard_atmosphere.pressure_pa(altitude) if altitude is not None else SEA_LEVEL_PA

    def gauge_range(self, range_: Interval) -> Interval:
        """Return a range as gauge pressures at this site [Pa]."""
        reference = self.visit.sensor.reference
        moved = {"gauge": 0.0, "absolute": self.air_pa, "sealed": self.air_pa - SEA_LEVEL_PA}[reference]
        return Interval(range_.low - moved, range_.high - moved)

    @cached_property
    def range(self) -> Interval:
        """Sensor's range as gauge pressure [Pa]."""
        return self.gauge_range(self.visit.sensor.range)

    @cached_property
    def scaled(self) -> Interval | None:
        """Controller's scaling as gauge pressure [Pa]; None where nobody looked."""
        scaled = self.visit.controller.scaled
        return None if scaled is None else self.gauge_range(scaled)

    @cached_property
    def scaled_differs(self) -> bool:
        """Whether the setting that was read is not the sensor's range."""
        scaled, range_ = self.scaled, self.range
        if scaled is None:
            return False
        return max(abs(scaled.low - range_.low), abs(scaled.high - range_.high)) > 0.004 * range_.width

    @cached_property
    def accuracy(self) -> float:
        """Sensor's accuracy [parts of span]."""
        given = self.visit.sensor.accuracy
        return SENSOR_ACCURACY if given is None else given

    @cached_property
    def supply_v(self) -> float:
        """Nominal volts of the sensor's power."""
        controller, sensor = self.visit.controller, self.visit.sensor
        if controller.supply_v is not None:
            return controller.supply_v
        five = sensor.supply.middle if sensor.supply is not None else 5.0
        usual = five if self.kind == "ratiometric" else 24.0
        limits = controller.supply_limits
        return usual if limits is None or limits.low <= usual <= limits.high else limits.middle

    @cached_property
    def no_cock(self) -> bool:
        """Whether no cock stands at the sensor: by the site, or since somebody could not look at it for that reason."""
        told = any(d.why is not None and "no cock" in d.why.lower() for d in self.visit.declined)
        return self.visit.place.cock is False or (told and self.visit.place.cock is None)

    @cached_property
    def supply_unsaid(self) -> bool:
        """Whether nobody said what the power of a voltage sensor is that may be made for 12 volts as well as for 24."""
        controller = self.visit.controller
        given = controller.supply_v is not None or controller.supply_limits is not None
        return self.unit == "V" and self.kind != "ratiometric" and not given

    @cached_property
    def supply_spread(self) -> float:
        """Relative standard deviation of a healthy supply."""
        limits = self.visit.controller.supply_limits
        if limits is not None:
            return min(max(limits.width / self.supply_v / 5.0, 0.004), 0.06)
        return 0.025 if self.supply_v < LOW_VOLTS else 0.05

    @cached_property
    def least_v(self) -> float | None:
        """Least volts that the sensor is made for, where the plate gives two ends."""
        supply = self.visit.sensor.supply
        return supply.low if supply is not None and supply.width > 0 else None

    @cached_property
    def run_ohm(self) -> float:
        """Resistance of one conductor [ohm]."""
        cable = self.visit.cable
        area = cable.conductor_m2 if cable.conductor_m2 is not None else 0.33e-6
        length = cable.length_m if cable.length_m is not None else 15.0
        return max(length * conductor_ohm_per_m(area, _within(cable.temperature_c)), 0.02)

    @cached_property
    def run_known(self) -> bool:
        """Whether length and size of the cable are known."""
        return self.visit.cable.length_m is not None and self.visit.cable.conductor_m2 is not None

    @cached_property
    def limits_given(self) -> bool:
        """Whether the controller's low and high fault limits are known."""
        return self.visit.controller.low_fault is not None and self.visit.controller.high_fault is not None

    @cached_property
    def low_fault(self) -> float:
        """Signal below which the controller says low signal [V or A]."""
        given = self.visit.controller.low_fault
        if given is not None:
            return given
        return 3.6e-3 * self.low / 4e-3 if self.unit == "A" else 0.45 * self.low

    @cached_property
    def high_fault(self) -> float:
        """Signal above which the controller says high signal [V or A]."""
        given = self.visit.controller.high_fault
        if given is not None:
            return given
        return 21e-3 * self.high / 20e-3 if self.unit == "A" else self.high * 1.06

    @cached_property
    def pressure_unit(self) -> tuple[str, float]:
        """Unit in which this site's pressures are read, and how many of it make one pascal."""
        unit = self.visit.pressure_unit
        return unit, 1.0 / parse(f"1 {unit}", "pressure")

    def tolerance(self, unit: str) -> Tolerance:
        """Return the meter's accuracy for a unit."""
        meters = self.visit.instruments
        given = {"V": meters.volts, "A": meters.milliamps, "ohm": meters.ohms}[unit]
        return METER[unit] if given is None else given

    def gauge_error(self, pressure_pa: float) -> float:
        """Return the error that the gauge may have at a reading [Pa]."""
        gauge = self.visit.instruments.gauge or GAUGE
        scale = gauge.range or GAUGE.range or Interval(0.0, 160 * PSI)
        if gauge.accuracy is not None:
            return gauge.accuracy * scale.width
        place = min(max((pressure_pa - scale.low) / scale.width, 0.0), 1.0)
        return _graded(gauge.grade or "B", place) * scale.width

    def beyond_gauge(self, pressure_pa: float) -> bool:
        """Tell whether a reading lies outside the gauge's scale."""
        gauge = self.visit.instruments.gauge
        if gauge is None or gauge.range is None:
            return False
        slack = 0.01 * gauge.range.width
        return not gauge.range.low - slack <= pressure_pa <= gauge.range.high + slack

    def defaults(self) -> tuple[Message, ...]:
        """Return what was assumed because nobody said."""
        return tuple(said for given, said in _ASSUMED(self) if not given)


def _within(temperature_c: float | None) -> float:
    return 20.0 if temperature_c is None else temperature_c


def _graded(grade: str, place: float) -> float:
    if grade in gauge_grades.GRADES:
        return gauge_grades.allowed_error(grade, place)
    return gauge_classes.allowed_error(grade)


def _ASSUMED(system: System) -> tuple[tuple[object, Message], ...]:  # noqa: N802 - a table that needs the system
    visit = system.visit
    controller, cable = visit.controller, visit.cable
    ohm = "50..500 ohm" if system.unit == "A" else "30 kohm..1 Mohm"
    return (
        (visit.sensor.accuracy, _default("sensor.accuracy", f"{SENSOR_ACCURACY * 100:g} %")),
        (controller.supply_v or visit.sensor.supply, _default("controller.supply", f"{system.supply_v:g} V")),
        (controller.input_resistance_ohm, _default("controller.input_resistance", ohm)),
        (controller.scaled, _default("controller.scaled", "as the sensor, or 0.4 to 3.2 times its range")),
        (
            controller.reference or system.kind != "ratiometric",
            _default("controller.reference", "ratiometric or fixed"),
        ),
        (controller.low_fault, _default("controller.low_fault", _signal(system.low_fault, system.unit))),
        (controller.high_fault, _default("controller.high_fault", _signal(system.high_fault, system.unit))),
        (cable.length_m, _default("cable.length", "15 m")),
        (cable.conductor_m2, _default("cable.conductor", "22 AWG")),
        (visit.instruments.gauge, _default("instruments.gauge", "0..160 psi, grade B")),
        (visit.instruments.volts, _default("instruments.meter.volts", "0.7 % + 2 x 0.01 V")),
    )


def _signal(value: float, unit: str) -> str:
    return f"about {value * 1000:.3g} mA" if unit == "A" else f"about {value:.3g} V"


def _default(key: str, value: str) -> Message:
    return message("default", key=key, value=value)


def last_mended(visit: Visit) -> int:
    """Return the reading after which the loop was last changed and read again; 0 where it never was."""
    last = len(visit.readings)
    return max((a.after_reading for a in visit.actions if a.after_reading < last), default=0)
