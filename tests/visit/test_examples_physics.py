"""The figures in the examples follow from Ohm's law and the sensors' plates, in exact arithmetic."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

F = Fraction
_FIVE, _TEN, _HUNDRED = F(5), F(10), F(100)
EXAMPLES = Path(__file__).parents[2] / "examples"


def _ratiometric(psi: F, supply: F = _FIVE) -> F:
    """Return the volts of a 0.5..4.5 V sensor of 0..100 psi, made for 5 V."""
    return (F("0.1") + F("0.8") * psi / 100) * supply


def _shown_psi(volts: F, full: F = _HUNDRED) -> F:
    return (volts - F("0.5")) / 4 * full


def _milliamps(bar: F, full: F = _TEN) -> F:
    return 4 + 16 * bar / full


def _shown_bar(milliamps: F, full: F = _TEN) -> F:
    return (milliamps - 4) / 16 * full


#: The damp of 4.7 kohm in a loop of 24 V with 250 ohm: I = sensor + (24 - 0.25 I) / 4.7, in mA and kohm.
_DAMP_LOOP = (_milliamps(F("2.2")) + F(24) / F("4.7")) / (1 + F("0.25") / F("4.7"))
_CORRODED = (F("24.1") - 9) / F("1.25")
_DAMP = _ratiometric(F(72)) * F(150, 370)

ROWS = [
    ("house-damp-cable", _DAMP, "1.37 V"),
    ("house-damp-cable", _shown_psi(F("1.37")), "21.8 psi"),
    ("house-open-common", _shown_psi(F("4.65")), "103.8 psi"),
    ("house-open-common", 2 * 12 * F("0.053"), "1.3 ohm"),
    ("house-wrong-range-setting", _ratiometric(F(41)), "2.14 V"),
    ("house-wrong-range-setting", _shown_psi(F("2.14"), F(145)), "59.5 psi"),
    ("house-supply-pulled-down", _ratiometric(F(68), F("3.9")), "2.51 V"),
    ("house-supply-pulled-down", _shown_psi(F("2.51")), "50.3 psi"),
    ("house-cock-left-shut", _ratiometric(F(60)), "2.90 V"),
    ("house-vacuum", _ratiometric(-17 * F("0.491154")), "0.17 V"),
    ("house-noise", _ratiometric(F(50)), "2.50 V"),
    ("booster-damp-loop", _DAMP_LOOP * F("0.25"), "3.00 V"),
    ("booster-damp-loop", _shown_bar(_DAMP_LOOP), "4.99 bar"),
    ("booster-damp-loop", F(24) / F("4.95") * F("0.25"), "1.21 V"),
    ("booster-corroded-terminal", _CORRODED * F("0.25"), "3.02 V"),
    ("booster-corroded-terminal", _shown_bar(_CORRODED, F(16)), "8.08 bar"),
    ("booster-corroded-terminal", (F("24.1") - 9) / F("1.26"), "11.98 mA"),
    ("booster-reversed-loop", _shown_bar(F(0)), "-2.5 bar"),
    ("booster-blown-meter-fuse", _milliamps(F("4.5")), "11.2 mA"),
    ("booster-blown-meter-fuse", _milliamps(F("4.5")) * F("0.25"), "2.80 V"),
    ("amplified-frost-damage", F("3.8") + F("1.2"), "5.00 V"),
]


@pytest.mark.parametrize(("example", "expected", "written"), ROWS)
def test_a_figure_in_an_example_is_what_the_circuit_gives(example: str, expected: F, written: str) -> None:
    """Expected: the circuit in the example's own comment, within half a count of the last digit written.

    17 inHg are 8.35 psi: 0.491154 psi an inch of mercury (NIST SP 811, appendix B, from memory); copper of 22 AWG has
    0.053 ohm a metre (ASTM B258, from memory).
    """
    assert f'value = "{written}"' in (EXAMPLES / f"{example}.toml").read_text(encoding="utf-8")
    figure = written.partition(" ")[0]
    half_a_count = F(1, 2 * 10 ** len(figure.partition(".")[2]))
    assert abs(expected - F(figure)) <= half_a_count
