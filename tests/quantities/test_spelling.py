"""SI values as text that a technician would write."""

from __future__ import annotations

import pytest

from steadyhead.errors import QuantityError
from steadyhead.quantities import spell, spell_engineering, spell_figure, spell_ohms, spell_range


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [
        (430000.0, "bar", "4.3 bar"),
        (101325.0, "Pa", "101325 Pa"),
        (101325.0, "psia", "14.7 psia"),  # 14.6959 psi, NIST SP 811 factors
        (689475.7293, "psi", "100 psi"),
        (-20000.0, "bar", "-0.2 bar"),
        (0.012, "mA", "12 mA"),
        (0.0119996, "mA", "12 mA"),
        (9.9996, "V", "10 V"),
        (0.0, "V", "0 V"),
        (-0.0, "V", "0 V"),
        (-1e-20, "V", "-1e-20 V"),
        (2.5e-9, "V", "2.5e-09 V"),
        (20.0, "degF", "68 degF"),
        (0.005, "%", "0.5 %"),
        (0.5e-6, "mm2", "0.5 mm2"),
        (0.3255e-6, "AWG", "22 AWG"),
        (67.43e-6, "AWG", "2/0 AWG"),
    ],
)
def test_a_value_is_spelled_with_sensible_figures(value: float, unit: str, expected: str) -> None:
    """Expected: by hand, three figures, none before the decimal sign lost."""
    assert spell(value, unit) == expected


def test_zeros_are_kept_where_they_tell_the_resolution() -> None:
    """Expected: a meter's 2.50 V is not a 2.5 V."""
    assert spell(2.5, "V", keep_zeros=True) == "2.50 V"
    assert spell(2.5, "V", digits=5, keep_zeros=True) == "2.5000 V"


@pytest.mark.parametrize(
    ("ohms", "expected"),
    [
        (220, "220 ohm"),
        (4700, "4.7 kohm"),
        (1e6, "1 Mohm"),
        (999.4, "999 ohm"),
        (999.6, "1 kohm"),
        (1e5, "100 kohm"),
        (1e11, "100 Gohm"),
        (5e12, "5000 Gohm"),
        (0.05, "50 mohm"),
        (2e-6, "0.002 mohm"),
        (0, "0 ohm"),
        (-4700, "-4.7 kohm"),
    ],
)
def test_a_resistance_is_said_with_fewest_noughts(ohms: float, expected: str) -> None:
    """Expected: as it is printed on a drawing."""
    assert spell_ohms(ohms) == expected


@pytest.mark.parametrize(
    ("value", "dimension", "expected"),
    [(0.012, "current", "12 mA"), (0.5, "voltage", "500 mV"), (90.0, "time", "1.5 min"), (0.0, "time", "0 s")],
)
def test_other_quantities_find_their_unit_too(value: float, dimension: str, expected: str) -> None:
    """Expected: by hand."""
    assert spell_engineering(value, dimension) == expected


def test_a_range_is_spelled_as_the_file_has_it() -> None:
    """Expected: the spelling of the visit file."""
    assert spell_range(0.004, 0.02, "mA") == "4..20 mA"
    assert spell_range(-103421.3594, 1103161.1669, "psi") == "-15..160 psi"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_not_finite_is_not_spelled(value: float) -> None:
    """Expected: no file may hold a figure that nobody can read again."""
    with pytest.raises(QuantityError, match=r"^number-out-of-range "):
        spell(value, "V")
    with pytest.raises(QuantityError, match=r"^number-out-of-range "):
        spell_ohms(value)


def test_an_unknown_unit_is_not_spelled() -> None:
    """Expected: only canonical symbols."""
    with pytest.raises(QuantityError, match=r"^unit-unknown "):
        spell(1.0, "furlong")


def test_digits_below_one_count_as_one() -> None:
    """Expected: at least one figure."""
    assert spell_figure(0.26, digits=0) == "0.3"
