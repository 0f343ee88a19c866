"""The density of water, its saturation, and gravity, as published."""

from __future__ import annotations

import pytest

from steadyhead.errors import RangeOfValidityError
from steadyhead.published.normal_gravity import gravity_m_per_s2
from steadyhead.published.water_density import density_kg_per_m3
from steadyhead.published.water_saturation import saturation_pressure_pa, saturation_temperature_k


@pytest.mark.parametrize(
    ("celsius", "printed"),
    [(0, 999.8428), (4, 999.9749), (15, 999.1026), (20, 998.2067), (25, 997.0470), (40, 992.2152)],
)
def test_the_density_of_water(celsius: float, printed: float) -> None:
    """Tanaka et al. 2001 (formula and 4 to 25 °C republished, 0 and 40 °C from memory), half the last digit."""
    assert density_kg_per_m3(celsius) == pytest.approx(printed, abs=0.5e-4)


def test_water_is_heaviest_at_its_published_temperature() -> None:
    """Inner relation: the formula's own constant, 3.983035 °C."""
    assert density_kg_per_m3(3.983035) == 999.974950
    assert density_kg_per_m3(3.9) < 999.974950 > density_kg_per_m3(4.1)


@pytest.mark.parametrize(("kelvin", "mpa"), [(300, "0.353658941e-2"), (500, "0.263889776e1"), (600, "0.123443146e2")])
def test_the_saturation_pressure_is_the_release_s_own_check(kelvin: float, mpa: str) -> None:
    """IAPWS R7-97(2012), table 35 (republished: tests of a public library; 500 K from memory), every digit."""
    digits = 0.5e-9 * 10.0 ** int(mpa.partition("e")[2])
    assert saturation_pressure_pa(kelvin) / 1e6 == pytest.approx(float(mpa), abs=digits * (1 + 1e-6))


@pytest.mark.parametrize(("mpa", "kelvin"), [(0.1, 372.755919), (1.0, 453.035632), (10.0, 584.149488)])
def test_the_saturation_temperature_is_the_release_s_own_check(mpa: float, kelvin: float) -> None:
    """IAPWS R7-97(2012), table 36 (republished for 0.1 MPa; the others from memory), every digit."""
    assert saturation_temperature_k(mpa * 1e6) == pytest.approx(kelvin, abs=0.5e-6)


def test_water_boils_at_its_triple_point_s_pressure_and_at_one_atmosphere() -> None:
    """IAPWS SR1-86(1992), table 1 (republished): 611.657 Pa at 273.16 K, 0.101325 MPa at 373.1243 K."""
    assert saturation_pressure_pa(273.16) == pytest.approx(611.657, abs=5e-4)
    assert saturation_pressure_pa(373.1243) == pytest.approx(101325.0, rel=2e-5)


@pytest.mark.parametrize(
    ("celsius", "pascal"), [(5, 873), (15, 1706), (20, 2339), (30, 4247), (60, 19946), (100, 101420)]
)
def test_the_vapour_pressures_of_a_standards_body(celsius: float, pascal: float) -> None:
    """Hydraulic Institute, Engineering Data Book (original; figures from NIST): half a unit, and 2e-5 between both."""
    assert saturation_pressure_pa(celsius + 273.15) == pytest.approx(pascal, abs=0.5 + 2e-5 * pascal)


@pytest.mark.parametrize("kelvin", [274.0, 290.0, 320.0, 373.15, 500.0, 640.0])
def test_temperature_and_pressure_undo_each_other(kelvin: float) -> None:
    """Both solve the same equation."""
    assert saturation_temperature_k(saturation_pressure_pa(kelvin)) == pytest.approx(kelvin, abs=1e-9)


@pytest.mark.parametrize(
    ("latitude", "printed", "digit"), [(0, 9.7803267715, 1e-10), (45, 9.806199203, 1e-9), (90, 9.8321863685, 1e-9)]
)
def test_normal_gravity(latitude: float, printed: float, digit: float) -> None:
    """Moritz, Geodetic Reference System 1980 (from memory): equator, 45° and pole.

    At the pole the closed formula, with its constants as printed, is 4e-10 off the printed figure.
    """
    assert gravity_m_per_s2(latitude) == pytest.approx(printed, abs=digit)


def test_gravity_is_the_same_north_and_south_and_less_above() -> None:
    """Symmetry; the free-air gradient, 0.3086 mGal a metre (from memory)."""
    assert gravity_m_per_s2(-52.0) == gravity_m_per_s2(52.0)
    assert gravity_m_per_s2(52.0) - gravity_m_per_s2(52.0, 1000.0) == pytest.approx(308.6e-5, abs=1e-9)


@pytest.mark.parametrize(
    ("ask", "outside"),
    [
        (density_kg_per_m3, (-0.1, 40.1)),
        (saturation_pressure_pa, (273.14, 647.1)),
        (saturation_temperature_k, (611.0, 22.1e6)),
        (gravity_m_per_s2, (-90.1, 90.1)),
    ],
)
def test_outside_its_range_a_formula_is_refused(ask: object, outside: tuple[float, float]) -> None:
    """The ranges of validity."""
    assert callable(ask)
    for one in (*outside, float("nan")):
        with pytest.raises(RangeOfValidityError, match=r"^outside-range-of-validity "):
            ask(one)
