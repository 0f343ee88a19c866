"""A figure that can be traced: what it is, by which formula, from which other figures, and who says that formula.

Rules
-----
1. A figure on a screen or on a paper is a `Figure`; one that nobody computed is `given` and says whence it came.
2. Its inputs are figures too, so that `trail` leads from a verdict down to what was read.
3. A formula without a published source says "common practice" or "arithmetic"; it never says nothing.
4. Values stand in SI units (`steadyhead.quantities.DIMENSIONS`); who shows them chooses unit and digits.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from steadyhead.published.source import Source

#: What adds, subtracts or divides without asking anybody.
ARITHMETIC = Source(cite="arithmetic", locator="follows from the inputs", seen="original")
COMMON_PRACTICE = Source(cite="common practice", locator="no source", seen="memory")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure with its descent.

    Parameters
    ----------
    name
        Stable id of what it is: ``hysteresis``; `steadyhead.words` has its name in words.
    value
        What it is, in the SI unit of its dimension.
    dimension
        An id of `steadyhead.quantities.DIMENSIONS` (``percent`` for a fraction), or ``number`` where it has no unit.
    formula
        How it comes from its inputs, in their names: ``max |mean(down) - mean(up)|``. Empty: it was given.
    inputs
        The figures that the formula takes.
    source
        Who says the formula; of a given figure, who says the value.
    whence
        Where a given figure comes from, as data: ``reading 3``, ``plate``, the id of a fact. Empty: it was computed.
    standard_uncertainty
        Its standard uncertainty in the same unit, where it was worked out.

    Raises
    ------
    TypeError
        It has neither a formula nor a place it was given from, or both.
    """

    name: str
    value: float
    dimension: str
    formula: str = ""
    inputs: tuple[Figure, ...] = ()
    source: Source = ARITHMETIC
    whence: str = ""
    standard_uncertainty: float | None = None

    def __post_init__(self) -> None:
        if bool(self.formula) == bool(self.whence):
            told = f"figure {self.name!r}: needs a formula, or whence it was given, and not both"
            raise TypeError(told)


def given(name: str, value: float, dimension: str, whence: str, source: Source = ARITHMETIC) -> Figure:
    """Return a figure that nobody computed: it was read, it stands on a plate, or a table gives it.

    >>> given("supply", 5.02, "voltage", "reading 2").value
    5.02
    """
    return Figure(name=name, value=value, dimension=dimension, whence=whence, source=source)


def trail(figure: Figure) -> Iterator[tuple[int, Figure]]:
    """Yield a figure and all that it comes from, each once, with its depth: what is used before what it uses.

    >>> volts = given("signal", 2.5, "voltage", "reading 1")
    >>> supply = given("supply", 5.0, "voltage", "reading 2")
    >>> ratio = Figure(name="ratio", value=0.5, dimension="number", formula="signal / supply", inputs=(volts, supply))
    >>> [(depth, each.name) for depth, each in trail(ratio)]
    [(0, 'ratio'), (1, 'signal'), (1, 'supply')]
    """
    met: set[int] = set()
    waiting = [(0, figure)]
    while waiting:
        depth, each = waiting.pop()
        if id(each) in met:
            continue
        met.add(id(each))
        yield depth, each
        waiting += [(depth + 1, one) for one in reversed(each.inputs)]
