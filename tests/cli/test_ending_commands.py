"""follow-ups, end and left-open as a person types them."""

from __future__ import annotations

import json
from contextlib import closing
from pathlib import Path

import pytest

from steadyhead.bootstrap import given_of, open_home, place_named
from steadyhead.service.record.follow_ups import what_waits
from steadyhead.service.record.lists import find_visits
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.visits import start_visit
from tests.cli.terminal import Terminal
from tests.support import ROOT

EXAMPLE = ROOT / "examples" / "house-damp-cable.toml"


@pytest.fixture(autouse=True)
def _a_record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, terminal: Terminal) -> None:
    """Stand in a folder of its own, with a record there that has one visit."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STEADYHEAD_DATA", str(tmp_path / "record.db"))
    terminal.run("import", str(EXAMPLE))


def test_a_visit_that_is_watched_is_listed_until_it_is_opened_again(terminal: Terminal) -> None:
    """A fortnight from today, as nobody said when."""
    assert "Nothing comes back." in terminal.run("follow-ups").out
    kept = terminal.run("end", "last", "watching", "--note", "hums at night")
    assert (kept.code, kept.err) == (0, "")
    assert "being watched" in kept.out
    listed = json.loads(terminal.run("follow-ups", "--json").out)["follow_ups"]
    assert [(each["kind"], each["days"], each["overdue"]) for each in listed] == [("watch", 14, False)]
    assert "in 14 days" in terminal.run("follow-ups").out
    assert json.loads(terminal.run("end", "last", "open", "--json").out)["follow_ups"] == []


def test_what_is_lacking_or_is_no_ending_is_refused_with_2(terminal: Terminal) -> None:
    """Said by nobody; nothing of that name."""
    for words, said in (
        (("end", "last", "declined", "--by", "Mr Dahl"), "what was offered?"),
        (("end", "last", "vanished"), "vanished"),
        (("end", "last", "night-pending", "--due", "2001-01-01"), "2001-01-01 has passed"),
    ):
        ended = terminal.run(*words)
        assert (ended.code, ended.out) == (2, "")
        assert said in ended.err


def test_a_watched_visit_keeps_what_is_suspected_for_the_next_one(terminal: Terminal, tmp_path: Path) -> None:
    """As the record has it: faults with their shares, the likeliest first: the damp cable of the example."""
    terminal.run("end", "last", "watching")
    with closing(open_home(place_named(str(tmp_path / "record.db")))) as home:
        given = given_of(home)
        line = what_waits(given)[0].pending
        believed = visit_page(given, line.visit).ending["believed"]
    assert believed[0].startswith("leakage-")
    shares = [float(each.split(" ")[1]) for each in believed]
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) <= 100.5


def _next_visit(tmp_path: Path) -> None:
    """Begin the next visit of the system whose visit was written to last."""
    with closing(open_home(place_named(str(tmp_path / "record.db")))) as home:
        given = given_of(home)
        start_visit(given, {}, system=visit_page(given, find_visits(given, "")[0].id).system_id)


def test_what_the_visit_before_left_open_is_shown_left_out_and_let_count_again(
    terminal: Terminal, tmp_path: Path
) -> None:
    """As the app's page says it; the last visit is the one that begins now, and the record has what was chosen."""
    terminal.run("end", "last", "watching")
    _next_visit(tmp_path)
    shown = terminal.run("left-open", "last")
    assert (shown.code, shown.err) == (0, "")
    assert "left open counts here, as 70 %" in " ".join(shown.out.split())
    out = terminal.run("left-open", "last", "--leave-out")
    assert (out.code, "does not count here" in out.out) == (0, True)
    found = json.loads(terminal.run("left-open", "last", "--json").out)
    assert (found["counts"], found["believed"][0].split("-")[0]) == (False, "leakage")
    assert json.loads(terminal.run("left-open", "last", "--count", "--json").out)["counts"] is True


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("last",), "carries nothing that the visit before left open"),
        (("last", "--leave-out"), "carries nothing that the visit before left open"),
        (("last", "--leave-out", "--count"), "must be one of the two"),
        (("01M8K0GD2T23ENQDN3K2DZ1E41", "--count"), "01M8K0GD2T23ENQDN3K2DZ1E41"),
    ],
)
def test_where_nothing_was_left_open_nothing_is_left_out(terminal: Terminal, words: tuple[str, ...], told: str) -> None:
    """The example is its system's first visit; nothing stands on stdout, exit code 2."""
    ended = terminal.run("left-open", *words)
    assert (ended.code, ended.out) == (2, "")
    assert told in " ".join(ended.err.split())
