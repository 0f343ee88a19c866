"""What is known of a system, as rows of a paper: the plate, the drive's settings, the cable, the labels.

Everything that affects which of a system's keys stand on a paper lives in this file.

Rules
-----
1. What nobody looked at has no row.
2. A figure was given by the plate or set in the drive; nobody computed it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from steadyhead.documents.numbers import SI_BESIDE, fewest_places, in_unit
from steadyhead.documents.paper import Inline, Line, Shown
from steadyhead.figures import given
from steadyhead.messages import message
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.one_unit import own_unit
from steadyhead.service.papers.pieces import Row
from steadyhead.service.papers.readings import resistance_unit
from steadyhead.visit.record import Interval, Visit

#: Where a figure of each table was given.
WHENCE = {"sensor": "plate", "controller": "setting"}


class Known(NamedTuple):
    """One key of a system: its name in a visit file, its dimension, the unit that it is shown in."""

    key: str
    dimension: str
    unit: str


#: The signal's own measure, and this site's unit of pressure, stand for themselves.
SIGNAL, PRESSURE = "signal", "pressure"
FIGURES: tuple[tuple[Known, str], ...] = (
    (Known("sensor.accuracy", "percent", "%"), "accuracy"),
    (Known("sensor.supply", "voltage", "V"), "supply"),
    (Known("controller.supply", "voltage", "V"), "supply_v"),
    (Known("controller.supply_limits", "voltage", "V"), "supply_limits"),
    (Known("controller.input_resistance", "resistance", "ohm"), "input_resistance_ohm"),
    (Known("controller.scaled", "pressure", PRESSURE), "scaled"),
    (Known("controller.low_fault", SIGNAL, SIGNAL), "low_fault"),
    (Known("controller.high_fault", SIGNAL, SIGNAL), "high_fault"),
    (Known("cable.length", "length", "m"), "length_m"),
    (Known("cable.conductor", "area", "mm2"), "conductor_m2"),
    (Known("cable.temperature", "temperature", "degC"), "temperature_c"),
    (Known("place.walk", "time", "min"), "walk_s"),
    (Known("site.altitude", "length", "m"), "altitude_m"),
)
WORDS = (
    "controller.reference", "controller.on_signal_loss", "controller.auto_restart", "controller.display",
    "controller.loop_power", "controller.common_earthed", "cable.shield", "place.cock",
)  # fmt: skip


def settings(seen: Occasion) -> tuple[Row, ...]:
    """Return what is known of a system, in the order of a visit file."""
    return (*_figures(seen), *_words(seen.visit))


def _figures(seen: Occasion) -> Iterator[Row]:
    for known, attribute in FIGURES:
        table = known.key.partition(".")[0]
        value = getattr(getattr(seen.visit, table), attribute)
        if value is not None:
            yield message("paper-field", field=known.key), _line(known, value, seen)


def _line(known: Known, value: float | Interval, seen: Occasion) -> Line:
    current = seen.visit.sensor.signal.kind == "current"
    unit = {SIGNAL: "mA" if current else "V", PRESSURE: seen.visit.pressure_unit}.get(known.unit, known.unit)
    dimension = ("current" if current else "voltage") if known.dimension == SIGNAL else known.dimension
    ends = (value.low, value.high) if isinstance(value, Interval) else (value,)
    if unit == "ohm":
        unit = resistance_unit(max(ends))
    own = own_unit(seen.visit.set_unit, unit) if known.key == "controller.scaled" else ""
    shown = [replace(_shown(known.key, end, dimension, unit), own=own) for end in dict.fromkeys(ends)]
    if len(shown) == 1:
        return (shown[0],)
    alone = not shown[0].figure.value or shown[0].unit not in SI_BESIDE
    first = replace(shown[0], beside=False, bare=True) if alone else shown[0]
    return (first, message("paper-to"), shown[1])


def _shown(key: str, value: float, dimension: str, unit: str) -> Shown:
    whence = WHENCE.get(key.partition(".")[0], "site")
    figure = given(key.replace(".", "-").replace("_", "-"), value, dimension, whence)
    return Shown(figure=figure, unit=unit, places=fewest(value, unit), beside=True)


def fewest(value: float, unit: str) -> int:
    """Return the fewest digits after the decimal sign that tell a figure that somebody set or printed.

    >>> fewest(0.2, "V"), fewest(100e3, "ohm"), fewest(0.00365, "mA")
    (1, 0, 2)
    """
    return fewest_places(in_unit(value, unit))


def _words(visit: Visit) -> Iterator[Row]:
    for key in WORDS:
        table, _, attribute = key.partition(".")
        value = getattr(getattr(visit, table), attribute)
        if value is not None:
            word = {True: "true", False: "false"}.get(value, value)
            yield message("paper-field", field=key), (message("paper-choice", choice=word),)


def labels(visit: Visit) -> tuple[Row, ...]:
    """Return what this panel and this plug call each point."""
    rows = visit.labels.items()
    return tuple(
        (message("paper-label", label=point), (message("paper-as-written", text=text),)) for point, text in rows
    )


def instruments(seen: Occasion) -> Iterator[Row]:
    """Yield what was read with."""
    gauge = seen.visit.instruments.gauge
    if gauge is not None:
        yield message("paper-instrument", instrument="gauge"), tuple(_gauge(seen))
    for name, tolerance, unit in (
        ("volts", seen.visit.instruments.volts, "V"), ("milliamps", seen.visit.instruments.milliamps, "mA"),
        ("ohms", seen.visit.instruments.ohms, "ohm"),
    ):  # fmt: skip
        if tolerance is not None:
            dimension = {"V": "voltage", "mA": "current", "ohm": "resistance"}[unit]
            part = given("meter-percent", tolerance.relative, "percent", "leaflet")
            most = given("meter-counts", tolerance.absolute, dimension, "leaflet")
            line = (
                Shown(figure=part, unit="%", places=fewest(tolerance.relative, "%")), message("paper-of-reading"),
                Shown(figure=most, unit=unit, places=fewest(tolerance.absolute, unit)),
            )  # fmt: skip
            yield message("paper-meter", measure=name), line


def _gauge(seen: Occasion) -> Iterator[Inline]:
    gauge = seen.visit.instruments.gauge
    if gauge is None:
        return
    unit = seen.visit.pressure_unit
    if gauge.range is not None:
        ends = [("gauge-low", gauge.range.low), ("gauge-high", gauge.range.high)]
        own = own_unit(seen.visit.dial_unit, unit)
        low, high = (
            Shown(figure=given(name, value, "pressure", "dial"), unit=unit, places=fewest(value, unit), bare=not value,
                  beside=bool(own and value), own=own)
            for name, value in ends
        )  # fmt: skip
        yield from (low, message("paper-to"), high)
    if gauge.accuracy is not None:
        figure = given("gauge-accuracy", gauge.accuracy, "percent", "dial")
        yield Shown(figure=figure, unit="%", places=fewest(gauge.accuracy, "%"))
    elif gauge.grade is not None:
        yield message("paper-grade", grade=gauge.grade)
