"""Which figures are questioned before they are kept: by the outcomes of one check, given here."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.answer import NextCheck, Outcome
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.system import System
from steadyhead.messages import message
from steadyhead.service.guide.entries import value_of
from steadyhead.service.guide.slips import beyond_all, meant_instead
from steadyhead.service.guide.state import Take
from steadyhead.visit import parse_visit
from tests.service.guide.talks import PLATE

SYSTEM = System(parse_visit(PLATE).visit)


def take(measure: str, *bands: tuple[float, float | None]) -> Take:
    """Return a check with these outcomes, in the unit of its instrument."""
    unit = {"volts": "V", "ohms": "ohm", "displayed-pressure": "psi"}[measure]
    red, black = ("controller.signal", "controller.common") if measure != "displayed-pressure" else (None, None)
    check = NextCheck(
        question=Question(measure, "connected", red, black), drive="auto", minutes=1.0, saves_minutes=1.0, cautions=(),
        outcomes=tuple(Outcome(fault=f"f{k}", low=low, high=high, unit=unit) for k, (low, high) in enumerate(bands)),
        how=message("how-connected"), while_there=(),
    )  # fmt: skip
    return Take(check)


def meant(text: str, *bands: tuple[float, float | None], measure: str = "volts") -> str | None:
    """Return what is asked about where this was typed."""
    return meant_instead(take(measure, *bands), value_of(text, measure, SYSTEM.visit), SYSTEM)


@pytest.mark.parametrize(
    ("text", "asked"),
    [("24.1 V", "2.41 V"), ("0.241 V", "2.41 V"), ("2410 V", "2.41 V"), ("-2.41 V", "2.41 V")],
)
def test_a_common_slip_is_asked_about(text: str, asked: str) -> None:
    """The decimal sign, thousands, and the leads swapped; 2.41 V is what the check can show."""
    assert meant(text, (2.3, 2.5)) == asked


@pytest.mark.parametrize("text", ["2.41 V", "2.6 V", "2.1..2.6 V jumping", "OL", "3.3 V"])
def test_what_fits_or_no_slip_explains_is_not(text: str) -> None:
    """Near the band; no figure; or a figure that no slip brings there."""
    assert meant(text, (2.3, 2.5)) is None


@pytest.mark.parametrize("text", ["5.01 V", "-4.98 V", "0.05 V", "0 V"])
def test_no_volts_and_all_of_the_sensor_power_are_never_asked_about(text: str) -> None:
    """What a meter shows every day on a 5 V loop, though a tenth or ten times of it would fit."""
    assert meant(text, (0.45, 0.55)) is None


def test_the_likeliest_outcome_is_the_one_that_is_asked_about() -> None:
    """Two slips would do; the first outcome is the likelier."""
    assert meant("112 V", (1.0, 1.2), (10.0, 12.0)) == "1.12 V"
    assert meant("112 V", (10.0, 12.0), (1.0, 1.2)) == "11.2 V"


def test_about_zero_nothing_is_called_a_slip() -> None:
    """Every small figure fits a band about zero."""
    assert meant("3.2 V", (-0.05, 0.05)) is None
    assert meant("9 psi", (-0.5, 0.5), measure="displayed-pressure") is None


def test_an_outcome_without_an_end_leaves_nothing_to_tell_a_slip_by() -> None:
    """OL is above every figure."""
    assert meant("120 ohm", (1e6, None), (10.0, 14.0), measure="ohms") is None


@pytest.mark.parametrize(
    ("measure", "text", "beyond"),
    [
        ("volts", "702 V", True),
        ("volts", "6 V", False),
        ("volts", "-9 V", True),
        ("displayed-pressure", "900 psi", True),
        ("displayed-pressure", "120 psi", False),
        ("ohms", "4.7 Mohm", False),
    ],
)
def test_what_no_such_loop_can_bring_is_questioned(measure: str, text: str, beyond: bool) -> None:
    """A 5 V supply and a 0..100 psi sensor; resistance has no end."""
    asked = take(measure, (0.0, 1.0))
    assert beyond_all(asked, value_of(text, measure, SYSTEM.visit), SYSTEM) is beyond
