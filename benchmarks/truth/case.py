"""What is really there: one hidden case as values, from the supply's limit to the gauge's needle.

A fault is a change of these values; the netlist, the screen and the instruments read them and know no fault by name.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

Kind = Literal["three-wire", "two-wire"]
Law = Literal["soft", "foldback", "self-resetting", "hiccup"]
PSI_PER_BAR = 1e5 / 6894.757  # NIST SP 811 (2008) App. B: 6.894 757 E+03 Pa a psi; republished copy read
CONDUCTORS: dict[Kind, tuple[str, ...]] = {
    "three-wire": ("supply", "signal", "common"),
    "two-wire": ("supply", "signal"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """The signal on the plate: its ends [V or A]; whether it goes with the supply; the nominal supply [V]."""

    low: float
    high: float
    ratiometric: bool
    supply_v: float

    @property
    def span(self) -> float:
        """Distance of the two ends [V or A]."""
        return self.high - self.low


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """The controller's sensor supply; `law` is what it does when too much is asked of it."""

    volts: float
    source_ohm: float
    limit_a: float
    law: Law
    after_trip_a: float
    bleeder_ohm: float
    other_load_a: float = 0.0
    other_load_ohm: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """The controller's analogue input: terminal side, then the converter behind it."""

    ohm: float
    nominal_ohm: float
    pull_up_ohm: float
    clamp_v: float
    clamp_ohm: float
    ratiometric: bool
    gain: float = 1.0
    offset: float = 0.0
    stuck: float | None = None
    low_fault: float = -math.inf
    high_fault: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensor:
    """A pressure sensor as it really is; fields of the other kind of sensor are not used.

    `zero` and `gain` act on the fraction of the plate's range; `stuck` is a fraction that no longer follows pressure.
    """

    zero: float
    gain: float
    floor: float
    ceiling: float
    least_v: float
    reverse: Literal["blocking", "shunt", "series"]
    quiescent_a: float = 0.005
    quiescent_per_v: float = 0.0
    out_ohm: float = 50.0
    source_a: float = 0.01
    sink_a: float = 0.005
    low_room_v: float = 0.05
    high_room_v: float = 0.1
    pull_down_ohm: float = 1e6
    output_diode: bool = True
    starved: Literal["common", "supply", "floating"] = "common"
    low: float | None = None
    high: float | None = None
    range_factor: float = 1.0
    pressure_shift: float = 0.0
    stuck: float | None = None
    supply_open: bool = False
    output_open: bool = False
    short_ohm: float = math.inf
    output_short_ohm: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Conductor:
    """One conductor from terminal to pin, as resistances in series [ohm]."""

    terminal_ohm: float
    protector_ohm: float
    run_ohm: float
    crimp_ohm: float
    pin_ohm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Leak:
    """A bridge between two conductors, or to ``earth``: a wet one is a small battery with a skewed resistance."""

    a: str
    b: str
    place: str
    ohm: float
    emf_v: float = 0.0
    skew: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """The cable: its conductors, on which terminal each lands, its bridges, and its screen."""

    conductors: dict[str, Conductor]
    lands: dict[str, str]
    pins: dict[str, str]
    leaks: tuple[Leak, ...]
    screen_tied: bool
    insulation_ohm: float
    length_m: float
    area_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the controller makes of its signal; `ends` is the signal that it believes to have [V or A]."""

    scaled: tuple[float, float]
    ends: tuple[float, float]
    offset_psi: float = 0.0
    unit_factor: float = 1.0
    simulated_psi: float | None = None
    other_input: float | None = None
    shunt_ohm: float = math.inf
    reads_current: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """Pressures [psi]: at the gauge's tap and at the sensor's diaphragm; `trapped` does not fall when vented."""

    gauge_psi: float
    sensor_psi: float
    trapped: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """A gauge: scale, division and true error [psi], what the file says of it; `stuck` is a needle that stays."""

    low: float
    high: float
    division: float
    stated: str
    bias_psi: float
    #: The greatest error of its kind [psi].
    error_psi: float = 0.0
    stuck: float | None = None
    zero_psi: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Meter:
    """A multimeter: stated tolerance (relative, counts, last digit) a function, its true gains, its loading."""

    volts: tuple[float, int, float]
    milliamps: tuple[float, int, float]
    ohms: tuple[float, int, float]
    volts_gain: float
    milliamps_gain: float
    ohms_gain: float
    volts_ohm: float
    burden_ohm: float
    open_volts: float
    ohms_limit: float
    fuse_blown: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsteady:
    """What moves by itself: a contact that opens (share of time), and pick-up [V alternating, share of span]."""

    conductor: str | None = None
    place: str = "run"
    share: float = 0.0
    pickup_v: float = 0.01
    jump: float = 0.0
    shift: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """The hidden fault: id, place, and how bad it is in words."""

    id: str = "none"
    place: str | None = None
    severity: str = ""
    found_by: dict[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One case, whole."""

    seed: str
    kind: Kind
    signal: Signal
    range_psi: tuple[float, float]
    unit: Literal["psi", "bar"]
    accuracy: float
    supply: Supply
    input: Input
    sensor: Sensor
    spare: Sensor
    cable: Cable
    setting: Setting
    water: Water
    gauge: Gauge
    #: The technician's own, of the same kind, with an error of its own; None where it can be put nowhere.
    own_gauge: Gauge | None
    meter: Meter
    unsteady: Unsteady
    celsius: float
    source_ohm: float
    source_gain: float
    have: tuple[str, ...]
    walk_min: float | None
    cock: bool
    faults: tuple[Fault, ...] = (Fault(),)

    @property
    def fault_id(self) -> str:
        """The fault's id, or the ids of a pair, sorted and joined by ``+``."""
        return "+".join(sorted(fault.id for fault in self.faults))

    @property
    def make(self) -> dict[str, str]:
        """The kinds of its devices: what its supply does when overloaded, its sensor's protection, its signal."""
        signal = self.signal
        scale, unit = (1e3, "mA") if signal.high < 0.1 else (1.0, "V")
        return {
            "supply": self.supply.law,
            "sensor": self.sensor.reverse,
            "signal": f"{signal.low * scale:g}..{signal.high * scale:g} {unit}",
        }
