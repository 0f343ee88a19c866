"""What a healthy system shows, with its tolerance.

Rules
-----
1. A band is centred on the nominal system and as wide as gauge, sensor, supply and meter together allow: two standard
   deviations, their squares added (GUM, JCGM 100:2008, clause 5.1.2; from memory).
2. It is taken over the makes of devices that a healthy system may have: not over those that would limit, starve or
   clamp the very signal that the system is made for, as an input for 5 V does one of 10 V.
"""

from __future__ import annotations

from math import sqrt

from steadyhead.diagnosis.answer import Band
from steadyhead.diagnosis.cells import Cell, Part, single
from steadyhead.diagnosis.doubt import spread
from steadyhead.diagnosis.looking import STEP, Look
from steadyhead.diagnosis.makes import COMMON, Latents
from steadyhead.diagnosis.observing import Pressure, Question, Stance
from steadyhead.diagnosis.slopes import Spot, at_ease
from steadyhead.diagnosis.system import System


def band(system: System, question: Question, pressure: Pressure) -> Band:
    """Return what a healthy system shows to a question at a pressure; SI units."""
    return bands(system, (question,), pressure)[0]


def bands(system: System, questions: tuple[Question, ...], pressure: Pressure) -> list[Band]:
    """Return what a healthy system shows to questions that share an arrangement, at a pressure; SI units."""
    stance = Stance(questions[0].arrangement, questions[0].source, pressure)
    spots = [Spot(system, cell, Latents(), stance, questions) for cell in _healthy()]
    looks = [spot.look() for spot in spots]
    sound = [(spot, base) for spot, base in zip(spots, looks, strict=True) if at_ease(base)]
    makes = [_ends(spot, base) for spot, base in sound or zip(spots, looks, strict=True)]
    return [
        Band(
            low=min(ends[k][0] for ends in makes),
            high=max(ends[k][1] for ends in makes),
            unit=_unit(system, question),
        )
        for k, question in enumerate(questions)
    ]


def _unit(system: System, question: Question) -> str:
    if question.measure == "displayed-signal":
        return system.unit
    return {"milliamps": "A", "displayed-pressure": "Pa"}.get(question.measure, "V")


def _healthy() -> list[Cell]:
    return [single(Part("none", "", 0.0, 0.0), 1.0 / len(COMMON), make) for make in COMMON]


def _ends(spot: Spot, base: Look) -> list[tuple[float, float]]:
    moved = [values for values in spot.moved(base) if values is not None]
    found = []
    for k, question in enumerate(spot.questions):
        middle = base.values[k]
        variance = spread(spot.system, question.measure, middle, 0.0) ** 2
        variance += sum(((values[k] - middle) / STEP) ** 2 for values in moved)
        found.append((middle - 2.0 * sqrt(variance), middle + 2.0 * sqrt(variance)))
    return found


def table(system: System, pressure: Pressure) -> dict[str, Band]:
    """Return the bands of all points that a lead can reach while everything is connected, and the loop's current."""
    points_ = ["controller.supply", "controller.signal", "sensor.supply", "sensor.signal"]
    if system.wires == 3:
        points_.append("sensor.common")
    asked = tuple(Question("volts", "connected", point, "controller.common") for point in points_)
    found = dict(zip(points_, bands(system, asked, pressure), strict=True))
    if system.unit == "A":
        found["loop"] = band(system, Question("milliamps", "meter-in-signal"), pressure)
    return found
