"""How a value is said: one function for each word behind the colon of a template's braces.

Rules
-----
1. ``{signal:volts}`` says the message's value ``signal`` as volts; ``{got}`` alone says it as it is.
2. Some words need no value: ``{transducer:region}``, ``{signal:wire}``; they stand in `FIXED`.
3. Figures are rounded for reading: three figures for a measured one, two for an estimate ("about 220 ohm").
4. A tuple is joined by commas.
5. A value melts into the word before it where the language wants that (`steadyhead.words.melting`).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from string import Formatter
from typing import Protocol

from steadyhead.messages import Value
from steadyhead.quantities import spell, spell_figure, spell_ohms
from steadyhead.words.figure_names import FIGURE_ID, FIGURES
from steadyhead.words.formulas import FORMULAS
from steadyhead.words.melting import joined
from steadyhead.words.odds import odds
from steadyhead.words.phrases import PHRASED, phrase
from steadyhead.words.points import label, point_name, terminal_name, the_wire_name, wire_name
from steadyhead.words.regions import WORDS
from steadyhead.words.sizes import SIZES
from steadyhead.words.sources import SOURCED, sourced
from steadyhead.words.takes import reading_of, take, what_read
from steadyhead.words.van_said import approvals, millimetres, signal, watts
from steadyhead.words.water_said import WATER_NAMES, WATER_UNITS, water_text
from steadyhead.words.web_names import UNITS

#: Less than this is no pressure but what binary arithmetic leaves: a tenth of a nanometre of water [Pa].
NO_PRESSURE_PA = 1e-6


class Reader(Protocol):
    """What a sayer must know of the one it speaks for."""

    @property
    def labels(self) -> Mapping[str, str]: ...  # noqa: D102 - as in Speaker

    @property
    def region(self) -> str: ...  # noqa: D102 - as in Speaker

    @property
    def pressure_unit(self) -> str: ...  # noqa: D102 - as in Speaker

    @property
    def wires(self) -> int | None: ...  # noqa: D102 - as in Speaker

    @property
    def decimal(self) -> str: ...  # noqa: D102 - as in Speaker

    @property
    def language(self) -> str: ...  # noqa: D102 - as in Speaker

    def name(self, kind: str, id_: str) -> str: ...  # noqa: D102 - as in Speaker

    def translated(self, text: str) -> str: ...  # noqa: D102 - as in Speaker

    def render(self, template: str, values: Mapping[str, Value]) -> str: ...  # noqa: D102 - as in Speaker


NEAREST, NO_MINUTE, MINUTES, NOTHING_IN = "Nearest: {}.", "less than a minute", "about {} min", "zero"

Sayer = Callable[[Reader, Mapping[str, Value], str], str]


def render(template: str, values: Mapping[str, Value], reader: Reader) -> str:
    """Return a template with its values said.

    Raises
    ------
    KeyError
        A value or a way of saying it that does not exist: a mistake of the program.
    """
    said = ""
    for literal, name, spec, _ in Formatter().parse(template):
        said += literal
        if name is not None:
            said = joined(said, SAYERS[spec or "plain"](reader, values, name), reader.language)
    return said


def printable(text: str) -> str:
    r"""Return a text without what a terminal would obey.

    >>> printable("A\x1b[2J")
    'A?[2J'
    """
    return "".join(sign if sign.isprintable() else " " if sign.isspace() else "?" for sign in text)


def sentence(text: str) -> str:
    """Return a text that begins with a capital.

    >>> sentence("blue wire open")
    'Blue wire open'
    """
    return text[:1].upper() + text[1:]


def number(values: Mapping[str, Value], name: str) -> float:
    """Return a value that must be a figure.

    Raises
    ------
    TypeError
        It is none: a mistake of the program.
    """
    value = values[name]
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise TypeError(f"{name} must be a figure, not {value!r}")  # noqa: EM102, TRY003 - never seen by a person
    return float(value)


def _plain(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    value = values[name]
    if isinstance(value, tuple):
        return ", ".join(printable(each) for each in value)
    if isinstance(value, float):
        return _marked(spell_figure(value, digits=6), reader)
    if name in PHRASED:
        return printable(phrase(str(value), reader.translated))
    if name in SOURCED:
        return printable(sourced(str(value), reader.translated))
    return printable(str(value))


def _assumed(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    """Say what was assumed for a key: a figure, or a phrase of ours."""
    said = printable(phrase(str(values[name]), reader.translated))
    return re.sub(r"(?<=\d)\.(?=\d)", reader.decimal, said)


def _marked(figure: str, reader: Reader) -> str:
    """Return a figure of ours with this reader's decimal sign."""
    return figure.replace(".", reader.decimal)


def _nearest(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    """Say which words are near, or nothing where nothing is."""
    if not values[name]:
        return ""
    return " " + reader.translated(NEAREST).replace("{}", _plain(reader, values, name))


def _volts(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    return _marked(spell(number(values, name), "V"), reader)


def _milliamps(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    return _marked(spell(number(values, name), "mA"), reader)


def _ohms(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    return _marked(spell_ohms(number(values, name)), reader)


def _pressure(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    value = number(values, name)
    return _marked(spell(value if abs(value) >= NO_PRESSURE_PA else 0.0, reader.pressure_unit), reader)


def round_minutes(figure: float) -> int:
    """Return minutes as they are said: whole to ten, by fives above; 0 is less than one.

    >>> [round_minutes(figure) for figure in (0.3, 6.6, 11.5, 93.0)]
    [0, 7, 10, 95]
    """
    if figure < 0.95:
        return 0
    return round(figure) if figure < 10.5 else 5 * round(figure / 5)


def _minutes(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    rounded = round_minutes(number(values, name))
    if not rounded:
        return reader.translated(NO_MINUTE)
    return reader.translated(MINUTES).replace("{}", str(rounded))


def _odds(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    return reader.translated(odds(number(values, name)))


def source_words(value: float) -> str:
    """Return what a signal source must put in.

    A figure above nothing and below a tenth can only be a current: no voltage signal lies there.

    >>> source_words(0.012), source_words(2.5), source_words(0.0)
    ('12 mA', '2.5 V', 'zero')
    """
    if value == 0:
        return NOTHING_IN
    return spell(value, "mA") if value < 0.1 else spell(value, "V")


def _source(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    words = source_words(number(values, name))
    return reader.translated(words) if words == NOTHING_IN else _marked(words, reader)


def _of_water(way: str) -> Sayer:
    """Return what says a speed, a height or a flow of water."""
    return lambda reader, values, name: _marked(water_text(way, number(values, name), reader.pressure_unit), reader)


def _named(kind: str) -> Sayer:
    return lambda reader, values, name: reader.name(kind, str(values[name]))


def _each(kind: str, reader: Reader, values: Mapping[str, Value], name: str) -> list[str]:
    """Return the names of several ids of a kind."""
    ids = values[name]
    return [reader.name(kind, each) for each in (ids if isinstance(ids, tuple) else (str(ids),))]


def _capital(sayer: Sayer) -> Sayer:
    """Return what says the same with a capital, for the beginning of a sentence."""
    return lambda reader, values, name: sentence(sayer(reader, values, name))


def _suspected(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    """Say a list of families, faults and groups of faults."""
    ids = values[name]
    return ", ".join(reader.name("suspected", each) for each in (ids if isinstance(ids, tuple) else (str(ids),)))


def _faults(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    """Say the names of several faults."""
    value = values[name]
    ids = value if isinstance(value, tuple) else (str(value),)
    return "; ".join(reader.name("fault", each) for each in ids)


def _unit(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    """Say a unit as an instrument shows it; one without a name is its own."""
    unit = str(values[name])
    return reader.name("unit", unit) if unit in UNITS else unit


def _figure(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    """Say what a figure is called."""
    return sentence(reader.name("figure", str(values[name])))


def _formula(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    """Say a formula with the names of its figures in place of their ids."""

    def named(text: str) -> str:
        return FIGURE_ID.sub(lambda met: reader.name("figure", met[0]) if met[0] in FIGURES else met[0], text)

    return phrase(str(values[name]), reader.translated, FORMULAS, named)


def _point(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    return point_name(str(values[name]), reader)


def _region(reader: Reader, _: Mapping[str, Value], name: str) -> str:
    return reader.translated(WORDS[name][reader.region])


def _region_capital(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    word = _region(reader, values, name)
    return word[:1].upper() + word[1:]


def _wire(reader: Reader, _: Mapping[str, Value], name: str) -> str:
    return wire_name(name, reader, bare=True)


def _the_wire(reader: Reader, _: Mapping[str, Value], name: str) -> str:
    return the_wire_name(name, reader)


def _a_wire(reader: Reader, _: Mapping[str, Value], name: str) -> str:
    return wire_name(name, reader, bare=False)


def _terminal(reader: Reader, _: Mapping[str, Value], name: str) -> str:
    return terminal_name(name, reader)


def _short(reader: Reader, _: Mapping[str, Value], name: str) -> str:
    """Say a terminal where there is little room: by its label, or in one word."""
    return label(f"controller.{name}", reader) or reader.name("short-point", f"controller.{name}")


def _named_point(reader: Reader, _: Mapping[str, Value], name: str) -> str:
    return point_name(name.replace("__", "."), reader)


def _sized(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    template = reader.translated(SIZES[str(values[name])])
    return reader.render(template, values)


def _rough_ohms(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    return _marked(spell_ohms(_rounded(number(values, name))), reader)


def _rough(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    return _marked(spell_figure(_rounded(number(values, name))), reader)


def _rough_percent(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    return _marked(f"{spell_figure(_rounded(100 * number(values, name)))} %", reader)


def _off_percent(reader: Reader, values: Mapping[str, Value], name: str) -> str:
    sign = "-" if number(values, name) < 0 else ""
    return sign + _rough_percent(reader, {name: abs(number(values, name))}, name)


def _rounded(figure: float) -> float:
    return float(f"{figure:.2g}")


#: Words behind the colon that need no value of the message.
FIXED = frozenset(("region", "Region", "wire", "the-wire", "a-wire", "terminal", "named-point", "short", "Short"))

#: Kinds of ids that are said by their names: ``{fault:fault}``.
NAMED = (
    "temporary-key", "mended-at", "repair-state", "fault", "remedy", "arrangement", "measure", "item", "input",
    "place", "state", "complaint", "limit", "asked-table", "key", "field", "choice", "part", "month", "ending",
    "ending-key", "check-verdict", "check-decision", "check-stage", "check-medium", "check-way", "pressure-from",
    "read-as", "displayed", "found", "kept-state", "reference", "plug", "error-part", "van-grade",
    "birth-moves", "birth-number", "pictured", "stage", "help-page",
)  # fmt: skip

SAYERS: dict[str, Sayer] = {
    **{kind: _named(kind) for kind in NAMED},
    "plain": _plain,
    "nearest": _nearest,
    "volts": _volts,
    "milliamps": _milliamps,
    "ohms": _ohms,
    "pressure": _pressure,
    **{way: _of_water(way) for way in WATER_UNITS},
    **{way: _named(kind) for way, kind in WATER_NAMES.items()},
    "minutes": _minutes,
    "odds": _odds,
    "source": _source,
    "point": _point,
    "suspected": _suspected,
    "region": _region,
    "Region": _region_capital,
    "wire": _wire,
    "the-wire": _the_wire,
    "a-wire": _a_wire,
    "terminal": _terminal,
    "named-point": _named_point,
    "short": _short,
    "Short": _capital(_short),
    "take": take,
    "reading-of": reading_of,
    "what-read": what_read,
    "unit": _unit,
    "figure": _figure,
    "formula": _formula,
    "Fault": _capital(_named("fault")),
    "Done": _capital(_named("done")),
    "Remedy": _capital(_named("remedy")),
    "What-read": _capital(what_read),
    "Instrument": _capital(_named("instrument")),
    "Key": _capital(_named("key")),
    "Point": _capital(_point),
    "Protection": _capital(_named("protection")),
    "assumed": _assumed,
    "label-of": lambda reader, values, name: sentence(reader.name("label-of", str(values[name]))),
    "protections": lambda reader, values, name: "; ".join(_each("protection", reader, values, name)),
    "Follow-up": _capital(_named("follow-up")),
    "off-things": lambda reader, values, name: ", ".join(_each("ending-off", reader, values, name)),
    "noted-things": lambda reader, values, name: ", ".join(_each("ending-note", reader, values, name)),
    "temporary-keys": lambda reader, values, name: "; ".join(_each("temporary-key", reader, values, name)),
    "ways": lambda reader, values, name: "; ".join(_each("tonight-way", reader, values, name)),
    "Way": _capital(_named("tonight-way")),
    "faults": _faults,
    "sized": _sized,
    "rough-ohms": _rough_ohms,
    "rough": _rough,
    "rough-percent": _rough_percent,
    "off-percent": _off_percent,
    "signal": signal,
    "watts": watts,
    "mm": millimetres,
    "approvals": approvals,
}
