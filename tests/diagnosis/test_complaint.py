"""What was said on the phone moves the odds, proves nothing, and loses against readings."""

from __future__ import annotations

from dataclasses import replace
from math import isclose

import pytest

from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.complaint import factor, told
from steadyhead.diagnosis.complaint_effects import EFFECTS, MOST
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import SHIPPED, Row
from steadyhead.diagnosis.shipped import FAMILIES
from steadyhead.diagnosis.system import System
from steadyhead.loop.faults import FAULTS
from steadyhead.service.diagnosis import diagnose_text
from steadyhead.visit import parse_visit
from steadyhead.visit.keys import COMPLAINT
from steadyhead.visit.kinds import OneOf, Several
from steadyhead.visit.record import Complaint
from steadyhead.words import Speaker
from tests.diagnosis.visits import BARE_BOOSTER, BARE_HOUSE, HOUSE, VAN, gauge, odds, reading
from tests.service.answers import visit as example

#: What the customer may have said that points away from every fault of a wire.
MISLEADING = Complaint(shown=("none",), since="new-system", changed=("recent-work", "new-part"))


def _weights(text: str, complaint: Complaint) -> dict[str, float]:
    """Return each fault's share before the first reading."""
    system = System(replace(parse_visit(text).visit, complaint=complaint))
    found: dict[str, float] = {}
    for cell in cells(system):
        found[cell.fault] = found.get(cell.fault, 0.0) + cell.weight
    return found


def _times(text: str, complaint: Complaint, fault: str, beside: str) -> float:
    """Return how many times likelier a complaint makes one fault beside another."""
    before, after = _weights(text, Complaint()), _weights(text, complaint)
    return (after[fault] / after[beside]) / (before[fault] / before[beside])


@pytest.mark.parametrize(
    ("complaint", "fault", "least", "most"),
    [
        (Complaint(changed=("recent-work",)), "reversed", 8.0, 10.0),
        (Complaint(changed=("storm",)), "sensor-open", 5.0, 5.0),
        (Complaint(changed=("freeze",)), "sensor-zero-shift", 8.0, 8.0),
        (Complaint(when="rain"), "leakage-signal-earth", 6.0, 6.0),
        (Complaint(since="new-system"), "tap-wrong-side", 10.0, 10.0),
        (Complaint(since="new-system"), "sensor-low", 0.3, 0.3),
    ],
)
def test_a_word_moves_the_odds_as_far_as_the_trade_says(
    complaint: Complaint, fault: str, least: float, most: float
) -> None:
    """Common practice, no source: recent work 8 to 10 times, storm 5, freeze 8, rain 6, since new 10 and 0.3."""
    times = _times(BARE_BOOSTER, complaint, fault, "meter-wrong")
    assert least * 0.999 <= times <= most * 1.001


def test_the_text_of_a_complaint_weighs_nothing() -> None:
    """The rule of the page: it is kept for people."""
    assert _weights(BARE_HOUSE, Complaint(text="wired wrong, I am sure")) == _weights(BARE_HOUSE, Complaint())


def test_a_visit_without_a_complaint_says_nothing_of_one() -> None:
    """The keys of the answer."""
    assert "complaint" not in diagnose_text(BARE_HOUSE)


def test_what_is_said_twice_counts_once() -> None:
    """A customer who says it twice has seen it once."""
    twice = Complaint(changed=("storm", "storm"), shown=("low-signal", "low-signal"))
    assert _weights(BARE_HOUSE, twice) == _weights(BARE_HOUSE, Complaint(changed=("storm",), shown=("low-signal",)))


@pytest.mark.parametrize("fault", [f.id for f in FAULTS])
def test_no_complaint_moves_a_fault_further_than_the_stated_bound(fault: str) -> None:
    """Rule 2: held between a tenth and ten, here with every word that a complaint can hold at once."""
    for since in ("sudden", "gradual", "new-system"):
        for when in ("always", "night", "rain", "running", "rest", "start", "sometimes"):
            for changed in ("storm", "freeze", "power-cut", "recent-work", "new-part", "drained", "filter", "nothing"):
                times = factor(Complaint(since=since, when=when, changed=(changed, "recent-work")), fault)
                assert 1 / MOST <= times <= MOST


def test_a_complaint_alone_proves_nothing() -> None:
    """Nothing is proved without a meter reading, whatever was said."""
    loud = Complaint(shown=("low-signal",), since="new-system", changed=("recent-work", "new-part"))
    verdict = diagnose(replace(parse_visit(BARE_BOOSTER).visit, complaint=loud)).verdict
    assert (verdict.state, verdict.settled) == ("open", False)


def test_words_make_no_proof_of_what_the_meter_has_not_proved() -> None:
    """A property of the verdict: proved with a complaint only where the same readings prove it without one."""
    visit = example("house-cock-left-shut")
    short = replace(visit, readings=visit.readings[:4], actions=(), complaint=Complaint())
    loud = replace(short, complaint=Complaint(changed=("recent-work", "drained")))
    assert diagnose(short).verdict.state != "proved"
    assert diagnose(loud).verdict.state != "proved"


@pytest.mark.parametrize("name", ["house-damp-cable", "house-open-common"])
def test_readings_win_over_a_complaint_that_points_elsewhere(name: str) -> None:
    """The remedy that each example is built with, found in spite of a misleading call."""
    found = diagnose(replace(example(name), complaint=MISLEADING))
    assert found.verdict.remedy == "repair-cable"


def test_what_was_shown_when_called_is_no_reading_of_now() -> None:
    """A reading of the display excludes far more than the same word in its history."""
    shown = HOUSE + VAN + gauge("48 psi") + reading("displayed-fault", "low-signal")
    called = HOUSE + VAN + '[complaint]\nshown = ["low-signal"]\n' + gauge("48 psi")
    healthy = [odds(diagnose_text(text))["sensor-wet-vent"] for text in (HOUSE + VAN + gauge("48 psi"), called, shown)]
    assert healthy[0] > healthy[1] > 4 * healthy[2]


def test_every_word_of_the_file_but_two_does_something_and_no_other_word_stands_in_the_table() -> None:
    """The words of the visit file; `always` and `nothing` say little, so they may only make less likely."""
    kinds = {key.name: key.kind for key in COMPLAINT.keys}
    words = {(name, word) for name, kind in kinds.items() if isinstance(kind, (OneOf, Several)) for word in kind.words}
    assert {(effect.key, effect.word) for effect in EFFECTS} == words
    assert all(e.times < 1.0 for e in EFFECTS if e.word in {"always", "nothing"})


def test_every_effect_has_a_reason_a_figure_within_bounds_and_faults_that_exist() -> None:
    """The tables of families and faults."""
    known = {*FAMILIES, *(f.id for f in FAULTS), "none-of-these"}
    for effect in EFFECTS:
        assert set(effect.on) <= known
        assert effect.reason
        assert 1 / MOST <= effect.times <= MOST
        assert not isclose(effect.times, 1.0)


def test_every_effect_has_a_row_of_its_own_which_a_company_may_override() -> None:
    """Counting; and a company that fits surge protectors everywhere."""
    assert len({effect.row for effect in EFFECTS}) == len(EFFECTS)
    own = SHIPPED.replaced({("complaint", "changed/storm/electronics"): Row(1.0, "surge protectors everywhere")})
    storm = Complaint(changed=("storm",))
    assert factor(storm, "sensor-open") == 5.0
    assert factor(storm, "sensor-open", own) == 1.0
    assert told(storm, own) == ()


def test_the_answer_says_in_words_what_the_call_did() -> None:
    """The words of the trade."""
    said = [Speaker().say(message) for message in told(Complaint(changed=("recent-work",)))]
    assert said[0] == (
        "worked on lately: wired wrong, the wrong transducer, a setting, cock at the transducer left shut, "
        "8 times likelier"
    )
    values = diagnose_text(BARE_HOUSE + '[complaint]\nchanged = ["recent-work"]\n')["complaint"]
    assert [each["text"] for each in values] == said
    assert values[0]["values"]["times"] == 8.0
