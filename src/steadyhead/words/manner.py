"""How one person is spoken to: the region's words, the language, the unit of pressure, the decimal sign.

Rules
-----
1. A manner changes what is read, never what is kept: the record holds what was typed, with the unit it was typed in.
2. No unit of pressure means each system's own: the one that its plate is in.
3. A manner is refused whole where one of its words is not known.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.words.saying import printable
from steadyhead.words.speaker import Speaker

#: Units in which pressures may be said; metres and feet are of water.
PRESSURE_UNITS = ("psi", "bar", "kPa", "mH2O", "ftH2O")
DECIMALS = (".", ",")
#: The usual decimal sign of each language that has another than the point; its reader may still choose the other one.
USUAL_DECIMAL: Mapping[str, str] = {"es": ","}
NO_LABELS: Mapping[str, str] = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """How one person is spoken to.

    Parameters
    ----------
    region
        Whose words: one of `REGIONS`.
    language
        Two letters: one of `steadyhead.words.speaker.languages`.
    unit
        Unit of pressure, one of `PRESSURE_UNITS`; empty for each system's own.
    decimal
        Decimal sign of figures, one of `DECIMALS`.

    Raises
    ------
    UnknownWordError
        ``region-unknown``, ``language-unknown`` or ``word-unknown``: one of them is none of these.

    Examples
    --------
    >>> Manner(region="elsewhere").speaker().name("remedy", "replace-sensor")
    'replace the sensor'
    """

    region: str = "north-america"
    language: str = "en"
    unit: str = ""
    decimal: str = "."

    def __post_init__(self) -> None:
        """Refuse a word that is not known."""
        for got, known in ((self.unit, ("", *PRESSURE_UNITS)), (self.decimal, DECIMALS)):
            if got not in known:
                must_be = tuple(filter(None, known))
                raise UnknownWordError(message("word-unknown", got=printable(got), must_be=must_be, nearest=()))
        self.speaker()

    def speaker(
        self, *, labels: Mapping[str, str] = NO_LABELS, pressure_unit: str = "", wires: int | None = None
    ) -> Speaker:
        """Return who speaks in this manner.

        Parameters
        ----------
        labels
            What this panel and this plug call each point.
        pressure_unit
            The system's own unit of pressure: said where this manner names none.
        wires
            Wires of the sensor, where that is known.
        """
        return Speaker(
            labels=labels, region=self.region, pressure_unit=self.unit or pressure_unit or "psi",
            language=self.language, wires=wires, decimal=self.decimal,
        )  # fmt: skip

    def usual_in(self, language: str) -> Manner:
        """Return this manner in a language, with that language's usual decimal sign.

        Raises
        ------
        UnknownWordError
            ``language-unknown``.

        Examples
        --------
        >>> USUAL.usual_in("es").decimal, USUAL.usual_in("en").decimal
        (',', '.')
        """
        return replace(self, language=language, decimal=USUAL_DECIMAL.get(language, "."))

    def words(self) -> dict[str, Any]:
        """Return its four words, to be kept; `Manner(**words)` is the same manner again."""
        return asdict(self)


USUAL = Manner()
