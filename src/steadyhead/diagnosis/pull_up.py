"""The pull-up of a voltage input: few have one that shows an open wire, and hardly any one in between."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import exp, log
from typing import NamedTuple

#: Resistance of a voltage input's pull-up, straight lines of its logarithm between these points of its latent [ohm].
#: One input in eight is meant to show an open wire, with about 150 kohm; the others' does nothing (common practice): so
#: the middle part is steep, since few have anything between.
PULLS_OHM = ((-3.0, 9e3), (-1.5, 160e3), (-1.0, 6.5e6), (0.2, 60e6), (1.0, 180e6))


def pull_ohm(z: float) -> float:
    """Return the resistance of a voltage input's pull-up [ohm].

    >>> [round(pull_ohm(z) / 1e3) for z in (-3.0, -1.5, -1.0)]
    [9, 160, 6500]
    """
    part = _pulled(z)
    return exp(part.middle + part.slope * z)


def pull_slope(ohm: float) -> float:
    """Return how much one deviation moves a pull-up of so many ohms, as the logarithm of a factor."""
    return next((part.slope for part in PULLS if log(ohm) < part.ends), PULLS[-1].slope)


class _Piece(NamedTuple):
    """A straight part of a logarithm: up to `until` deviations, where it is `ends`."""

    until: float
    ends: float
    slope: float
    middle: float


def _pieces(points: Sequence[tuple[float, float]]) -> tuple[_Piece, ...]:
    found = []
    for (z, ohm), (other, further) in pairwise(points):
        slope = log(further / ohm) / (other - z)
        found.append(_Piece(other, log(further), slope, log(ohm) - slope * z))
    return tuple(found)


#: The straight parts of a pull-up's logarithm.
PULLS = _pieces(PULLS_OHM)


def _pulled(z: float) -> _Piece:
    return next((part for part in PULLS if z < part.until), PULLS[-1])
