"""Which units a person may write, every spelling of each, and how a spelling is found.

Rules
-----
1. A unit belongs to one dimension; the same symbol may stand in two (``m`` is a length and a head).
2. Spaces inside a spelling do not count; the trade's signs are levelled first (both ohm signs, both micro signs,
   superscripts, inch marks).
3. The exact spelling wins. Failing that, capitals do not matter, except that a first ``m`` and a first ``M`` are
   never swapped: milli is not mega.
4. ``psi``, ``bar`` and their like say neither gauge nor absolute and are accepted in both pressures; ``psig`` is
   refused where an absolute pressure is asked for, ``psia`` where a gauge pressure is.
5. Factors come from `factors`, which is generated; nothing is converted by a number typed here.

Everything that affects which spellings are accepted lives in this file.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.quantities.factors import EXACT_FACTORS


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit of one dimension.

    Parameters
    ----------
    symbol
        Its canonical spelling, ASCII where the trade allows.
    dimension
        Id of the dimension in `DIMENSIONS`.
    spellings
        Every spelling accepted, the canonical one first.
    numerator, denominator
        Exact factor to the dimension's SI unit, as a ratio of integers.
    offset_numerator, offset_denominator
        What is added after the factor, also exact; 0 but for temperatures.
    """

    symbol: str
    dimension: str
    spellings: tuple[str, ...]
    numerator: int
    denominator: int
    offset_numerator: int = 0
    offset_denominator: int = 1

    @property
    def factor(self) -> float:
        """Factor to the dimension's SI unit, correctly rounded."""
        return self.numerator / self.denominator

    @property
    def offset(self) -> float:
        """What is added after the factor, correctly rounded."""
        return self.offset_numerator / self.offset_denominator


_PRESSURES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("psi", ("lbf/in2", "lb/in2", "lb/sq in")),
    ("bar", ()),
    ("mbar", ()),
    ("Pa", ("pascal", "pascals")),
    ("hPa", ()),
    ("kPa", ("kilopascal", "kilopascals")),
    ("MPa", ("megapascal", "megapascals")),
    ("inHg", ("in. Hg", '"Hg', "in of mercury", "inches of mercury")),
    ("mmHg", ("mm of mercury",)),
    ("inH2O", ("inWC", "in. WC", "in. w.c.", "inWG", '"WC', '"H2O', "in of water", "inches of water")),
    ("mmH2O", ("mmWC", "mmWG", "mm of water")),
    ("ftH2O", ("ftWC", "ftWG", "ft of water", "feet of water", "foot of water")),
    ("mH2O", ("mWC", "mWG", "m w.c.", "m of water", "metres of water", "meters of water", "metre of water")),
    ("kgf/cm2", ("kg/cm2",)),
    ("atm", ("atmospheres",)),
)
_GAUGE_ENDINGS = ("g", "(g)", " gauge", " gage")
_ABSOLUTE_ENDINGS = (" abs", "a", "(a)", " absolute", " abs.")
_SHORT_ABSOLUTE = {"psi": "psia", "bar": "bara"}

_OTHERS: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "voltage": (
        ("V", ("volt", "volts", "V DC")),
        ("mV", ("millivolt", "millivolts", "mV DC")),
        ("kV", ("kilovolt", "kilovolts")),
    ),
    "current": (
        ("A", ("amp", "amps", "ampere", "amperes", "A DC")),
        ("mA", ("milliamp", "milliamps", "mA DC")),
        ("uA", ("µA", "microamp", "microamps")),
    ),
    "resistance": (
        ("ohm", ("ohms", "Ω", "R")),
        ("mohm", ("mΩ", "milliohm", "milliohms")),
        ("kohm", ("kohms", "kΩ", "k", "kilohm", "kilohms", "kiloohm")),
        ("Mohm", ("Mohms", "MΩ", "M", "megohm", "megohms", "Megohm", "Megohms", "megaohm")),
        ("Gohm", ("Gohms", "GΩ", "G", "gigohm", "gigaohm", "gigohms")),
    ),
    "percent": (("%", ("percent", "per cent", "pct")),),
    "length": (
        ("m", ("metre", "metres", "meter", "meters")),
        ("mm", ("millimetre", "millimetres", "millimeter", "millimeters")),
        ("cm", ("centimetre", "centimetres", "centimeter", "centimeters")),
        ("km", ("kilometre", "kilometres", "kilometer", "kilometers")),
        ("ft", ("ft.", "foot", "feet", "'")),
        ("in", ("in.", "inch", "inches", '"')),
    ),
    "head": (
        ("m", ("metre", "metres", "meter", "meters", "mH2O", "mWC", "m of water", "metres of water")),
        ("ft", ("ft.", "foot", "feet", "'", "ftH2O", "ftWC", "ft of water", "feet of water", "ft of head")),
    ),
    "area": (("mm2", ("mm^2", "sq mm", "sq. mm", "mm sq")),),
    "volume": (
        ("gal", ("US gal", "USgal", "gallon", "gallons", "US gallon", "US gallons")),
        ("imp gal", ("imperial gallon", "imperial gallons", "UK gal")),
        ("L", ("litre", "litres", "liter", "liters", "ltr")),
        ("m3", ("m^3", "cubic metre", "cubic metres", "cubic meter", "cubic meters", "cbm")),
        ("ft3", ("ft^3", "cu ft", "cuft", "cf", "cubic foot", "cubic feet")),
    ),
    "flow": (
        ("gpm", ("gal/min", "USgpm", "US gal/min", "gallons per minute")),
        ("imp gpm", ("igpm", "imp gal/min")),
        ("L/min", ("lpm", "litres per minute", "liters per minute")),
        ("L/s", ("lps", "litres per second", "liters per second")),
        ("L/h", ("lph",)),
        ("m3/h", ("m^3/h", "m3/hr", "cmh")),
        ("m3/s", ("m^3/s",)),
    ),
    "temperature": (
        ("degC", ("°C", "C", "deg C", "deg. C", "celsius")),
        ("degF", ("°F", "F", "deg F", "deg. F", "fahrenheit")),
        ("K", ("kelvin",)),
    ),
    "time": (
        ("s", ("sec", "sec.", "second", "seconds")),
        ("ms", ("millisecond", "milliseconds")),
        ("min", ("min.", "minute", "minutes")),
        ("h", ("hr", "hrs", "hour", "hours")),
        ("d", ("day", "days")),
    ),
    "frequency": (("Hz", ("hertz",)), ("kHz", ("kilohertz",))),
}

#: One sign for each sign of the trade that is written in several ways.
_SIGNS = str.maketrans(
    {
        "\u2126": "Ω",
        "\u03bc": "µ",
        "²": "2",
        "³": "3",
        "₂": "2",
        "℃": "°C",
        "℉": "°F",
        "º": "°",
        "″": '"',
        "”": '"',
        "“": '"',
        "′": "'",
        "’": "'",
        "٪": "%",
        " ": None,
        "\u00a0": None,
        "\u202f": None,
        "\u2009": None,
        "\u2007": None,
        "\t": None,
    }
)


def _unit(symbol: str, dimension: str, spellings: tuple[str, ...], factor_of: str | None = None) -> Unit:
    return Unit(
        symbol=symbol,
        dimension=dimension,
        spellings=tuple(dict.fromkeys((symbol, *spellings))),
        **dict(zip(_FACTOR_FIELDS, EXACT_FACTORS[dimension][factor_of or symbol], strict=True)),
    )


_FACTOR_FIELDS = ("numerator", "denominator", "offset_numerator", "offset_denominator")


def _with_endings(spellings: tuple[str, ...], endings: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(f"{spelling}{ending}" for spelling in spellings for ending in endings)


def _pressure_units() -> tuple[Unit, ...]:
    gauge, absolute = [], []
    for base, others in _PRESSURES:
        neutral = (base, *others)
        gauge.append(_unit(base, "pressure", (*neutral, *_with_endings(neutral, _GAUGE_ENDINGS))))
        named = _SHORT_ABSOLUTE.get(base, f"{base} abs")
        spellings = (named, *neutral, *_with_endings(neutral, _ABSOLUTE_ENDINGS))
        absolute.append(_unit(named, "absolute-pressure", spellings, factor_of=base))
    return (*gauge, *absolute)


def _other_units() -> tuple[Unit, ...]:
    return tuple(
        _unit(symbol, dimension, spellings) for dimension, rows in _OTHERS.items() for symbol, spellings in rows
    )


UNITS: tuple[Unit, ...] = (*_pressure_units(), *_other_units())


def levelled(text: str) -> str:
    """Return a unit's text without its spaces and with one sign for each sign of the trade.

    >>> levelled("m³ / h")
    'm3/h'
    """
    return text.translate(_SIGNS)


def _index() -> dict[str, dict[str, Unit]]:
    table: dict[str, dict[str, Unit]] = {}
    for unit in UNITS:
        spelled = table.setdefault(unit.dimension, {})
        for spelling in unit.spellings:
            spelled.setdefault(levelled(spelling), unit)
    return table


def _caseless(key: str) -> str:
    """Return the key that forgets capitals, but for a first m or M."""
    return key[:1] + key[1:].casefold() if key[:1] in {"m", "M"} else key.casefold()


_BY_SPELLING = _index()
_BY_CASELESS: dict[str, dict[str, Unit | None]] = {}
for _dimension, _spelled in _BY_SPELLING.items():
    _folded = _BY_CASELESS.setdefault(_dimension, {})
    for _key, _found in _spelled.items():
        _same = _folded.setdefault(_caseless(_key), _found)
        if _same is not _found:
            _folded[_caseless(_key)] = None


def find_unit(text: str, dimension: str) -> Unit | None:
    """Return the unit of a dimension that a text spells, or None.

    >>> find_unit("PSI", "pressure").symbol
    'psi'
    >>> find_unit("mpa", "pressure") is None
    True
    """
    key = levelled(text)
    exact = _BY_SPELLING[dimension].get(key)
    return exact if exact is not None else _BY_CASELESS[dimension].get(_caseless(key))


def dimensions_of(text: str) -> tuple[str, ...]:
    """Return the ids of every dimension in which a text spells a unit.

    >>> dimensions_of("psig")
    ('pressure',)
    """
    return tuple(dimension for dimension in _BY_SPELLING if find_unit(text, dimension) is not None)


def spellings_in(dimension: str) -> tuple[str, ...]:
    """Return every spelling accepted in a dimension, canonical ones first.

    >>> spellings_in("frequency")[:2]
    ('Hz', 'kHz')
    """
    units = [unit for unit in UNITS if unit.dimension == dimension]
    return tuple(dict.fromkeys((*(unit.symbol for unit in units), *(s for unit in units for s in unit.spellings))))


def unit_named(symbol: str) -> Unit | None:
    """Return the unit with a canonical symbol, or None; ``m`` is the length.

    >>> unit_named("psia").dimension
    'absolute-pressure'
    """
    found = [unit for unit in UNITS if unit.symbol == symbol]
    return found[0] if found else None
