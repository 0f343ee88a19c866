"""A sensor check as it was carried out: which sensor, against which reference, under what conditions, point by point.

Rules
-----
1. Every value is frozen and in SI units, gauge pressure unless the sensor's `reference` says absolute.
2. None means that nobody looked; what was not read is never made up.
3. A point is one moment: the reference's reading and the sensor's output, with its supply, taken together.
4. Points stand in the order in which they were taken. `cycle` counts from 1; `direction` tells whether the pressure
   came up to the point or down to it.
5. A point that was taken again is another point; the earlier one is withdrawn by whoever keeps the record.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from steadyhead.visit.record import Gauge, Interval, Sensor, Tolerance

Direction = Literal["up", "down"]
#: Before anything was changed, or after.
Stage = Literal["as-found", "as-left"]
#: Where the pressure comes from: the running system, a hand pump, or the open air and the height of water alone.
PressureFrom = Literal["system", "hand-pump", "static"]
#: Where the sensor's output is read: a meter in volts or milliamps, or what the controller shows.
ReadAs = Literal["signal", "displayed-pressure"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """What a calibration certificate says of an instrument.

    Parameters
    ----------
    correction
        What is to be added to a reading [SI unit of the instrument], at the points `at` where there are several.
    at
        Readings that the corrections belong to [SI], rising; empty: one correction for all.
    expanded
        Expanded uncertainty [SI].
    k
        Coverage factor of `expanded`.
    number
        The certificate's own number.
    dated
        Day of the calibration, ``2026-03-14``.
    due
        Day when the next one is due.
    """

    correction: tuple[float, ...] = (0.0,)
    at: tuple[float, ...] = ()
    expanded: float
    k: float = 2.0
    number: str = ""
    dated: str = ""
    due: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """What the pressure was known by.

    Parameters
    ----------
    gauge
        Its range and its grade, class or accuracy.
    resolution_pa
        Smallest step that can be read off it [Pa]; None: nobody said.
    certificate
        Its calibration, where it has one: then its grade no longer counts.
    name, serial
        What it is called, and its number.
    """

    gauge: Gauge
    resolution_pa: float | None = None
    certificate: Certificate | None = None
    name: str = ""
    serial: str = ""

    @property
    def scale(self) -> Interval | None:
        """What it can show [Pa]; None where nobody said it, or where a certificate rules instead of the plate."""
        return None if self.certificate is not None else self.gauge.range


@dataclass(frozen=True, slots=True, kw_only=True)
class SignalMeter:
    """What the sensor's output was read with.

    Parameters
    ----------
    signal
        Its accuracy in the signal's own measure, volts or milliamps; None: nobody said.
    supply
        Its accuracy on the supply's volts; None: as `signal` where both are volts.
    same_meter
        Whether supply and signal were read by one meter on one range, so that its scale error cancels in their ratio.
    certificate
        Its calibration in the signal's measure, where it has one.
    name, serial
        What it is called, and its number.
    """

    signal: Tolerance | None = None
    supply: Tolerance | None = None
    same_meter: bool = True
    certificate: Certificate | None = None
    name: str = ""
    serial: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """What held while the points were taken.

    Parameters
    ----------
    height_m
        Height of the reference above the sensor [m]: below it, negative. The water between them weighs. None: nobody
        said, so that they are taken to be level, and that is told.
    height_u_m
        How well that height is known, as a half-width [m].
    medium
        What stands between reference and sensor.
    temperature_c
        Temperature at the sensor [°C].
    temperature_u_c
        How well, as a half-width [°C]; it also stands for how far the sensor itself was from it.
    temperature_effect
        What the sensor's plate allows for temperature [fraction of span per kelvin], None: included in its accuracy.
    barometer_pa
        Air pressure [Pa absolute], measured; None: from the altitude.
    altitude_m
        Height above sea level [m]; None: nobody said.
    """

    height_m: float | None = None
    height_u_m: float = 0.0
    medium: Literal["water", "air"] = "water"
    temperature_c: float | None = None
    temperature_u_c: float | None = None
    temperature_effect: float | None = None
    barometer_pa: float | None = None
    altitude_m: float | None = None

    @property
    def height_above_m(self) -> float:
        """Height of the reference above the sensor [m]; level where nobody said."""
        return self.height_m or 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One moment of a check.

    Parameters
    ----------
    cycle
        Which time through the range, from 1.
    direction
        ``up``: the pressure rose to this point; ``down``: it fell to it.
    reference_pa
        The reference's reading as it stood [Pa], uncorrected.
    signal
        The sensor's output [V or A], None where only the display was read.
    supply_v
        Volts between the sensor's supply and common at the same moment; None: not read.
    shown_pa
        What the controller showed [Pa]; None: not read.
    at
        When, UTC (``2026-05-04T07:09:31.250Z``), or empty.
    id
        Name of the point in the record, or empty.
    """

    cycle: int = 1
    direction: Direction
    reference_pa: float
    signal: float | None = None
    supply_v: float | None = None
    shown_pa: float | None = None
    at: str = ""
    id: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckRun:
    """One run of a sensor check.

    Parameters
    ----------
    sensor
        The sensor's plate; `Sensor.accuracy` is the tolerance that it is judged by [fraction of span].
    serial
        The sensor's serial number, or empty.
    reference, meter
        What it was compared with.
    conditions
        What held meanwhile.
    points
        What was read, in the order in which it was read.
    stage
        Before anything was changed, or after.
    pressure_from
        What made the pressure.
    read_as
        Which of a point's readings is the sensor's output.
    began
        When, UTC, or empty.
    shown_step_pa
        Smallest step of what the controller shows [Pa]; None: nobody said.
    """

    sensor: Sensor
    serial: str = ""
    reference: Reference
    meter: SignalMeter = field(default_factory=SignalMeter)
    conditions: Conditions = field(default_factory=Conditions)
    points: tuple[Point, ...] = ()
    stage: Stage = "as-found"
    pressure_from: PressureFrom = "system"
    read_as: ReadAs = "signal"
    began: str = ""
    shown_step_pa: float | None = None
