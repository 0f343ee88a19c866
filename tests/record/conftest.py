"""The device of a test, once with a store in memory and once with a SQLite file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.record.device import Device, SqliteStore


@pytest.fixture(params=["memory", "sqlite"])
def device(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Device]:
    """Return a laptop."""
    if request.param == "memory":
        yield Device()
        return
    store = SqliteStore(tmp_path)
    yield Device(store=store)
    store.close()
