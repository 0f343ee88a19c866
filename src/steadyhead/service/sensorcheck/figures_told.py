"""A figure of a sensor check for a reader and for a program: its text, its SI value, and how it came about.

Rules
-----
1. A text is in the unit of pressure in use; the JSON beside it has the SI value and its unit.
2. Asked for its descent, every figure has a number, and the trail lists each figure once, in the order of the numbers.
   What was given is one figure wherever it is used.
3. What is infinite has no number in JSON, and stands as null.
"""

from __future__ import annotations

from math import isfinite
from typing import Any

from steadyhead.figures import Figure, trail
from steadyhead.quantities import DIMENSIONS, spell, spell_figure
from steadyhead.words import Speaker

DIGITS = 4
#: What arithmetic in floats leaves of nothing, in SI units: no instrument shows it.
NOTHING = {"pressure": 1e-6, "percent": 1e-12, "voltage": 1e-12, "current": 1e-14}
_UNITS = {"voltage": "V", "current": "mA", "length": "m", "temperature": "degC", "time": "s"}
_ABSOLUTE = {"psi": "psia", "bar": "bara"}


def figure_text(figure: Figure, speaker: Speaker, digits: int = DIGITS) -> str:
    """Return a figure with its unit, as a person reads it.

    Examples
    --------
    >>> from steadyhead.figures import given
    >>> figure_text(given("error", 6894.76, "pressure", "point 1"), Speaker())
    '1 psi'
    """
    return value_text(figure.value, figure.dimension, speaker, digits)


def value_text(value: float, dimension: str, speaker: Speaker, digits: int = DIGITS) -> str:
    """Return a value of a dimension with its unit, as a person reads it.

    >>> value_text(1.2e-10, "pressure", Speaker()), value_text(-0.04, "percent", Speaker())
    ('0 psi', '-4 %')
    """
    if not isfinite(value):
        return speaker.tell("figure-without-end")
    if abs(value) < NOTHING.get(dimension, 0.0):
        value = 0.0
    if dimension == "percent":
        return f"{spell_figure(100.0 * value, digits=digits)} %"
    if dimension == "number":
        return spell_figure(value, digits=digits)
    unit = speaker.pressure_unit
    if dimension == "absolute-pressure":
        return spell(value, _ABSOLUTE.get(unit, f"{unit} abs"), digits=digits)
    return spell(value, unit if dimension == "pressure" else _UNITS[dimension], digits=digits)


def si_unit(dimension: str) -> str:
    """Return the SI unit of a dimension; ``1`` of a number."""
    return "1" if dimension == "number" else DIMENSIONS[dimension].si


def finite(value: float) -> float | None:
    """Return a value that JSON can hold, or None."""
    return value if isfinite(value) else None


class Trail:
    """Gives figures to JSON, and numbers those that were asked for their descent."""

    def __init__(self, speaker: Speaker, *, wanted: bool) -> None:
        self._speaker = speaker
        self._wanted = wanted
        self._numbers: dict[object, int] = {}
        self._figures: list[Figure] = []

    def json(self, figure: Figure | None) -> dict[str, Any] | None:
        """Return a figure's value, unit and text, and its number in the trail where that is wanted."""
        if figure is None:
            return None
        found: dict[str, Any] = {
            "value": finite(figure.value), "unit": si_unit(figure.dimension),
            "text": figure_text(figure, self._speaker),
        }  # fmt: skip
        if figure.standard_uncertainty is not None:
            found["standard_uncertainty"] = finite(figure.standard_uncertainty)
        if self._wanted:
            found["trace"] = self.number(figure)
        return found

    def number(self, figure: Figure) -> int:
        """Return a figure's number; all that it comes from has one afterwards."""
        for _, each in trail(figure):
            if _key(each) not in self._numbers:
                self._figures.append(each)
                self._numbers[_key(each)] = len(self._figures)
        return self._numbers[_key(figure)]

    def steps(self) -> list[dict[str, Any]]:
        """Return the trail: for each figure its formula or whence it was given, its inputs by number, its source."""
        return [
            {
                "number": number, "name": figure.name, "called": self._speaker.name("figure", figure.name),
                "value": finite(figure.value), "unit": si_unit(figure.dimension),
                "text": figure_text(figure, self._speaker, digits=6), "formula": figure.formula,
                "whence": figure.whence, "inputs": [self._numbers[_key(each)] for each in figure.inputs],
                "source": {
                    "cite": figure.source.cite, "locator": figure.source.locator, "seen": figure.source.seen,
                    "via": figure.source.via,
                },
            }
            for number, figure in enumerate(self._figures, start=1)
        ]  # fmt: skip


def _key(figure: Figure) -> object:
    """Return what makes a figure one: what was given is told by its values, what was computed is itself."""
    return figure if figure.whence else id(figure)
