"""A figure that nothing explains is read once more before anything is done on an answer that calls it a slip."""

from __future__ import annotations

from steadyhead.diagnosis.answer import Answer, NextCheck
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.visit import parse_visit
from tests.diagnosis.visits import HOUSE, VAN, gauge, reading, volts

SUPPLY, SIGNAL, COMMON = "controller.supply", "controller.signal", "controller.common"
#: A healthy loop by its display, its supply and its signal.
GOOD = HOUSE + VAN + gauge("48 psi") + reading("displayed-pressure", "48.2 psi") + volts(SIGNAL, COMMON, "2.43 V")
#: Nine volts on a supply of five: no loop of this system shows both that and the figures above.
ABSURD = volts(SUPPLY, COMMON, "9.01 V")
#: A dead sensor by volts at its plug, and a path between wires of which these would show nothing.
DEAD = (
    HOUSE + VAN + gauge("48 psi") + reading("displayed-pressure", "-12.4 psi")
    + reading("displayed-fault", "low-signal") + volts(SUPPLY, COMMON, "5.01 V") + volts(SIGNAL, COMMON, "0.00 V")
    + volts("sensor.supply", "sensor.common", "5.00 V") + volts("sensor.signal", "sensor.common", "0.01 V")
)  # fmt: skip
PATH = reading("ohms", "300 ohm", arrangement="dead-both-free", red="wire.supply", black="wire.signal")


def answer(text: str) -> Answer:
    """Return the answer to a visit."""
    return diagnose(parse_visit(text).visit)


def read_again(found: Answer) -> list[NextCheck]:
    """Return the checks that are asked since nothing explains what was read there."""
    return [check for check in found.next_checks if check.why is not None and check.why.id == "check-again"]


def test_it_is_asked_at_once_where_the_leads_still_lie_there() -> None:
    """A minute at the terminals before anything else: common practice with a figure that cannot be."""
    for text in (GOOD + ABSURD, DEAD + PATH):
        found = answer(text)
        number = text.count("[[reading]]")
        assert number in [surprise.reading for surprise in found.surprises]
        first = found.next_checks[0]
        assert first in read_again(found)
        assert first.minutes == 1.0
        assert first.saves_minutes > 0.0


def test_a_figure_that_comes_again_is_not_asked_a_third_time() -> None:
    """A slip does not come twice."""
    assert not read_again(answer(GOOD + ABSURD + ABSURD))


def test_no_other_figure_is_asked_again() -> None:
    """Nothing of a healthy loop's figures is a surprise."""
    found = answer(GOOD + volts(SUPPLY, COMMON, "5.01 V"))
    assert not found.surprises
    assert not read_again(found)


def test_where_the_leads_lie_elsewhere_it_waits_until_nothing_else_is_worth_asking() -> None:
    """Setting up again costs ten minutes: the other checks may explain it first."""
    found = answer(DEAD + PATH + volts(SUPPLY, COMMON, "5.02 V", "sensor-unplugged"))
    assert found.next_checks
    assert not read_again(found)


def test_what_was_read_before_a_repair_is_not_asked_for_that() -> None:
    """After the repair it is another loop."""
    found = answer(GOOD + ABSURD + '[[action]]\nremedy = "replace-sensor"\nafter_reading = 4\n')
    assert not read_again(found)
