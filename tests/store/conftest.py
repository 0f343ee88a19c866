"""Stores in a folder that goes again."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from steadyhead.bootstrap import place_named
from steadyhead.store.opening import open_store
from steadyhead.store.places import Place
from steadyhead.store.unit import Store


@pytest.fixture
def place(tmp_path: Path) -> Place:
    """Return where a new record may live, in the way of this home."""
    return place_named(str(tmp_path / "record.db"))


@pytest.fixture
def store(place: Place) -> Iterator[Store]:
    """Return a new store, closed in the end."""
    made = open_store(place)
    yield made
    made.close()
