"""What a technician saw: one figure, a figure that jumps, a figure past the scale, or a word.

Rules
-----
1. One figure keeps the size of one count of its last digit: ``1.12 V`` is known to 0.01 V.
2. Two ends are a spread, with or without "jumping" after them; with "over 10 min" what MIN/MAX held after that time.
3. ``OL`` and ``pegged`` are above what the instrument shows; ``-OL``, and a figure "on its stop pin", below;
   ``> 60 Mohm`` and ``< 0.1 V`` say past which figure.
4. A number of times needs no unit: ``1204 starts``, ``12 per hour``.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any, Literal

from steadyhead.errors import InputError, QuantityError
from steadyhead.messages import message
from steadyhead.quantities import DIMENSIONS, parse_quantity, parse_range_quantities
from steadyhead.visit.exact import exact, exact_range
from steadyhead.visit.kinds import Kind, Known, quoted, read_word, wrong_type
from steadyhead.visit.kinds_of_quantity import text_of
from steadyhead.visit.measures import MEASURE, Measure
from steadyhead.visit.nearest import shown
from steadyhead.visit.record import Beyond, Figure, ReadingValue, Spread, Word

_OVERLOAD = re.compile(r"(?P<below>[-\u2212]\s*)?[O0]\.?L\.?(\s*[^\d\s]\S*)?", re.IGNORECASE)
_PEGGED = re.compile(r"(?P<before>.*?)\s*\bpegged\b\s*(at\b)?\s*(?P<after>.*)", re.IGNORECASE)
_STOP_PIN = re.compile(r"(?P<limit>.*?)\s*\b(on\s+)?(its\s+|the\s+)?stop(\s*-?pin)?", re.IGNORECASE)
_PAST = re.compile(r"(?P<sign>[<>])\s*(?P<limit>.+)")
_JUMPING = re.compile(r"(?P<range>.*?)[\s,]*\b(jumping|jumps|jumpy|wandering|unsteady)", re.IGNORECASE)
_OVER = re.compile(r"(?P<range>.*?)\s+over\s+(?P<time>.+)", re.IGNORECASE)

_TIMES = re.compile(r"(?P<figure>\d{1,12})\s*(starts|times)?", re.IGNORECASE)
_TIMES_PER_HOUR = re.compile(
    r"(?P<figure>\d{1,6}(\.\d{1,6})?)\s*(starts)?\s*(/\s*h|/\s*hour|per hour|an hour)", re.IGNORECASE
)
_COUNTED = {
    "count": (_TIMES, "1", "a number of times such as '1204 starts'"),
    "rate": (_TIMES_PER_HOUR, "1/h", "a number of times such as '12 per hour'"),
}
_SIGNAL_FIRST = {"current": ("current", "voltage", "percent")}


class ReadValue(Kind):
    """The value of a reading: what it may be depends on the reading's measure."""

    def read(self, raw: object, known: Known) -> ReadingValue | None:
        """Return the value, or None where the measure is broken and says its own problem."""
        measure = MEASURE.get(str(known.row.get("measure")))
        if measure is None:
            return None
        if measure.words:
            return Word(read_word(raw, measure.words))
        return _read_figure(raw, measure, known.signal_kind)

    def write(self, value: ReadingValue) -> str:
        """Return the text that reads back as `value`."""
        return quoted(_written(value))

    def says(self) -> str:
        """Return what may be written."""
        return (
            "a figure with its unit; a spread such as '2.1..2.6 V jumping' or '2.1..2.6 V over 10 min'; "
            "'OL', 'pegged' or '0 psi on its stop pin'; "
            "a word for `displayed-fault` and `inspection`"
        )

    def schema(self) -> dict[str, Any]:
        """Return a string, with examples."""
        shown = ["1.12 V", "2.1..2.6 V jumping", "2.41..2.43 V over 10 min", "OL", "0 psi on its stop pin", "right"]
        return {"type": "string", "examples": shown}


def _read_figure(raw: object, measure: Measure, signal_kind: str | None) -> ReadingValue:
    must_be = _must_be(measure)
    if isinstance(raw, bool) or not isinstance(raw, (str, int, float)):
        raise InputError(wrong_type(raw, f"{must_be}, in quotes"))
    text = text_of(raw, must_be)
    dimensions = measure.dimensions
    if len(dimensions) > 1:
        dimensions = _SIGNAL_FIRST.get(signal_kind or "", dimensions)
    refusals: list[InputError] = []
    for dimension in dimensions:
        try:
            return _read_in(text, dimension)
        except InputError as error:
            refusals.append(error)
    if len(refusals) > 1 and all(error.message.id == "unit-of-another-kind" for error in refusals):
        raise InputError(message("unit-of-another-kind", **{**refusals[0].message.values, "must_be": must_be}))
    raise refusals[0]


def _must_be(measure: Measure) -> str:
    return " or ".join(
        _COUNTED[dimension][2] if dimension in _COUNTED else DIMENSIONS[dimension].must_be
        for dimension in measure.dimensions
    )


def _read_in(text: str, dimension: str) -> ReadingValue:
    """Return the value that `text` says in one dimension; the first form that fits is the one."""
    if dimension in _COUNTED:
        return _read_counted(text, dimension)
    stripped = text.strip()
    if len(stripped) <= _LONGEST_PHRASE:
        for pattern, make in _FORMS:
            match = pattern.fullmatch(stripped)
            if match:
                return make(match, dimension, stripped)
    return _figure_or_spread(stripped, dimension)


_LONGEST_PHRASE = 100


def _read_counted(text: str, dimension: str) -> Figure:
    pattern, unit, must_be = _COUNTED[dimension]
    match = pattern.fullmatch(text.strip())
    if match is None:
        raise QuantityError(message("count-unreadable", got=shown(text), must_be=must_be))
    resolution = 10.0 ** -len(match["figure"].partition(".")[2])
    return Figure(float(match["figure"]), unit, resolution, text)


def _figure_or_spread(text: str, dimension: str) -> Figure | Spread:
    try:
        return _spread(text, dimension, text)
    except QuantityError as error:
        if error.message.id != "range-expected":
            raise
    quantity = parse_quantity(text, dimension)
    return Figure(quantity.value, DIMENSIONS[dimension].si, quantity.resolution, text)


def _spread(text: str, dimension: str, as_written: str) -> Spread:
    low, high = parse_range_quantities(text, dimension)
    return Spread(low.value, high.value, DIMENSIONS[dimension].si, as_written)


def _watched(found: re.Match[str], dimension: str, as_written: str) -> Spread:
    """Return what MIN/MAX held: a range, and after how long."""
    return replace(_spread(found["range"], dimension, as_written), over_s=parse_quantity(found["time"], "time").value)


def _beyond(side: Literal["above", "below"], limit: str, dimension: str, as_written: str) -> Beyond:
    figure = parse_quantity(limit, dimension).value if limit.strip() else None
    return Beyond(side, figure, DIMENSIONS[dimension].si, as_written)


_Make = Callable[[re.Match[str], str, str], ReadingValue]

_FORMS: tuple[tuple[re.Pattern[str], _Make], ...] = (
    (_OVERLOAD, lambda found, dimension, text: _beyond("below" if found["below"] else "above", "", dimension, text)),
    (_STOP_PIN, lambda found, dimension, text: _beyond("below", found["limit"], dimension, text)),
    (_PEGGED, lambda found, dimension, text: _beyond("above", found["before"] or found["after"], dimension, text)),
    (
        _PAST,
        lambda found, dimension, text: _beyond(
            "above" if found["sign"] == ">" else "below", found["limit"], dimension, text
        ),
    ),
    (_OVER, _watched),
    (_JUMPING, lambda found, dimension, text: _spread(found["range"], dimension, text)),
)


#: Dimension of each SI unit that a figure can have.
_DIMENSION_OF = {
    DIMENSIONS[dimension].si: dimension
    for measure in MEASURE.values()
    for dimension in measure.dimensions
    if dimension not in _COUNTED
}


def _written(value: ReadingValue) -> str:
    """Return a value as the person wrote it, or, where a program made it, as it can be read again."""
    if isinstance(value, Word):
        return value.word
    if value.as_written:
        return value.as_written
    if isinstance(value, Spread):
        over = "" if value.over_s is None else f" over {exact(value.over_s, 'time')}"
        return exact_range(value.low, value.high, _DIMENSION_OF[value.unit]) + over
    if isinstance(value, Beyond):
        return _beyond_written(value)
    if value.unit in {"1", "1/h"}:
        return f"{value.value:g}{' starts' if value.unit == '1' else ' per hour'}"
    return exact(value.value, _DIMENSION_OF[value.unit])


def _beyond_written(value: Beyond) -> str:
    if value.limit is None:
        return "OL" if value.side == "above" else "-OL"
    return f"{'>' if value.side == 'above' else '<'} {exact(value.limit, _DIMENSION_OF[value.unit])}"
