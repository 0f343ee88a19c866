"""Wire gauges as a way to write an area: ``22 AWG``, ``AWG 22``, ``2/0 AWG``, ``22 ga``.

Rules
-----
1. A gauge is a whole number, or noughts: ``00`` is ``2/0`` and stands for -1 in the formula.
2. The area is that of the solid wire (ASTM B258); a stranded wire of that gauge has it within a few percent.
3. A gauge is exact: its resolution is zero.
"""

from __future__ import annotations

from steadyhead.errors import RangeOfValidityError
from steadyhead.quantities.asking import Question
from steadyhead.quantities.numerals import digits_end

_MARKS = ("awg", "ga.", "ga", "gauge", "gage")  # a longer mark before its own beginning


def read_wire_gauge(question: Question) -> tuple[float, str, float] | None:
    """Return area [m2], ``"AWG"`` and 0 for a text that names a wire gauge, or None for another text.

    Raises
    ------
    QuantityError
        ``wire-gauge-unknown``: the text names a gauge that does not exist.
    """
    size = _size_text(question.text)
    if size is None:
        return None
    number = _gauge_number(size.removeprefix("#"))
    if number is None:
        raise question.refusal(because="wire-gauge-unknown")
    from steadyhead.published.conductor_awg import area_m2  # noqa: PLC0415 - a table that few texts need

    try:
        return area_m2(number), "AWG", 0.0
    except RangeOfValidityError:
        raise question.refusal(because="wire-gauge-unknown") from None


def _size_text(text: str) -> str | None:
    """Return what stands beside the mark, or None where there is no mark."""
    plain = text.casefold()
    if plain.startswith("awg"):
        return plain[3:].strip()
    for mark in _MARKS:
        if plain.endswith(mark):
            return plain[: -len(mark)].strip()
    return None


def _gauge_number(size: str) -> int | None:
    """Return the gauge's number, 0 for ``0`` and ``1/0``, -1 for ``00`` and ``2/0``, or None."""
    if size.endswith("/0"):
        noughts = size[:-2]
        return 1 - int(noughts) if noughts in {"1", "2", "3", "4"} else None
    if not size or digits_end(size, 0) != len(size):
        return None
    return 1 - len(size) if not size.strip("0") else int(size)
