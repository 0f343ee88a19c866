"""A home joins the record with the use cases, and leaves nothing behind."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path

import pytest

from steadyhead.bootstrap import open_home, pdf_setter, place_named, what_is_here
from steadyhead.errors import StoreVersionError
from steadyhead.service.record.given import author, set_author
from steadyhead.store.logbook import FILE
from steadyhead.store.places import Place
from tests.store.samples import filled


def test_the_use_cases_work_on_an_open_home(place: Place) -> None:
    """A name asked once is there the next time; clock and zone are the ones that were put in."""
    for expected in ("", "Ann"):
        home = open_home(place, clock=lambda: 7, chance=lambda _: 0, zone="America/Toronto", can=frozenset({"pdf"}))
        assert author(home.given) == expected
        assert (home.given.zone, home.given.clock(), home.can) == ("America/Toronto", 7, frozenset({"pdf"}))
        set_author(home.given, "Ann")
        home.close()


def test_two_homes_in_one_process_know_nothing_of_each_other(tmp_path: Path) -> None:
    """No state of a module."""
    one, other = (open_home(place_named(str(tmp_path / name / "record.db"))) for name in ("one", "other"))
    filled(one.store)
    with other.reading() as unit:
        assert unit.facts() == ()
    one.close()
    with other.reading() as unit:
        assert unit.facts() == ()
    other.close()
    assert "added" not in (tmp_path / "other" / FILE).read_text(encoding="utf-8")


def test_a_home_that_is_refused_says_so_in_its_log(place: Place) -> None:
    """By the message's id, without its values."""
    home = open_home(place)
    with home.writing() as unit:
        unit.connection.exec_driver_sql("UPDATE alembic_version SET version_num = '0099'")
        unit.commit()
    home.close()
    with pytest.raises(StoreVersionError, match="data-newer"):
        open_home(place)
    assert (place.folder / FILE).read_text(encoding="utf-8").rstrip().endswith("INFO refused message=data-newer")


def test_a_home_can_what_is_installed_and_what_it_cannot_is_not_given(monkeypatch: pytest.MonkeyPatch) -> None:
    """The library's own presence, and its absence."""
    assert ("pdf" in what_is_here()) == (find_spec("typst") is not None)
    assert pdf_setter(frozenset()) is None
    assert pdf_setter(frozenset({"pdf"})) is not None
    monkeypatch.setattr("steadyhead.bootstrap.find_spec", lambda _: None)
    assert what_is_here() == frozenset()


def test_a_home_hands_the_use_cases_what_it_can(place: Place) -> None:
    """A home that is told it has nothing beside the portable core, and one that has PDF."""
    for can in (frozenset[str](), frozenset({"pdf"})):
        home = open_home(place, can=can)
        try:
            assert (home.given.pdf is not None) == ("pdf" in can)
        finally:
            home.close()
