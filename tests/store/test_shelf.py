"""Kept texts: bounded, never the record's, and thrown away where they are damaged."""

from __future__ import annotations

import logging
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from steadyhead.store.shelf import Shelf

WARNED = logging.WARNING


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Return where the texts are kept."""
    return tmp_path / "thoughts.db"


Open = Callable[..., Shelf]


@pytest.fixture
def on(file: Path) -> Iterator[Open]:
    """Return what opens a shelf on the file; each is closed in the end."""
    opened: list[Shelf] = []

    def open_one(place: Path = file, most: int = 400) -> Shelf:
        opened.append(Shelf(place, most))
        return opened[-1]

    yield open_one
    for shelf in opened:
        shelf.close()


def test_a_text_is_there_after_the_program_was_started_anew(on: Open) -> None:
    """Whoever comes back finds what was kept."""
    first = on()
    first.put("key", "a text with ü and €")
    first.close()
    assert on().get("key") == "a text with ü and €"


def test_a_key_has_one_text_the_last(on: Open) -> None:
    """Kept twice, it stands once."""
    shelf = on()
    shelf.put("key", "one")
    shelf.put("key", "two")
    assert shelf.get("key") == "two"


def test_the_oldest_gives_way(on: Open) -> None:
    """Of five texts, three are kept: the last."""
    shelf = on(most=3)
    for number in range(5):
        shelf.put(str(number), f"text {number}")
    assert [shelf.get(str(number)) for number in range(5)] == [None, None, "text 2", "text 3", "text 4"]


def test_the_file_does_not_grow_for_ever(file: Path, on: Open) -> None:
    """A thousand texts take no more room than the first hundred did, but for a page or two."""
    shelf = on(most=20)
    sizes = []
    for number in range(1000):
        shelf.put(str(number), "".join(chr(33 + (number * k) % 90) for k in range(400)))
        sizes.append(file.stat().st_size)
    assert sizes[-1] <= sizes[99] + 3 * 4096


@pytest.mark.parametrize("damage", [b"no database, but a text that stands in its place", b"SQLite format 3\0" * 400])
def test_a_damaged_file_is_thrown_away_with_a_line_in_the_log(
    file: Path, on: Open, damage: bytes, caplog: pytest.LogCaptureFixture
) -> None:
    """Bytes that are no database: the shelf is empty, says so, and keeps what comes next."""
    file.write_bytes(damage)
    shelf = on()
    with caplog.at_level(WARNED, "steadyhead.shelf"):
        assert shelf.get("key") is None
    assert "thrown away" in caplog.text
    shelf.put("key", "text")
    assert on().get("key") == "text"


def test_a_damaged_text_is_thrown_away_too(file: Path, on: Open, caplog: pytest.LogCaptureFixture) -> None:
    """One byte of a kept text is another: its own sum of check tells."""
    shelf = on()
    shelf.put("key", "a text of some length, so that there is something to damage")
    shelf.close()
    with sqlite3.connect(file) as known:
        (text,) = known.execute("SELECT text FROM kept").fetchone()
        known.execute("UPDATE kept SET text = ?", (text[:-1] + bytes((text[-1] ^ 1,)),))
    known.close()
    with caplog.at_level(WARNED, "steadyhead.shelf"):
        assert on().get("key") is None
    assert "thrown away" in caplog.text


def test_where_no_file_can_be_had_the_work_goes_on_without(
    tmp_path: Path, on: Open, caplog: pytest.LogCaptureFixture
) -> None:
    """A folder stands where the file should: one line in the log, and no more tries."""
    (tmp_path / "thoughts.db").mkdir()
    shelf = on(tmp_path / "thoughts.db")
    with caplog.at_level(WARNED, "steadyhead.shelf"):
        shelf.put("key", "text")
        assert shelf.get("key") is None
    assert caplog.text.count("no answers are kept") == 1


def test_two_processes_may_share_it(on: Open) -> None:
    """Two connections: what one keeps the other finds."""
    one, other = on(), on()
    one.put("a", "1")
    other.put("b", "2")
    assert (one.get("b"), other.get("a")) == ("2", "1")
