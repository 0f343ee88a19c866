"""A check as a form and an address spell it: what is spelled reads back, and what anybody may send is refused."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.observing import Question
from steadyhead.errors import UnknownWordError
from steadyhead.web.questions import key_of, question_of_key

CHECKS = (
    Question("volts", "sensor-unplugged", "sensor.supply", "sensor.common"),
    Question("displayed-pressure", "source-at-controller", source=2.5),
    Question("inspection", item="port"),
    Question("gauge-pressure"),
    Question("gauge-pressure", whose="own"),
)


@pytest.mark.parametrize("check", CHECKS, ids=key_of)
def test_a_check_that_is_spelled_reads_back_as_itself(check: Question) -> None:
    """A round trip."""
    assert question_of_key(key_of(check)) == check


def test_addresses_of_six_pieces_stay_as_they_were() -> None:
    """The contract of the first addresses, which have no owner of a gauge."""
    assert key_of(CHECKS[3]) == "gauge-pressure;connected;;;;"
    assert key_of(CHECKS[4]) == "gauge-pressure;connected;;;;;own"


SENT = (
    "gauge-pressure;connected;;;;;", "gauge-pressure;connected;;;;;site", "gauge-pressure;connected;;;;;own;own",
    "volts;connected;controller.signal;controller.common;;;own", "inspection;connected;;;;port;own",
)  # fmt: skip


@pytest.mark.parametrize("sent", SENT)
def test_an_owner_where_none_belongs_is_refused(sent: str) -> None:
    """A browser sends anybody's text."""
    with pytest.raises(UnknownWordError):
        question_of_key(sent)
