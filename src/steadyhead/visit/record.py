"""A visit as values: what is known of the site, the system and the instruments, and what was read and done.

Rules
-----
1. Every value is frozen and in SI units: pascal (gauge, unless the sensor's reference says absolute), volt, ampere,
   ohm, metre, square metre, second.
2. None means that nobody looked: unknown is normal, never an error.
3. Nothing here knows how a file spells it; `steadyhead.visit` reads and writes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

SignalKind = Literal["ratiometric", "voltage", "current"]
PressureReference = Literal["gauge", "sealed", "absolute"]
InputReference = Literal["ratiometric", "fixed"]
SignalLoss = Literal["stop", "preset", "full", "hold"]


@dataclass(frozen=True, slots=True)
class Interval:
    """Two ends, low before high; equal ends are one nominal value."""

    low: float
    high: float

    @property
    def width(self) -> float:
        """Distance between the ends."""
        return self.high - self.low

    @property
    def middle(self) -> float:
        """Value half-way between the ends."""
        return 0.5 * (self.low + self.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Where the system stands."""

    name: str | None = None
    altitude_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """What the sensor puts out at the two ends of its range: `low`, `high` [V or A], over two or three wires."""

    kind: SignalKind
    low: float
    high: float
    wires: Literal[2, 3]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensor:
    """The pressure sensor's plate: range [Pa], accuracy [fraction of span], supply [V]."""

    signal: Signal
    range: Interval
    reference: PressureReference = "gauge"
    accuracy: float | None = None
    supply: Interval | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """The cable between controller and sensor: length [m], one conductor's area [m2], screen, temperature [°C]."""

    length_m: float | None = None
    conductor_m2: float | None = None
    shield: bool | None = None
    temperature_c: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Controller:
    """The drive's analogue input as found.

    `supply_v` [V], `supply_limits` [V], `input_resistance_ohm` [ohm], `scaled` [Pa],
    `low_fault` and `high_fault` [V or A, as the signal].
    """

    supply_v: float | None = None
    supply_limits: Interval | None = None
    input_resistance_ohm: float | None = None
    scaled: Interval | None = None
    low_fault: float | None = None
    high_fault: float | None = None
    reference: InputReference | None = None
    on_signal_loss: SignalLoss | None = None
    auto_restart: bool | None = None
    display: Literal["open", "clamped"] = "open"
    loop_power: Literal["drive", "outside"] = "drive"
    common_earthed: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """What a sensor in the place of this one must fit.

    `thread` of the port, `plug` of the cable, what the `water` is for (None: it may be drunk), `highest_pa` [Pa] that
    can stand there, and whether the input is `settable` to other signals.
    """

    thread: str | None = None
    plug: str | None = None
    water: Literal["drinking", "other"] | None = None
    highest_pa: float | None = None
    settable: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """What the way costs here: panel to sensor [s], and whether a cock with a vent stands at the sensor."""

    walk_s: float | None = None
    cock: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """A pressure gauge: scale [Pa], its grade or class, or its accuracy [fraction of span] where that is given."""

    range: Interval | None = None
    grade: str | None = None
    accuracy: float | None = None


@dataclass(frozen=True, slots=True)
class Tolerance:
    """A meter's accuracy: `relative` of the reading, plus `absolute` in the measure's SI unit.

    `count` is one count of the last digit of the lowest range, 0 where none was given.
    """

    relative: float
    absolute: float = 0.0
    count: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Instruments:
    """What the technician has at hand; None for `have` means that nobody said."""

    gauge: Gauge | None = None
    volts: Tolerance | None = None
    milliamps: Tolerance | None = None
    ohms: Tolerance | None = None
    have: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Complaint:
    """What the customer or the display said before a screw was turned."""

    text: str | None = None
    shown: tuple[str, ...] = ()
    since: Literal["sudden", "gradual", "new-system"] | None = None
    when: Literal["always", "night", "rain", "running", "rest", "start", "sometimes"] | None = None
    changed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Former:
    """What an earlier visit, which ended with the trouble not there, left open.

    The day of its ending, how long before this visit that was [s], each suspect's share then, what was repaired since,
    and whether it counts here.
    """

    ended: str | None = None
    ago_s: float | None = None
    believed: tuple[tuple[str, float], ...] = ()
    mended: tuple[str, ...] = ()
    counts: bool = True


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure in SI units, with the size of one count of its last digit as it was written.

    `unit` is the SI unit, ``fraction`` for a percentage, ``1`` for a number of times, ``1/h`` for times an hour;
    `as_written` is the person's own text, which two equal figures need not share.
    """

    value: float
    unit: str
    resolution: float = 0.0
    as_written: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class Spread:
    """A figure that does not stand still: it jumps between `low` and `high`, SI units.

    With `over_s` it is what a meter in MIN/MAX held after so long [s], which may be next to nothing apart.
    """

    low: float
    high: float
    unit: str
    as_written: str = field(default="", compare=False)
    over_s: float | None = None


@dataclass(frozen=True, slots=True)
class Beyond:
    """A figure past what the instrument shows: ``OL`` or pegged (above), on its stop pin (below).

    `limit` is the figure past which it lies, SI units, or None where only the instrument knows.
    """

    side: Literal["above", "below"]
    limit: float | None
    unit: str
    as_written: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a list: what an inspection found, what the display showed."""

    word: str


ReadingValue = Figure | Spread | Beyond | Word


def called(measure: str, whose: str | None) -> str:
    """Return the name of what is read: the technician's own gauge has one of its own.

    >>> called("volts", "site"), called("gauge-pressure", "site"), called("gauge-pressure", "own")
    ('volts', 'gauge-pressure', 'own-gauge')
    """
    return "own-gauge" if measure == "gauge-pressure" and whose == "own" else measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One thing read; `number` counts from 1 in the order of the file.

    `source` is the signal put in [V or A]; `pressure_pa` overrides the gauge's last reading; `height_m` is the gauge's
    height above the sensor; `hertz` is the speed while the drive runs by hand; `from_pa`, `to_pa` and `over_s` are a
    pressure decay's (its `value` is the fall); `took_s` is how long the check took, setting up and way included [s].
    """

    number: int
    measure: str
    value: ReadingValue
    arrangement: str = "connected"
    drive: str = "auto"
    red: str | None = None
    black: str | None = None
    source: float | None = None
    item: str | None = None
    pressure_pa: float | None = None
    tap: str | None = None
    height_m: float | None = None
    whose: Literal["site", "own"] = "site"
    hertz: float | None = None
    from_pa: float | None = None
    to_pa: float | None = None
    over_s: float | None = None
    took_s: float | None = None

    @property
    def named(self) -> str:
        """What it is called: its measure, or the technician's own gauge."""
        return called(self.measure, self.whose)


@dataclass(frozen=True, slots=True, kw_only=True)
class Declined:
    """A check that cannot be done here; its keys are those of a next check."""

    measure: str
    arrangement: str | None = None
    red: str | None = None
    black: str | None = None
    source: float | None = None
    item: str | None = None
    whose: str | None = None
    why: str | None = None

    @property
    def named(self) -> str:
        """What it is called: its measure, or the technician's own gauge."""
        return called(self.measure, self.whose)


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """What was done, after which reading (0: before the first)."""

    remedy: str
    after_reading: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """How the visit ended: what was at fault, None while it is not closed; `second_trip` None where nobody said."""

    fault: str | None = None
    proved: bool = False
    second_trip: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """Everything that a visit file says."""

    sensor: Sensor
    site: Site = field(default_factory=Site)
    cable: Cable = field(default_factory=Cable)
    controller: Controller = field(default_factory=Controller)
    fitting: Fitting = field(default_factory=Fitting)
    place: Place = field(default_factory=Place)
    instruments: Instruments = field(default_factory=Instruments)
    labels: Mapping[str, str] = field(default_factory=dict)
    complaint: Complaint = field(default_factory=Complaint)
    former: Former = field(default_factory=Former)
    readings: tuple[Reading, ...] = ()
    declined: tuple[Declined, ...] = ()
    actions: tuple[Action, ...] = ()
    closed: Closed = field(default_factory=Closed)
    #: The visit as it stood before another sensor was fitted, and how many readings are of then.
    before: Before | None = field(default=None, compare=False, repr=False)
    #: Unit in which this site's pressures are read and written.
    pressure_unit: str = field(default="psi", compare=False)
    #: Unit in which the sensor's plate spells its range, whatever a reader has chosen; empty where nobody knows.
    plate_unit: str = field(default="", compare=False, repr=False)
    #: Units in which the gauge's dial and the drive's range setting are spelled; empty where nobody said either.
    dial_unit: str = field(default="", compare=False, repr=False)
    set_unit: str = field(default="", compare=False, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """A visit read with the system as it stood before another sensor was fitted; its first `readings` are of then."""

    visit: Visit
    readings: int
