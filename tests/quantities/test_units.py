"""The table of units: every spelling finds its own unit, milli is never mega, gauge is never absolute."""

from __future__ import annotations

import pytest

from steadyhead.quantities import DIMENSIONS, UNITS, Unit, parse, parse_range, spellings_in
from steadyhead.quantities.units import dimensions_of, find_unit, levelled, unit_named

SPELLINGS = [(unit, spelling) for unit in UNITS for spelling in unit.spellings]


@pytest.mark.parametrize(("unit", "spelling"), SPELLINGS, ids=lambda value: value if isinstance(value, str) else "")
def test_every_spelling_finds_its_own_unit(unit: Unit, spelling: str) -> None:
    """Expected: no spelling of one unit is taken by another of the same dimension."""
    assert find_unit(spelling, unit.dimension) is unit


def test_capitals_do_not_matter_where_no_prefix_is_at_stake() -> None:
    """Expected: what panels print in capitals is read, but for a first m or M."""
    for unit, spelling in SPELLINGS:
        if spelling[0] not in "mM":
            found = find_unit(spelling.upper(), unit.dimension)
            assert found is None or found is unit, spelling


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_a_first_m_and_a_first_capital_m_are_never_swapped(dimension: str) -> None:
    """Expected: a factor of a milliard lies between them."""
    for spelling in spellings_in(dimension):
        key = levelled(spelling)
        if key[0] in "mM" and not key.casefold().startswith("meg"):  # that word cannot be milli
            swapped = find_unit(key[0].swapcase() + key[1:], dimension)
            unit = find_unit(key, dimension)
            assert swapped is None or swapped is not unit, spelling


def test_units_that_say_neither_are_in_both_pressures_and_the_others_in_one() -> None:
    """Expected: psi is neither gauge nor absolute; psig and psia say it."""
    assert dimensions_of("psi") == ("pressure", "absolute-pressure")
    assert dimensions_of("psig") == ("pressure",)
    assert dimensions_of("psia") == ("absolute-pressure",)
    assert dimensions_of("furlong") == ()


@pytest.mark.parametrize("dimension", DIMENSIONS.values(), ids=lambda dimension: dimension.id)
def test_the_examples_that_a_refusal_shows_are_accepted(dimension: object) -> None:
    """Expected: advice that is refused itself would be a bad joke."""
    kind = next(d for d in DIMENSIONS.values() if d is dimension)
    for example in kind.examples:
        parse(example, kind.id)
    low, high = parse_range(kind.examples_of_range, kind.id)
    assert low < high


def test_every_dimension_has_a_unit_that_is_its_own_si_unit() -> None:
    """Expected: factor one and no offset, but for a percentage and an area."""
    for dimension in DIMENSIONS:
        units = [unit for unit in UNITS if unit.dimension == dimension]
        assert units
        if dimension not in {"percent", "area"}:
            assert any(unit.factor == 1 and unit.offset == 0 for unit in units), dimension


def test_a_canonical_symbol_names_one_unit() -> None:
    """Expected: only the metre and the foot are in two dimensions, with the same factor."""
    symbols = [unit.symbol for unit in UNITS]
    twice = {symbol for symbol in symbols if symbols.count(symbol) > 1}
    assert twice == {"m", "ft"}
    for symbol in twice:
        assert len({unit.factor for unit in UNITS if unit.symbol == symbol}) == 1
    assert unit_named("m") is not None
    assert unit_named("furlong") is None
