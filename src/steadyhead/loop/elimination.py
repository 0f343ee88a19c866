"""Elimination of a small circuit's equations without a single subtraction of like numbers.

Theory of operation
-------------------
1. Each row sums to zero once common is counted as a node, so its diagonal is never stored: it is minus the sum of the
   others. Where these are all of one sign, as for conductances, no digit is lost (Grassmann, Taksar and Heyman,
   Operations Research 33 (1985) 1107; from memory).
2. Nodes are taken out from the last to the first; 0 is common and stays. Only what is not zero is kept: a loop's
   equations are mostly empty.
"""

from __future__ import annotations

from collections.abc import Sequence

from steadyhead.loop.elements import Rows

_INFINITE = float("inf")
_Entries = list[tuple[int, float]]


#: One node taken out: its number; the conductance that it had to the nodes that were left [S]; for each of these that
#: felt it, its number and minus the part of the node's current that it gets; for each, minus the conductance to it [S].
Step = tuple[int, float, _Entries, _Entries]
Steps = list[Step]


def eliminated(rows: Rows) -> Steps | int:
    """Return the steps that take every node out, or the number of a node that nothing ties to the others.

    Parameters
    ----------
    rows
        ``rows[k][j]`` is minus what one volt at node j pushes into node k [S]; they are used up.

    Examples
    --------
    Two siemens from common to node 1, one from there to node 2:

    >>> eliminated([[0, -2, 0], [-2, 0, -1], [0, -1, 0]])
    [(2, 1.0, [(1, -1.0)], [(1, -1)]), (1, 2.0, [], [(0, -2)])]
    """
    steps: Steps = []
    for k in range(len(rows) - 1, 0, -1):
        row = [(j, siemens) for j, siemens in enumerate(rows[k][:k]) if siemens]
        pivot = 0.0
        for _, siemens in row:
            pivot -= siemens
        if not -_INFINITE < pivot < _INFINITE or pivot == 0.0:
            return k
        column: _Entries = []
        for i in range(1, k):
            target = rows[i]
            factor = target[k]
            if factor:
                factor /= pivot
                column.append((i, factor))
                for j, siemens in row:
                    target[j] -= factor * siemens
        steps.append((k, pivot, column, row))
    return steps


def substituted(steps: Steps, push: Sequence[float]) -> list[float]:
    """Return the voltages [V] for the currents that are pushed into the nodes [A].

    >>> substituted(eliminated([[0, -2, 0], [-2, 0, -1], [0, -1, 0]]), [0.0, 0.0, 1.0])
    [0.0, 0.5, 1.5]
    """
    right = list(push)
    for node, _, column, _ in steps:
        amperes = right[node]
        if amperes:
            for i, factor in column:
                right[i] -= factor * amperes
    volts = [0.0] * len(right)
    for node, pivot, _, row in reversed(steps):
        total = right[node]
        for j, siemens in row:
            total -= siemens * volts[j]
        volts[node] = total / pivot
    return volts
