"""What an earlier visit left open counts as odds of the next one, less with time, and proves nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.diagnosis.cells import Cell, cells
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.left_open import COUNTS, DAY_S, HALF_LIFE_D, left_open, part_of, with_left_open
from steadyhead.diagnosis.pairs import MENDED_AGAIN
from steadyhead.diagnosis.system import System
from steadyhead.service.diagnosis import diagnose_text
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Action, Complaint, Former, Visit
from tests.diagnosis.visits import BARE_BOOSTER
from tests.service.answers import visit as example

LOOSE, DEAD = "intermittent-signal", "controller-input-dead"
#: Two faults, no fault, and the rest of it: 0.4 + 0.1 + 0.25 + 0.25.
LEFT = Former(ended="2026-05-07", ago_s=0.0, believed=((LOOSE, 0.4), ("none", 0.25), (DEAD, 0.1)))
PLAIN = parse_visit(BARE_BOOSTER).visit


def _shares(visit: Visit) -> dict[str, float]:
    """Return each suspect's share before the first reading."""
    return _summed(with_left_open(System(visit), cells(System(visit))))


def _summed(found: list[Cell]) -> dict[str, float]:
    shares: dict[str, float] = {}
    for cell in found:
        shares[cell.fault] = shares.get(cell.fault, 0.0) + cell.weight
    return shares


def test_the_odds_are_a_mixture_of_those_of_any_call_and_of_what_was_left_open() -> None:
    """By hand: all faults together keep their odds W; of those 0.4, 0.1 and 0.25 of 0.75 were believed."""
    plain, now = _shares(PLAIN), _shares(replace(PLAIN, former=LEFT))
    faults = sum(share for fault, share in plain.items() if fault not in {"none", "none-of-these"})
    for fault, believed in ((LOOSE, 0.4), (DEAD, 0.1)):
        assert now[fault] == pytest.approx((1 - COUNTS) * plain[fault] + COUNTS * faults * believed / 0.75, rel=1e-9)
    unnamed = faults - plain[LOOSE] - plain[DEAD]
    rest = (1 - COUNTS) + COUNTS * faults * (0.25 / 0.75) / unnamed
    assert now["sensor-open"] == pytest.approx(rest * plain["sensor-open"], rel=1e-9)


def test_that_nothing_was_found_then_says_nothing_of_today() -> None:
    """No fault, and what is not known here, keep the odds of any call; all together they still are everything."""
    plain, now = _shares(PLAIN), _shares(replace(PLAIN, former=LEFT))
    assert [now[each] for each in ("none", "none-of-these")] == pytest.approx(
        [plain[each] for each in ("none", "none-of-these")], rel=1e-9
    )
    assert sum(now.values()) == pytest.approx(1.0, rel=1e-9)


def test_nothing_is_excluded() -> None:
    """A property: at least the part of the mixture that is any call's, though one fault was all that was believed."""
    certain = replace(LEFT, believed=((LOOSE, 1.0),))
    plain, now = _shares(PLAIN), _shares(replace(PLAIN, former=certain))
    assert all(now[fault] >= (1 - COUNTS) * share * (1 - 1e-9) for fault, share in plain.items())


def test_it_counts_half_as_much_after_each_half_life_and_in_the_end_not_at_all() -> None:
    """By hand; ten years later nothing of it is told as counting."""
    parts = [part_of(replace(LEFT, ago_s=k * HALF_LIFE_D * DAY_S)) for k in range(3)]
    assert parts == pytest.approx([COUNTS, COUNTS / 2, COUNTS / 4], rel=1e-12)
    old = replace(PLAIN, former=replace(LEFT, ago_s=3650 * DAY_S))
    assert _shares(old) == _shares(PLAIN)
    assert [told.id for told in left_open(old)] == ["former-long-ago"]


@pytest.mark.parametrize("here", [False, True], ids=["in the earlier visit", "here before the first reading"])
def test_what_was_repaired_since_is_suspected_little_more(here: bool) -> None:
    """By hand: its believed share is a fifth; what was not named takes what is left. It is told."""
    actions = (Action(remedy="repair-cable", after_reading=0),) if here else ()
    former = LEFT if here else replace(LEFT, mended=("repair-cable",))
    visit = replace(PLAIN, former=former, actions=actions)
    plain, now = _shares(PLAIN), _shares(visit)
    faults = sum(share for fault, share in plain.items() if fault not in {"none", "none-of-these"})
    believed = MENDED_AGAIN * 0.4 / 0.75
    assert now[LOOSE] == pytest.approx((1 - COUNTS) * plain[LOOSE] + COUNTS * faults * believed, rel=1e-9)
    told = left_open(visit)
    assert [each.id for each in told] == ["former-counts", "former-mended"]
    assert told[0].values["what"] == (DEAD,)


def test_of_a_pair_the_half_that_was_not_repaired_is_suspected() -> None:
    """By hand: the pair's whole share goes to the dead input."""
    pair = replace(LEFT, believed=((f"{DEAD}+sensor-open", 0.5),), mended=("replace-sensor",))
    plain, now = _shares(PLAIN), _shares(replace(PLAIN, former=pair))
    faults = sum(share for fault, share in plain.items() if fault not in {"none", "none-of-these"})
    assert now[DEAD] == pytest.approx((1 - COUNTS) * plain[DEAD] + COUNTS * faults * 0.5, rel=1e-9)


def test_what_cannot_be_at_this_loop_is_left_out() -> None:
    """A fault of three wires, in a loop of two: what was believed of it goes to what was not named."""
    other = replace(LEFT, believed=(("open-common", 0.9),))
    assert "open-common" not in _shares(PLAIN)
    assert _shares(replace(PLAIN, former=other)) == pytest.approx(_shares(PLAIN), rel=1e-9)


def test_proof_is_judged_as_if_nothing_had_been_left_open() -> None:
    """A property: without what was said each cell has the weight that it has without an earlier visit."""
    said = replace(PLAIN, complaint=Complaint(changed=("storm",)))
    alone = cells(System(said))
    now = with_left_open(System(replace(said, former=LEFT)), alone)
    without = [cell.weight / cell.said for cell in now]
    plain = [cell.weight / cell.said for cell in alone]
    assert [w / sum(without) for w in without] == pytest.approx([w / sum(plain) for w in plain], rel=1e-9)


def test_readings_outweigh_what_was_left_open() -> None:
    """The example's damp cable is found all the same, where the earlier visit was all but sure of another fault."""
    visit = example("house-damp-cable")
    misled = replace(LEFT, believed=(("sensor-frozen", 0.95),))
    now, then = diagnose(replace(visit, former=misled)), diagnose(visit)
    assert (now.verdict.remedy, now.suspects[0].fault) == (then.verdict.remedy, then.suspects[0].fault)


def test_what_was_left_open_decides_where_nothing_was_read() -> None:
    """The likeliest suspect is the one that was likeliest then, and the answer tells why."""
    answer = diagnose(replace(PLAIN, former=LEFT))
    assert answer.suspects[0].fault == LOOSE
    assert [told.values["day"] for told in answer.former] == ["2026-05-07"]


def test_it_is_left_out_where_somebody_says_so() -> None:
    """The same odds as without an earlier visit; that it does not count is told."""
    now, then = diagnose(replace(PLAIN, former=replace(LEFT, counts=False))), diagnose(PLAIN)
    assert now.suspects == then.suspects
    assert [told.id for told in now.former] == ["former-out"]
    assert then.former == ()


def test_a_file_says_it_and_its_answer_tells_it_in_words() -> None:
    """The table of a file, as a person would write it."""
    text = BARE_BOOSTER + '\n[former]\nended = "2026-05-07"\nago = "60 d"\nbelieved = ["intermittent-signal 42 %"]\n'
    told = diagnose_text(text)["former"]
    assert [each["id"] for each in told] == ["former-counts"]
    assert "What the visit of 2026-05-07 left open counts here, as 35 %" in told[0]["text"]
