"""Linear circuits solved in exact fractions: no rounding, so no argument."""

from __future__ import annotations

from fractions import Fraction

from tests.loop.naive import ZERO

Resistors = list[tuple[str, str, float]]


def exact_volts(resistors: Resistors, pushed: list[tuple[str, float]]) -> dict[str, Fraction]:
    """Return every node's volts to common, by Gauss's elimination of the nodal equations."""
    names = sorted({end for a, b, _ in resistors for end in (a, b)} - {ZERO})
    number = {name: k for k, name in enumerate(names)}
    size = len(names)
    rows = [[Fraction(0)] * (size + 1) for _ in names]
    for a, b, ohm in resistors:
        siemens = 1 / Fraction(ohm)
        for one, other in ((a, b), (b, a)):
            if one != ZERO:
                rows[number[one]][number[one]] += siemens
                if other != ZERO:
                    rows[number[one]][number[other]] -= siemens
    for node, amount in pushed:
        if node != ZERO:
            rows[number[node]][size] += Fraction(amount)
    return {ZERO: Fraction(0), **dict(zip(names, _solved(rows), strict=True))}


def _solved(rows: list[list[Fraction]]) -> list[Fraction]:
    size = len(rows)
    for k in range(size):
        best = next(i for i in range(k, size) if rows[i][k] != 0)
        rows[k], rows[best] = rows[best], rows[k]
        for i in range(size):
            if i != k and rows[i][k] != 0:
                factor = rows[i][k] / rows[k][k]
                rows[i] = [x - factor * y for x, y in zip(rows[i], rows[k], strict=True)]
    return [rows[k][size] / rows[k][k] for k in range(size)]


def exact_ohms(resistors: Resistors, red: str, black: str) -> Fraction:
    """Return the resistance between two nodes."""
    volts = exact_volts(resistors, [(red, 1.0), (black, -1.0)])
    return volts[red] - volts[black]
