"""How one key's value is read from a visit file, written back, and described to an editor: figures with their units.

Rules
-----
1. A figure is text with its unit. A bare number is refused with what was expected.
2. Ranges rise; what must be above zero is above zero.
3. Two keys take their unit from elsewhere: a signal has the sensor's kind of signal, a pressure that of an absolute
   sensor is absolute.
"""

from __future__ import annotations

from typing import Any

from steadyhead.errors import InputError
from steadyhead.messages import message
from steadyhead.quantities import (
    DIMENSIONS,
    parse_percent,
    parse_quantity,
    parse_range,
    parse_range_or_one,
    parse_tolerance,
)
from steadyhead.visit.exact import exact, exact_range, exact_tolerance
from steadyhead.visit.kinds import Kind, Known, got_text, quoted, wrong_type
from steadyhead.visit.nearest import shown
from steadyhead.visit.record import Interval, Signal, SignalKind, Tolerance

_SIGNAL_DIMENSIONS = {"ratiometric": ("voltage",), "voltage": ("voltage",), "current": ("current",)}
_EITHER = ("voltage", "current")


def text_of(raw: object, must_be: str) -> str:
    """Return `raw` if it is text.

    Raises
    ------
    InputError
        A bare number, or no text at all; the message says what would do.
    """
    if isinstance(raw, str):
        return raw
    if isinstance(raw, (int, float)) and not isinstance(raw, bool):
        raise InputError(message("number-without-unit", got=got_text(raw), must_be=f"{must_be}, in quotes"))
    raise InputError(wrong_type(raw, f"{must_be}, in quotes")) from None


class Size(Kind):
    """One figure of a dimension, within stated ends where it has any."""

    def __init__(
        self, dimension: str, *, above: float | None = None, least: str | None = None, most: str | None = None
    ) -> None:
        self.dimension = dimension
        self.above = above
        self.least = least
        self.most = most

    def read(self, raw: object, known: Known) -> float:  # noqa: ARG002 - a plain figure needs nothing else
        """Return the figure [SI]."""
        text = text_of(raw, DIMENSIONS[self.dimension].must_be)
        value = parse_quantity(text, self.dimension).value
        if self.above is not None and not value > self.above:
            raise InputError(message("not-above-zero", got=shown(text)))
        if self._outside(value, text):
            raise InputError(message("outside-limits", got=shown(text), least=self.least, most=self.most))
        return value

    def _outside(self, value: float, text: str) -> bool:  # noqa: ARG002 - a conductor needs the text
        low = self.least is not None and value < parse_quantity(self.least, self.dimension).value
        return low or (self.most is not None and value > parse_quantity(self.most, self.dimension).value)

    def write(self, value: float) -> str:
        """Return the figure in its SI unit, or in one that people use where that reads back the same."""
        return quoted(exact(value, self.dimension))

    def says(self) -> str:
        """Return what may be written."""
        limits = f", from {self.least} to {self.most}" if self.least else ", above zero" if self.above == 0 else ""
        return DIMENSIONS[self.dimension].must_be + limits

    def schema(self) -> dict[str, Any]:
        """Return a string, with examples."""
        return {"type": "string", "examples": list(DIMENSIONS[self.dimension].examples)}


class Conductor(Size):
    """A conductor's area: any wire gauge, or an area within stated ends."""

    def _outside(self, value: float, text: str) -> bool:
        is_gauge = any(mark in text.casefold() for mark in ("awg", "ga"))
        return not is_gauge and super()._outside(value, text)


class Share(Kind):
    """An accuracy in percent of a span, above zero."""

    def read(self, raw: object, known: Known) -> float:  # noqa: ARG002 - not needed by a percentage
        """Return the fraction."""
        text = text_of(raw, DIMENSIONS["percent"].must_be)
        value = parse_percent(text)
        if not value > 0:
            raise InputError(message("not-above-zero", got=shown(text)))
        if value > 1:
            raise InputError(message("outside-limits", got=shown(text), least="above 0 %", most="100 %"))
        return value

    def write(self, value: float) -> str:
        """Return the percentage."""
        return quoted(exact(value, "percent"))

    def says(self) -> str:
        """Return what may be written."""
        return "a percentage of the span such as '1 %', above zero"

    def schema(self) -> dict[str, Any]:
        """Return a string, with an example."""
        return {"type": "string", "examples": ["1 %"]}


class Ends(Kind):
    """Two ends of a range; with `one` also a single figure, which is both."""

    def __init__(self, dimension: str, *, one: bool = False, above: float | None = None) -> None:
        self.dimension = dimension
        self.one = one
        self.above = above

    def read(self, raw: object, known: Known) -> Interval:
        """Return both ends [SI]."""
        dimension = self._dimension(known)
        text = text_of(raw, self._must_be(dimension))
        interval = Interval(*(parse_range_or_one if self.one else parse_range)(text, dimension))
        if self.above is not None and not interval.low > self.above:
            raise InputError(message("not-above-zero", got=shown(text)))
        return interval

    def _dimension(self, known: Known) -> str:  # noqa: ARG002 - a pressure needs it
        return self.dimension

    def _must_be(self, dimension: str) -> str:
        kind = DIMENSIONS[dimension]
        return f"{kind.must_be}, or {kind.range_must_be}" if self.one else kind.range_must_be

    def write(self, value: Interval) -> str:
        """Return the range, or the one figure."""
        if self.one and value.low == value.high:
            return quoted(exact(value.low, self.dimension))
        return quoted(exact_range(value.low, value.high, self.dimension))

    def says(self) -> str:
        """Return what may be written."""
        return self._must_be(self.dimension) + (", above zero" if self.above == 0 else "")

    def schema(self) -> dict[str, Any]:
        """Return a string, with examples."""
        kind = DIMENSIONS[self.dimension]
        return {"type": "string", "examples": [kind.examples_of_range, *(kind.examples[:1] if self.one else ())]}


class PressureEnds(Ends):
    """A range of pressure: absolute where the sensor is, gauge otherwise."""

    def _dimension(self, known: Known) -> str:
        return "absolute-pressure" if known.absolute else "pressure"

    def write_absolute(self, value: Any) -> str:  # noqa: ANN401 - an Interval; of one pressure a float
        """Return a range of absolute pressure."""
        return quoted(exact_range(value.low, value.high, "absolute-pressure"))


class SignalSize(Kind):
    """One figure of the signal: volts or milliamperes, as the sensor has them."""

    def read(self, raw: object, known: Known) -> float:
        """Return the figure [V or A]."""
        return self._read(raw, _SIGNAL_DIMENSIONS.get(known.signal_kind or "", _EITHER))

    def _read(self, raw: object, dimensions: tuple[str, ...]) -> float:
        must_be = " or ".join(DIMENSIONS[dimension].must_be for dimension in dimensions)
        text = text_of(raw, must_be)
        if len(dimensions) > 1 and text.rstrip().endswith(("A", "amp", "amps")):
            dimensions = dimensions[1:]
        return parse_quantity(text, dimensions[0]).value

    def write_of(self, value: float, signal_kind: str) -> str:
        """Return the figure in the unit of a kind of signal."""
        return quoted(exact(value, _SIGNAL_DIMENSIONS[signal_kind][0]))

    def says(self) -> str:
        """Return what may be written."""
        return "a figure of the signal such as '2.5 V' or '12 mA', in the sensor's unit"

    def schema(self) -> dict[str, Any]:
        """Return a string, with examples."""
        return {"type": "string", "examples": ["2.5 V", "12 mA"]}


class PlateSignal(Kind):
    """The signal on the sensor's plate; how many wires carry it stands in another key."""

    must_be = "a signal such as '0.5..4.5 V ratiometric', '0..10 V' or '4..20 mA'"

    def read(self, raw: object, known: Known) -> Signal:
        """Return the signal."""
        text = text_of(raw, self.must_be)
        range_text, ratiometric = _without_last_word(text, "ratiometric")
        dimension = "current" if range_text.rstrip(". ").casefold().endswith(("a", "amp", "amps")) else "voltage"
        if ratiometric and dimension == "current":
            raise InputError(message("current-not-ratiometric", got=shown(text), must_be=self.must_be))
        low, high = parse_range(range_text, dimension)
        kind: SignalKind = "ratiometric" if ratiometric else "voltage" if dimension == "voltage" else "current"
        return Signal(kind=kind, low=low, high=high, wires=_wires(kind, known))

    def write(self, value: Signal) -> str:
        """Return the signal as it stands on a plate."""
        dimension = _SIGNAL_DIMENSIONS[value.kind][0]
        ending = " ratiometric" if value.kind == "ratiometric" else ""
        return quoted(exact_range(value.low, value.high, dimension) + ending)

    def says(self) -> str:
        """Return what may be written."""
        return self.must_be

    def schema(self) -> dict[str, Any]:
        """Return a string, with examples."""
        return {"type": "string", "examples": ["0.5..4.5 V ratiometric", "4..20 mA", "0..10 V"]}


def _wires(kind: SignalKind, known: Known) -> Any:  # noqa: ANN401 - 2 or 3, a literal
    return {"two": 2, "three": 3}.get(str(known.row.get("wires")), 2 if kind == "current" else 3)


def _without_last_word(text: str, word: str) -> tuple[str, bool]:
    """Return `text` without `word` at its end, and whether it stood there."""
    plain = text.strip().rstrip(")").rstrip()
    if not plain.casefold().endswith(word):
        return text, False
    return plain[: -len(word)].rstrip(" ,("), True


class MeterTolerance(Kind):
    """A meter's accuracy: percent of reading, plus counts of the last digit of its lowest range."""

    def __init__(self, dimension: str, example: str) -> None:
        self.dimension = dimension
        self.example = example

    def read(self, raw: object, known: Known) -> Tolerance:  # noqa: ARG002 - not needed by an accuracy
        """Return the accuracy; it is above zero."""
        found = parse_tolerance(text_of(raw, f"an accuracy such as '{self.example}'"), self.dimension)
        return Tolerance(found.relative, found.absolute, found.count)

    def write(self, value: Tolerance) -> str:
        """Return the accuracy."""
        return quoted(exact_tolerance(value.relative, value.absolute, value.count, self.dimension))

    def says(self) -> str:
        """Return what may be written."""
        return f"an accuracy such as '{self.example}', above zero"

    def schema(self) -> dict[str, Any]:
        """Return a string, with an example."""
        return {"type": "string", "examples": [self.example]}
