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
from steadyhead.service.tonight import Chosen
from steadyhead.words import USUAL, Speaker
from tests.record.bench import ToldClock, seeded_ids
from tests.record.memory import MemoryStore
from tests.water.answered import WELL

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


def test_all_that_is_lacking_is_named_at_once(given: Given, visit: str) -> None:
    """Nothing was said, and a protection is lost: what, why, until when, and who watches."""
    with pytest.raises(RecordError) as refused:
        leave_temporary(given, visit, {"what": "", "why": " "}, ("dry-run",))
    assert refused.value.message.values["lacks"] == ("what", "why", "until", "watch")


def test_a_way_that_was_worked_out_is_kept_with_its_limits_and_what_it_takes(given: Given, visit: str) -> None:
    """The worked example's limits, rounded down: 42.7 Hz; 90 psi is 6.20 bar, this system's unit; the tag says them."""
    chosen = Chosen("fixed-speed", {**WELL, "watch": "in-house"})
    leave_temporary(given, visit, LEFT, chosen=chosen)
    body = visit_page(given, visit).temporary[-1].body
    assert (body["mode"], body["hertz_most"], body["pressure_most"]) == ("fixed-speed", "42.7 Hz", "6.2 bar")
    assert set(body["lost"]) == {"sensor-fault-stop", "pressure-control", "over-pressure"}
    assert body["until"] == LEFT["until"]
    assert body["known"]["lift"] == "100 ft"
    for kind in ("tag", "customer", "office", "next"):
        said = _said(given, visit, kind)
        assert "42.7 Hz" in said
        assert "6.2 bar" in said


@pytest.mark.parametrize(
    ("answers", "because"),
    [
        ({**WELL, "watch": "nobody"}, "tonight-not-so"),
        ({**WELL, "relief": "none"}, "tonight-not-so"),
        ({**WELL, "serves": "fire"}, "tonight-fire-pump"),
        ({**WELL, "serves": ""}, "tonight-who-first"),
        ({}, "tonight-who-first"),
    ],
)
def test_a_way_that_may_not_be_done_is_not_kept(
    given: Given, visit: str, answers: dict[str, str], because: str
) -> None:
    """The rules of safety hold for the record too: what a form sends is worked out again."""
    with pytest.raises(RecordError, match=because):
        leave_temporary(given, visit, LEFT, chosen=Chosen("fixed-speed", answers))
    assert visit_page(given, visit).state == "open"


def test_a_way_that_takes_a_protection_needs_a_name_that_watches(given: Given, visit: str) -> None:
    """The way says that somebody beside it watches; the tag must say who."""
    with pytest.raises(RecordError, match="temporary-unwatched"):
        leave_temporary(given, visit, {**LEFT, "watch": "-"}, chosen=Chosen("fixed-speed", WELL))


def test_what_was_made_safe_stands_as_made_safe_and_has_its_tag(given: Given, visit: str) -> None:
    """The record's own word."""
    leave_temporary(given, visit, LEFT, chosen=Chosen("made-safe", {"serves": "house"}))
    assert visit_page(given, visit).state == "made-safe"
    assert LEFT["what"] in _said(given, visit, "tag")


@pytest.mark.parametrize(("until", "because"), [("2001-01-02", "temporary-past"), ("tomorrow", "temporary-no-day")])
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
