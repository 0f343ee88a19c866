"""Every table and key of a visit file: how it is read, whether it is needed, what holds when it is left out.

Everything that affects which keys exist lives in this file: the loader, the writer, the JSON Schema and the manual's
table of keys all walk these rows.
"""

from __future__ import annotations

from typing import NamedTuple

from steadyhead.loop.faults import FAULTS
from steadyhead.loop.vocabulary import (
    ARRANGEMENTS,
    DISPLAYED_FAULTS,
    DRIVE_STATES,
    INSPECTION_ITEMS,
    INSTRUMENTS,
    MEASURES,
    POINTS,
)
from steadyhead.published.pipe_threads import WORDS as THREADS
from steadyhead.visit.grades import Grade
from steadyhead.visit.kinds import Flag, Joined, Kind, OneOf, Several, Text, Whole
from steadyhead.visit.kinds_of_belief import Shares
from steadyhead.visit.kinds_of_check import Day
from steadyhead.visit.kinds_of_quantity import (
    Conductor,
    Ends,
    MeterTolerance,
    PlateSignal,
    PressureEnds,
    Share,
    SignalSize,
    Size,
)
from steadyhead.visit.reading_value import ReadValue
from steadyhead.visit.remedies import REMEDIES

SCHEMA = 1
UNKNOWN = "unknown"
FAULT_IDS, NONE_OF_THESE = tuple(fault.id for fault in FAULTS), "none-of-these"


class Key(NamedTuple):
    """One key.

    Parameters
    ----------
    name
        Its word in files.
    kind
        How its value is read and written.
    says
        What it is, in a sentence for the manual and for editors.
    default
        What holds when it is left out, in words.
    field
        Its name in the record, where that is another.
    required
        Whether the file is refused without it.
    """

    name: str
    kind: Kind
    says: str
    default: str = UNKNOWN
    field: str = ""
    required: bool = False

    @property
    def attribute(self) -> str:
        """Its name in the record."""
        return self.field or self.name


class Table(NamedTuple):
    """One table: ``[name]``, ``[[name]]`` where it has `rows`, or ``table.name = { ... }`` where it stands `inside`."""

    name: str
    says: str
    keys: tuple[Key, ...]
    rows: bool = False
    inside: str = ""

    @property
    def title(self) -> str:
        """How the file spells it."""
        if self.inside:
            return f"[{self.inside}] {self.name}"
        return f"[[{self.name}]]" if self.rows else f"[{self.name}]"


SITE = Table(
    "site",
    "Where the system stands.",
    (
        Key("name", Text(), "The site's name, for the record."),
        Key(
            "altitude",
            Size("length", least="-500 m", most="9000 m"),
            "Height above the sea: it sets the pressure of the air, and with it the deepest vacuum.",
            "sea level",
            "altitude_m",
        ),
    ),
)

SENSOR = Table(
    "sensor",
    "The pressure sensor's plate.",
    (
        Key("signal", PlateSignal(), "What the sensor puts out at the two ends of its range.", "", required=True),
        Key("range", PressureEnds("pressure"), "Pressure at the two ends of the signal.", "", required=True),
        Key("wires", OneOf("two", "three"), "How many wires carry it.", "two for a current signal, three for volts"),
        Key("reference", OneOf("gauge", "sealed", "absolute"), "What the sensor measures against.", "`gauge`"),
        Key("accuracy", Share(), "Of span, everything included."),
        Key(
            "supply",
            Ends("voltage", one=True, above=0),
            "Volts that it is made for; for a two-wire sensor its least and most volts.",
        ),
    ),
)

CABLE = Table(
    "cable",
    "The cable between controller and sensor.",
    (
        Key("length", Size("length", above=0), "Its length, one way.", UNKNOWN, "length_m"),
        Key(
            "conductor",
            Conductor("area", above=0, least="0.05 mm2", most="50 mm2"),
            "One conductor's size: an area from 0.05 to 50 mm2, or any wire gauge.",
            UNKNOWN,
            "conductor_m2",
        ),
        Key("shield", Flag(), "Whether it has a screen or a drain wire."),
        Key(
            "temperature",
            Size("temperature", least="-40 degC", most="120 degC"),
            "Temperature of the conductors.",
            "20 degC",
            "temperature_c",
        ),
    ),
)

CONTROLLER = Table(
    "controller",
    "The drive's input, as found.",
    (
        Key("supply", Size("voltage", above=0), "Nominal volts of its sensor supply.", "the sensor's", "supply_v"),
        Key("supply_limits", Ends("voltage"), "Volts between which that supply is sound."),
        Key(
            "input_resistance",
            Size("resistance", above=0),
            "Resistance of the input; for a current input its burden.",
            UNKNOWN,
            "input_resistance_ohm",
        ),
        Key("scaled", PressureEnds("pressure"), "Its range setting as read on this visit.", "unknown: nobody looked"),
        Key("low_fault", SignalSize(), "Signal below which it says low signal."),
        Key("high_fault", SignalSize(), "Signal above which it says high signal."),
        Key(
            "reference",
            OneOf("ratiometric", "fixed"),
            "Whether the input measures against the sensor's own supply.",
        ),
        Key("on_signal_loss", OneOf("stop", "preset", "full", "hold"), "What the drive does when the signal is lost."),
        Key("auto_restart", Flag(), "Whether it starts by itself when the signal returns."),
        Key(
            "display",
            OneOf("open", "clamped"),
            "Whether the screen goes on past the ends of `scaled`, or stays at them.",
            "`open`",
        ),
        Key("loop_power", OneOf("drive", "outside"), "What feeds a two-wire loop.", "`drive`"),
        Key("common_earthed", Flag(), "Whether its common is bonded to earth.", "`true`"),
    ),
)

PLACE = Table(
    "place",
    "What the way costs here.",
    (
        Key(
            "walk",
            Size("time", least="0 s", most="2 h"),
            "Time from the panel to the sensor.",
            "unknown: the usual minutes hold",
            "walk_s",
        ),
        Key("cock", Flag(), "Whether an isolating cock and a vent stand at the sensor."),
    ),
)

#: Plugs of sensors, by what they are and by their standards.
PLUGS = ("lead", "m12-a", "en-175301-a", "en-175301-c", "sealed-three", "sealed-four")

FITTING = Table(
    "fitting",
    "What a sensor in the place of this one must fit.",
    (
        Key("thread", OneOf(*THREADS), "Thread of the port that the sensor is screwed into; `R` also for Rp and Rc."),
        Key("plug", OneOf(*PLUGS), "Plug of the cable at the sensor."),
        Key("water", OneOf("drinking", "other"), "What the water is for.", "it may be drunk"),
        Key(
            "highest",
            Size("pressure", above=0),
            "Highest pressure that can stand at the sensor: the relief's, or the pump's with everything shut.",
            UNKNOWN,
            "highest_pa",
        ),
        Key("settable", Flag(), "Whether the input can be set to other signals (menu and slide switch)."),
    ),
)

GAUGE = Table(
    "gauge",
    "The pressure gauge.",
    (
        Key("range", Ends("pressure"), "Its scale."),
        Key("grade", Grade(), "Its grade (ASME B40.100) or class (EN 837-1)."),
        Key("accuracy", Share(), "Of its span; wins over its grade."),
    ),
    inside="instruments",
)

METER = Table(
    "meter",
    "The multimeter's accuracy; the counts are of the last digit of the lowest range.",
    (
        Key("volts", MeterTolerance("voltage", "0.5 % + 2 x 0.01 V"), "On volts.", "that of a usual meter"),
        Key("milliamps", MeterTolerance("current", "1 % + 2 x 0.01 mA"), "On milliamperes.", "that of a usual meter"),
        Key("ohms", MeterTolerance("resistance", "1 % + 2 x 0.1 ohm"), "On ohms.", "that of a usual meter"),
    ),
    inside="instruments",
)

INSTRUMENTS_TABLE = Table(
    "instruments",
    "What the technician has at hand.",
    (Key("have", Several(*INSTRUMENTS), "The instruments at hand.", "unknown: nobody said"),),
)

LABELS = Table(
    "labels",
    "What this panel and this plug call each point.",
    tuple(
        Key(point, Text(), f"What is written at `{point}`, or its colour.", "the point's own name") for point in POINTS
    ),
)

COMPLAINT = Table(
    "complaint",
    "What was said before a screw was turned; all of it is evidence.",
    (
        Key("text", Text(), "The complaint in the customer's words."),
        Key("shown", Several(*DISPLAYED_FAULTS), "What the display showed, and its fault history.", "nothing known"),
        Key("since", OneOf("sudden", "gradual", "new-system"), "How it began."),
        Key("when", OneOf("always", "night", "rain", "running", "rest", "start", "sometimes"), "When it shows."),
        Key(
            "changed",
            Several("storm", "freeze", "power-cut", "recent-work", "new-part", "drained", "filter", "nothing"),
            "What happened shortly before.",
            "nothing known",
        ),
    ),
)

FORMER = Table(
    "former",
    "What an earlier visit, which ended with the trouble not there, left open: it counts here as odds.",
    (
        Key("ended", Day(), "The day on which it ended; without it nothing counts."),
        Key("ago", Size("time"), "How long before this visit that was.", "it does not count", "ago_s"),
        Key("believed", Shares(*FAULT_IDS, NONE_OF_THESE), "What was suspected when it ended.", "nothing known"),
        Key("mended", Several(*REMEDIES), "What was repaired since its last reading.", "nothing"),
        Key("counts", Flag(), "Whether it counts here.", "`true`"),
    ),
)

_MEASURE = Key("measure", OneOf(*MEASURES), "What is read.", "", required=True)
_ARRANGEMENT = OneOf(*ARRANGEMENTS)
_RED = Key("red", OneOf(*POINTS), "Point of the red lead; needed for volts and ohms.", "")
_BLACK = Key("black", OneOf(*POINTS), "Point of the black lead; needed for volts and ohms.", "")
_SOURCE = Key("source", SignalSize(), "What a signal source puts in, in `source-at-controller` only.", "")
_ITEM = Key("item", OneOf(*INSPECTION_ITEMS), "What is inspected; needed for an inspection.", "")

READING = Table(
    "reading",
    "One thing that was read, in the order of the visit.",
    (
        _MEASURE,
        Key("value", ReadValue(), "What was read.", "the fall, for a pressure decay; otherwise needed"),
        Key("arrangement", _ARRANGEMENT, "How the loop stood.", "`connected`"),
        _RED,
        _BLACK,
        Key("drive", OneOf(*DRIVE_STATES), "State of the drive.", "the usual one of the arrangement"),
        Key("hertz", Size("frequency", above=0), "Speed, where `drive` is `fixed-speed`."),
        _SOURCE,
        _ITEM,
        Key(
            "pressure",
            Size("pressure"),
            "Pressure at the sensor while this was read.",
            "that of the last gauge reading; zero where `vented`",
            "pressure_pa",
        ),
        Key("tap", Text(), "Where the gauge is connected."),
        Key("height", Size("length"), "Height of the gauge above the sensor.", "0 m", "height_m"),
        Key("whose", OneOf("site", "own"), "Whose gauge it is.", "`site`"),
        Key("from", Size("pressure"), "Pressure at the start of a pressure decay.", "", "from_pa"),
        Key("to", Size("pressure"), "Pressure at its end.", "", "to_pa"),
        Key("over", Size("time", above=0), "How long it took.", "", "over_s"),
        Key(
            "took",
            Size("time", above=0, most="10 h"),
            "Time that this check took, its setting up and the way to it included; `steadyhead learn` reads it.",
            UNKNOWN,
            "took_s",
        ),
    ),
    rows=True,
)

DECLINED = Table(
    "declined",
    "A check that cannot be done here.",
    (
        _MEASURE,
        Key("arrangement", _ARRANGEMENT, "Its arrangement.", "any"),
        _RED._replace(says="Its red lead.", default="any"),
        _BLACK._replace(says="Its black lead.", default="any"),
        _SOURCE._replace(says="Its source.", default="any"),
        _ITEM._replace(says="Its item.", default="any"),
        Key("whose", OneOf("site", "own"), "Whose gauge cannot be read.", "any"),
        Key("why", Text(), "Why it cannot be done."),
    ),
    rows=True,
)

ACTION = Table(
    "action",
    "What was done.",
    (
        Key("remedy", Joined(*REMEDIES), "The remedy.", "", required=True),
        Key("after_reading", Whole(), "After which reading; 0 is before the first.", "after the last reading"),
    ),
    rows=True,
)

CLOSED = Table(
    "closed",
    "How the visit ended; `steadyhead learn` reads it.",
    (
        Key(
            "fault",
            Joined(*FAULT_IDS, NONE_OF_THESE),
            "What was at fault in the end; needed in this table.",
            "the visit is not closed",
        ),
        Key("proved", Flag(), "Whether that was proved: it reads right after the repair.", "`false`"),
        Key("second_trip", Flag(), "Whether somebody had to come again for it."),
    ),
)

#: In the order in which a file is written; the sensor says of which kind every signal is.
TABLES: tuple[Table, ...] = (
    SITE,
    SENSOR,
    CABLE,
    CONTROLLER,
    FITTING,
    PLACE,
    INSTRUMENTS_TABLE,
    LABELS,
    COMPLAINT,
    FORMER,
    READING,
    DECLINED,
    ACTION,
    CLOSED,
)
INNER_TABLES: tuple[Table, ...] = (GAUGE, METER)


class Language(NamedTuple):
    """The tables that one kind of file has, in the order in which it is written, and those that stand inside others."""

    tables: tuple[Table, ...]
    inner: tuple[Table, ...]

    def inside(self, outer: Table) -> dict[str, Table]:
        """Return the tables that may stand inside another, by name."""
        return {each.name: each for each in self.inner if each.inside == outer.name}


VISIT = Language(TABLES, INNER_TABLES)
