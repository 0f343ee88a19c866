"""A circuit as conductances between named points, and its reduction to the points where something active hangs.

Theory of operation
-------------------
1. Only differences of voltage matter, so every row of the equations sums to zero once common is counted as a node.
   The diagonal is therefore never stored: it is minus the sum of the others, all of one sign. Nothing is subtracted,
   and 10 milliohm beside 100 gigohm costs no digit (Grassmann, Taksar and Heyman's elimination, Operations Research 33
   (1985) 1107, from memory; for conductances it is the star-mesh transformation).
2. A node where only conductances meet is eliminated for good: each pair of its neighbours gets ``g_i * g_j / sum(g)``.
   How to find its voltage again is kept.
3. What is left is small: the terminals of the elements. `steadyhead.loop.solve` does the rest.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from steadyhead.loop.elements import Element, Rows

#: The node to which every voltage is counted.
COMMON = "controller.common"


class Eliminated(NamedTuple):
    """A node taken out: its voltage is the weighted mean of its neighbours'.

    Parameters
    ----------
    weights
        Its neighbours' names and weights; they sum to one.
    siemens
        Conductance of all its links together [S].
    """

    weights: tuple[tuple[str, float], ...]
    siemens: float


@dataclass(slots=True)
class Network:
    """Conductances between points, and the elements that hang on them; built once, then solved.

    Examples
    --------
    >>> network = Network()
    >>> network.join("a", COMMON, 50.0)
    >>> network.links
    [('a', 'controller.common', 0.02)]
    """

    #: Two points and the conductance between them [S]; a pair may stand here more than once.
    links: list[tuple[str, str, float]] = field(default_factory=list)
    elements: list[Element] = field(default_factory=list)
    #: Currents pushed into points [A].
    pushed: dict[str, float] = field(default_factory=dict)

    def join(self, a: str, b: str, ohm: float) -> None:
        """Put a resistance above zero between two points; between a point and itself it does nothing."""
        if a != b:
            self.links.append((a, b, 1.0 / ohm))

    def push(self, node: str, amperes: float) -> None:
        """Push a current into a point, out of common."""
        self.pushed[node] = self.pushed.get(node, 0.0) + amperes

    def add(self, element: Element) -> None:
        """Hang an element on its points."""
        self.elements.append(element)

    def terminals(self) -> dict[str, int]:
        """Return the number of each point on which elements hang or a current is pushed; common's is 0."""
        index = {COMMON: 0}
        for element in self.elements:
            for node in element.nodes:
                if node not in index:
                    index[node] = len(index)
        for node in self.pushed:
            if node not in index:
                index[node] = len(index)
        return index

    def reduced(self, index: dict[str, int]) -> tuple[Rows, dict[str, Eliminated]]:
        """Return the conductances between the numbered points only, and how to find the other points' voltages again.

        Rows are as `steadyhead.loop.elements` has them; the other points stand in the order in which they were taken.
        """
        empty = [0.0] * len(index)
        rows = [empty[:] for _ in index]
        reduction = _Reduction(index, rows, {})
        number = index.get
        for a, b, siemens in self.links:
            i, j = number(a), number(b)
            if i is None or j is None:
                reduction.add(a, b, siemens)
            else:
                rows[i][j] -= siemens
                rows[j][i] -= siemens
        return rows, {node: reduction.take_out(node) for node in list(reduction.mesh)}


class _Reduction(NamedTuple):
    """Conductances on their way into rows; the points without a number wait in the mesh."""

    numbers: dict[str, int]
    rows: Rows
    mesh: dict[str, dict[str, float]]

    def add(self, a: str, b: str, siemens: float) -> None:
        """Add a conductance between two points."""
        i, j = self.numbers.get(a), self.numbers.get(b)
        if i is None:
            side = self.mesh.setdefault(a, {})
            side[b] = side.get(b, 0.0) + siemens
        if j is None:
            side = self.mesh.setdefault(b, {})
            side[a] = side.get(a, 0.0) + siemens
        elif i is not None:
            self.rows[i][j] -= siemens
            self.rows[j][i] -= siemens

    def take_out(self, node: str) -> Eliminated:
        """Take a point out of the mesh and join every two of its neighbours instead."""
        mesh = self.mesh
        star = mesh.pop(node)
        total = sum(star.values())
        rays = tuple(star.items())
        for place, (a, g_a) in enumerate(rays, start=1):
            if a in mesh:
                del mesh[a][node]
            for b, g_b in rays[place:]:
                self.add(a, b, g_a * g_b / total)
        return Eliminated(tuple([(a, g / total) for a, g in rays]), total)
