"""A device of a test: its own store, clock and ids; the store in memory, or in a SQLite file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol

from sqlalchemy import select

from steadyhead.service.ports import Blob, UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.store.opening import open_store
from steadyhead.store.places import Place
from steadyhead.store.tables import blob
from steadyhead.visit.facts import Fact
from tests.record.bench import ToldClock, seeded_ids
from tests.record.memory import MemoryStore


class AStore(Protocol):
    """A store that a test may look into."""

    @property
    def facts(self) -> Mapping[str, Fact]:
        """Every fact by its id."""

    @property
    def blobs(self) -> Mapping[str, Blob]:
        """Every photo by its SHA-256."""

    def reading(self) -> UnitOfWork:
        """Return a unit of work to look."""

    def writing(self) -> UnitOfWork:
        """Return a unit of work to change."""


class SqliteStore:
    """The real store, in a file."""

    def __init__(self, folder: Path) -> None:
        self.real = open_store(Place(folder / "record.db", folder, "truncate"))

    @property
    def facts(self) -> dict[str, Fact]:
        """Every fact by its id."""
        with self.real.reading() as unit:
            return {fact.id: fact for fact in unit.facts()}

    @property
    def blobs(self) -> dict[str, Blob]:
        """Every photo by its SHA-256."""
        with self.real.reading() as unit:
            every = unit.connection.execute(select(blob.c.sha256, blob.c.bytes, blob.c.media_type)).all()
            return {row.sha256: Blob(bytes(row.bytes), row.media_type) for row in every}

    def reading(self) -> UnitOfWork:
        """Return a unit of work to look."""
        return self.real.reading()

    def writing(self) -> UnitOfWork:
        """Return a unit of work to change."""
        return self.real.writing()

    def close(self) -> None:
        """Close the file."""
        self.real.close()


@dataclass
class Device:
    """A laptop or a phone."""

    seed: int = 1
    store: AStore = field(default_factory=MemoryStore)
    clock: ToldClock = field(default_factory=ToldClock)

    def __post_init__(self) -> None:
        ids = seeded_ids(self.clock, self.seed)
        self.given = Given(reading=self.store.reading, writing=self.store.writing, ids=ids, clock=self.clock)

    def meets(self, other: Device) -> None:
        """Bring the facts of two devices together, both ways."""
        for one, another in ((self, other), (other, self)):
            every = list(another.store.facts.values())
            with one.store.writing() as work:
                work.add(every)
                work.commit()
