"""What the use cases of the record need from outside: a store, a clock, ids; told as protocols, joined in bootstrap.

Rules of a unit of work
-----------------------
1. It is a context manager; whoever leaves it without `commit()` leaves the store as it was.
2. `add` brings facts together with those that stand (`steadyhead.visit.union`), in the order in which they come: a fact
   that stands already changes nothing; a purge empties what it covers, and takes away blobs that nothing else shows.
3. Facts come in the order of their ids. Cards come last-changed first; `before` is the `last` of the card that ends the
   page before.
4. What `add` did can be read in the same unit of work, before its commit.
5. A setting is this device's own (a name asked once): no fact, never synced.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from types import TracebackType
from typing import Any, Protocol, Self

from steadyhead.visit.cards import EntityCard, SystemCard, VisitCard
from steadyhead.visit.facts import Fact
from steadyhead.visit.pending import Pending

PAGE = 50  #: cards of one page of a list


@dataclass(frozen=True, slots=True)
class Blob:
    """The bytes of a photo, and what they are."""

    data: bytes
    media_type: str


@dataclass(frozen=True, slots=True)
class PhotoShown:
    """A photo that facts show: its SHA-256, and how many bytes of it are here; None where none are."""

    sha256: str
    size: int | None


@dataclass(frozen=True, slots=True)
class FactSize:
    """A fact without what it says: its ids, its kind, and how long its text is, to some hundred signs."""

    id: str
    kind: str
    about: str
    visit: str | None
    size: int


@dataclass(frozen=True, slots=True)
class Added:
    """What `add` did: ids of facts that were new, and of those that stood with another content."""

    new: tuple[str, ...] = ()
    collisions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordSize:
    """How much the record holds [bytes]: all of it, its photos (and how many), the room left; None for not known."""

    total: int
    photos: int
    of_photos: int
    room: int | None


class UnitOfWork(Protocol):
    """One whole change of the record, or one look at it."""

    def __enter__(self) -> Self:
        """Begin."""
        ...

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """End; what was not committed is undone."""
        ...

    def commit(self) -> None:
        """Make what was done last."""
        ...

    def add(self, facts: Iterable[Fact]) -> Added:
        """Bring facts together with those that stand."""
        ...

    def fact(self, id_: str) -> Fact | None:
        """Return one fact."""
        ...

    def facts(self, *, about: str | None = None, visit: str | None = None, kind: str | None = None) -> tuple[Fact, ...]:
        """Return the facts that meet all that is asked; those of a visit include those about the visit itself."""
        ...

    def facts_after(self, after: str, limit: int) -> tuple[Fact, ...]:
        """Return the facts that come after an id, in order: so that all are read without ever holding all."""
        ...

    def fact_sizes(self, after: str, limit: int) -> tuple[FactSize, ...]:
        """Return how long the facts are that come after an id, in order, without reading what they say."""
        ...

    def facts_showing(self, photos: Iterable[str]) -> tuple[Fact, ...]:
        """Return the facts that show one of these photos, in the order of their ids."""
        ...

    def photos_shown(self, after: str, limit: int) -> tuple[PhotoShown, ...]:
        """Return the photos that facts show whose SHA-256 comes after `after`, in order."""
        ...

    def purged(self, ids: Iterable[str]) -> frozenset[str]:
        """Return those of these ids that a purge names: of facts, entities or visits."""
        ...

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
        ...

    def system_cards(
        self, *, site: str | None = None, text: str = "", before: str = "", limit: int = PAGE
    ) -> tuple[SystemCard, ...]:
        """Return systems, last changed first."""
        ...

    def entities(self, kind: str, *, text: str = "", limit: int = PAGE) -> tuple[EntityCard, ...]:
        """Return entities of a kind, by name."""
        ...

    def pending(self, *, visit: str | None = None, limit: int = PAGE) -> tuple[Pending, ...]:
        """Return what one visit waits for, or all of them, what is due first first."""
        ...

    def names(self, ids: Iterable[str]) -> dict[str, str]:
        """Return what entities are called, by their ids; those that have no name are left out."""
        ...

    def put_blob(self, data: bytes, media_type: str) -> str:
        """Keep bytes once; return their SHA-256 in hexadecimal."""
        ...

    def blob(self, sha256: str) -> Blob | None:
        """Return the bytes of that SHA-256."""
        ...

    def put_thumbnail(self, sha256: str, data: bytes, media_type: str) -> None:
        """Keep a small picture of a photo that is here, instead of the one that was."""
        ...

    def thumbnail(self, sha256: str) -> Blob | None:
        """Return the small picture of a photo, None where there is none."""
        ...

    def setting(self, name: str) -> str | None:
        """Return one of this device's settings."""
        ...

    def set_setting(self, name: str, value: str) -> None:
        """Keep one of this device's settings."""
        ...


class MakesIds(Protocol):
    """Makes ids that sort in the order in which they were made."""

    def new(self, after: str = "") -> str:
        """Return a new ULID, after `after`."""
        ...


class KeepsTexts(Protocol):
    """Keeps texts that can be made anew; what it loses costs time alone."""

    def get(self, key: str) -> str | None:
        """Return the text of a key, None where there is none."""
        ...

    def put(self, key: str, text: str) -> None:
        """Keep a text."""
        ...

    def close(self) -> None:
        """Let go of what holds them."""
        ...


WorkMaker = Callable[[], UnitOfWork]
#: Sets a paper, laid out in words (`steadyhead.documents.laid`), as PDF.
SetsPdf = Callable[[Mapping[str, Any], Mapping[str, Blob]], bytes]
#: Copies the whole record, proved, as the bytes of one file.
CopiesAll = Callable[[], bytes]
#: Tells how much the record holds.
MeasuresAll = Callable[[], RecordSize]
