"""Brings facts and photos of another home together with what stands here, and tells what came of it.

Rules
-----
1. All of it is kept or nothing (one unit of work); the same again brings nothing new.
2. What is told is told of the record as it stands afterwards: entries that are new, photos whose bytes are new, things
   on which two devices disagree now, entries that a purge which came has emptied here, entries that came though they
   had been erased here, and what a newer version wrote.
3. A photo is kept only where a fact that stands shows it.
4. Facts dated more than ten years from now are refused: every id after them would be dragged along.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from steadyhead.errors import RecordError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.visit.archive import Photo
from steadyhead.visit.cards import visit_of
from steadyhead.visit.fact_kinds import KIND
from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import entity_of, heads_of
from steadyhead.visit.ids import CHANCE_BITS, at_text, ulid_number
from steadyhead.visit.union import PURGE, covers, named_by

TEN_YEARS_MS = 10 * 366 * 86_400_000
#: 9999-12-31, the last day that a date can tell.
LAST_DATE_MS = 253_402_214_400_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """What an import did.

    Parameters
    ----------
    visits
        The visits that the file is about.
    new
        How many facts were new here.
    collisions
        Ids that came with another content than stands here; one was kept (`steadyhead.visit.union`).
    unknown
        Parts of the file that this version does not know.
    of
        How many of the new facts belong to each visit.
    photos
        How many photos are new here.
    conflicts
        Entities that changed now and on which two devices disagree.
    erased
        How many entries that stood here a purge which came has emptied.
    late
        How many of the new facts had been erased here before, and stay so.
    newer
        Kinds of fact that only a newer version knows; they are kept and passed on as they came.
    """

    visits: tuple[str, ...] = ()
    new: int = 0
    collisions: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    of: Mapping[str, int] = field(default_factory=dict)
    photos: int = 0
    conflicts: tuple[str, ...] = ()
    erased: int = 0
    late: int = 0
    newer: tuple[str, ...] = ()

    def plus(self, other: Imported) -> Imported:
        """Return what two imports did, one after the other."""
        return Imported(
            visits=tuple(dict.fromkeys((*self.visits, *other.visits))), new=self.new + other.new,
            collisions=_both(self.collisions, other.collisions), unknown=_both(self.unknown, other.unknown),
            of=dict(Counter(self.of) + Counter(other.of)), photos=self.photos + other.photos,
            conflicts=_both(self.conflicts, other.conflicts), erased=self.erased + other.erased,
            late=self.late + other.late, newer=_both(self.newer, other.newer),
        )  # fmt: skip

    @property
    def nothing(self) -> bool:
        """Whether the record is as it was."""
        return not (self.new or self.photos or self.collisions)


NOTHING = Imported()


def _both(one: tuple[str, ...], other: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(sorted({*one, *other}))


def bring_in(given: Given, facts: Sequence[Fact], photos: Mapping[str, Photo], name: str) -> Imported:
    """Bring facts, and the photos by SHA-256 that they show, together with what stands here.

    Raises
    ------
    RecordError
        They are dated years from now; `name` is where they come from. Nothing was kept.
    """
    refuse_from_afar(given, facts, name)
    with given.writing() as work:
        erases = _will_erase(work, facts)
        added = work.add(facts)
        ids = frozenset(added.new)
        new = [fact for fact in facts if fact.id in ids]
        kept = sum(_keep_photo(work, fact.id, photos) for fact in facts)
        done = Imported(
            visits=tuple(dict.fromkeys(fact.about for fact in facts if fact.kind == "visit")), new=len(ids),
            collisions=added.collisions, of=dict(Counter(visit for fact in new if (visit := visit_of(fact)))),
            photos=kept, conflicts=_conflicts(work, new), erased=erases, late=_late(work, new),
            newer=tuple(sorted({fact.kind for fact in new if fact.kind not in KIND})),
        )  # fmt: skip
        work.commit()
    return done


def refuse_from_afar(given: Given, facts: Iterable[Fact], name: str) -> None:
    """Refuse facts of a clock that is years ahead.

    Raises
    ------
    RecordError
        One of them is.
    """
    latest = max((ulid_number(fact.id) for fact in facts), default=0) >> CHANCE_BITS
    if latest > given.clock() + TEN_YEARS_MS:
        told_as = at_text(latest)[:10] if latest < LAST_DATE_MS else str(latest)
        raise RecordError(message("archive-from-afar", file=name, got=told_as))


def _will_erase(work: UnitOfWork, facts: Iterable[Fact]) -> int:
    """Return how many entries that stand here the purges among facts are about to empty."""
    named = {id_ for fact in facts if fact.kind == PURGE for id_ in named_by(fact)}
    fresh = named - work.purged(named)
    found = {
        fact.about
        for id_ in fresh
        for fact in (*work.facts(about=id_), *work.facts(visit=id_), *filter(None, [work.fact(id_)]))
        if fact.body and fact.kind != PURGE
    }
    return len(found)


def _keep_photo(work: UnitOfWork, id_: str, photos: Mapping[str, Photo]) -> int:
    """Keep the photo that a fact shows as it stands, and return whether its bytes are new."""
    stands = work.fact(id_) if photos else None
    sha256 = str(stands.body.get("sha256")) if stands is not None else ""
    photo = photos.get(sha256)
    if photo is None or work.blob(sha256) is not None:
        return 0
    work.put_blob(photo.data, photo.media_type)
    return 1


def _conflicts(work: UnitOfWork, new: Iterable[Fact]) -> tuple[str, ...]:
    """Return the entities on which two devices disagree, among those that new facts correct."""
    corrected = sorted({fact.about for fact in new if fact.supersedes})
    return tuple(about for about in corrected if disagree(work.facts(about=about)))


def disagree(facts: Sequence[Fact]) -> bool:
    """Tell whether the heads of an entity say different things of one key."""
    return len(heads_of(facts)) > 1 and bool(entity_of(facts).conflicts)


def _late(work: UnitOfWork, new: Sequence[Fact]) -> int:
    """Return how many of these facts had something to say, and are emptied here."""
    saying = [fact for fact in new if fact.body and fact.kind != PURGE]
    targets = work.purged({id_ for fact in saying for id_ in (fact.id, fact.about, fact.visit) if id_})
    return sum(covers(targets, fact) for fact in saying)
