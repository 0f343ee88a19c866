"""Who says so, and where a figure was given, in this language: our own words of it; what is printed keeps its title.

Rules
-----
1. A published source is named as it is printed, in its own language, so that it can be found.
2. What nobody printed (common practice, arithmetic, a reading of this visit) is said in the reader's language.
"""

from __future__ import annotations

from collections.abc import Callable

from steadyhead.words.phrases import phrase

#: Values of a message that name a source or where a figure was given.
SOURCED = frozenset(("cite", "locator", "whence"))

#: Our own words, whole.
OWN = (
    "common practice", "no source", "as given", "no table", "follows from the inputs", "undated", "corrections",
    "the instrument's own calibration certificate", "arithmetic",
    "Kirchhoff's laws, solved for this loop with the meter in it",
    "least squares of the mean errors, every level alike",
    "common practice, after R. T. Birge", "widen by sqrt(chi-squared / degrees) where that is above 1",
    "hydrostatics: pressure = density x gravity x height", "density of water at 4 °C, standard gravity",
    "R. Boyle's law: pressure times volume of a gas is constant", "at one temperature",
    "Gay-Lussac's law: pressure of a gas by its temperature", "at one volume",
    # where a figure was given
    "reading", "readings", "resolution", "accuracy", "water", "air", "barometer", "altitude", "check", "controller",
)  # fmt: skip
#: Our own words with a number of the record in them.
OWN_PARTED = ("point {number}", "reading {number}", "grade {grade}", "certificate {number}", "belief after {reading}")


def sourced(text: str, translated: Callable[[str], str]) -> str:
    """Return a source, or where a figure was given, in another language.

    Parameters
    ----------
    text
        What the program calls it, in English.
    translated
        Returns a text in that language.

    Examples
    --------
    >>> sourced("belief after reading 2", lambda text: text.replace("belief after", "parte tras"))
    'parte tras reading 2'
    """
    return phrase(text, translated, OWN_PARTED, lambda part: translated(part) if part in OWN else part)
