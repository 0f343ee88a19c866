"""What can be asked for: each kind of quantity, the unit it has inside the program, and how a person may write it.

Everything that affects which kinds of quantity exist lives in this file; their units are in `units`.
"""

from __future__ import annotations

from dataclasses import dataclass

ABSOLUTE_ZERO_C = -273.15  #: by definition of the kelvin


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """One kind of quantity.

    Parameters
    ----------
    id
        The word that callers and messages use.
    article
        Its name in a sentence, with its article.
    si
        The unit of the float that `parse` returns.
    examples
        Two texts that are accepted.
    examples_of_range
        A range that is accepted.
    lowest
        Least value that can exist, in `si`, or None.
    """

    id: str
    article: str
    si: str
    examples: tuple[str, str]
    examples_of_range: str
    lowest: float | None = None

    @property
    def must_be(self) -> str:
        """What to write, for an error: ``a pressure such as '62 psi' or '4.3 bar'``."""
        first, second = self.examples
        return f"{self.article} such as '{first}' or '{second}'"

    @property
    def range_must_be(self) -> str:
        """What to write for a range, for an error: ``a range such as '0..100 psi'``."""
        return f"a range such as '{self.examples_of_range}'"


_ROWS = (
    ("pressure", "a pressure", "Pa", ("62 psi", "4.3 bar"), "0..100 psi", None),
    ("absolute-pressure", "an absolute pressure", "Pa", ("14.7 psia", "1.013 bara"), "0..100 psia", 0.0),
    ("head", "a head of water", "m", ("30 m", "100 ft"), "0..50 m", None),
    ("voltage", "a voltage", "V", ("24 V", "15 mV"), "0.5..4.5 V", None),
    ("current", "a current", "A", ("12 mA", "0.4 A"), "4..20 mA", None),
    ("resistance", "a resistance", "ohm", ("250 ohm", "4.7 kohm"), "50..100 kohm", None),
    ("percent", "a percentage", "fraction", ("0.5 %", "25 %"), "0..100 %", None),
    ("length", "a length", "m", ("12 m", "40 ft"), "10..12 m", None),
    ("area", "a conductor's size", "m2", ("0.5 mm2", "22 AWG"), "0.5..1.5 mm2", None),
    ("volume", "a volume", "m3", ("20 gal", "75 L"), "0..20 gal", None),
    ("flow", "a flow", "m3/s", ("12 gpm", "45 L/min"), "0..60 gpm", None),
    ("temperature", "a temperature", "degC", ("20 degC", "68 degF"), "-10..50 degC", ABSOLUTE_ZERO_C),
    ("time", "a time", "s", ("2 min", "30 s"), "10..12 min", None),
    ("frequency", "a frequency", "Hz", ("50 Hz", "37.5 Hz"), "30..60 Hz", None),
)
DIMENSIONS: dict[str, Dimension] = {
    id_: Dimension(id=id_, article=article, si=si, examples=examples, examples_of_range=span, lowest=lowest)
    for id_, article, si, examples, span, lowest in _ROWS
}
