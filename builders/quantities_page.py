"""Writes `docs/quantities.md` from the tables of `steadyhead.quantities`, so that the page cannot drift.

Run it as ``python -m builders.quantities_page`` with ``src`` on the path; a test writes it again and compares.
"""

from __future__ import annotations

from pathlib import Path

from steadyhead.quantities import DIMENSIONS, UNITS, Dimension, Unit

TARGET = Path(__file__).resolve().parents[1] / "docs" / "quantities.md"

HEAD = """# Quantities: how to write a figure

Every figure in a visit file or at the keyboard is text with its unit: `"62 psi"`, `"4..20 mA"`. A bare number is
refused, and so is anything that could be read in two ways; the refusal says what would do.

## Numbers

| you write | it is read as |
| --- | --- |
| `4.3 bar`, `4,3 bar`, `4.3bar` | 4.3 bar: a full stop or a comma is the decimal sign, the space may be left out |
| `-0.2 bar`, `−0.2 bar` | minus 0.2 bar, with a hyphen or a minus sign; a dash is no sign |
| `2½ in`, `¾ in` | two and a half inches; three quarters |
| `1e3 Pa` | 1000 Pa |
| `1,500 ohm` | refused: 1500 ohm or 1.5 ohm? Only `0,500` is plain |
| `1 500 ohm`, `1'500 ohm` | refused: there is no thousands separator |
| `1/2 in`, `5. V` | refused |

The last digit tells how finely a figure was read: `1.20 V` is a reading to 0.01 V, `1.2 V` to 0.1 V.

## Ranges

`4..20 mA`, `4...20 mA`, `4…20 mA`, `4 to 20 mA`, `4–20 mA` and `4-20 mA` are one range. The unit stands once, after the
second number, or after each. Beside a sign a hyphen might be a minus: write `-15..160 psi`, not `-15-160 psi`.

## Accuracy of an instrument

`0.5 %` of the reading, `0.02 V` fixed, or both: `0.5 % + 0.02 V`. Counts need their size: `0.5 % + 2 x 0.01 V` or
`0.5 % + 2 counts of 0.01 V`. A `±` before it and brackets around it change nothing.

## Units

Spaces inside a unit do not count, nor do capitals, except for a first `m` or `M`: milli is never taken for mega. Both
ohm signs, both micro signs and raised figures (`mm²`, `m³/h`) are accepted.
"""

NOTES = {
    "pressure": "Gauge pressure. Units that say neither gauge nor absolute (`psi`, `bar`) are accepted in both.\n"
    "After any of them `g`, `(g)`, `gauge` or `gage` is accepted too. Columns of water and mercury are the\n"
    "conventional ones. A height in plain metres or feet is a head, not a pressure: write `mH2O` or `ftH2O`.",
    "absolute-pressure": "After any unit `a`, `(a)`, `abs` or `absolute` is accepted too.",
    "head": "The height of a column of water, in plain metres or feet.",
    "area": "A wire gauge will do as well, from 4/0 to 40: `22 AWG`, `AWG 22`, `#22 AWG`, `22 ga`, \n"
    "`2/0 AWG`, `00 AWG`. It stands for the area of the solid wire.",
    "resistance": "The code of drawings is read too: `4k7` is 4.7 kohm, `2R2` is 2.2 ohm, `1M5` is 1.5 Mohm.",
    "flow": "`gpm` is in US gallons.",
    "volume": "`gal` is the US gallon.",
    "percent": "Inside the program a percentage is a fraction of one.",
}
_ENDINGS = ("g", "(g)", " gauge", " gage", " abs", "a", "(a)", " absolute", " abs.")


def _spellings(unit: Unit) -> tuple[str, ...]:
    """Return a unit's spellings without those that only add gauge or absolute to another."""
    kept = [s for s in unit.spellings if not any(f"{other}{end}" == s for other in unit.spellings for end in _ENDINGS)]
    return tuple(dict.fromkeys((unit.symbol, *kept)))


def _row(unit: Unit) -> str:
    also = ", ".join(f"`{spelling}`" for spelling in _spellings(unit)[1:])
    return f"| `{unit.symbol}` | {also} | {unit.factor:.10g} |"


def _section(dimension: Dimension) -> str:
    name = dimension.article.partition(" ")[2]
    head = f"### {name[0].upper()}{name[1:]} (`{dimension.id}`)"
    example, other = dimension.examples
    shown = f"Such as `{example}`, `{other}`, `{dimension.examples_of_range}`. {NOTES.get(dimension.id, '')}".strip()
    units = [unit for unit in UNITS if unit.dimension == dimension.id]
    temperature = any(unit.offset for unit in units)
    last = f"one degree is, in {dimension.si}" if temperature else f"times this is {dimension.si}"
    table = (f"| unit | also written | {last} |", "| --- | --- | --- |", *map(_row, units))
    return "\n".join((head, "", shown, "", *table))


def page() -> str:
    """Return the whole page."""
    return "\n".join((HEAD, *(f"{_section(dimension)}\n" for dimension in DIMENSIONS.values()))).rstrip() + "\n"


def main() -> None:
    """Write the page."""
    TARGET.write_text(page(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
