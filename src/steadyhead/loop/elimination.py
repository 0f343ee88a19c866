"""Elimination of a small circuit's equations without a single subtraction of like numbers.

Theory of operation
-------------------
1. Each row sums to zero once common is counted as a node, so its diagonal is never stored: it is minus the sum of the
   others. Where these are all of one sign, as for conductances, no digit is lost (Grassmann, Taksar and Heyman,
   Operations Research 33 (1985) 1107; from memory).
2. Nodes are taken out from the last to the first; 0 is common and stays.
3. A diagnosis solves tens of thousands of these equations, of a handful of sizes: for each size the loops are written
   out once as straight lines of Python, in which every number has a name, and kept. That takes a third of the time.
4. For node k, ``a_k_j`` is what stood in its row when it was taken out, ``p_k`` its pivot, and ``f_i_k`` the part of
   its current, negated, that node i gets.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import Any

from steadyhead.loop.elements import Rows

#: The numbers that take every node out, in the order in which the written-out lines name them.
Steps = tuple[float, ...]


def eliminated(rows: Rows) -> Steps | int:
    """Return the numbers that take every node out, or the number of a node that nothing ties to the others.

    Parameters
    ----------
    rows
        ``rows[k][j]`` is minus what one volt at node j pushes into node k [S].

    Examples
    --------
    Two siemens from common to node 1, and nothing from there to node 2:

    >>> eliminated([[0, -2, 0], [-2, 0, 0], [0, 0, 0]])
    2
    """
    return _written_out(len(rows))[0](rows)


def substituted(steps: Steps, push: Sequence[float]) -> list[float]:
    """Return the voltages [V] for the currents that are pushed into the nodes [A].

    Two siemens from common to node 1, one from there to node 2, into which an ampere is pushed:

    >>> substituted(eliminated([[0, -2, 0], [-2, 0, -1], [0, -1, 0]]), [0.0, 0.0, 1.0])
    [0.0, 0.5, 1.5]
    """
    return _written_out(len(push))[1](steps, push)


@lru_cache(maxsize=64)
def _written_out(size: int) -> tuple[Callable[[Rows], Steps | int], Callable[[Steps, Sequence[float]], list[float]]]:
    """Return both functions for circuits of so many nodes, common among them."""
    made: dict[str, Any] = {"INFINITE": float("inf")}
    exec("\n".join([*_eliminate(size), *_substitute(size)]), made)  # noqa: S102 - the lines below, a size the only input
    return made["eliminate"], made["substitute"]


def _names(size: int) -> str:
    """Return the names of all numbers that are kept."""
    found = []
    for k in range(size - 1, 0, -1):
        found += [f"p_{k}", *(f"a_{k}_{j}" for j in range(k)), *(f"f_{i}_{k}" for i in range(1, k))]
    return "(" + "".join(f"{name}, " for name in found) + ")"


def _eliminate(size: int) -> Iterator[str]:
    yield "def eliminate(rows):"
    for i in range(1, size):
        yield f"    {', '.join(f'a_{i}_{j}' for j in range(size))}, = rows[{i}]"
    for k in range(size - 1, 0, -1):
        yield f"    p_{k} = 0.0" + "".join(f" - a_{k}_{j}" for j in range(k))
        yield f"    if not -INFINITE < p_{k} < INFINITE or p_{k} == 0.0: return {k}"
        for i in range(1, k):
            yield f"    f_{i}_{k} = a_{i}_{k} / p_{k}"
            for j in range(k):
                if j != i:
                    yield f"    a_{i}_{j} -= f_{i}_{k} * a_{k}_{j}"
    yield f"    return {_names(size)}"


def _substitute(size: int) -> Iterator[str]:
    yield "def substitute(steps, push):"
    if size > 1:
        yield f"    {_names(size)} = steps"
    yield f"    {', '.join(f'v_{k}' for k in range(size))}, = push"
    for k in range(size - 1, 0, -1):
        for i in range(1, k):
            yield f"    v_{i} -= f_{i}_{k} * v_{k}"
    for k in range(1, size):
        rest = "".join(f" - a_{k}_{j} * v_{j}" for j in range(1, k))
        yield f"    v_{k} = (v_{k}{rest}) / p_{k}"
    yield f"    return [0.0{''.join(f', v_{k}' for k in range(1, size))}]"
