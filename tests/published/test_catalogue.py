"""No number without a source: the walk over every table and every module of the package."""

from __future__ import annotations

import ast
import importlib
import pkgutil
from pathlib import Path

import pytest

from steadyhead import published
from steadyhead.errors import RangeOfValidityError
from steadyhead.published.catalogue import TABLES
from steadyhead.published.source import Source, Table, Validity

HOME = Path(published.__file__).parent
MODULES = sorted(found.name for found in pkgutil.iter_modules([str(HOME)]))
WITHOUT_NUMBERS = {"source", "catalogue"}
ANSWERS_FROM_TABLES = {"conductors"}  #: asks two tables; its one number is a rounding allowance


def _ids(table: Table) -> str:
    return table.id


@pytest.mark.parametrize("name", [name for name in MODULES if name not in WITHOUT_NUMBERS | ANSWERS_FROM_TABLES])
def test_every_module_with_numbers_has_a_table_in_the_catalogue(name: str) -> None:
    """Expected: one module, one table, under the module's own name."""
    module = importlib.import_module(f"steadyhead.published.{name}")
    assert module.TABLE in TABLES
    assert module.TABLE.id == name.replace("_", "-")


@pytest.mark.parametrize("name", sorted(WITHOUT_NUMBERS))
def test_a_module_without_a_table_holds_no_number(name: str) -> None:
    """Expected: no figure can hide where no source is asked for."""
    tree = ast.parse((HOME / f"{name}.py").read_text(encoding="utf-8"))
    numbers = [
        node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and type(node.value) in {int, float}
    ]
    assert numbers == []


@pytest.mark.parametrize("table", TABLES, ids=_ids)
def test_a_table_names_where_it_is_printed(table: Table) -> None:
    """Expected: a body or author, a place in the work, and whose copy where the work itself was not read."""
    assert table.sources
    for source in table.sources:
        assert isinstance(source, Source)
        assert source.cite
        assert source.locator
        assert source.via or source.seen != "republished"


@pytest.mark.parametrize("table", TABLES, ids=_ids)
def test_a_table_is_rectangular_and_has_rows(table: Table) -> None:
    """Expected: as many figures in a row as there are heads."""
    assert table.rows
    assert {len(row) for row in table.rows} == {len(table.columns)}


def test_the_tables_stand_in_the_order_of_their_ids() -> None:
    """Expected: the alphabet."""
    assert [table.id for table in TABLES] == sorted({table.id for table in TABLES})


VALIDITIES = [(table.id, valid) for table in TABLES for valid in table.valid]


@pytest.mark.parametrize(("table", "valid"), VALIDITIES)
@pytest.mark.parametrize("outside", ["below", "above", "nan", "inf"])
def test_a_range_of_validity_refuses_what_is_outside_and_nothing_else(
    table: str, valid: Validity, outside: str
) -> None:
    """Expected: both ends are inside; a figure that is no number is outside every range."""
    valid.require(valid.low)
    valid.require(valid.high)
    one = {"below": valid.low - 1, "above": valid.high + 1, "nan": float("nan"), "inf": float("inf")}[outside]
    with pytest.raises(RangeOfValidityError, match=r"^outside-range-of-validity ") as refused:
        valid.require(one)
    assert set(refused.value.message.values) == {"quantity", "got", "low", "high", "unit", "must_be"}, table
