"""What copper wires resist, against printed tables, another library and their own inner relations."""

from __future__ import annotations

from itertools import pairwise
from math import pi

import pytest
from fluids.piping import t_from_gauge

from steadyhead.errors import RangeOfValidityError
from steadyhead.published import conductor_awg, conductor_iec60228
from steadyhead.published.conductors import conductor_ohm_per_m

FEET_PER_M = 1 / 0.3048
MIL_MM = 0.0254

#: Gauge; diameter [mil], diameter [mm], area [circular mil], resistance at 20 degC [ohm/1000 ft].
#: Public wire tables after ASTM B258 and NBS Handbook 100 (republished copies were read).
PRINTED_AWG = [
    (10, "101.9", "2.588", "10380", "0.9989"),
    (14, "64.08", "1.628", "4107", "2.525"),
    (18, "40.30", "1.024", "1624", "6.385"),
    (22, "25.35", "0.6438", "642.4", "16.14"),
]


def _half_a_digit(printed: str) -> float:
    """Return half a unit of the last of four significant digits."""
    before, _, after = printed.partition(".")
    return 0.5 * 10.0 ** (-len(after) if after else len(before) - 4)


@pytest.mark.parametrize(("gauge", "mil", "mm", "cmil", "ohm_per_kft"), PRINTED_AWG)
def test_a_gauge_is_as_thick_as_the_wire_tables_print_it(
    gauge: int, mil: str, mm: str, cmil: str, ohm_per_kft: str
) -> None:
    """Expected: public wire tables, half a unit of the last digit; the resistance of 10 is printed 1e-4 high."""
    diameter = conductor_awg.diameter_mm(gauge)
    assert diameter / MIL_MM == pytest.approx(float(mil), abs=_half_a_digit(mil))
    assert diameter == pytest.approx(float(mm), abs=_half_a_digit(mm))
    assert (diameter / MIL_MM) ** 2 == pytest.approx(float(cmil), abs=_half_a_digit(cmil))
    last_digit_and_rounding = max(_half_a_digit(ohm_per_kft), 1.1e-4 * float(ohm_per_kft))
    ours = conductor_awg.ohm_per_m(gauge) * 1000 / FEET_PER_M
    assert ours == pytest.approx(float(ohm_per_kft), abs=last_digit_and_rounding)


@pytest.mark.parametrize("gauge", [4, 8, 12, 14, 18, 22, 26, 30])
def test_another_library_has_the_same_diameters(gauge: int) -> None:
    """Expected: the library fluids, whose table is rounded to 0.01 mil or so."""
    half_a_digit_of_theirs_mm = 0.005 * 0.0254 * 10
    theirs = t_from_gauge(gauge, schedule="AWG") * 1000
    assert conductor_awg.diameter_mm(gauge) == pytest.approx(theirs, abs=half_a_digit_of_theirs_mm)


def test_39_gauges_apart_lies_a_factor_of_92() -> None:
    """Expected: the definition of the gauge: 36 is 0.005 in, 4/0 is 0.46 in."""
    assert conductor_awg.diameter_mm(36) == pytest.approx(0.127, rel=1e-15)
    assert conductor_awg.diameter_mm(-3) == pytest.approx(0.46 * 25.4, rel=1e-14)


@pytest.mark.parametrize("gauge", range(-3, 41))
def test_resistance_times_area_is_the_resistivity_of_copper(gauge: int) -> None:
    """Expected: 0.0172414 ohm mm2/m, 100 % IACS (from memory of NBS Handbook 100), for every gauge."""
    product = conductor_awg.ohm_per_m(gauge) * conductor_awg.area_m2(gauge) * 1e6
    assert product == pytest.approx(0.0172414, abs=5e-8)
    assert conductor_awg.area_m2(gauge) == pytest.approx(pi / 4 * (conductor_awg.diameter_mm(gauge) / 1000) ** 2)


def test_copper_is_10_371_ohm_circular_mil_per_foot() -> None:
    """Expected: 10.371 (NBS Handbook 100 and IEC 60028, from memory), half a unit of the last digit."""
    per_foot = conductor_awg.IACS_OHM_MM2_PER_M / FEET_PER_M
    assert per_foot / (pi / 4 * MIL_MM**2) == pytest.approx(10.371, abs=5e-4)


@pytest.mark.parametrize(
    ("gauge", "celsius", "ohm_per_kft", "allowance"),
    [
        (14, 75, 3.07, 0.005),  # NFPA 70 chapter 9 table 8, solid, uncoated (republished)
        (12, 75, 1.93, 0.005),  # the same
        (14, 75, 3.071, 0.0005 + 0.0006),  # 2.525 times 1.21615, by hand; 2.525 is rounded itself
        (14, 50, 2.823, 0.0005 + 0.0006),  # 2.525 times 1.1179, by hand
        (12, 75, 1.931, 0.0005 + 0.0006),  # 1.588 times 1.21615, by hand
    ],
)
def test_a_warm_wire_resists_as_much_as_the_code_prints(
    gauge: int, celsius: float, ohm_per_kft: float, allowance: float
) -> None:
    """Expected: beside each case; half a unit of the last digit."""
    ours = conductor_awg.ohm_per_m(gauge, celsius) * 1000 / FEET_PER_M
    assert ours == pytest.approx(ohm_per_kft, abs=allowance)


def test_a_loop_of_300_m_of_18_gauge_drops_a_quarter_of_a_volt() -> None:
    """Expected: 2 x 300 m x 20.948 ohm/km = 12.57 ohm, 0.251 V at 20 mA (by hand from the wire tables)."""
    ohm = 2 * 300 * conductor_awg.ohm_per_m(18)
    assert ohm == pytest.approx(12.57, abs=0.005)
    assert ohm * 0.02 == pytest.approx(0.251, abs=0.0005)


@pytest.mark.parametrize("gauge", range(-3, 41))
def test_the_gauge_nearest_to_a_gauges_own_area_is_itself(gauge: int) -> None:
    """Expected: a round trip, also for a wire a few percent off."""
    for factor in (0.92, 1.0, 1.08):
        assert conductor_awg.nearest_gauge(conductor_awg.area_m2(gauge) * factor) == gauge


@pytest.mark.parametrize("area", [0.0, -1e-6, 1e-9, 1e-3, float("nan")])
def test_no_gauge_is_near_to_an_area_outside_the_table(area: float) -> None:
    """Expected: a refusal, not the nearest end."""
    with pytest.raises(RangeOfValidityError, match=r"^outside-range-of-validity "):
        conductor_awg.nearest_gauge(area)


#: Area [mm2], class 2 and class 5 [ohm/km]: a second public copy of IEC 60228:2004, typed from its own page.
SECOND_COPY = """
0.5  36.0  39.0
0.75 24.5  26.0
1.0  18.1  19.5
1.5  12.1  13.3
2.5  7.41  7.98
4    4.61  4.95
6    3.08  3.30
10   1.83  1.91
16   1.15  1.21
25   0.727 0.780
35   0.524 0.554
50   0.387 0.386
"""


def test_the_metric_table_is_that_of_a_second_copy_line_by_line() -> None:
    """Expected: another public copy of the same tables."""
    rows = [tuple(float(figure) for figure in line.split()) for line in SECOND_COPY.strip().splitlines()]
    assert list(conductor_iec60228.ROWS) == rows


@pytest.mark.parametrize("row", conductor_iec60228.ROWS)
def test_a_row_of_the_metric_table_is_answered_as_printed(row: tuple[float, float, float]) -> None:
    """Expected: the printed figure at 20 degC."""
    area, class2, class5 = row
    assert conductor_iec60228.ohm_per_m(area, conductor="class 2") * 1000 == pytest.approx(class2, rel=1e-14)
    assert conductor_iec60228.ohm_per_m(area, conductor="class 5") * 1000 == pytest.approx(class5, rel=1e-14)


@pytest.mark.parametrize("row", conductor_iec60228.ROWS)
def test_no_metric_conductor_is_better_than_pure_copper_or_much_worse(row: tuple[float, float, float]) -> None:
    """Expected: a greatest resistance lies above that of its nominal area in pure copper, at most 17 % above it."""
    area, class2, class5 = row
    for ohm_per_km in (class2, class5):
        assert 1.0 < ohm_per_km * area * 58 / 1000 < 1.17


@pytest.mark.parametrize(
    ("celsius", "k_t"),
    [
        (5, 1.064),
        (10, 1.042),
        (15, 1.020),
        (20, 1.000),
        (25, 0.980),
        (30, 0.962),
        (40, 0.926),
        (50, 0.893),
        (60, 0.862),
    ],
)
def test_the_temperature_factor_is_the_standards_own(celsius: float, k_t: float) -> None:
    """Expected: k_t of IEC 60228 (a republished copy); 0.00393 would print 1.041 and 0.894 at 10 and 50 degC."""
    assert 1 / conductor_iec60228.temperature_factor(celsius) == pytest.approx(k_t, abs=0.0005)


def test_between_two_rows_the_resistance_lies_between_theirs_and_falls() -> None:
    """Expected: monotonic in area, from 0.05 to 50 mm2."""
    areas = [0.05 * 1.05**n for n in range(141)]
    ohms = [conductor_iec60228.ohm_per_m(area) for area in areas]
    assert all(left > right for left, right in pairwise(ohms))


def test_below_the_first_row_resistance_is_resistivity_over_area() -> None:
    """Expected: 39.0 ohm/km x 0.5 mm2 / 0.25 mm2 = 78.0 ohm/km; a public table prints 76 to 79 for 0.25 mm2."""
    assert conductor_iec60228.ohm_per_m(0.25) * 1000 == pytest.approx(78.0, rel=1e-12)


@pytest.mark.parametrize("area", [0.049, 50.1, 0.0, -1.0, float("nan")])
def test_an_area_outside_the_table_is_refused(area: float) -> None:
    """Expected: the range of validity."""
    with pytest.raises(RangeOfValidityError, match=r"^outside-range-of-validity "):
        conductor_iec60228.ohm_per_m(area)


def test_one_question_finds_the_table_that_the_area_comes_from() -> None:
    """Expected: 20.948 ohm/km for 18 AWG (wire tables), 19.5 ohm/km for 1 mm2 of class 5 (IEC 60228)."""
    assert conductor_ohm_per_m(conductor_awg.area_m2(18)) * 1000 == pytest.approx(20.948, abs=0.0015)
    assert conductor_ohm_per_m(1e-6) * 1000 == pytest.approx(19.5, rel=1e-12)
    assert conductor_ohm_per_m(1e-6, 50.0) * 1000 == pytest.approx(19.5 * 1.12, rel=1e-12)


@pytest.mark.parametrize("area", [0.05e-6, 0.5e-6, 0.82e-6, 49e-6, 100e-6])
@pytest.mark.parametrize("celsius", [-41.0, 121.0, float("nan")])
def test_a_temperature_beyond_a_cables_is_refused(area: float, celsius: float) -> None:
    """Expected: the range of validity; so is 100 mm2, which is no gauge and above the metric table."""
    with pytest.raises(RangeOfValidityError, match=r"^outside-range-of-validity "):
        conductor_ohm_per_m(area, celsius)
