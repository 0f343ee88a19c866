"""What is written reads back: a visit to the last bit of every float, a person's own text to its last digit."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from steadyhead.loop.vocabulary import ARRANGEMENTS, DISPLAYED_FAULTS, INSPECTION_ITEMS, INSPECTION_VALUES, INSTRUMENTS
from steadyhead.quantities import parse, parse_range
from steadyhead.visit import dump_visit, parse_visit
from steadyhead.visit.exact import exact, exact_range
from steadyhead.visit.record import (
    Action,
    Beyond,
    Cable,
    Closed,
    Complaint,
    Controller,
    Declined,
    Former,
    Gauge,
    Instruments,
    Interval,
    Place,
    Reading,
    Sensor,
    Signal,
    Site,
    Spread,
    Tolerance,
    Visit,
    Word,
)
from steadyhead.visit.remedies import REMEDIES


def _figures(low: float, high: float) -> st.SearchStrategy[float]:
    return (
        st.floats(low, high, allow_nan=False).map(lambda value: value or 0.0).filter(lambda x: x == 0 or abs(x) > 1e-9)
    )


def _intervals(low: float, high: float) -> st.SearchStrategy[Interval]:
    ends = st.tuples(_figures(low, high), _figures(low, high)).filter(lambda pair: pair[0] != pair[1])
    return ends.map(lambda pair: Interval(*sorted(pair)))


def _maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


NAMES = st.text(st.characters(codec="utf-8"), max_size=30)
TOLERANCES = st.builds(Tolerance, _figures(1e-4, 0.5), _figures(1e-6, 10.0)) | st.builds(
    lambda count, size: Tolerance(0.005, size * count, size),
    st.integers(1, 20),
    st.sampled_from([0.1, 0.01, 0.001, 1.0]),
)
SIGNALS = st.one_of(
    st.just(Signal(kind="ratiometric", low=0.5, high=4.5, wires=3)),
    _intervals(-10.0, 30.0).map(lambda i: Signal(kind="voltage", low=i.low, high=i.high, wires=3)),
    st.builds(lambda wires: Signal(kind="current", low=0.004, high=0.02, wires=wires), st.sampled_from([2, 3])),
)


FORMERS = st.builds(
    Former,
    ended=_maybe(st.dates().map(lambda day: day.isoformat())),
    ago_s=_maybe(_figures(0.0, 1e9)),
    believed=st.dictionaries(st.sampled_from(["sensor-open", "none", "a-pair"]), _figures(1e-6, 0.33)).map(
        lambda shares: tuple(
            (fault.replace("a-pair", "controller-input-dead+sensor-open"), share)
            for fault, share in shares.items()
            if share > 0
        )
    ),
    mended=st.lists(st.sampled_from(REMEDIES), max_size=2).map(tuple),
    counts=st.booleans(),
)


@st.composite
def visits(draw: st.DrawFn) -> Visit:
    """Draw any visit that a file can say."""
    signal = draw(SIGNALS)
    absolute = draw(st.booleans())
    pressures = _intervals(1.0, 4e6)
    faults = draw(_maybe(_intervals(1e-6, 20.0))) or Interval(1.0, 2.0)
    readings = tuple(_numbered(draw(st.lists(READINGS, max_size=5))))
    return Visit(
        site=Site(name=draw(_maybe(NAMES)), altitude_m=draw(_maybe(_figures(-400, 8000)))),
        sensor=Sensor(
            signal=signal,
            range=draw(pressures),
            reference="absolute" if absolute else "sealed",
            accuracy=draw(_maybe(_figures(1e-5, 1.0))),
            supply=draw(_maybe(_figures(1.0, 40.0).map(lambda v: Interval(v, v)) | _intervals(1.0, 40.0))),
        ),
        cable=Cable(
            length_m=draw(_maybe(_figures(0.01, 5000))),
            conductor_m2=draw(_maybe(_figures(0.06e-6, 49e-6))),
            temperature_c=draw(_maybe(_figures(-39, 119))),
        ),
        controller=Controller(
            scaled=draw(_maybe(pressures)),
            input_resistance_ohm=draw(_maybe(_figures(0.1, 1e9))),
            low_fault=faults.low,
            high_fault=faults.high,
            common_earthed=draw(st.booleans()),
            display=draw(st.sampled_from(["open", "clamped"])),
            on_signal_loss=draw(_maybe(st.sampled_from(["stop", "preset", "full", "hold"]))),
            auto_restart=draw(_maybe(st.booleans())),
        ),
        place=Place(walk_s=draw(_maybe(_figures(0.0, 7200.0))), cock=draw(_maybe(st.booleans()))),
        instruments=Instruments(
            gauge=draw(
                _maybe(
                    st.builds(
                        Gauge,
                        range=_maybe(pressures),
                        grade=_maybe(st.sampled_from(["B", "1.6"])),
                        accuracy=_maybe(_figures(1e-4, 0.2)),
                    )
                )
            ),
            volts=draw(_maybe(TOLERANCES)),
            milliamps=draw(_maybe(TOLERANCES)),
            ohms=draw(_maybe(TOLERANCES)),
            have=draw(_maybe(st.lists(st.sampled_from(INSTRUMENTS)).map(tuple))),
        ),
        labels=draw(st.dictionaries(st.sampled_from(["controller.supply", "wire.signal", "earth"]), NAMES)),
        complaint=Complaint(
            text=draw(_maybe(NAMES)),
            shown=draw(st.lists(st.sampled_from(DISPLAYED_FAULTS)).map(tuple)),
            since=draw(_maybe(st.just("gradual"))),
        ),
        former=draw(FORMERS),
        readings=readings,
        declined=draw(
            st.lists(
                st.builds(
                    Declined,
                    measure=st.just("volts"),
                    arrangement=_maybe(st.sampled_from(list(ARRANGEMENTS))),
                    why=_maybe(NAMES),
                ),
                max_size=2,
            ).map(tuple)
        ),
        actions=draw(
            st.lists(
                st.builds(Action, remedy=st.sampled_from(REMEDIES), after_reading=st.integers(0, len(readings))),
                max_size=2,
            ).map(tuple)
        ),
        closed=draw(
            st.builds(
                Closed,
                fault=st.sampled_from(["none", "vacuum", "controller-input-dead+sensor-open", "none-of-these"]),
                proved=st.booleans(),
                second_trip=_maybe(st.booleans()),
            )
            | st.just(Closed())
        ),
    )


def _values(unit: str, low: float, high: float) -> st.SearchStrategy[Any]:
    """Draw values without a resolution of their own: their last digit is what the writing makes of it."""
    spreads = _intervals(low, high).map(lambda i: Spread(i.low, i.high, unit))
    watched = st.builds(replace, spreads, over_s=_figures(1.0, 36000.0))
    beyond = st.builds(Beyond, st.sampled_from(["above", "below"]), _maybe(_figures(low, high)), st.just(unit))
    return spreads | watched | beyond


READINGS = st.one_of(
    st.builds(
        Reading,
        number=st.just(1),
        measure=st.just("gauge-pressure"),
        value=_values("Pa", 0.0, 4e6),
        tap=_maybe(NAMES),
        height_m=_maybe(_figures(-5, 5)),
        whose=st.sampled_from(["site", "own"]),
        took_s=_maybe(_figures(1.0, 36000.0)),
    ),
    st.builds(
        Reading,
        number=st.just(1),
        measure=st.just("volts"),
        value=_values("V", -30.0, 30.0),
        red=st.just("controller.signal"),
        black=st.just("controller.supply"),
        pressure_pa=_maybe(_figures(0.0, 1e6)),
    ),
    st.builds(
        Reading,
        number=st.just(1),
        measure=st.just("ohms"),
        value=_values("ohm", 0.0, 1e9),
        red=st.just("wire.signal"),
        black=st.just("wire.supply"),
        arrangement=st.just("dead-looped"),
        drive=st.just("off"),
    ),
    st.builds(
        Reading,
        number=st.just(1),
        measure=st.just("inspection"),
        value=st.sampled_from(INSPECTION_VALUES).map(Word),
        item=st.sampled_from(INSPECTION_ITEMS),
        drive=st.just("fixed-speed"),
        hertz=_maybe(_figures(1.0, 80.0)),
    ),
)


def _numbered(readings: list[Reading]) -> list[Reading]:
    return [replace(reading, number=number) for number, reading in enumerate(readings, start=1)]


@given(visits())
def test_a_visit_written_to_a_file_reads_back_identical(visit: Visit) -> None:
    """A round trip: every float to its last bit, every word, every text."""
    assert parse_visit(dump_visit(visit)).visit == visit


@given(st.sampled_from(["48 psi", "3.30 bar", "1.1e2 kPa", "0.0 psi", "14 mH2O", "-3 inHg"]))
def test_a_person_s_own_text_survives_with_its_last_digit(text: str) -> None:
    """A round trip of the resolution too."""
    head = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n'
    visit = parse_visit(f'{head}[[reading]]\nmeasure = "gauge-pressure"\nvalue = "{text}"\n').visit
    again = parse_visit(dump_visit(visit)).visit
    assert again == visit
    assert f'value = "{text}"' in dump_visit(visit)


DIMENSIONS = [
    "pressure",
    "voltage",
    "current",
    "resistance",
    "percent",
    "length",
    "time",
    "frequency",
    "flow",
    "temperature",
]


@given(st.sampled_from(DIMENSIONS), _figures(-270.0, 1e12), _figures(1.0, 1e6))
def test_a_figure_written_exactly_reads_back_to_the_last_bit(dimension: str, value: float, width: float) -> None:
    """Expected: the same float."""
    assert parse(exact(value, dimension), dimension) == value
    if value + width > value:
        assert parse_range(exact_range(value, value + width, dimension), dimension) == (value, value + width)
