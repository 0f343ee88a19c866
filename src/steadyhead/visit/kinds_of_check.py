"""How a value that only a sensor check has is read, written and described: numbers, days, lists, widths.

Rules
-----
1. What `steadyhead.visit.kinds` says holds: a figure is text with its unit; a number without one is text too.
2. One figure where a list may stand is a list of one.
"""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from typing import Any

from steadyhead.errors import InputError
from steadyhead.messages import message
from steadyhead.quantities import parse_quantity
from steadyhead.visit.kinds import Kind, Known, Whole, got_text, quoted, wrong_type
from steadyhead.visit.kinds_of_quantity import SignalSize, Size, text_of
from steadyhead.visit.nearest import shown

MOST_IN_LIST = 100  #: figures that one list may hold
MOST_TIMES = 99
MOST_VOLTS, MOST_AMPERES = 1000.0, 10.0  #: what a meter shows at most


class Figures(Kind):
    """Several figures of one kind, as a list of texts; one text is a list of one."""

    def __init__(self, one: Size | SignalSize, *, rising: bool = False) -> None:
        self.one = one
        self.rising = rising

    def read(self, raw: object, known: Known) -> tuple[float, ...]:
        """Return the figures [SI], in their order."""
        if isinstance(raw, str):
            return (self.one.read(raw, known),)
        if not isinstance(raw, list) or not 0 < len(raw) <= MOST_IN_LIST:
            raise InputError(wrong_type(raw, f"a list of at most {MOST_IN_LIST} texts, each {self.one.says()}"))
        found = tuple(self.one.read(each, known) for each in raw)
        if self.rising and any(late <= early for early, late in pairwise(found)):
            raise InputError(message("figures-not-rising", got=shown(", ".join(raw))))
        return found

    def write(self, value: tuple[float, ...]) -> str:
        """Return the list; of signals as volts."""
        return f"[{', '.join(self._one(each) for each in value)}]"

    def _one(self, value: float) -> str:
        return self.one.write(value) if isinstance(self.one, Size) else self.one.write_of(value, "voltage")

    def says(self) -> str:
        """Return what may be written."""
        return f"{self.one.says()}; several as a list of texts{', rising' if self.rising else ''}"

    def schema(self) -> dict[str, Any]:
        """Return a string, or a list of them."""
        inner = self.one.schema()
        return {"anyOf": [inner, {"type": "array", "items": inner, "maxItems": MOST_IN_LIST}]}


class Number(Kind):
    """A number above zero without any unit, as text."""

    def read(self, raw: object, known: Known) -> float:  # noqa: ARG002 - not needed by a number
        """Return the number."""
        if not isinstance(raw, str):
            raise InputError(wrong_type(raw, self.says()))
        try:
            value = float(raw.strip().replace(",", "."))
        except ValueError as error:
            raise InputError(message("number-plain-unreadable", got=shown(raw), must_be=self.says())) from error
        if not 0 < value < float("inf"):
            raise InputError(message("number-plain-unreadable", got=shown(raw), must_be=self.says()))
        return value

    def write(self, value: float) -> str:
        """Return the number as text."""
        return quoted(f"{value!r}")

    def says(self) -> str:
        """Return what may be written."""
        return "a number above zero in quotes, such as '2'"

    def schema(self) -> dict[str, Any]:
        """Return a string, with examples."""
        return {"type": "string", "examples": ["2", "2.13"]}


class Day(Kind):
    """A day, as text: ``2026-03-14``."""

    def read(self, raw: object, known: Known) -> str:  # noqa: ARG002 - not needed by a day
        """Return the day."""
        if not isinstance(raw, str):
            raise InputError(wrong_type(raw, self.says()))
        try:
            return date.fromisoformat(raw.strip()).isoformat()
        except ValueError as error:
            raise InputError(message("day-unreadable", got=got_text(raw), must_be=self.says())) from error

    def write(self, value: str) -> str:
        """Return the day as text."""
        return quoted(value)

    def says(self) -> str:
        """Return what may be written."""
        return "a day in quotes, such as '2026-03-14'"

    def schema(self) -> dict[str, Any]:
        """Return a string, with an example."""
        return {"type": "string", "examples": ["2026-03-14"]}


class TemperatureWidth(Kind):
    """A difference of temperature, zero or above: ``3 K``, ``3 degC`` or ``5 degF``."""

    must_be = "a difference of temperature such as '3 K' or '5 degF'"

    def read(self, raw: object, known: Known) -> float:  # noqa: ARG002 - a plain figure needs nothing else
        """Return the difference [K]."""
        found = parse_quantity(text_of(raw, self.must_be), "temperature")
        width = round(found.value - parse_quantity(f"0 {found.unit}", "temperature").value, 9)
        if width < 0:
            raise InputError(message("not-above-zero", got=got_text(raw)))
        return width

    def write(self, value: float) -> str:
        """Return the difference in kelvin."""
        return quoted(f"{value!r} K")

    def says(self) -> str:
        """Return what may be written."""
        return self.must_be

    def schema(self) -> dict[str, Any]:
        """Return a string, with examples."""
        return {"type": "string", "examples": ["3 K", "5 degF"]}


class ReadSignal(SignalSize):
    """One figure of the signal as an instrument may show it: at most `MOST_VOLTS` or `MOST_AMPERES`, either sign."""

    def __init__(self, *, above: float | None = None) -> None:
        self.above = above

    def read(self, raw: object, known: Known) -> float:
        """Return the figure [V or A]."""
        value = super().read(raw, known)
        current = known.signal_kind == "current"
        if self.above is not None and not value > self.above:
            raise InputError(message("not-above-zero", got=got_text(raw)))
        if abs(value) > (MOST_AMPERES if current else MOST_VOLTS):
            most = f"{MOST_AMPERES:g} A" if current else f"{MOST_VOLTS:g} V"
            raise InputError(message("outside-limits", got=got_text(raw), least=f"-{most}", most=most))
        return value


class Times(Whole):
    """A whole number of times, from 1 to 99, without quotes."""

    def read(self, raw: object, known: Known) -> int:
        """Return the number."""
        value = super().read(raw, known)
        if not 1 <= value <= MOST_TIMES:
            raise InputError(message("outside-limits", got=got_text(raw), least="1", most=str(MOST_TIMES)))
        return value

    def schema(self) -> dict[str, Any]:
        """Return an integer with both ends."""
        return {"type": "integer", "minimum": 1, "maximum": MOST_TIMES}
