"""How the inputs of a measurand are drawn: which distribution, by which formula, and what is drawn together.

Rules
-----
1. What is not doubted is not drawn.
2. Inputs that are correlated are drawn together: all normal, or all Student's t of the same degrees of freedom. Of
   other distributions a correlation coefficient does not tell how they go together, and they are refused.
3. A group is drawn from independent normal figures by the root of its correlation matrix; coefficients that no set of
   inputs can have together are refused.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from steadyhead.errors import SensorCheckError
from steadyhead.messages import message
from steadyhead.sensorcheck.inputs import Input
from steadyhead.sensorcheck.measurand import Measurand

Matrix = tuple[tuple[float, ...], ...]
_NOTHING = 1e-10  #: of a pivot: two inputs that are the same but for their unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Inputs that are drawn together, with the root of their correlation matrix (lower triangle)."""

    inputs: tuple[Input, ...]
    root: Matrix


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What is drawn of a measurand: inputs of their own, groups, and what stays as it is."""

    alone: tuple[Input, ...]
    groups: tuple[Group, ...]
    fixed: dict[str, float]


def plan(measurand: Measurand) -> Plan:
    """Return how the inputs of a measurand are drawn.

    Raises
    ------
    SensorCheckError
        ``correlated-shape-unknown`` or ``correlations-impossible``.

    References
    ----------
    JCGM 101:2008, 6.4.8; JCGM 102:2011, 6.5.4 (from memory).
    """
    alone: list[Input] = []
    groups: list[Group] = []
    for group in measurand.groups():
        doubted = tuple(one for one in group if one.spread)
        if len(doubted) > 1:
            groups.append(_together(measurand, doubted))
        else:
            alone += doubted
    fixed = {one.name: one.estimate for one in measurand.inputs if not one.spread}
    return Plan(alone=tuple(alone), groups=tuple(groups), fixed=fixed)


def _together(measurand: Measurand, inputs: tuple[Input, ...]) -> Group:
    names = tuple(one.name for one in inputs)
    if len({(one.kind, one.dof if one.kind == "t" else math.inf) for one in inputs}) > 1 or inputs[0].kind not in {
        "normal",
        "t",
    }:
        raise SensorCheckError(message("correlated-shape-unknown", got=names))
    matrix = tuple(tuple(measurand.correlation(one, other) for other in names) for one in names)
    return Group(inputs=inputs, root=_root(matrix, measurand.name))


def _root(matrix: Matrix, name: str) -> Matrix:
    """Return the lower triangle whose product with itself is the matrix; a pivot of nothing is left as nothing."""
    rows: list[list[float]] = []
    for i, line in enumerate(matrix):
        row: list[float] = []
        for j in range(i):
            rest = line[j] - math.fsum(row[k] * rows[j][k] for k in range(j))
            row.append(rest / rows[j][j] if rows[j][j] else 0.0)
            if not rows[j][j] and abs(rest) > _NOTHING:
                raise SensorCheckError(message("correlations-impossible", result=name))
        pivot = line[i] - math.fsum(each * each for each in row)
        if pivot < -_NOTHING:
            raise SensorCheckError(message("correlations-impossible", result=name))
        rows.append([*row, math.sqrt(pivot) if pivot > _NOTHING else 0.0])
    return tuple(tuple(row) for row in rows)
