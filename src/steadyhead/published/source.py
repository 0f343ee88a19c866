"""Where a number is printed, and what every table of this package is made of.

Rules
-----
1. No number stands in this package without a `Source`.
2. A table has a range of validity, as data; a look-up outside it raises `RangeOfValidityError`.
3. One table, one module, one look-up; `steadyhead.published.catalogue` lists them all.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from steadyhead.errors import RangeOfValidityError
from steadyhead.messages import message

Seen = Literal["original", "republished", "memory"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where a number is printed, and whether we have read that page ourselves.

    Parameters
    ----------
    cite
        Author or body, title, publisher, year.
    locator
        Clause, table, equation or page.
    seen
        ``original``: that page was read. ``republished``: a copy was read. ``memory``: neither.
    via
        Whose copy; required when republished.
    """

    cite: str
    locator: str
    seen: Seen
    via: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Validity:
    """What a table or formula may be asked: `quantity` from `low` to `high`, both included, in `unit`."""

    quantity: str
    low: float
    high: float
    unit: str

    def require(self, value: float) -> None:
        """Refuse a value outside the range; what is not a number is outside every range.

        Raises
        ------
        RangeOfValidityError
            ``outside-range-of-validity`` with ``quantity``, ``got``, ``low``, ``high``, ``unit`` and ``must_be``.
        """
        if self.low <= value <= self.high:
            return
        told = message(
            "outside-range-of-validity",
            quantity=self.quantity,
            got=value,
            low=self.low,
            high=self.high,
            unit=self.unit,
            must_be=f"{self.low:g} to {self.high:g} {self.unit}".strip(),
        )
        raise RangeOfValidityError(told)


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One published table or formula, for a page that lists them.

    Parameters
    ----------
    id
        Stable name, that of its module with hyphens.
    title
        What it tells.
    columns
        Heads of its columns, with units.
    rows
        Its figures as printed, one tuple a row.
    sources
        Where they are printed.
    valid
        What it may be asked.
    note
        What a reader must know before trusting it.
    """

    id: str
    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str | float, ...], ...]
    sources: tuple[Source, ...]
    valid: tuple[Validity, ...] = ()
    note: str = ""
