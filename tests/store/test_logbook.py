"""The log: small, rotating, and without a word of anybody's."""

from __future__ import annotations

import logging
from pathlib import Path

from steadyhead import __version__
from steadyhead.bootstrap import open_home
from steadyhead.store import logbook
from steadyhead.store.logbook import Logbook
from steadyhead.store.places import Place
from tests.store.samples import WHOLE


def test_the_log_stays_small(tmp_path: Path) -> None:
    """The limit that the module states, with the older files beside it."""
    log = Logbook(tmp_path)
    for number in range(30_000):
        log.note("added", facts=number)
    log.close()
    files = sorted(file.name for file in tmp_path.iterdir())
    assert files == ["steadyhead.log", *(f"steadyhead.log.{n}" for n in range(1, 1 + logbook.OLDER_FILES))]
    assert max(file.stat().st_size for file in tmp_path.iterdir()) <= logbook.MOST_BYTES


def test_a_folder_that_cannot_be_written_costs_the_log_and_not_the_work(tmp_path: Path) -> None:
    """Nothing is raised and nothing is printed (a warning would be an error here)."""
    log = Logbook(tmp_path / "is" / "not" / "there")
    log.note("opened")
    log.note("closed")
    log.close()


def test_no_logger_of_the_process_is_touched(tmp_path: Path) -> None:
    """Two homes in one process do not share a log."""
    before = set(logging.root.manager.loggerDict)
    one, two = Logbook(tmp_path), Logbook(None)
    one.note("opened")
    two.note("opened")
    one.close()
    two.close()
    assert "steadyhead" not in set(logging.root.manager.loggerDict) - before
    assert len((tmp_path / logbook.FILE).read_text(encoding="utf-8").splitlines()) == 1


def test_a_home_writes_no_word_of_a_visit_into_its_log(place: Place) -> None:
    """Names and texts of the invented visit are looked for in the file."""
    home = open_home(place)
    with home.writing() as unit:
        unit.add(WHOLE)
        unit.commit()
    home.close()
    text = (place.folder / logbook.FILE).read_text(encoding="utf-8")
    assert [line.split(" ", 2)[2] for line in text.splitlines()] == [
        f"opened program={__version__} backend=sqlite", f"added facts={len(WHOLE)} collided=0", "closed",
    ]  # fmt: skip
    assert [word for word in ("Fernhill", "Ann", "Marlowe", "psi", "House pump") if word in text] == []
