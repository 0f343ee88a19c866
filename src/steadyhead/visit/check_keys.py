"""Every table and key of a sensor check: how it is read, whether it is needed, what holds when it is left out.

Everything that affects which keys a sensor check has lives in this file: the record's facts, its JSON Schema and its
manual walk these rows, as those of a visit walk `steadyhead.visit.keys`.

Rules
-----
1. The sensor's plate is the visit file's own table, `steadyhead.visit.keys.SENSOR`.
2. A pressure is what stood on the gauge: gauge pressure, whatever the sensor measures against.
"""

from __future__ import annotations

from steadyhead.visit.keys import CONTROLLER, GAUGE, METER, SENSOR, UNKNOWN, Key, Language, Table
from steadyhead.visit.kinds import Flag, OneOf, Text
from steadyhead.visit.kinds_of_check import Day, Figures, Number, ReadSignal, TemperatureWidth, Times
from steadyhead.visit.kinds_of_quantity import Share, SignalSize, Size

STAGES = ("as-found", "as-left")
PRESSURE_FROM = ("system", "hand-pump", "static")
READ_AS = ("signal", "displayed-pressure")
DIRECTIONS = ("up", "down")
PURPOSES = ("quick", "full", "repeat", "laboratory")
#: Whether points may still come.
CHECK_STATES = ("unfinished", "finished")
UNFINISHED, FINISHED = CHECK_STATES

#: What a gauge or a display may show: not below a vacuum by more than an instrument errs, not above any instrument.
READ = Size("pressure", least="-1.5 bar", most="10000 bar")
_NAME = Key("name", Text(), "What it is called.")
_SERIAL = Key("serial", Text(), "Its serial number.")


def _certificate(inside: str, one: Size | SignalSize, width: Size | SignalSize) -> Table:
    """Return what a calibration certificate says of an instrument that reads in `one`'s unit; a width is above zero."""
    return Table(
        "certificate",
        f"The {inside}'s calibration; then its grade or leaflet no longer counts.",
        (
            Key("expanded", width, "Expanded uncertainty.", "", required=True),
            Key("k", Number(), "Coverage factor of `expanded`.", "2"),
            Key("correction", Figures(one), "What is to be added to a reading; one for each of `at`.", "0"),
            Key("at", Figures(one, rising=True), "Readings that the corrections belong to.", "one correction for all"),
            Key("number", Text(), "The certificate's own number."),
            Key("dated", Day(), "Day of the calibration."),
            Key("due", Day(), "Day when the next one is due."),
        ),
        inside=inside,
    )


REFERENCE_CERTIFICATE = _certificate("reference", READ, Size("pressure", above=0, least="0 bar", most="10000 bar"))
METER_CERTIFICATE = _certificate("meter", ReadSignal(), ReadSignal(above=0))

REFERENCE = Table(
    "reference",
    "What the pressure was known by.",
    (
        *GAUGE.keys,
        Key(
            "resolution",
            Size("pressure", above=0, least="0 bar", most="1000 bar"),
            "Smallest step that can be read off it.",
            UNKNOWN,
            "resolution_pa",
        ),
        _NAME,
        _SERIAL,
    ),
)

CHECK_METER = Table(
    "meter",
    "What the sensor's output was read with.",
    (
        *(key for key in METER.keys if key.name in {"volts", "milliamps"}),
        Key("same_meter", Flag(), "Whether one meter on one range read signal and supply.", "`true`"),
        _NAME,
        _SERIAL,
    ),
)

CONDITIONS = Table(
    "conditions",
    "What held while the points were taken.",
    (
        Key("height", Size("length"), "Height of the reference above the sensor.", "0 m", "height_m"),
        Key(
            "height_within",
            Size("length", least="0 m", most="1000 m"),
            "How well that is known: half the width.",
            "0 m",
            "height_u_m",
        ),
        Key("medium", OneOf("water", "air"), "What stands between reference and sensor.", "`water`"),
        Key(
            "temperature",
            Size("temperature", least="-60 degC", most="200 degC"),
            "Temperature at the sensor.",
            UNKNOWN,
            "temperature_c",
        ),
        Key(
            "temperature_within",
            TemperatureWidth(),
            "How well that is known: half the width.",
            UNKNOWN,
            "temperature_u_c",
        ),
        Key(
            "temperature_effect",
            Share(),
            "What the plate allows for each kelvin, of span.",
            "included in the accuracy",
        ),
        Key("barometer", Size("absolute-pressure", above=0), "Air pressure as measured.", "from the altitude",
            "barometer_pa"),
        Key("altitude", Size("length", least="-500 m", most="9000 m"), "Height above the sea.", UNKNOWN, "altitude_m"),
    ),
)  # fmt: skip

_PRESSURE = Size("pressure")
_ABOVE_ZERO = Size("pressure", above=0)

ALLOWED = Table(
    "allowed",
    "What the place allows, as the reference shows it; it sets the pressures that are taken.",
    (
        Key("relief", _ABOVE_ZERO, "Setting of the relief valve.", UNKNOWN, "relief_pa"),
        Key("weakest", _ABOVE_ZERO, "What the weakest part stands, by its plate.", UNKNOWN, "weakest_pa"),
        Key("pump", _ABOVE_ZERO, "Highest that the pump, or the hand pump, makes.", UNKNOWN, "pump_pa"),
        Key("ordinary", _ABOVE_ZERO, "What stands there in ordinary service.", UNKNOWN, "ordinary_pa"),
        Key("lowest", _PRESSURE, "Lowest that can be brought about.", "0: it can be vented", "lowest_pa"),
    ),
)

#: Tables of a check's body; `SENSOR` is read by the visit's own rules.
CHECK_TABLES: tuple[Table, ...] = (REFERENCE, CHECK_METER, CONDITIONS, ALLOWED)
CHECK_INNER: tuple[Table, ...] = (REFERENCE_CERTIFICATE, METER_CERTIFICATE)
EVERY_TABLE: tuple[Table, ...] = (SENSOR, CONTROLLER, *CHECK_TABLES)

#: Keys of a check's body beside its tables.
CHECK = Table(
    "check",
    "A sensor check: what was compared with what.",
    (
        Key("serial", Text(), "The sensor's serial number."),
        Key("stage", OneOf(*STAGES), "Before anything was changed, or after.", "`as-found`"),
        Key("pressure_from", OneOf(*PRESSURE_FROM), "What makes the pressure.", "`system`"),
        Key("read_as", OneOf(*READ_AS), "Which reading of a point is the sensor's output.", "`signal`"),
        Key("purpose", OneOf(*PURPOSES), "How thorough it is to be.", "`full`"),
    ),
)

POINT = Table(
    "check-point",
    "One moment of a sensor check: the reference and the sensor, read together.",
    (
        Key("reference", READ, "What the reference showed.", "", "reference_pa", required=True),
        Key("direction", OneOf(*DIRECTIONS), "Whether the pressure rose to this point or fell.", "", required=True),
        Key("cycle", Times(), "Which time through the range.", "1"),
        Key("signal", ReadSignal(), "The sensor's output."),
        Key(
            "supply",
            Size("voltage", above=0, least="1 mV", most="1000 V"),
            "Volts between its supply and common at the same moment.",
            UNKNOWN,
            "supply_v",
        ),
        Key("shown", READ, "What the controller showed.", UNKNOWN, "shown_pa"),
    ),
    rows=True,
)  # fmt: skip

#: The same as a file of its own: with the controller's setting, the day, and each point a row.
CHECK_FILE = Language(
    (
        CHECK._replace(
            keys=(
                *CHECK.keys,
                Key("day", Day(), "Day of the check; a drift needs it.", UNKNOWN, "began"),
                Key("by", Text(), "Who made it."),
            )
        ),
        SENSOR,
        CONTROLLER,
        REFERENCE,
        CHECK_METER,
        CONDITIONS,
        ALLOWED,
        POINT._replace(name="point"),
    ),
    CHECK_INNER,
)
