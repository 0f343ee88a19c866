"""Whatever is typed: the guide never falls over, the file is always sound, and no reading is lost but on demand."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from steadyhead.service.guide.commands import SPELLINGS
from steadyhead.visit import parse_visit
from tests.service.guide.talks import talk
from tests.support import examples

#: Lines that mean something somewhere in the conversation.
MEANT = (
    "48", "48 psi", "2.41", "2.41 V", "-0.3", "2 to 3 jumping", "jumping 2 to 3", "OL", "pegged", "0 on the stop",
    "480", "can't", "can't, no cock", "no", "yes", "right", "wrong", "not seen", "none", "low signal", "fix 1 4.4",
    "fix 2", "skip 1", "skip 9", "done repair-cable", "done 1", "set place.cock no", "set sensor.range 0..150 psi",
    "set complaint.changed storm, freeze", "why sensor-low", "", " ", "1", "100 psi", "sudden, after a storm",
)  # fmt: skip
LINES = st.lists(
    st.one_of(
        st.sampled_from([*MEANT, *(word for word in SPELLINGS if SPELLINGS[word] != "quit")]),
        st.text(max_size=12),
    ),
    max_size=8,
)
TAKES_OUT = ("back", "undo", "fix", "correct")


pytestmark = pytest.mark.usefixtures("plate_alone")


@settings(max_examples=examples(25, 200), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(lines=LINES)
def test_whatever_is_typed_the_file_on_the_disk_is_sound(lines: list[str]) -> None:
    """What is on the disk can be read, and is what the state holds."""
    after = talk().says(*lines)
    assert after.disk is not None
    assert parse_visit(after.disk).visit == after.guide.known.visit


@settings(max_examples=examples(25, 200), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(lines=LINES)
def test_no_answer_is_lost_but_by_taking_it_back(lines: list[str]) -> None:
    """Counting rows: a line that corrects or takes back may lower the count, no other."""
    state = talk()
    for line in lines:
        counts = (len(state.visit.readings), len(state.visit.declined), len(state.visit.actions))
        state = state.says(line)
        now = (len(state.visit.readings), len(state.visit.declined), len(state.visit.actions))
        if not line.strip().lower().startswith(TAKES_OUT) and "can" not in line and "no" not in line:
            assert all(a >= b for a, b in zip(now, counts, strict=True))


@settings(max_examples=examples(25, 200), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(lines=LINES)
@example(lines=["\u00b9"])
@example(lines=["1", "100 psi", "", "", "fix \u00b2", "skip \u00b3", "done", "\u00b9", "fix " + "9" * 5000])
def test_a_new_file_is_begun_by_anybody(lines: list[str]) -> None:
    """Either nothing is on the disk yet, or a sound file."""
    after = talk(None).says(*lines)
    if after.disk is not None:
        parse_visit(after.disk)
    assert after.says(None).turns[-1].ended
