"""How often a pump motor may start, by its size, where a pressure tank is chosen for it."""

from __future__ import annotations

from steadyhead.published.source import Source, Table

SOURCE = Source(
    cite="Water Systems Council, standard for pressure tanks",
    locator="most starts by motor size: an hour, and a day",
    seen="memory",
)

#: Motor up to 3/4 hp, above it: most starts an hour.
ROWS = (
    ("up to 3/4 hp", 15.0),
    ("above 3/4 hp", 7.5),
)
#: Fewer than so many in a day, whatever the motor.
A_DAY = 300.0

TABLE = Table(
    id="pump-starts",
    title="How often a pump motor may start",
    columns=("motor", "most starts an hour"),
    rows=ROWS,
    sources=(SOURCE,),
    note="For a motor switched straight on. A drive starts it softly: the maker's own figure comes first.",
)


def most_starts_an_hour(*, small: bool) -> float:
    """Return how often an hour a motor may start; `small` is one up to 3/4 hp.

    >>> most_starts_an_hour(small=True), most_starts_an_hour(small=False)
    (15.0, 7.5)
    """
    return ROWS[0 if small else 1][1]
