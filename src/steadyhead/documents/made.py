"""How each figure of a paper was made: one line a figure, numbered as they are met, with what each comes from.

Rules
-----
1. A figure is told before what it was made of; each once.
2. Figures that were given and are equal are one; a computed figure is itself.
3. A line has the figure's name and value, its formula or where it was given, its inputs by their numbers, its source.
   Who gave a figure is told by where it was given.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Any

from steadyhead.documents.numbers import SI_BESIDE, DecimalSign, in_unit
from steadyhead.figures import ARITHMETIC, Figure, trail
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.quantities import DIMENSIONS, spell_figure

Say = Callable[[Message], str]
DIGITS = 6
NUMBER = "number"
READING = "reading "
#: What is said of a figure that was given, by where; anything else is said as it stands.
WHENCE = {
    "plate": message("paper-from-plate"),
    "setting": message("paper-from-setting"),
    "round": message("paper-from-round"),
    "assumed": message("paper-from-assumed"),
    "leaflet": message("paper-from-leaflet"),
    "dial": message("paper-from-dial"),
    "site": message("paper-from-site"),
    "certificate": message("paper-from-certificate"),
    "conditions": message("paper-from-conditions"),
    "rule": message("paper-from-rule"),
    "card": message("paper-from-card"),
    "usual": message("paper-from-usual"),
}


class Made:
    """Numbers the figures of a paper as they are met."""

    def __init__(self) -> None:
        self._numbers: dict[object, int] = {}
        self._figures: list[Figure] = []

    def number(self, figure: Figure) -> int:
        """Return the number of a figure; all that it comes from has one afterwards."""
        if _key(figure) in self._numbers:
            return self._numbers[_key(figure)]
        for _, each in trail(figure):
            key = _key(each)
            if key not in self._numbers:
                self._figures.append(each)
                self._numbers[key] = len(self._figures)
        return self._numbers[_key(figure)]

    def lines(self, teller: Teller) -> list[dict[str, Any]]:
        """Return the line of each figure, ready to be set."""
        return [self._line(figure, teller) for figure in self._figures]

    def _line(self, figure: Figure, teller: Teller) -> dict[str, Any]:
        return {
            "number": self._numbers[_key(figure)],
            "name": teller.name(figure),
            "value": teller.value(figure),
            "how": teller.how(figure),
            "inputs": [{"number": self._numbers[_key(each)], "name": teller.name(each)} for each in figure.inputs],
            "source": "" if figure.whence and figure.source == ARITHMETIC else teller.source(figure.source),
        }


def _key(figure: Figure) -> object:
    return figure if figure.whence else id(figure)


@dataclass(frozen=True, slots=True, kw_only=True)
class Teller:
    """Says what a figure is and how it came about.

    Parameters
    ----------
    say
        Makes a sentence of a message.
    units
        Unit in which a dimension is shown, by dimension; SI where it is not named.
    decimal
        The decimal sign.
    """

    say: Say
    units: Mapping[str, str]
    decimal: DecimalSign

    def name(self, figure: Figure) -> str:
        """Return what a figure is called."""
        return self.say(message("paper-figure", figure=figure.name))

    def value(self, figure: Figure) -> str:
        """Return a figure with its unit, its SI beside it, and its standard uncertainty where that was worked out."""
        said = self._quantity(figure.value, figure.dimension)
        if figure.standard_uncertainty is None:
            return said
        doubt = self._quantity(figure.standard_uncertainty, figure.dimension, difference=True)
        return self.say(message("paper-value-doubt", value=said, doubt=doubt))

    def _quantity(self, value: float, dimension: str, *, difference: bool = False) -> str:
        unit = self.units.get(dimension) or _si(dimension)
        said = self._in(value, unit, difference=difference)
        si = SI_BESIDE.get(unit)
        return f"{said} ({self._in(value, si, difference=difference)})" if si else said

    def _in(self, value: float, unit: str, *, difference: bool) -> str:
        if not isfinite(value):
            return self.say(message("figure-without-end"))
        if unit == "fraction":
            value, unit = 100 * value, "%"
        elif unit in {"", "m2", "m3/s"}:
            pass
        else:
            value = in_unit(value, unit) - (in_unit(0.0, unit) if difference else 0.0)
        text = spell_figure(value, digits=DIGITS).replace("-", "\N{MINUS SIGN}").replace(".", self.decimal)
        return f"{text} {self.say(message('paper-unit', unit=unit))}" if unit else text

    def how(self, figure: Figure) -> str:
        """Return its formula, or where it was given."""
        if figure.formula:
            return self.say(message("paper-formula", name=figure.name, formula=figure.formula))
        if figure.whence.startswith(READING):
            return self.say(message("paper-from-reading", number=figure.whence.removeprefix(READING)))
        return self.say(WHENCE.get(figure.whence) or message("paper-from", whence=figure.whence))

    def source(self, source: Source) -> str:
        """Return who says so."""
        where = {"cite": source.cite, "locator": source.locator}
        if source.seen == "republished":
            return self.say(message("source-copied", via=source.via, **where))
        return self.say(message("source-read" if source.seen == "original" else "source-remembered", **where))


def _si(dimension: str) -> str:
    return "" if dimension == NUMBER else DIMENSIONS[dimension].si
