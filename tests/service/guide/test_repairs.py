"""After the repair: it is kept, proved by what must read right, and the visit closed as what was at fault."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.diagnosis.answer import Verdict
from steadyhead.diagnosis.observing import Question
from steadyhead.messages import message
from steadyhead.service.guide.state import Close, Doubt, Settled, Take
from steadyhead.service.guide.talk import hear
from tests.service.guide.talks import PLATE, talk

#: A visit that shows nothing at the input.
CUT = (
    PLATE
    + """
[[reading]]
measure = "gauge-pressure"
value = "48 psi"
[[reading]]
measure = "displayed-pressure"
value = "-12.5 psi"
"""
)
#: A visit in which a mended cable reads right: 2.5 V at 50 psi.
PROVED = (
    PLATE
    + """
[[reading]]
measure = "gauge-pressure"
value = "48 psi"
[[reading]]
measure = "displayed-pressure"
value = "-12.5 psi"
[[reading]]
measure = "volts"
red = "sensor.signal"
black = "sensor.common"
value = "2.42 V"
[[reading]]
measure = "volts"
red = "controller.signal"
black = "controller.common"
value = "0.00 V"
[[action]]
remedy = "repair-cable"
after_reading = 4
[[reading]]
measure = "gauge-pressure"
value = "50 psi"
[[reading]]
measure = "displayed-pressure"
value = "50.1 psi"
[[reading]]
measure = "volts"
red = "controller.signal"
black = "controller.common"
value = "2.51 V"
"""
)


def test_a_repair_is_kept_and_then_proved() -> None:
    """0.5 + 50/100 x 4 = 2.5 V at 50 psi: what a mended loop must show, within the instruments' tolerance."""
    begun = talk(CUT).says("done repair-cable")
    assert [a.remedy for a in begun.visit.actions] == ["repair-cable"]
    asked = [begun.asked]
    proved = begun
    for line in ("50", "50.2", "2.51"):
        proved = proved.says(line)
        asked.append(proved.asked)
    assert asked == ["gauge-pressure", "displayed-pressure", "volts", ""]
    assert "guide-mended" in proved.ids
    assert isinstance(proved.guide.asks, (Close, Settled))


def test_a_visit_that_is_mended_can_be_closed_as_what_was_at_fault() -> None:
    """An open signal wire: nothing at the input of a three-wire loop, and a cable that was mended."""
    proved = talk(PROVED)
    assert isinstance(proved.guide.asks, Close)
    closed = proved.says("open-signal").visit.closed
    assert (closed.fault, closed.proved) == ("open-signal", True)
    assert proved.says("yes").visit.closed.fault == proved.guide.asks.fault
    assert proved.says("sensor-low + open-signal").visit.closed.fault == "open-signal+sensor-low"
    assert proved.says("").visit.closed.fault is None
    assert proved.says("nonsense").visit.closed.fault is None
    assert talk(proved.says("yes").disk).ids[-1] == "guide-closed"


def test_a_repair_that_has_not_helped_is_not_called_mended() -> None:
    """The display still shows nothing at 50 psi."""
    after = talk(CUT).says("done repair-cable", "50", "-12.5", "0.02")
    assert "guide-mended" not in after.ids
    assert after.guide.answer is not None


def test_the_proof_of_a_repair_is_gone_on_with_in_another_sitting() -> None:
    """The file tells what was read since the repair."""
    half = talk(CUT).says("done repair-cable", "50")
    assert talk(half.disk).asked == "displayed-pressure"


def test_a_slip_in_the_proof_is_questioned_too() -> None:
    """251 V where about 2.5 V must stand."""
    asked = talk(CUT).says("done repair-cable", "50", "50", "251").guide.asks
    assert isinstance(asked, Doubt)
    assert asked.meant == "2.51 V"


@pytest.mark.usefixtures("plate_alone")
def test_a_repair_is_chosen_by_its_number_or_its_word() -> None:
    """The list that was offered; another word is refused with the nearest."""
    begun = talk(CUT).says("done")
    offered = begun.guide.asks.remedies  # type: ignore[union-attr]
    assert begun.says("2").visit.actions[0].remedy == offered[1]
    assert begun.says("replace sensor").visit.actions[0].remedy == "replace-sensor"
    assert "guide-no-repair" in begun.says("replace the lot").ids
    assert begun.says("").visit.actions == ()


def test_the_reading_that_would_prove_a_guess_can_be_asked_for() -> None:
    """The question that the verdict names; where there is none, it says so and changes nothing."""
    begun = talk().says("48").guide
    assert begun.answer is not None
    because = message(
        "reading-would-prove", remedy="replace-sensor", measure="ohms", red="wire.supply", black="wire.signal",
        arrangement="dead-both-free",
    )  # fmt: skip
    verdict = Verdict(state="best-guess", settled=True, remedy="replace-sensor", because=because)
    guess = replace(begun, asks=Settled(), answer=replace(begun.answer, verdict=verdict, next_checks=()))
    asks = hear(guess, "prove").guide.asks
    assert isinstance(asks, Take)
    assert asks.check.question == Question("ohms", "dead-both-free", "wire.supply", "wire.signal")
    assert {"lock-out", "prove-tester-then-dead"} <= {told.id for told in asks.check.cautions}
    assert hear(begun, "prove").guide.asks == begun.asks


def test_a_repair_does_not_rule_out_what_it_has_mended() -> None:
    """What was likely before a repair is mended by it, not ruled out by the readings after it."""
    after = talk(CUT).says("done repair-cable", "50", "-12.5", "0.02")
    assert not {"guide-rules-out", "guide-rules-out-more"} & set(after.ids)
