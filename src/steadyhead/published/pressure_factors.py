"""Factors of pressure units to pascal as a national institute prints them: a second origin for our own conversions.

`steadyhead.quantities` converts by exact ratios; this table is what they are held against, and what a report may cite.
"""

from __future__ import annotations

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.published.source import Source, Table

SOURCE = Source(
    cite="NIST Special Publication 811, Guide for the use of the International System of Units, 2008",
    locator="appendix B",
    seen="republished",
    via="a verbatim transcription in a public repository (psi, ftH2O, inHg, bar, atm, mH2O, kgf/cm2)",
)
SOURCE_FROM_MEMORY = Source(
    cite="NIST Special Publication 811, Guide for the use of the International System of Units, 2008",
    locator="appendix B (mbar, inH2O, mmHg, mmH2O)",
    seen="republished",
    via="public notes that quote the appendix (mbar, mmHg); from memory (inH2O, mmH2O)",
)

#: Unit; factor to pascal, its digits as printed.
ROWS = (
    ("psi", "6.894 757 E+03"),
    ("bar", "1.0 E+05"),
    ("mbar", "1.0 E+02"),
    ("inHg", "3.386 389 E+03"),
    ("mmHg", "1.333 224 E+02"),
    ("inH2O", "2.490 889 E+02"),
    ("mmH2O", "9.806 65 E+00"),
    ("ftH2O", "2.989 067 E+03"),
    ("mH2O", "9.806 65 E+03"),
    ("kgf/cm2", "9.806 65 E+04"),
    ("atm", "1.013 25 E+05"),
)
_BY_UNIT = {unit: float(printed.replace(" ", "")) for unit, printed in ROWS}


def printed_factor(unit: str) -> float:
    """Return a unit's factor to pascal, as many digits as are printed; water and mercury are conventional.

    Raises
    ------
    UnknownWordError
        ``pressure-unit-unknown``: the table has no such unit.

    Examples
    --------
    >>> printed_factor("psi")
    6894.757
    """
    found = _BY_UNIT.get(unit)
    if found is None:
        raise UnknownWordError(message("pressure-unit-unknown", got=unit, must_be=tuple(_BY_UNIT), nearest=()))
    return found


TABLE = Table(
    id="pressure-factors",
    title="Pressure units to pascal, as printed",
    columns=("unit", "factor [Pa]"),
    rows=ROWS,
    sources=(SOURCE, SOURCE_FROM_MEMORY),
    note="The unit mH2O is printed as 1000 mmH2O.",
)
