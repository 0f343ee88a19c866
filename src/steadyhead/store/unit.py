"""The store, and the unit of work: what is not committed never happened.

Rules
-----
1. A unit is entered, does its work, and commits; whatever else ends it takes everything back.
2. A unit that may write waits for the one that writes, then sees what that one did. A unit that only reads waits for
   nobody and sees one moment.
3. After a purge the file is made smaller, and no byte of what was purged is left in it or beside it.
4. A photo is named by the SHA-256 of its bytes, and kept once.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from types import TracebackType
from typing import Self

from sqlalchemy import Connection, Engine, RootTransaction, Table, delete, insert, select

from steadyhead.service.ports import PAGE, Added, Blob, FactSize, PhotoShown
from steadyhead.store import asking, engines, keeping
from steadyhead.store.logbook import Logbook
from steadyhead.store.rows import read_facts
from steadyhead.store.tables import blob, fact, setting, system_card, thumbnail, visit_card
from steadyhead.visit.cards import EntityCard, SystemCard, VisitCard
from steadyhead.visit.facts import Fact
from steadyhead.visit.pending import Pending
from steadyhead.visit.union import PURGE


class Unit:
    """One unit of work on the record; enter it with ``with``."""

    def __init__(self, engine: Engine, connect: Callable[[Engine], Connection], log: Logbook) -> None:
        self._engine = engine
        self._connect = connect
        self._log = log
        self._added: list[Added] = []
        self._purges = False
        self._connection: Connection | None = None
        self._transaction: RootTransaction | None = None

    def __enter__(self) -> Self:
        """Begin.

        Raises
        ------
        StoreBusyError
            Another program has been writing for longer than a person waits.
        """
        self._connection = self._connect(self._engine)
        try:
            self._transaction = self._connection.begin()
        except BaseException:
            self._connection.close()
            raise
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """End; what was not committed is taken back."""
        self.connection.close()
        self._connection = self._transaction = None

    @property
    def connection(self) -> Connection:
        """The connection that the unit works on."""
        assert self._connection is not None, "a unit of work is entered before it is used"  # noqa: S101
        return self._connection

    def commit(self) -> None:
        """Keep what was done; it is on the disk when this returns, and the unit is at its end."""
        assert self._transaction is not None, "a unit of work commits once"  # noqa: S101
        self._transaction.commit()
        if self._purges:
            engines.give_back(self._engine)
        if new := sum(len(added.new) for added in self._added):
            self._log.note("added", facts=new, collided=sum(len(added.collisions) for added in self._added))

    def add(self, facts: Iterable[Fact]) -> Added:
        """Bring facts together with those that stand; the same ones again change nothing."""
        given = tuple(facts)
        self._purges = self._purges or any(one.kind == PURGE for one in given)
        self._added.append(keeping.add(self.connection, given))
        return self._added[-1]

    def fact(self, id_: str) -> Fact | None:
        """Return one fact."""
        return next(iter(read_facts(self.connection, fact.c.id == id_)), None)

    def facts(
        self, *, about: str | None = None, visit: str | None = None, kind: str | None = None
    ) -> tuple[Fact, ...]:
        """Return the facts that meet all that is asked; those of a visit include those about the visit itself."""
        return asking.facts(self.connection, about=about, visit=visit, kind=kind)

    def facts_after(self, after: str, limit: int) -> tuple[Fact, ...]:
        """Return the facts that come after an id, in order."""
        return asking.facts_after(self.connection, after, limit)

    def fact_sizes(self, after: str, limit: int) -> tuple[FactSize, ...]:
        """Return how long the facts are that come after an id, in order."""
        return asking.fact_sizes(self.connection, after, limit)

    def facts_showing(self, photos: Iterable[str]) -> tuple[Fact, ...]:
        """Return the facts that show one of these photos, in order."""
        return asking.facts_showing(self.connection, photos)

    def photos_shown(self, after: str, limit: int) -> tuple[PhotoShown, ...]:
        """Return the photos that facts show whose SHA-256 comes after `after`, in order."""
        return asking.photos_shown(self.connection, after, limit)

    def purged(self, ids: Iterable[str]) -> frozenset[str]:
        """Return those of these ids that a purge names: of facts, entities or visits."""
        return frozenset(keeping.targets_among(self.connection, ids))

    def visit_cards(
        self,
        *,
        state: str | None = None,
        system: str | None = None,
        text: str = "",
        before: str = "",
        limit: int = PAGE,
    ) -> tuple[VisitCard, ...]:
        """Return visits, last changed first."""
        where = asking.conditions(visit_card, text, state=state, system=system)
        return asking.page(self.connection, visit_card, where, before, limit)

    def system_cards(
        self, *, site: str | None = None, text: str = "", before: str = "", limit: int = PAGE
    ) -> tuple[SystemCard, ...]:
        """Return systems, last changed first."""
        return asking.page(
            self.connection, system_card, asking.conditions(system_card, text, site=site), before, limit
        )

    def entities(self, kind: str, *, text: str = "", limit: int = PAGE) -> tuple[EntityCard, ...]:
        """Return entities of a kind, by name."""
        return asking.entities(self.connection, kind, text, limit)

    def pending(self, *, visit: str | None = None, limit: int = PAGE) -> tuple[Pending, ...]:
        """Return what one visit waits for, or all of them, what is due first first."""
        return asking.waited_for(self.connection, visit, limit)

    def names(self, ids: Iterable[str]) -> dict[str, str]:
        """Return what entities are called, by their ids; those that have no name are left out."""
        return asking.names(self.connection, ids)

    def put_blob(self, data: bytes, media_type: str) -> str:
        """Keep bytes once; return their SHA-256 in hexadecimal."""
        sha256 = hashlib.sha256(data).hexdigest()
        if self.connection.scalar(select(blob.c.sha256).where(blob.c.sha256 == sha256)) is None:
            row = {"sha256": sha256, "media_type": media_type, "size": len(data), "bytes": data}
            self.connection.execute(insert(blob).values(row))
        return sha256

    def blob(self, sha256: str) -> Blob | None:
        """Return the bytes of that SHA-256."""
        return self._bytes(blob, sha256)

    def put_thumbnail(self, sha256: str, data: bytes, media_type: str) -> None:
        """Keep a small picture of a photo that is here, instead of the one that was."""
        self.connection.execute(delete(thumbnail).where(thumbnail.c.sha256 == sha256))
        self.connection.execute(insert(thumbnail).values(sha256=sha256, media_type=media_type, bytes=data))

    def thumbnail(self, sha256: str) -> Blob | None:
        """Return the small picture of a photo, None where there is none."""
        return self._bytes(thumbnail, sha256)

    def setting(self, name: str) -> str | None:
        """Return one of this device's settings."""
        return self.connection.scalar(select(setting.c.value).where(setting.c.name == name))

    def set_setting(self, name: str, value: str) -> None:
        """Keep one of this device's settings."""
        self.connection.execute(delete(setting).where(setting.c.name == name))
        self.connection.execute(insert(setting).values(name=name, value=value))

    def _bytes(self, table: Table, sha256: str) -> Blob | None:
        question = select(table.c.media_type, table.c.bytes).where(table.c.sha256 == sha256)
        row = self.connection.execute(question).one_or_none()
        return None if row is None else Blob(bytes(row.bytes), row.media_type)


class Store:
    """A database that holds the record, open and of today's version; see `steadyhead.store.opening`."""

    def __init__(self, engine: Engine, log: Logbook | None = None) -> None:
        self.engine = engine
        self.log = Logbook(None) if log is None else log

    def writing(self) -> Unit:
        """Return a unit that may write."""
        return Unit(self.engine, engines.writer, self.log)

    def reading(self) -> Unit:
        """Return a unit that only reads."""
        return Unit(self.engine, engines.reader, self.log)

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()
