"""A circuit as conductances between named points, and its reduction to the points where something active hangs.

Theory of operation
-------------------
1. Only differences of voltage matter, so every row of the equations sums to zero once common is counted as a node.
   The diagonal is therefore never stored: it is minus the sum of the others, all of one sign. Nothing is subtracted,
   and 10 milliohm beside 100 gigohm costs no digit (Grassmann, Taksar and Heyman's elimination, Operations Research 33
   (1985) 1107; for conductances it is the star-mesh transformation).
2. A node where only conductances meet is eliminated for good: each pair of its neighbours gets ``g_i * g_j / sum(g)``.
   How to find its voltage again is kept.
3. What is left is small: the terminals of the elements. `steadyhead.loop.solve` does the rest.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from steadyhead.loop.elements import Element

#: The node to which every voltage is counted.
COMMON = "controller.common"


@dataclass(frozen=True, slots=True)
class Eliminated:
    """A node taken out: its voltage is the weighted mean of its neighbours'."""

    node: str
    weights: tuple[tuple[str, float], ...]
    siemens: float


@dataclass(slots=True)
class Network:
    """Conductances between points, and the elements that hang on them; built once, then solved.

    Examples
    --------
    >>> network = Network()
    >>> network.join("a", COMMON, 50.0)
    >>> network.mesh["a"][COMMON]
    0.02
    """

    mesh: dict[str, dict[str, float]] = field(default_factory=dict)
    elements: list[Element] = field(default_factory=list)
    #: Currents pushed into points [A].
    pushed: dict[str, float] = field(default_factory=dict)

    def join(self, a: str, b: str, ohm: float) -> None:
        """Put a resistance between two points; between a point and itself it does nothing."""
        if a == b:
            return
        siemens = 1.0 / ohm
        mesh = self.mesh
        side = mesh.get(a)
        if side is None:
            side = mesh[a] = {}
        side[b] = side.get(b, 0.0) + siemens
        side = mesh.get(b)
        if side is None:
            side = mesh[b] = {}
        side[a] = side.get(a, 0.0) + siemens

    def push(self, node: str, amperes: float) -> None:
        """Push a current into a point, out of common."""
        self.pushed[node] = self.pushed.get(node, 0.0) + amperes

    def add(self, element: Element) -> None:
        """Hang an element on its points."""
        self.elements.append(element)

    def terminals(self) -> list[str]:
        """Return the points, common apart, on which elements hang or a current is pushed."""
        found = dict.fromkeys(node for element in self.elements for node in element.nodes)
        found.update(dict.fromkeys(self.pushed))
        found.pop(COMMON, None)
        return list(found)

    def reduced(self) -> tuple[dict[str, dict[str, float]], list[Eliminated]]:
        """Return the conductances between terminals only, and how to find the other points' voltages again."""
        mesh = {node: dict(neighbours) for node, neighbours in self.mesh.items()}
        keep = set(self.terminals())
        keep.add(COMMON)
        taken: list[Eliminated] = []
        for node in [n for n in mesh if n not in keep]:
            taken.append(_star_to_mesh(mesh, node))
        return mesh, taken


def _star_to_mesh(mesh: dict[str, dict[str, float]], node: str) -> Eliminated:
    """Take one node out of the mesh, in place."""
    star = mesh.pop(node)
    total = sum(star.values())
    rays = list(star.items())
    for place, (a, g_a) in enumerate(rays):
        side = mesh[a]
        del side[node]
        share = g_a / total
        for b, g_b in rays[place + 1 :]:
            siemens = share * g_b
            side[b] = side.get(b, 0.0) + siemens
            other = mesh[b]
            other[a] = other.get(a, 0.0) + siemens
    return Eliminated(node, tuple((a, g / total) for a, g in rays), total)
