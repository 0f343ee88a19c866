"""Leaving something temporary: all of it said or nothing kept, watched where it must be, and printed."""

from __future__ import annotations

import pytest

from steadyhead.errors import RecordError
from steadyhead.service.papers.kinds import paper_of
from steadyhead.service.papers.occasion import of_record
from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.temporary import leave_temporary
from steadyhead.service.record.visits import end_visit, start_visit
from steadyhead.words import USUAL, Speaker
from tests.record.bench import ToldClock, seeded_ids
from tests.record.memory import MemoryStore

LEFT = {"what": "spare sensor, re-scaled", "why": "part is two days away", "until": "2999-01-02", "watch": "Ms Ruiz"}


@pytest.fixture
def given() -> Given:
    """Return what the use cases need, on a record in memory."""
    store, clock = MemoryStore(), ToldClock()
    return Given(reading=store.work, writing=store.work, ids=seeded_ids(clock), clock=clock, author="Ana")


@pytest.fixture
def visit(given: Given) -> str:
    """Return the id of a visit that has just begun."""
    return start_visit(given, {}, sensor={"signal": "4..20 mA", "range": "0..10 bar"})


def test_it_is_kept_with_the_visit_which_stands_as_left_temporary(given: Given, visit: str) -> None:
    """What was said comes back; the state is the record's own word."""
    leave_temporary(given, visit, LEFT, ("sensor-fault-stop",))
    seen = visit_page(given, visit)
    assert seen.state == "left-temporary"
    assert seen.temporary[-1].body == {**LEFT, "lost": ("sensor-fault-stop",)} or seen.temporary[-1].body == {
        **LEFT, "lost": ["sensor-fault-stop"]
    }  # fmt: skip


def test_the_same_form_sent_twice_keeps_one(given: Given, visit: str) -> None:
    """Counting."""
    token = given.ids.new(visit)
    assert leave_temporary(given, visit, LEFT, token=token) == leave_temporary(given, visit, LEFT, token=token)
    assert len(visit_page(given, visit).temporary) == 1


@pytest.mark.parametrize("key", ["what", "why", "until"])
def test_nothing_is_kept_where_one_of_them_is_not_said(given: Given, visit: str, key: str) -> None:
    """The rule: a tag without one of them is no tag."""
    with pytest.raises(RecordError, match="temporary-incomplete"):
        leave_temporary(given, visit, {**LEFT, key: " "})
    assert visit_page(given, visit).state == "open"


@pytest.mark.parametrize(("until", "because"), [("2001-01-02", "temporary-past"), ("tomorrow", "temporary-incomplete")])
def test_a_day_that_has_passed_or_is_none_is_refused(given: Given, visit: str, until: str, because: str) -> None:
    """The test's own clock stands long after 2001."""
    with pytest.raises(RecordError, match=because):
        leave_temporary(given, visit, {**LEFT, "until": until})


def test_while_a_protection_is_lost_somebody_watches(given: Given, visit: str) -> None:
    """The rule of safety: nothing that can hurt or flood is left alone."""
    with pytest.raises(RecordError, match="temporary-unwatched"):
        leave_temporary(given, visit, {**LEFT, "watch": ""}, ("over-pressure",))
    leave_temporary(given, visit, {**LEFT, "watch": ""})


def test_a_protection_that_does_not_exist_is_refused(given: Given, visit: str) -> None:
    """Not in the list."""
    with pytest.raises(RecordError, match="word-unknown"):
        leave_temporary(given, visit, LEFT, ("luck",))


def test_the_tag_and_the_reports_say_what_was_left(given: Given, visit: str) -> None:
    """What was said; once the visit stands otherwise, it is no longer said."""
    leave_temporary(given, visit, LEFT, ("dry-run", "over-pressure"))
    for kind in ("tag", "customer", "office", "next"):
        said = _said(given, visit, kind)
        assert all(text in said for text in LEFT.values())
        assert "when the pump runs dry" in said
    end_visit(given, visit, "proved-on-site")
    assert "spare sensor" not in _said(given, visit, "customer")


def _said(given: Given, visit: str, kind: str) -> str:
    from steadyhead.service.papers.kinds import in_words, look_of  # noqa: PLC0415 - one use

    seen = of_record(visit_page(given, visit), None, {})
    paper = paper_of(kind, seen)
    laid = in_words(paper, seen, USUAL, look_of(paper, USUAL))
    assert Speaker().say(paper.title) == laid["title"]
    return str(laid["blocks"])
