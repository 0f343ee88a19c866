"""Use case: everything that this home knows as one file, ``*.visits``, that another home takes in.

Rules
-----
1. It holds every fact, purges too, and every photo that a fact shows; it is taken in as a visit's file is, by union.
   The invented visit stays here.
2. A large record comes in parts, so that no part is more than a phone's browser holds: each is a file by itself, taken
   in in any order, twice or not at all. A photo's part holds the facts that show it, too, and every part all purges.
3. No settings go along: no name, no letterhead, no phone that joined.
4. To tell the parts, what the facts say is not read; of a part no more is read than it holds.
5. Nothing is compressed: photos are already, and the same part is the same bytes on every machine.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import takewhile

from steadyhead.errors import NotFoundError
from steadyhead.messages import message
from steadyhead.service.ports import FactSize, PhotoShown, UnitOfWork
from steadyhead.service.record.demo import invented
from steadyhead.service.record.given import Given, today_of
from steadyhead.visit.archive import Archive, Photo, archive_bytes
from steadyhead.visit.facts import Fact
from steadyhead.visit.union import PURGE

MIB = 1024 * 1024
FACTS_OF_A_PART = 8 * MIB  #: bytes of their text; as values they take some ten times that
PHOTOS_OF_A_PART = 40 * MIB
PAGE, LIGHT_PAGE = 500, 5000


@dataclass(frozen=True, slots=True)
class Part:
    """What one file holds: the facts after `after` up to `upto`, where it has any, and photos."""

    after: str = ""
    upto: str = ""
    photos: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Whole:
    """What stands to be handed out: how many visits, entries and photos, and in which parts."""

    visits: int
    facts: int
    photos: int
    parts: tuple[Part, ...]


def whole(given: Given) -> Whole:
    """Return what everything is, and in which parts it goes out; one part at least."""
    with given.reading() as work:
        left_out = invented(work)
        visits: set[str] = set()
        count, parts, size, after, last = 0, [], 0, "", ""
        for fact in _sizes(work, left_out):
            if size and size + fact.size > FACTS_OF_A_PART:
                parts.append(Part(after, last))
                after, size = last, 0
            size, last, count = size + fact.size, fact.id, count + 1
            visits |= {fact.about} if fact.kind == "visit" else set()
        parts.append(Part(after, last))
        groups, photos = _groups(photos_of(work), PHOTOS_OF_A_PART)
    first, *more = groups or [()]
    parts[0] = Part(parts[0].after, parts[0].upto, first)
    return Whole(len(visits), count, photos, (*parts, *(Part(photos=group) for group in more)))


def part_bytes(given: Given, number: int) -> bytes:
    """Return one part of everything, counted from 1, as the bytes of a file.

    Raises
    ------
    NotFoundError
        There are not so many.
    """
    parts = whole(given).parts
    if not 1 <= number <= len(parts):
        raise NotFoundError(message("everything-no-part", got=number, count=len(parts)))
    part = parts[number - 1]
    with given.reading() as work:
        wanted, left_out = frozenset(part.photos), invented(work)
        within = takewhile(lambda fact: fact.id <= part.upto, handed_out(work, left_out, part.after))
        beside = (*work.facts(kind=PURGE), *work.facts_showing(wanted))
        found_facts = {fact.id: fact for fact in (*within, *(each for each in beside if _leaves(each, left_out)))}
        facts = [found_facts[id_] for id_ in sorted(found_facts)]
        shown = {str(fact.body["sha256"]) for fact in facts if fact.body.get("sha256") in wanted}
        found = {sha256: work.blob(sha256) for sha256 in sorted(shown)}
        photos = {sha256: Photo(blob.data, blob.media_type) for sha256, blob in found.items() if blob is not None}
    return archive_bytes(Archive(facts=tuple(facts), photos=photos))


def file_name(given: Given, number: int, count: int) -> str:
    """Return what a part's file is called: with its day, and with its number where there are several."""
    beside = f"-{number}-of-{count}" if count > 1 else ""
    return f"steadyhead-{today_of(given).isoformat()}{beside}.visits"


def handed_out(work: UnitOfWork, left_out: frozenset[str], after: str = "", page: int = 0) -> Iterator[Fact]:
    """Yield the facts that leave this home, in the order of their ids, never holding more than a page of them."""
    while found := work.facts_after(after, page or PAGE):
        yield from (fact for fact in found if _leaves(fact, left_out))
        after = found[-1].id


def _sizes(work: UnitOfWork, left_out: frozenset[str]) -> Iterator[FactSize]:
    """Yield how long the facts are that leave this home, in the order of their ids."""
    after = ""
    while found := work.fact_sizes(after, LIGHT_PAGE):
        yield from (each for each in found if _leaves(each, left_out))
        after = found[-1].id


def _leaves(each: Fact | FactSize, left_out: frozenset[str]) -> bool:
    """Tell whether a fact is none of those that stay."""
    return not left_out or left_out.isdisjoint({each.id, each.about, each.visit or ""})


def photos_of(work: UnitOfWork) -> Iterator[PhotoShown]:
    """Yield the photos that facts show, in the order of their SHA-256."""
    after = ""
    while page := work.photos_shown(after, PAGE):
        yield from page
        after = page[-1].sha256


def _groups(photos: Iterator[PhotoShown], most: int) -> tuple[list[tuple[str, ...]], int]:
    """Return the photos that are here in groups of at most so many bytes, and how many they are; one may be larger."""
    groups: list[tuple[str, ...]] = []
    group: list[str] = []
    size = count = 0
    for each in photos:
        if each.size is None:
            continue
        if group and size + each.size > most:
            groups.append(tuple(group))
            group, size = [], 0
        group.append(each.sha256)
        size, count = size + each.size, count + 1
    return [*groups, *([tuple(group)] if group else [])], count
