"""No part is bought while one wrong meter, which nobody proved, would explain all readings.

The figures are closed forms: the plates' straight lines and Ohm's law of a healthy loop, times the meter's factor.
"""

from __future__ import annotations

from functools import cache

import pytest

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import SHIPPED, Row
from steadyhead.diagnosis.meter_doubt import doubtful, one_meter_explains, proved_by_a_look
from steadyhead.diagnosis.observing import observations
from steadyhead.visit import parse_visit
from tests.diagnosis.visits import BOOSTER, HOUSE, VAN, gauge, reading, signal, supply, system

#: 48 psi of 100 give 0.5 + 4 x 0.48 = 2.42 V; the sensor's power is 5 V; the display shows the gauge's figure.
SIGNAL_V, SUPPLY_V = 2.42, 5.0
AT_48 = HOUSE + VAN + gauge("48 psi")
SHOWN = reading("displayed-pressure", "48 psi")
PROVED = reading("inspection", "right", item="meter-check")
#: 50 psi of 100 are 12 mA, through 250 ohm 3 V; the loop's power is 24 V.
LOOP_AT_50 = BOOSTER + VAN + gauge("50 psi") + reading("displayed-pressure", "50 psi")
#: Who has hardly ever met a wrong meter: the readings' odds alone would buy the board.
TRUSTING = SHIPPED.replaced({("families", "meter"): Row(0.001, "ours are calibrated")})


def read_by(factor: float, offset: float = 0.0) -> str:
    """Return four readings of a healthy house, by a voltmeter that is wrong by a factor or an amount."""
    power, output = (f"{factor * volts + offset:.2f} V" for volts in (SUPPLY_V, SIGNAL_V))
    return supply(power) + signal(output) + supply(power, "sensor-unplugged") + supply(power, "supply-terminal-clear")


def explained(text: str) -> bool:
    """Tell whether one wrong meter explains a visit's readings."""
    told = system(text)
    return one_meter_explains(told, observations(told))


@cache
def answer(text: str) -> Answer:
    """Return the answer for who trusts meters."""
    return diagnose(parse_visit(text).visit, TRUSTING)


def asked(text: str) -> list[tuple[str, str | None]]:
    """Return the checks that are asked for, by measure and item."""
    return [(each.question.measure, each.question.item) for each in answer(text).next_checks]


# what one wrong meter explains


@pytest.mark.parametrize("factor", [0.0, 0.38, 0.6, 0.85, 1.3, 2.0])
def test_all_volts_off_by_one_factor_are_one_wrong_meter(factor: float) -> None:
    """Closed form: a healthy loop's volts times the factor."""
    assert explained(AT_48 + SHOWN + read_by(factor))


def test_all_volts_off_by_one_amount_are_one_wrong_meter() -> None:
    """Closed form: a healthy loop's volts less 0.4 V; by a factor, 0.92 and 0.83 would not agree."""
    assert explained(AT_48 + SHOWN + read_by(1.0, -0.4))


def test_one_function_may_be_wrong_alone_and_all_of_them_together() -> None:
    """Closed form: 24 V and 12 mA, times 0.38 in volts alone, and in both."""
    volts = supply("9.12 V") + supply("9.12 V", "supply-terminal-clear") + signal("1.14 V")
    right, wrong = (reading("milliamps", f"{ma} mA", arrangement="meter-in-signal") for ma in ("12.00", "4.56"))
    assert explained(LOOP_AT_50 + volts + right)
    assert explained(LOOP_AT_50 + volts + wrong)
    assert explained(LOOP_AT_50 + supply("24.0 V") + signal("3.00 V") + wrong)
    assert not explained(LOOP_AT_50 + volts + reading("milliamps", "7.00 mA", arrangement="meter-in-signal"))


@pytest.mark.parametrize("contradiction", [
    reading("displayed-pressure", "15.5 psi"), reading("displayed-fault", "low-signal"),
    reading("inspection", "wrong", item="moisture"), supply("5.00 V", "sensor-leads-lifted"),
], ids=["display", "shown", "look", "one right figure"])  # fmt: skip
def test_what_a_healthy_loop_would_not_show_takes_the_doubt_away(contradiction: str) -> None:
    """By the plates' lines: 15.5 psi at 48; a fault shown at 2.42 V; damp that was seen; 5 V that read 5 V."""
    assert not explained(AT_48 + read_by(0.42) + contradiction)


def test_figures_that_share_no_factor_are_no_wrong_meter() -> None:
    """Closed form: 5.00 V are right and 1.12 V are 0.46 of 2.42 V: the second is the loop's."""
    assert not explained(AT_48 + supply("5.00 V") + signal("1.12 V"))


def test_only_a_part_that_costs_money_is_doubted_and_only_until_the_meter_is_proved() -> None:
    """The rule; a look that could not be taken proves nothing, and a proof before a repair still holds after it."""
    told = system(AT_48 + SHOWN + read_by(0.42))
    seen = observations(told)
    assert doubtful(told, seen, "replace-board")
    assert not doubtful(told, seen, "correct-wiring")
    assert not doubtful(system(AT_48 + SHOWN + read_by(0.42) + PROVED), seen, "replace-board")
    assert not proved_by_a_look(parse_visit(AT_48 + reading("inspection", "not-seen", item="meter-check")).visit)
    mended = '[[action]]\nremedy = "repair-cable"\nafter_reading = 2\n'
    assert proved_by_a_look(parse_visit(AT_48 + PROVED + mended + gauge("48 psi")).visit)


# what is said and asked


def test_a_board_is_not_proved_by_a_meter_that_may_be_wrong_and_the_meter_is_to_be_proved_first() -> None:
    """All volts at 0.42, the display right: nobody can tell a weak board from a wrong meter without the look."""
    text = AT_48 + SHOWN + read_by(0.42)
    said = answer(text).verdict
    assert (said.state, said.remedy, said.because.id) == ("open", "replace-board", "meter-would-explain")
    assert asked(text) == [("inspection", "meter-check")]
    assert all(each.saves_minutes > 0.0 for each in answer(text).next_checks)


def test_once_the_meter_is_proved_so_is_the_board() -> None:
    """The same readings, and the look."""
    assert answer(AT_48 + SHOWN + read_by(0.42) + PROVED).verdict.state == "proved"


def test_a_display_that_nobody_read_is_read_first() -> None:
    """Half a minute at the panel, before four of proving the meter."""
    assert asked(AT_48 + read_by(0.6)) == [("displayed-pressure", None)]


def test_where_the_meter_cannot_be_proved_it_stays_a_guess_that_says_so() -> None:
    """The row in the file takes the check away; nothing is left to ask."""
    found = answer(AT_48 + SHOWN + read_by(0.42) + '[[declined]]\nmeasure = "inspection"\nitem = "meter-check"\n')
    assert (found.verdict.state, found.verdict.because.id) == ("best-guess", "meter-would-explain")
    assert found.verdict.settled
    assert found.next_checks == ()


def test_a_meter_far_off_its_mark_leads_where_no_loop_could_read_so() -> None:
    """24 V x 0.38 = 9.1 V: a sensor made for 9 V and more has 6 V left of it at 12 mA, so no right display."""
    text = LOOP_AT_50 + supply("9.12 V") + supply("9.12 V", "supply-terminal-clear")
    found = diagnose(parse_visit(text).visit)
    assert found.suspects[0].fault == "meter-wrong"
