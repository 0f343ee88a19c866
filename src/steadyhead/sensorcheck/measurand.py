"""A measurand: a result, the model that gives it, and the inputs that the model takes.

Rules
-----
1. A model takes its inputs by name and answers one figure. It is written in plain arithmetic (``+ - * / **``), so that
   it takes floats, figures with derivatives and whole columns of trials alike; a function such as a sine comes from
   `uncertainties.umath`, and then the model takes no columns.
2. What two inputs share is best a third input; a `Correlation` says it where only a coefficient is known.
3. A measurand is asked in two ways, and both must agree: `steadyhead.sensorcheck.budget` by derivatives,
   `steadyhead.sensorcheck.propagating` by drawing.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from steadyhead.errors import SensorCheckError
from steadyhead.figures import ARITHMETIC, Figure
from steadyhead.messages import message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.inputs import Input

Model = Callable[[Mapping[str, float]], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Correlation:
    """How far two inputs move together: `coefficient` from -1 to 1."""

    first: str
    second: str
    coefficient: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurand:
    """A result and what it depends on.

    Parameters
    ----------
    name
        What it is: an id with a name in words.
    dimension
        An id of `steadyhead.quantities.DIMENSIONS`, ``percent`` for a fraction, or ``number``.
    formula
        The model as a reader sees it, in the names of its inputs.
    model
        The same as a function of the inputs by name.
    inputs
        What it takes.
    correlations
        What pairs of inputs have in common; a pair that is not named has nothing.
    source
        Who says the formula.
    constants
        What the formula takes beside the inputs and nobody doubts: figures of a plate.

    Raises
    ------
    SensorCheckError
        Two inputs of one name, or a correlation that cannot be.
    """

    name: str
    dimension: str
    formula: str
    model: Model
    inputs: tuple[Input, ...]
    correlations: tuple[Correlation, ...] = ()
    source: Source = ARITHMETIC
    constants: tuple[Figure, ...] = ()

    def __post_init__(self) -> None:
        names = [one.name for one in self.inputs]
        for name in names:
            if names.count(name) > 1:
                raise SensorCheckError(message("input-twice", input=name))
        for pair in self.correlations:
            _require(pair, names)

    @property
    def estimates(self) -> dict[str, float]:
        """The inputs' estimates by name [SI]."""
        return {one.name: one.estimate for one in self.inputs}

    def correlation(self, first: str, second: str) -> float:
        """Return the coefficient between two inputs: 1 of an input with itself, 0 where none was told."""
        if first == second:
            return 1.0
        for pair in self.correlations:
            if {pair.first, pair.second} == {first, second}:
                return pair.coefficient
        return 0.0

    def groups(self) -> tuple[tuple[Input, ...], ...]:
        """Return the inputs in groups that hang together by correlations, each in the order of the inputs."""
        group_of = {one.name: {one.name} for one in self.inputs}
        for pair in self.correlations:
            if pair.coefficient:
                joined = group_of[pair.first] | group_of[pair.second]
                group_of.update(dict.fromkeys(joined, joined))
        met: set[str] = set()
        found = []
        for one in self.inputs:
            if one.name not in met:
                met |= group_of[one.name]
                found.append(tuple(each for each in self.inputs if each.name in group_of[one.name]))
        return tuple(found)

    def at(self, inputs: Mapping[str, float]) -> float:
        """Return the model's answer to these inputs.

        Raises
        ------
        SensorCheckError
            ``model-has-no-answer``: it divides by nothing, or its answer is not finite.
        """
        try:
            answer = float(self.model(inputs))
        except ZeroDivisionError:
            answer = math.nan
        if not math.isfinite(answer):
            raise SensorCheckError(message("model-has-no-answer", result=self.name, formula=self.formula))
        return answer


def _require(pair: Correlation, names: list[str]) -> None:
    """Refuse a correlation that cannot be."""
    for name in (pair.first, pair.second):
        if name not in names:
            raise SensorCheckError(message("correlation-of-nothing", got=name, must_be=tuple(names)))
    if pair.first == pair.second or not -1.0 <= pair.coefficient <= 1.0:
        told = message("correlation-impossible", first=pair.first, second=pair.second, got=pair.coefficient)
        raise SensorCheckError(told)
