"""What each measure is made of: its unit, its leads, its own keys, and the arrangements that it can be read in.

Everything that affects which keys a reading of one measure has, and which points a lead can reach, lives in this file.

Rules
-----
1. ``milliamps`` has no leads: the meter lies in the signal wire, red to the wire and black to the terminal.
2. Ohms are read on conductors that nothing feeds; an insulation test never reaches electronics, so it is read only with
   both cable ends free.
3. ``wire.X`` exists only while it is lifted; a two-wire system has no ``sensor.common`` and no ``wire.common``.
"""

from __future__ import annotations

from typing import NamedTuple

from steadyhead.loop.vocabulary import (
    ARRANGEMENTS,
    DISPLAYED_FAULTS,
    INSPECTION_VALUES,
    POINTS,
)

DEAD = ("dead-both-free", "dead-looped")
LIFTED = ("sensor-leads-lifted", "all-lifted", "source-at-controller", "spare-at-controller", *DEAD)


class Measure(NamedTuple):
    """One measure.

    Parameters
    ----------
    id
        The word in files.
    dimensions
        Ids of the quantities that its value may be, the usual one first; empty for a word.
    words
        The words that its value may be; empty for a figure.
    leads
        Whether it needs `red` and `black`.
    needs, may_have
        Its own keys: those that it needs, those that it may have.
    arrangements
        Where it can be read; empty for anywhere.
    """

    id: str
    dimensions: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    leads: bool = False
    needs: tuple[str, ...] = ()
    may_have: tuple[str, ...] = ()
    arrangements: tuple[str, ...] = ()


_ROWS = (
    Measure("volts", ("voltage",), leads=True),
    Measure("volts-ac", ("voltage",), leads=True),
    Measure("milliamps", ("current",), arrangements=("meter-in-signal",)),
    Measure("ohms", ("resistance",), leads=True),
    Measure("megohms", ("resistance",), leads=True, arrangements=DEAD),
    Measure("gauge-pressure", ("pressure",), may_have=("tap", "height", "whose")),
    Measure("displayed-pressure", ("pressure",)),
    Measure("displayed-signal", ("voltage", "current", "percent")),
    Measure("displayed-fault", words=DISPLAYED_FAULTS),
    Measure("displayed-setpoint", ("pressure",)),
    Measure("displayed-hertz", ("frequency",)),
    Measure("displayed-amps", ("current",)),
    Measure("displayed-hours", ("time",)),
    Measure("displayed-starts", ("count",)),
    Measure("inspection", words=INSPECTION_VALUES, needs=("item",)),
    Measure("flow", ("flow",)),
    Measure("amps", ("current",)),
    Measure("line-volts", ("voltage",)),
    Measure("water-level", ("length",)),
    Measure("precharge", ("pressure",)),
    Measure("pressure-decay", ("pressure",), needs=("from", "to", "over")),
    Measure("starts-per-hour", ("rate",)),
)
MEASURE: dict[str, Measure] = {measure.id: measure for measure in _ROWS}

#: Keys that only some measures have; the others (`measure`, `value`, `arrangement`, `drive`, ...) go with all.
OWN_KEYS = ("red", "black", "item", "tap", "height", "whose", "from", "to", "over")


def keys_of(measure: Measure) -> tuple[str, ...]:
    """Return those of `OWN_KEYS` that a measure may have.

    >>> keys_of(MEASURE["volts"])
    ('red', 'black')
    """
    leads = ("red", "black") if measure.leads else ()
    return (*leads, *measure.needs, *measure.may_have)


def needed_by(measure: Measure) -> tuple[str, ...]:
    """Return those of `OWN_KEYS` that a measure needs."""
    return (*(("red", "black") if measure.leads else ()), *measure.needs)


def points_of_system(wires: int, *, shield: bool | None) -> tuple[str, ...]:
    """Return the points that a system with so many wires has; a screen that nobody looked for may be there.

    >>> "sensor.common" in points_of_system(2, shield=None)
    False
    """
    lacking = {"sensor.common", "wire.common"} if wires == 2 else set()
    if shield is False:
        lacking.add("shield")
    return tuple(point for point in POINTS if point not in lacking)


def _points_by_arrangement() -> dict[str, tuple[str, ...]]:
    table = {}
    for id_ in ARRANGEMENTS:
        lifted = {"wire"} if id_ in LIFTED else set()
        dead = {"controller"} if id_ in DEAD else set()
        points = [p for p in POINTS if p.split(".")[0] in {"sensor", "shield", "earth", "controller", *lifted} - dead]
        table[id_] = tuple(points)
    table["supply-terminal-clear"] = (*table["supply-terminal-clear"], "wire.supply")
    table["dead-looped"] = tuple(point for point in POINTS if point.startswith("wire."))
    return table


#: Points that a lead can reach while the loop stands in an arrangement.
POINTS_IN: dict[str, tuple[str, ...]] = _points_by_arrangement()


def ohms_points_in(arrangement: str) -> tuple[str, ...]:
    """Return the points between which ohms mean anything there: conductors that nothing feeds.

    >>> ohms_points_in("connected")
    ()
    """
    if arrangement not in LIFTED:
        return ()
    return tuple(point for point in POINTS_IN[arrangement] if not point.startswith("controller."))
