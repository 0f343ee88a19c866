"""What a current says about itself, and how far a gauge may be off."""

from __future__ import annotations

import pytest

from steadyhead.errors import RangeOfValidityError, UnknownWordError
from steadyhead.published import current_signal_bands, gauge_classes, gauge_grades
from steadyhead.published.current_signal_bands import BANDS, band, fraction_of_range
from steadyhead.quantities import parse

# Limits: NAMUR NE 43:2003 as several public explainers give them (republished).
CURRENTS = [
    ("-5 mA", "failure-low"),
    ("0 mA", "failure-low"),
    ("3.6 mA", "failure-low"),
    ("3.601 mA", "undefined-low"),
    ("3.7 mA", "undefined-low"),
    ("3.799 mA", "undefined-low"),
    ("3.8 mA", "below-range"),
    ("3.999 mA", "below-range"),
    ("4 mA", "in-range"),
    ("12 mA", "in-range"),
    ("20 mA", "in-range"),
    ("20.001 mA", "above-range"),
    ("20.5 mA", "above-range"),
    ("20.501 mA", "undefined-high"),
    ("20.999 mA", "undefined-high"),
    ("21 mA", "failure-high"),
    ("22 mA", "failure-high"),
]


@pytest.mark.parametrize(("text", "expected"), CURRENTS)
def test_a_current_is_measurement_or_failure_or_neither(text: str, expected: str) -> None:
    """Expected: measurement 3.8 to 20.5 mA, failure to 3.6 and from 21 mA; the gaps belong to neither."""
    assert band(parse(text, "current")) == expected


def test_a_limit_reached_by_arithmetic_is_still_the_limit() -> None:
    """Expected: a rounding error of a float does not turn failure into something else."""
    assert band(3 * 0.0012) == "failure-low"
    assert band(0.021000000000000001) == "failure-high"
    assert band(0.0038 - 1e-18) == "below-range"


def test_every_current_lies_in_exactly_one_band() -> None:
    """Expected: the bands cover the line without overlap, the limits themselves included."""
    for microamperes in range(-1000, 25001, 10):
        assert sum(one.holds(microamperes / 1000) for one in BANDS) == 1, microamperes


@pytest.mark.parametrize(
    ("ma", "percent"), [(3.8, -1.25), (20.5, 103.125), (3.6, -2.5), (21.0, 106.25), (4, 0), (8, 25), (20, 100)]
)
def test_a_current_stands_at_its_percentage_of_the_range(ma: float, percent: float) -> None:
    """Expected: I = 4 + 16 x (IEC 60381-1, from memory); -1.25 % and 103.125 % are also printed in a public note."""
    assert fraction_of_range(ma / 1000) * 100 == pytest.approx(percent, abs=1e-9)


@pytest.mark.parametrize("current", [0.2, -0.2, float("nan")])
def test_a_current_that_no_loop_carries_is_refused(current: float) -> None:
    """Expected: the range of validity."""
    for ask in (band, fraction_of_range):
        with pytest.raises(RangeOfValidityError, match=r"^outside-range-of-validity "):
            ask(current)


@pytest.mark.parametrize(("place", "psi"), [(0.2, 3), (0.5, 2), (0.8, 3), (0.0, 3), (0.25, 2), (0.75, 2), (1.0, 3)])
def test_a_grade_b_gauge_of_100_psi_may_be_off_by_so_much(place: float, psi: float) -> None:
    """Expected: 3/2/3 % of span by quarter, middle half, quarter (ASME B40.100, from memory)."""
    assert gauge_grades.allowed_error("B", place) * 100 == pytest.approx(psi, abs=1e-12)


#: A republished list with one figure a grade: the largest of its quarters, percent of span.
ONE_FIGURE = {"4A": 0.1, "1A": 1.0, "A": 2.0, "B": 3.0, "D": 5.0}


@pytest.mark.parametrize("row", gauge_grades.ROWS, ids=lambda row: row[0])
def test_a_grade_is_symmetrical_and_best_in_the_middle(row: tuple[str, float, float, float]) -> None:
    """Expected: inner relations of the table; its largest figure is that of the republished list."""
    grade, lower, middle, upper = row
    assert lower == upper
    assert middle <= lower
    assert ONE_FIGURE.get(grade, lower) == lower


def test_grades_are_in_the_order_of_their_accuracy() -> None:
    """Expected: each grade allows more than the one before it."""
    middles = [row[2] for row in gauge_grades.ROWS]
    lowers = [row[1] for row in gauge_grades.ROWS]
    assert lowers == sorted(set(lowers))
    assert middles == sorted(middles)


def test_an_unknown_grade_is_answered_with_the_known_ones() -> None:
    """Expected: all words, the nearest named."""
    with pytest.raises(UnknownWordError, match=r"^gauge-grade-unknown ") as refused:
        gauge_grades.allowed_error("grade b", 0.5)
    assert refused.value.message.values["nearest"] == ("B",)
    assert refused.value.message.values["must_be"] == gauge_grades.GRADES


@pytest.mark.parametrize("place", [-0.01, 1.01, float("nan")])
def test_a_pointer_off_the_scale_has_no_grade(place: float) -> None:
    """Expected: the range of validity."""
    with pytest.raises(RangeOfValidityError, match=r"^outside-range-of-validity "):
        gauge_grades.allowed_error("B", place)


def test_a_class_1_6_gauge_of_10_bar_may_be_off_by_0_16_bar() -> None:
    """Expected: EN 837-1 (a transcription; the same example is in public test instructions)."""
    assert gauge_classes.allowed_error("1.6") * 10 == pytest.approx(0.16, abs=1e-12)


@pytest.mark.parametrize("row", gauge_classes.ROWS, ids=lambda row: row[0])
def test_a_class_is_its_own_percentage(row: tuple[str, float]) -> None:
    """Expected: the class is the limit of error in percent of span."""
    name, percent = row
    assert float(name) == percent
    assert gauge_classes.allowed_error(name) == pytest.approx(percent / 100, rel=1e-15)


@pytest.mark.parametrize(("text", "percent"), [("1.0", 1.0), ("2,5", 2.5), ("4.0", 4.0), (" 1 ", 1.0)])
def test_a_class_may_be_written_as_dials_print_it(text: str, percent: float) -> None:
    """Expected: 1.0 is 1, and a decimal comma is a full stop."""
    assert gauge_classes.allowed_error(text) == pytest.approx(percent / 100, rel=1e-15)


def test_an_unknown_class_is_answered_with_the_known_ones() -> None:
    """Expected: all words, the nearest first."""
    with pytest.raises(UnknownWordError, match=r"^gauge-class-unknown ") as refused:
        gauge_classes.allowed_error("1.5")
    nearest = refused.value.message.values["nearest"]
    assert isinstance(nearest, tuple)
    assert "1.6" in nearest
    assert current_signal_bands.TABLE.note
