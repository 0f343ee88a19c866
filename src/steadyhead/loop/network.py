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
4. What is eliminated in which order depends on the circuit's shape alone, and a diagnosis looks at thousands of
   circuits of a few shapes: the order is planned once a shape (`steadyhead.loop.reduction`), then carried out.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from steadyhead.loop.elements import Element, Rows
from steadyhead.loop.reduction import COMMON, Eliminated, Plan, planned

__all__ = ["COMMON", "Eliminated", "Network"]


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

    #: Two points; a pair may stand here more than once.
    pairs: list[tuple[str, str]] = field(default_factory=list)
    #: The conductance between the two points of each pair [S].
    siemens: list[float] = field(default_factory=list)
    elements: list[Element] = field(default_factory=list)
    #: Currents pushed into points [A].
    pushed: dict[str, float] = field(default_factory=dict)

    @property
    def links(self) -> list[tuple[str, str, float]]:
        """Two points and the conductance between them [S], for each pair."""
        return [(a, b, siemens) for (a, b), siemens in zip(self.pairs, self.siemens, strict=True)]

    def join(self, a: str, b: str, ohm: float) -> None:
        """Put a resistance above zero between two points; between a point and itself it does nothing."""
        if a != b:
            self.pairs.append((a, b))
            self.siemens.append(1.0 / ohm)

    def push(self, node: str, amperes: float) -> None:
        """Push a current into a point, out of common."""
        self.pushed[node] = self.pushed.get(node, 0.0) + amperes

    def add(self, element: Element) -> None:
        """Hang an element on its points."""
        self.elements.append(element)

    def plan(self) -> Plan:
        """Return how a circuit of this shape is reduced: the points that stay, and what is taken out when."""
        return planned(tuple(self.pairs), tuple([e.nodes for e in self.elements]), tuple(self.pushed))

    def reduced(self, plan: Plan) -> tuple[Rows, dict[str, Eliminated]]:
        """Return the conductances between the numbered points only, and how to find the other points' voltages again.

        Rows are as `steadyhead.loop.elements` has them; the other points stand in the order in which they were taken.
        """
        edges = [0.0] * plan.edges
        for edge, siemens in zip(plan.of_pair, self.siemens, strict=True):
            edges[edge] += siemens
        taken = {}
        for node, rays, joins in plan.stars:
            total = 0.0
            for _, edge in rays:
                total += edges[edge]
            for first, second, edge in joins:
                edges[edge] += edges[first] * edges[second] / total
            taken[node] = Eliminated(tuple([(name, edges[edge] / total) for name, edge in rays]), total)
        empty = [0.0] * len(plan.numbers)
        rows = [empty[:] for _ in plan.numbers]
        for i, j, edge in plan.left:
            rows[i][j] = rows[j][i] = -edges[edge]
        return rows, taken
