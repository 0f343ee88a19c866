"""Readings as figures of a paper: as they were written, with their healthy band, leading back to where they were read.

Rules
-----
1. A figure keeps the digits and the unit in which it was read: they tell how well it is known. A pressure alone is in
   the paper's one unit, whatever it was read in, with digits enough for what was read.
2. Words, and figures past a scale, stay what they are.
3. A healthy band is the healthy system at the pressure of the gauge, two standard deviations either way
   (`steadyhead.diagnosis.expected`).
"""

from __future__ import annotations

from math import floor, log10

from steadyhead.diagnosis.answer import Band
from steadyhead.diagnosis.observing import Question
from steadyhead.documents.paper import Line, Shown
from steadyhead.errors import QuantityError
from steadyhead.figures import Figure, given
from steadyhead.messages import message
from steadyhead.published.source import Source
from steadyhead.quantities import DIMENSIONS, parse_quantity
from steadyhead.quantities.units import unit_named
from steadyhead.service.papers.occasion import Occasion
from steadyhead.service.papers.one_unit import places_turned, typed_turned
from steadyhead.visit.measures import MEASURE
from steadyhead.visit.record import Beyond, Reading, Spread, Visit, Word
from steadyhead.visit.record import Figure as ReadFigure

GUM = Source(
    cite="JCGM 100:2008, Evaluation of measurement data: guide to the expression of uncertainty in measurement",
    locator="clause 5.1.2", seen="memory",
)  # fmt: skip
_OFF = "twice the root of the sum of squares of what gauge, sensor, sensor power and instrument may be off"
BAND = {
    "healthy-low": f"what the healthy loop shows, less {_OFF}",
    "healthy-high": f"what the healthy loop shows, and {_OFF}",
}
#: Digits with which a figure is shown that was not read: enough to tell it from its neighbour.
SIGNIFICANT = 3
MOST_PLACES = {"V": 2, "mA": 2, "psi": 1, "bar": 2, "kPa": 0, "ohm": 0, "kohm": 1, "Mohm": 2}
UNIT_OF = {"V": "V", "A": "mA", "ohm": "ohm", "fraction": "%", "Hz": "Hz", "m": "m", "s": "h", "m3/s": "L/min"}
DIMENSION_OF = {each.si: id_ for id_, each in DIMENSIONS.items() if id_ not in {"head", "absolute-pressure"}}


def what_line(reading: Reading | Question) -> Line:
    """Return what was read, or is to be: its measure, its points, its hook-up."""
    return (
        message(
            "paper-what", measure=reading.named, red=reading.red, black=reading.black, item=reading.item,
            arrangement=reading.arrangement,
        ),
    )  # fmt: skip


def what_within(reading: Reading) -> Line:
    """Return what was read, for the middle of a sentence."""
    return (
        message(
            "paper-what-within", measure=reading.named, red=reading.red, black=reading.black, item=reading.item,
            arrangement=reading.arrangement,
        ),
    )  # fmt: skip


def value_line(reading: Reading, seen: Occasion, *, beside: bool = False) -> Line:
    """Return what came out of a reading, as a line of figures and words."""
    value = reading.value
    if isinstance(value, Word):
        if reading.measure == "displayed-fault":
            return (message("paper-displayed", shown=value.word),)
        return (message("paper-found", found=value.word),)
    if isinstance(value, Beyond):
        written = value.as_written or ("OL" if value.side == "above" else "-OL")
        return (message("paper-as-written", text=typed_turned(reading.measure, written, seen.visit.pressure_unit)),)
    if isinstance(value, Spread):
        return _spread_line(reading, value, seen)
    if value.unit in {"1", "1/h"}:
        return (message("paper-as-written", text=value.as_written),)
    return (read_figure(reading, seen, beside=beside),)


def _spread_line(reading: Reading, value: Spread, seen: Occasion) -> Line:
    unit = unit_of(reading, seen.visit)
    ends = []
    for name, end in (("lowest-read", value.low), ("highest-read", value.high)):
        figure = _kept(
            seen, (reading.number, name), given(name, end, DIMENSION_OF[value.unit], f"reading {reading.number}")
        )
        ends.append(Shown(figure=figure, unit=unit, places=places_for(end, unit)))
    said = message("paper-jumping") if value.over_s is None else message("paper-over", minutes=value.over_s / 60.0)
    return (ends[0], message("paper-to"), ends[1], said)


def read_figure(reading: Reading, seen: Occasion, *, beside: bool = False) -> Shown:
    """Return a reading of one figure.

    Raises
    ------
    TypeError
        It is no one figure: a mistake of the program.
    """
    value = reading.value
    if not isinstance(value, ReadFigure):
        raise TypeError(f"reading {reading.number} is no figure")  # noqa: EM102, TRY003 - never seen by a person
    unit = unit_of(reading, seen.visit)
    places = places_turned(value.resolution, unit) if value.resolution > 0 else places_for(value.value, unit)
    whence = f"reading {reading.number}"
    figure = _kept(seen, whence, given(reading.measure, value.value, DIMENSION_OF[value.unit], whence))
    return Shown(figure=figure, unit=unit, places=places, beside=beside)


def _kept(seen: Occasion, key: object, figure: Figure) -> Figure:
    """Return the one figure of its key."""
    return seen.figures.setdefault(key, figure)


def unit_of(reading: Reading, visit: Visit) -> str:
    """Return the unit in which a reading stands on a paper.

    That is the paper's own for a pressure, else the one in which it was written; where a program made it, the one that
    its instrument shows.
    """
    value = reading.value
    if isinstance(value, Word):
        return ""
    if value.unit == "Pa":
        return visit.pressure_unit
    for dimension in MEASURE[reading.measure].dimensions:
        if dimension in DIMENSIONS and DIMENSIONS[dimension].si == value.unit:
            try:
                return parse_quantity(value.as_written, dimension).unit
            except QuantityError:
                break
    return UNIT_OF.get(value.unit, value.unit)


def places_for(value: float, unit: str, significant: int = SIGNIFICANT) -> int:
    """Return how many digits stand after the decimal sign, so that so many of a figure are told.

    >>> places_for(330948.3, "psi"), places_for(0.0121, "mA"), places_for(0.0, "V")
    (1, 1, 2)
    """
    known = unit_named(unit)
    size = abs(value / known.factor) if known else abs(value)
    if not size:
        return significant - 1
    return max(0, significant - 1 - floor(log10(size) + 1e-9))


def band_places(ends: tuple[float, float], unit: str) -> int:
    """Return how many digits the ends of a band have after the decimal sign: no more than an instrument shows.

    >>> band_places((-0.03, 0.05), "V"), band_places((65.2 * 6894.76, 77.1 * 6894.76), "psi")
    (2, 1)
    """
    return min(places_for(max(map(abs, ends)), unit), MOST_PLACES.get(unit, SIGNIFICANT))


def resistance_unit(largest: float) -> str:
    """Return the unit of resistance in which a figure needs fewest noughts.

    >>> resistance_unit(250.0), resistance_unit(100e3), resistance_unit(4.7e6)
    ('ohm', 'kohm', 'Mohm')
    """
    if largest < 1e3:
        return "ohm"
    return "kohm" if largest < 1e6 else "Mohm"


def band_line(number: int, seen: Occasion) -> Line:
    """Return the healthy band of a reading; an empty line where it has none."""
    band = seen.bands.get(number)
    if band is None:
        return ()
    return band_shown(band, seen, (*gauge_inputs(seen), *plate(seen)))


def band_shown(band: Band, seen: Occasion, inputs: tuple[Figure, ...]) -> Line:
    """Return a band as two figures that lead down to what they were made of, in the unit of the instrument."""
    unit = seen.visit.pressure_unit if band.unit == "Pa" else UNIT_OF[band.unit]
    places = band_places((band.low, band.high), unit)
    key = (band.low, band.high, band.unit)
    low, high = (seen.figures.setdefault((key, each.name), each) for each in band_figures(band, inputs))
    first = Shown(figure=low, unit=unit, places=places, bare=True)
    return (first, message("paper-to"), Shown(figure=high, unit=unit, places=places))


def band_figures(band: Band, inputs: tuple[Figure, ...]) -> tuple[Figure, Figure]:
    """Return the two ends of a healthy band as figures."""
    dimension = DIMENSION_OF[band.unit]
    low, high = (
        Figure(name=name, value=value, dimension=dimension, formula=BAND[name], inputs=inputs, source=GUM)
        for name, value in (("healthy-low", band.low), ("healthy-high", band.high))
    )
    return low, high


def figures_read(seen: Occasion) -> tuple[Figure, ...]:
    """Return every reading of one figure, as a figure."""
    plain = (r for r in seen.visit.readings if isinstance(r.value, ReadFigure) and r.value.unit not in {"1", "1/h"})
    return tuple(read_figure(reading, seen).figure for reading in plain)


def gauge_inputs(seen: Occasion) -> tuple[Figure, ...]:
    """Return the gauge readings that bands hang on."""
    gauges = (r for r in seen.visit.readings if r.measure == "gauge-pressure")
    read = [reading for reading in gauges if isinstance(reading.value, ReadFigure)]
    return tuple(read_figure(reading, seen).figure for reading in read[-1:])


def plate(seen: Occasion) -> tuple[Figure, ...]:
    """Return the ends of the sensor's range and signal, and its accuracy where the plate says it."""
    sensor = seen.visit.sensor
    current = "current" if sensor.signal.kind == "current" else "voltage"
    rows = [
        ("range-low", sensor.range.low, "pressure"), ("range-high", sensor.range.high, "pressure"),
        ("signal-low", sensor.signal.low, current), ("signal-high", sensor.signal.high, current),
    ]  # fmt: skip
    rows += [("sensor-accuracy", sensor.accuracy, "percent")] if sensor.accuracy is not None else []
    whence = "assumed" if seen.assumed else "plate"
    return tuple(_kept(seen, ("plate", name), given(name, value, dimension, whence)) for name, value, dimension in rows)
