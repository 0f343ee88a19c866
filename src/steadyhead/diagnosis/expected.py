"""What a healthy system shows, with its tolerance.

Rules
-----
1. A band is centred on the nominal system and as wide as gauge, sensor, supply and meter together allow: two standard
   deviations, their squares added (GUM, JCGM 100:2008, clause 5.1.2).
2. It is taken over the makes of devices that a healthy system may have.
"""

from __future__ import annotations

from math import sqrt

from steadyhead.diagnosis.answer import Band
from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.doubt import spread
from steadyhead.diagnosis.looking import look
from steadyhead.diagnosis.makes import DIMENSIONS, Latents, points
from steadyhead.diagnosis.observing import Pressure, Question, Stance
from steadyhead.diagnosis.slopes import STEP
from steadyhead.diagnosis.system import System

MAKES = 5


def band(system: System, question: Question, pressure: Pressure) -> Band:
    """Return what a healthy system shows to a question at a pressure; SI units."""
    stance = Stance(question.arrangement, question.source, pressure)
    ends = [_ends(system, cell, question, stance) for cell in _healthy()]
    unit = "A" if question.measure == "milliamps" else "Pa" if question.measure == "displayed-pressure" else "V"
    if question.measure == "displayed-signal":
        unit = system.unit
    return Band(low=min(low for low, _ in ends), high=max(high for _, high in ends), unit=unit)


def _healthy() -> list[Cell]:
    return [Cell("none", "none", "", 1.0 / MAKES, 0.5, 0.0, make) for make in points(0, MAKES, DIMENSIONS)]


def _ends(system: System, cell: Cell, question: Question, stance: Stance) -> tuple[float, float]:
    asked = (question,)
    middle = look(system, cell, Latents(), stance, asked).values[0]
    variance = spread(system, question.measure, middle, 0.0) ** 2
    for k in range(len(Latents._fields)):
        numbers = [STEP if j == k else 0.0 for j in range(len(Latents._fields))]
        moved = look(system, cell, Latents(*numbers), stance, asked).values[0]
        variance += ((moved - middle) / STEP) ** 2
    return middle - 2.0 * sqrt(variance), middle + 2.0 * sqrt(variance)


def table(system: System, pressure: Pressure) -> dict[str, Band]:
    """Return the bands of all points that a lead can reach while everything is connected, and the loop's current."""
    points_ = ["controller.supply", "controller.signal", "sensor.supply", "sensor.signal"]
    if system.wires == 3:
        points_.append("sensor.common")
    found = {p: band(system, Question("volts", "connected", p, "controller.common"), pressure) for p in points_}
    if system.unit == "A":
        found["loop"] = band(system, Question("milliamps", "meter-in-signal"), pressure)
    return found
