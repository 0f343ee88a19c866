"""Ten minutes of MIN/MAX: when they are offered, what they take, and what their two ends say."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.cautions import cautions, drive_state
from steadyhead.diagnosis.checks import candidates
from steadyhead.diagnosis.observing import Question, observations
from tests.diagnosis.visits import BOOSTER, HOUSE, VAN, answer, gauge, needed, reading, signal, system

WATCHED = Question("inspection", item="min-max")
SOMETIMES = '[complaint]\nwhen = "sometimes"\n'
#: 48 psi of 100 are 4 + 16 x 0.48 = 11.68 mA.
SEEN = gauge("48 psi") + reading("displayed-pressure", "48.0 psi") + reading("displayed-signal", "11.68 mA")


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        (HOUSE + VAN, False),
        (HOUSE + VAN + SOMETIMES, True),
        (HOUSE + VAN + '[complaint]\nwhen = "always"\n', False),
        (HOUSE + VAN + signal("2.1..2.6 V jumping"), True),
        (HOUSE + '[instruments]\nhave = ["gauge"]\n' + SOMETIMES, False),
        (HOUSE + VAN + SOMETIMES + reading("inspection", "right", item="min-max"), False),
    ],
    ids=["nothing said", "sometimes", "always", "a figure jumps", "no meter", "done already"],
)
def test_a_meter_is_left_alone_only_where_something_comes_and_goes(text: str, offered: bool) -> None:
    """The rule: ten minutes for a fault that is always there would be lost; and it takes a meter."""
    assert (WATCHED in candidates(system(text), frozenset())) is offered


def test_it_is_watched_with_the_system_as_found_beside_live_terminals() -> None:
    """Common practice: what comes with the pump's noise is not met with the pump stopped."""
    assert drive_state(WATCHED) == "auto"
    assert "mains-beside-terminals" in {each.id for each in cautions(system(HOUSE), WATCHED)}


def test_ends_next_to_each_other_are_a_figure_that_stood_still() -> None:
    """2.41 and 2.43 V lie 10 mV from their middle, less than a meter of 0.7 % + 2 counts can tell; 1 V apart jumps."""
    still, jumps = (
        observations(system(HOUSE + VAN + signal(f"{ends} V over 10 min")))[0] for ends in ("2.41..2.43", "1.90..2.90")
    )
    assert (still.jumping, jumps.jumping) == (False, True)
    assert still.value == jumps.value + 0.02
    assert still.sd < 0.1 < jumps.sd


def test_a_swing_in_ten_minutes_speaks_for_what_comes_and_goes_and_a_still_one_against_it() -> None:
    """Common practice: a joint that opens now and then is caught by MIN/MAX, and a healthy loop never swings."""
    text = BOOSTER + VAN + SOMETIMES + SEEN
    before, found, gone = (
        needed(answer(text + more), "repair-cable")
        for more in ("", reading("inspection", "wrong", item="min-max"), reading("inspection", "right", item="min-max"))
    )
    assert gone < before < found
    assert found > 0.3


def test_a_figure_that_stood_still_for_minutes_speaks_more_against_a_contact_than_a_glance() -> None:
    """A property: a wire that opens now and then is seen at it in minutes more likely than at a glance."""
    found = []
    for value in ("2.42 V", "2.41..2.43 V over 10 min"):
        suspects = answer(HOUSE + VAN + gauge("48 psi") + signal("0.00 V") + signal(value))["suspects"]
        found.append(next(s["probability"] for s in suspects if s["fault"] == "intermittent-supply"))
    glance, watched = found
    assert watched < 0.8 * glance
