"""What a list shows of an entity, a visit, a system: read off the facts, so that no list has to read them all.

Rules
-----
1. A card is a function of facts alone: the same facts in any order give the same card.
2. Two heads are a conflict: the card counts them, and shows every name that they give, in the order of their ids.
3. Where heads disagree on something that can be shown once only (the system of a visit), the first by id is shown; it
   decides nothing.
4. A sensor check that stands alone is no visit: it has no card among them.
5. `search` holds what a person may type to find it, folded to plain small letters: of a visit the complaint, who was
   there, and every note, part, serial number and word of it as it stands.
"""

from __future__ import annotations

import unicodedata
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import heads_of

OPEN = "open"
#: The kinds of fact that make an entity which a list may show.
LISTED = frozenset({"site", "system", "instrument", "visit", "check", "stock"})
#: The kinds of fact whose words a visit is found by: what a person wrote, no figures.
WRITTEN = frozenset({"note", "action", "photo", "temporary", "follow-up", "finding", "check", "declined"})
_BETWEEN = " / "


@dataclass(frozen=True, slots=True, kw_only=True)
class EntityCard:
    """A site, a system, an instrument, a visit: its ULID, its name, and how many heads it has."""

    about: str
    kind: str
    name: str
    heads: int
    search: str


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitCard:
    """A visit in a list.

    `started` and `last` are the ULIDs of its first and its last fact, `last_at` the last one's time by its own device.
    """

    visit: str
    system: str | None
    site: str | None
    state: str
    complaint: str
    started: str
    last: str
    last_at: str
    readings: int
    photos: int
    heads: int
    search: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemCard:
    """A system in a list; `last` is the ULID of the last fact of it or of its visits."""

    system: str
    site: str | None
    name: str
    signal: str
    range: str
    visits: int
    open_visits: int
    last: str
    heads: int
    search: str


def is_entity(fact: Fact) -> bool:
    """Tell whether a fact is one of those that make an entity."""
    return fact.kind in LISTED


def visit_of(fact: Fact) -> str | None:
    """Return the visit whose card a fact may change."""
    return fact.about if fact.kind == "visit" else fact.visit


def stands_alone(visit: str, facts: Iterable[Fact]) -> bool:
    """Tell whether what calls itself a visit is a sensor check that belongs to none."""
    return any(fact.kind == "check" and fact.about == visit for fact in facts)


def folded(*texts: str) -> str:
    """Return texts as one that can be searched without regard to capitals and accents.

    >>> folded("Fernhill Row", "Café")
    'fernhill row cafe'
    """
    plain = unicodedata.normalize("NFKD", " ".join(text for text in texts if text)).casefold()
    return " ".join("".join(sign for sign in plain if not unicodedata.combining(sign)).split())


def found_by(search: str, text: str) -> bool:
    """Tell whether each word of a text stands somewhere in what finds a card; no word finds every card.

    >>> found_by("fernhill row cafe", "Row FERN"), found_by("fernhill row", "row mill"), found_by("fernhill", " ")
    (True, False, True)
    """
    return all(word in search for word in folded(text).split())


def entity_card(heads: Sequence[Fact]) -> EntityCard:
    """Return the card of one entity, given its heads in the order of their ids; there is at least one."""
    name = _joined(_texts(heads, "name"))
    return EntityCard(
        about=heads[0].about, kind=heads[0].kind, name=name, heads=len(heads), search=folded(*_all_texts(heads))
    )


def visit_card(visit: str, heads: Sequence[Fact], facts: Sequence[Fact]) -> VisitCard:
    """Return the card of one visit, given the heads of the visit itself and all its facts, by id."""
    complaints = [_table(head, "complaint").get("text") for head in heads]
    complaint = _joined(text for text in complaints if isinstance(text, str))
    states = list(_texts(heads, "state"))
    return VisitCard(
        visit=visit,
        system=_first(heads, "system"),
        site=_first(heads, "site"),
        state=OPEN if OPEN in states or not states else states[0],
        complaint=complaint,
        started=facts[0].id,
        last=facts[-1].id,
        last_at=facts[-1].at,
        readings=_count(facts, "reading"),
        photos=_count(facts, "photo"),
        heads=len(heads),
        search=folded(complaint, *_written(facts)),
    )


def system_card(heads: Sequence[Fact], visits: Sequence[VisitCard]) -> SystemCard:
    """Return the card of one system, given its heads in the order of their ids, and the cards of its visits."""
    name = _joined(_texts(heads, "name"))
    sensors = [_table(head, "sensor") for head in heads]
    return SystemCard(
        system=heads[0].about,
        site=_first(heads, "site"),
        name=name,
        signal=_joined(sensor["signal"] for sensor in sensors if isinstance(sensor.get("signal"), str)),
        range=_joined(sensor["range"] for sensor in sensors if isinstance(sensor.get("range"), str)),
        visits=len(visits),
        open_visits=sum(visit.state == OPEN for visit in visits),
        last=max([heads[-1].id, *(visit.last for visit in visits)]),
        heads=len(heads),
        search=folded(*_all_texts(heads)),
    )


def _written(facts: Sequence[Fact]) -> list[str]:
    """Return every text of a visit that a person may look for: what its facts say as they stand, and who wrote it."""
    of_kind = defaultdict(list)
    for fact in facts:
        if fact.kind in WRITTEN:
            of_kind[fact.about].append(fact)
    standing = [head for some in of_kind.values() for head in heads_of(some)]
    return list(dict.fromkeys([*_all_texts(standing), *(fact.author for fact in facts)]))


def _count(facts: Iterable[Fact], kind: str) -> int:
    return len({fact.about for fact in facts if fact.kind == kind})


def _texts(heads: Iterable[Fact], key: str) -> Iterator[str]:
    return (text for head in heads if isinstance(text := head.body.get(key), str))


def _first(heads: Iterable[Fact], key: str) -> str | None:
    return next(_texts(heads, key), None)


def _table(head: Fact, key: str) -> Mapping[str, Any]:
    found = head.body.get(key)
    return found if isinstance(found, Mapping) else {}


def _joined(texts: Iterable[str]) -> str:
    return _BETWEEN.join(dict.fromkeys(text for text in texts if text))


def _all_texts(heads: Iterable[Fact]) -> list[str]:
    """Return every text of the bodies once, those of tables too: names first, the rest in the order of the keys."""
    rest = (text for head in heads for text in _texts_of(head.body))
    return list(dict.fromkeys([*_texts(heads, "name"), *rest]))


def _texts_of(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for key in sorted(value):
            yield from _texts_of(value[key])
    elif isinstance(value, (list, tuple)):
        for inner in value:
            yield from _texts_of(inner)
