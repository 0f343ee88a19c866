"""What the characteristics of a sensor must obey, whatever its readings."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.sensorcheck.characteristics import Characteristics, characteristics
from tests.sensorcheck.runs import HOUSE, PSI, shown_run, swept

ONE_MILLIPASCAL = 1e-3
FEW = settings(max_examples=25, deadline=None)
OFF = st.integers(-3000, 3000)
LEVELS = [0.0, 20.0, 40.0, 60.0, 80.0, 100.0]
PLACES = swept(LEVELS, cycles=2)
OFFS = st.lists(OFF, min_size=len(PLACES), max_size=len(PLACES))


def run_of(offs: list[int], shift: float = 0.0, stretch: float = 0.0) -> Characteristics:
    """Return the characteristics of a sensor that is off by so many pascal at each place."""
    rows = [
        (true * PSI, true * PSI * (1.0 + stretch) + off + shift, way, cycle)
        for (true, way, cycle), off in zip(PLACES, offs, strict=True)
    ]
    return characteristics(shown_run(HOUSE, rows))


def shape(found: Characteristics) -> list[float]:
    """Return what does not depend on zero: span error, the three linearities, hysteresis, repeatability."""
    assert found.linearity is not None
    lines = (found.linearity.terminal, found.linearity.least_squares, found.linearity.independent)
    figures = (found.sensor_span, *lines, found.hysteresis, found.repeatability)
    return [each.value for each in figures if each is not None]


@FEW
@given(OFFS, st.integers(-50000, 50000))
def test_shifting_all_readings_shifts_the_zero_error_and_nothing_else(offs: list[int], shift: int) -> None:
    """A property: a constant has no span, no bend, no way up or down, and no spread."""
    before, after = run_of(offs), run_of(offs, shift=shift)
    assert before.zero is not None
    assert after.zero is not None
    assert after.zero.value - before.zero.value == pytest.approx(shift, abs=ONE_MILLIPASCAL)
    assert shape(after) == pytest.approx(shape(before), abs=ONE_MILLIPASCAL)
    assert after.most.value - before.most.value == pytest.approx(shift, abs=ONE_MILLIPASCAL)


@FEW
@given(OFFS, st.floats(-0.05, 0.05))
def test_stretching_a_sensor_moves_its_span_error_and_no_bend(offs: list[int], stretch: float) -> None:
    """A property: a slope adds itself to the span error, and no line's deviation knows of it."""
    before, after = run_of(offs), run_of(offs, stretch=stretch)
    expected = shape(before)
    assert shape(after)[0] - expected[0] == pytest.approx(stretch * 100 * PSI, abs=ONE_MILLIPASCAL)
    assert shape(after)[1:] == pytest.approx(expected[1:], abs=ONE_MILLIPASCAL)


@FEW
@given(st.integers(-30000, 30000), st.floats(-0.05, 0.05))
def test_a_straight_sensor_has_no_bend_no_way_and_no_spread(shift: int, stretch: float) -> None:
    """A closed form: error = shift + stretch x pressure."""
    found = run_of([0] * len(PLACES), shift=shift, stretch=stretch)
    assert shape(found)[1:] == pytest.approx([0.0] * 5, abs=ONE_MILLIPASCAL)
    assert found.zero is not None
    assert found.zero.value == pytest.approx(shift, abs=ONE_MILLIPASCAL)


@FEW
@given(OFFS)
def test_the_order_of_cycles_does_not_matter(offs: list[int]) -> None:
    """A property: a spread and a mean know no order."""
    rows = [(true * PSI, true * PSI + off, way, cycle) for (true, way, cycle), off in zip(PLACES, offs, strict=True)]
    swapped = [*rows[len(rows) // 2 :], *rows[: len(rows) // 2]]
    first, second = characteristics(shown_run(HOUSE, rows)), characteristics(shown_run(HOUSE, swapped))
    assert shape(first) == shape(second)
    assert (first.most.value, first.least.value) == (second.most.value, second.least.value)


@FEW
@given(OFFS)
def test_the_independent_line_is_the_least_of_three(offs: list[int]) -> None:
    """A property of its definition; and the terminal-based is never more than twice it (both ends lie on its line)."""
    _, terminal, squares, independent, _, _ = shape(run_of(offs))
    assert independent <= min(terminal, squares) + ONE_MILLIPASCAL
    assert terminal <= 2.0 * independent + ONE_MILLIPASCAL


@FEW
@given(OFFS, st.floats(0.5, 20.0))
def test_all_figures_grow_with_the_unit(offs: list[int], times: float) -> None:
    """A property: a sensor of another range with all else in proportion has the same figures in percent of span."""
    rows = [(true * PSI, true * PSI + off, way, cycle) for (true, way, cycle), off in zip(PLACES, offs, strict=True)]
    small = characteristics(shown_run(HOUSE, rows))
    grown = replace(HOUSE, range=replace(HOUSE.range, high=HOUSE.range.high * times))
    large = characteristics(shown_run(grown, [(a * times, b * times, way, cycle) for a, b, way, cycle in rows]))
    assert large.of_span(large.least).value == pytest.approx(small.of_span(small.least).value, rel=1e-9, abs=1e-12)
    assert large.of_span(large.most).value == pytest.approx(small.of_span(small.most).value, rel=1e-9, abs=1e-12)
