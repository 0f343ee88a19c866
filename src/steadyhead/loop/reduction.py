"""How circuits of one shape are reduced: which points get numbers, which are taken out, and what each joins then.

Rules
-----
1. A shape is the pairs of points that are joined, the points of the elements and those into which currents are pushed.
2. The terminals of the elements have numbers, common's is 0; every other point is taken out, in the order in which the
   pairs name them.
3. An edge is what lies between two points, however many conductances do; taking a point out adds to the edges of every
   two of its neighbours.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

#: The node to which every voltage is counted.
COMMON = "controller.common"
#: Shapes that are remembered: a visit's cells have some hundreds.
SHAPES = 4096

Pair = tuple[str, str]


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


class Star(NamedTuple):
    """A point to be taken out: its `rays` to neighbours, and its `joins`: two rays' edges and what they add to."""

    node: str
    rays: tuple[tuple[str, int], ...]
    joins: tuple[tuple[int, int, int], ...]


class Plan(NamedTuple):
    """The reduction of every circuit of one shape.

    Parameters
    ----------
    numbers
        Number of each point that stays.
    places
        Numbers of each element's points.
    edges
        How many edges there are in all.
    of_pair
        The edge of each pair.
    stars
        The points that are taken out, in this order.
    left
        What remains: two numbers and the edge between them.
    """

    numbers: dict[str, int]
    places: tuple[tuple[int, ...], ...]
    edges: int
    of_pair: tuple[int, ...]
    stars: tuple[Star, ...]
    left: tuple[tuple[int, int, int], ...]


@lru_cache(maxsize=SHAPES)
def planned(pairs: tuple[Pair, ...], terminals: tuple[tuple[str, ...], ...], pushed: tuple[str, ...]) -> Plan:
    """Return the plan of a shape.

    Parameters
    ----------
    pairs
        The two points of each conductance.
    terminals
        The points of each element.
    pushed
        The points into which currents are pushed.

    Examples
    --------
    >>> plan = planned((("a", "b"), ("b", "c")), (("a", "c"),), ())
    >>> plan.numbers, [(star.node, star.rays) for star in plan.stars], plan.left
    ({'controller.common': 0, 'a': 1, 'c': 2}, [('b', (('a', 0), ('c', 1)))], ((1, 2, 2),))
    """
    numbers = {COMMON: 0}
    for node in (*(node for nodes in terminals for node in nodes), *pushed):
        numbers.setdefault(node, len(numbers))
    edges: dict[frozenset[str], int] = {}
    of_pair = tuple([edges.setdefault(frozenset(pair), len(edges)) for pair in pairs])
    around: dict[str, dict[str, int]] = {}
    for (a, b), edge in zip(pairs, of_pair, strict=True):
        around.setdefault(a, {})[b] = edge
        around.setdefault(b, {})[a] = edge
    stars = tuple([_star(node, around, edges) for node in list(around) if node not in numbers])
    left = tuple([
        (numbers[a], numbers[b], edge)
        for a, near in around.items()
        for b, edge in near.items()
        if numbers[a] < numbers[b]
    ])  # fmt: skip
    places = tuple([tuple([numbers[node] for node in nodes]) for nodes in terminals])
    return Plan(numbers, places, len(edges), of_pair, stars, left)


def _star(node: str, around: dict[str, dict[str, int]], edges: dict[frozenset[str], int]) -> Star:
    """Take a point out of what lies around the others, and return what that joins."""
    rays = tuple(around.pop(node).items())
    joins = []
    for name, _ in rays:
        del around[name][node]
    for (a, first), (b, second) in combinations(rays, 2):
        edge = edges.setdefault(frozenset((a, b)), len(edges))
        around[a][b] = around[b][a] = edge
        joins.append((first, second, edge))
    return Star(node, rays, tuple(joins))
