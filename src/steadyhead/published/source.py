"""Where a number is printed: no number stands in this package without one of these."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

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
