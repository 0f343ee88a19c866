"""A store in memory: the naive twin of the real one, for tests of the use cases."""

from __future__ import annotations

import hashlib
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from types import TracebackType
from typing import Self

from steadyhead.service.ports import PAGE, Added, Blob, FactSize, PhotoShown
from steadyhead.visit.cards import (
    EntityCard,
    SystemCard,
    VisitCard,
    entity_card,
    found_by,
    is_entity,
    stands_alone,
    system_card,
    visit_card,
    visit_of,
)
from steadyhead.visit.facts import Fact, canonical
from steadyhead.visit.heads import heads_of
from steadyhead.visit.pending import Pending, pending_of
from steadyhead.visit.union import targets_of, union


@dataclass
class MemoryStore:
    """What lasts: every unit of work begins with a copy and puts it back at its commit."""

    facts: dict[str, Fact] = field(default_factory=dict)
    blobs: dict[str, Blob] = field(default_factory=dict)
    small: dict[str, Blob] = field(default_factory=dict)
    settings: dict[str, str] = field(default_factory=dict)

    def work(self) -> MemoryWork:
        """Return a unit of work."""
        return MemoryWork(self)

    reading = writing = work


class MemoryWork:
    """A unit of work on a copy."""

    def __init__(self, store: MemoryStore) -> None:
        self._store = store

    def __enter__(self) -> Self:
        self._facts = dict(self._store.facts)
        self._blobs = dict(self._store.blobs)
        self._small = dict(self._store.small)
        self._settings = dict(self._store.settings)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        del self._small
        del self._facts, self._blobs, self._settings

    def commit(self) -> None:
        """Put the copies in the place of what stood."""
        self._store.facts = dict(self._facts)
        self._store.blobs = dict(self._blobs)
        self._store.small = {sha256: each for sha256, each in self._small.items() if sha256 in self._blobs}
        self._store.settings = dict(self._settings)

    def add(self, facts: Iterable[Fact]) -> Added:
        """Bring facts together, and drop the blobs that a purge left unshown."""
        came = list(facts)
        both = union(self._facts.values(), came)
        before = self._shown()
        new = tuple(dict.fromkeys(fact.id for fact in came if fact.id not in self._facts))
        self._facts = {fact.id: fact for fact in both.facts}
        for sha256 in before - self._shown():
            self._blobs.pop(sha256, None)
        return Added(new, both.collisions)

    def _shown(self) -> set[str]:
        return {str(fact.body["sha256"]) for fact in self._facts.values() if "sha256" in fact.body}

    def fact(self, id_: str) -> Fact | None:
        """Return one fact."""
        return self._facts.get(id_)

    def facts(
        self, *, about: str | None = None, visit: str | None = None, kind: str | None = None
    ) -> tuple[Fact, ...]:
        """Return the facts that meet all that is asked."""
        return tuple(
            fact
            for _, fact in sorted(self._facts.items())
            if about in {None, fact.about} and kind in {None, fact.kind} and visit in {None, visit_of(fact)}
        )

    def facts_after(self, after: str, limit: int) -> tuple[Fact, ...]:
        """Return the facts that come after an id."""
        return tuple(fact for id_, fact in sorted(self._facts.items()) if id_ > after)[:limit]

    def fact_sizes(self, after: str, limit: int) -> tuple[FactSize, ...]:
        """Return how long the facts are that come after an id."""
        some = [fact for id_, fact in sorted(self._facts.items()) if id_ > after][:limit]
        return tuple(FactSize(fact.id, fact.kind, fact.about, fact.visit, len(canonical(fact))) for fact in some)

    def facts_showing(self, photos: Iterable[str]) -> tuple[Fact, ...]:
        """Return the facts that show one of these photos."""
        wanted = frozenset(photos)
        return tuple(fact for _, fact in sorted(self._facts.items()) if fact.body.get("sha256") in wanted)

    def photos_shown(self, after: str, limit: int) -> tuple[PhotoShown, ...]:
        """Return the photos that facts show."""
        named = sorted(sha256 for sha256 in self._shown() if sha256 > after)[:limit]
        sizes = {sha256: len(blob.data) for sha256, blob in self._blobs.items()}
        return tuple(PhotoShown(sha256, sizes.get(sha256)) for sha256 in named)

    def purged(self, ids: Iterable[str]) -> frozenset[str]:
        """Return those of these ids that a purge names."""
        return targets_of(self._facts.values()) & frozenset(ids)

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
        found = [
            card
            for card in self._visits()
            if state in {None, card.state} and system in {None, card.system} and found_by(card.search, text)
        ]
        return _page(found, before, limit)

    def _visits(self) -> list[VisitCard]:
        by_visit: dict[str, list[Fact]] = defaultdict(list)
        for _, fact in sorted(self._facts.items()):
            visit = visit_of(fact)
            if visit is not None:
                by_visit[visit].append(fact)
        return [
            visit_card(id_, heads_of(f for f in some if f.about == id_), some)
            for id_, some in by_visit.items()
            if not stands_alone(id_, some)
        ]

    def system_cards(
        self, *, site: str | None = None, text: str = "", before: str = "", limit: int = PAGE
    ) -> tuple[SystemCard, ...]:
        """Return systems, last changed first."""
        visits = self._visits()
        found = [
            system_card(heads, [visit for visit in visits if visit.system == about])
            for about, heads in self._heads("system").items()
        ]
        asked = [card for card in found if site in {None, card.site} and found_by(card.search, text)]
        return _page(asked, before, limit)

    def _heads(self, kind: str) -> dict[str, list[Fact]]:
        by_entity: dict[str, list[Fact]] = defaultdict(list)
        for fact in self.facts(kind=kind):
            by_entity[fact.about].append(fact)
        return {about: list(heads_of(some)) for about, some in by_entity.items() if is_entity(some[0])}

    def entities(self, kind: str, *, text: str = "", limit: int = PAGE) -> tuple[EntityCard, ...]:
        """Return entities of a kind, by name."""
        cards = [entity_card(heads) for heads in self._heads(kind).values()]
        found = [card for card in cards if found_by(card.search, text)]
        return tuple(sorted(found, key=lambda card: (card.search, card.about)))[:limit]

    def pending(self, *, visit: str | None = None, limit: int = PAGE) -> tuple[Pending, ...]:
        """Return what is waited for, by its day."""
        visits = [id_ for id_ in dict.fromkeys(map(visit_of, self._facts.values())) if id_ and visit in {None, id_}]
        found = [
            each
            for id_ in visits
            for some in [self.facts(visit=id_)]
            for each in pending_of(id_, heads_of(f for f in some if f.about == id_), some)
        ]
        return tuple(sorted(found, key=lambda each: (each.due, each.about)))[:limit]

    def names(self, ids: Iterable[str]) -> dict[str, str]:
        """Return what entities are called."""
        asked = set(ids)
        kinds = {fact.kind for fact in self._facts.values() if is_entity(fact)}
        found = [entity_card(heads) for kind in kinds for heads in self._heads(kind).values()]
        return {card.about: card.name for card in found if card.about in asked and card.name}

    def put_blob(self, data: bytes, media_type: str) -> str:
        """Keep bytes once."""
        sha256 = hashlib.sha256(data).hexdigest()
        self._blobs.setdefault(sha256, Blob(data, media_type))
        return sha256

    def blob(self, sha256: str) -> Blob | None:
        """Return the bytes of that SHA-256."""
        return self._blobs.get(sha256)

    def put_thumbnail(self, sha256: str, data: bytes, media_type: str) -> None:
        """Keep a small picture of a photo."""
        self._small[sha256] = Blob(data, media_type)

    def thumbnail(self, sha256: str) -> Blob | None:
        """Return the small picture of a photo that is here."""
        return self._small.get(sha256) if sha256 in self._blobs else None

    def setting(self, name: str) -> str | None:
        """Return one setting."""
        return self._settings.get(name)

    def set_setting(self, name: str, value: str) -> None:
        """Keep one setting."""
        self._settings[name] = value


def _page(cards: list, before: str, limit: int) -> tuple:  # type: ignore[type-arg]
    """Return one page of cards, last changed first."""
    ordered = sorted((card for card in cards if not before or card.last < before), key=lambda card: card.last)
    return tuple(reversed(ordered))[:limit]


