"""The first lines of a new visit file: signal and range; everything else may stay unknown.

Rules
-----
1. Two plate figures are needed, and one line of complaint is welcome; unknown is normal.
2. A signal is chosen by its number in the list, or typed as the plate prints it.
3. The file is written as soon as signal and range are known.
"""

from __future__ import annotations

from steadyhead.errors import InputError, VisitFileError
from steadyhead.service.guide.commands import choice
from steadyhead.visit import VisitFile, parse_visit
from steadyhead.visit.kinds import quoted

#: The usual signals (common practice), in the order in which they are offered.
SIGNALS = ("0.5..4.5 V ratiometric", "4..20 mA", "0..10 V", "1..5 V", "0.5..4.5 V", "0..20 mA")
#: A range to read a signal with, before the sensor's own is known.
ANY_RANGE = "0..10 bar"


def new_file(signal: str, range_: str, name: str) -> VisitFile:
    """Return a new visit file.

    Raises
    ------
    VisitFileError
        Signal or range is none.
    """
    text = f"schema = 1\n\n[sensor]\nsignal = {quoted(signal)}\nrange = {quoted(range_)}\n"
    return parse_visit(text, name)


def signal_typed(line: str) -> str:
    """Return the signal that a line says: a number of the list, or its text.

    Raises
    ------
    InputError
        It is no signal.

    Examples
    --------
    >>> [signal_typed(line) for line in ("2", "4-20", "0-10v", "ratiometric")]
    ['4..20 mA', '4..20 mA', '0-10v', '0.5..4.5 V ratiometric']
    """
    text = " ".join(line.split())
    number = choice(text, len(SIGNALS))
    if number is not None:
        return SIGNALS[number - 1]
    plain = text.lower().replace("-", "..").replace("to", "..").replace(" ", "")
    listed = [s for s in SIGNALS if s.lower().replace(" ", "").startswith(plain) or s.endswith(f" {plain}")]
    if plain and listed and not plain.endswith("v"):
        return listed[0]
    _accepted(text, ANY_RANGE)
    return text


def range_typed(line: str, signal: str) -> str:
    """Return the range that a line says; one figure is its upper end.

    Raises
    ------
    InputError
        It is no range.

    Examples
    --------
    >>> range_typed("100 psi", "4..20 mA"), range_typed("0-16bar", "4..20 mA")
    ('0..100 psi', '0-16bar')
    """
    text = " ".join(line.split())
    try:
        _accepted(signal, text)
    except InputError as error:
        if error.message.id != "range-expected":
            raise
        text = f"0..{text}"
        _accepted(signal, text)
    return text


def _accepted(signal: str, range_: str) -> None:
    """Pass over what a file would hold, and raise the first thing that it would refuse.

    Raises
    ------
    InputError
        What is wrong.
    """
    try:
        new_file(signal, range_, "")
    except VisitFileError as error:
        raise InputError(error.problems[0].message) from None


def offered() -> tuple[str, ...]:
    """Return the list of signals, each with its number."""
    return tuple(f"{number}: {signal}" for number, signal in enumerate(SIGNALS, 1))
