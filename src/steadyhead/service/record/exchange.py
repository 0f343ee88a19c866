"""Use cases: a whole visit out of the record as one file, and into it from another device's, or from a visit file.

Rules
-----
1. What goes out is the visit with its system, its site, its instruments, its photos, its sensor checks, and the purges
   that touch them. A sensor check that stands alone goes out in the same way.
2. What comes in is brought together with what stands; the same file again changes nothing. It is kept whole or not at
   all.
3. A photo is kept only where a fact that stands shows it.
4. Facts dated more than ten years from now are refused: every id after them would be dragged along.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass

from steadyhead.errors import RecordError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.checks import facts_of_check, told_check
from steadyhead.service.record.given import Given
from steadyhead.service.record.whole import facts_of_visit, told
from steadyhead.visit.archive import Archive, Photo, archive_bytes, is_archive, read_archive
from steadyhead.visit.fact_kinds import CHECK_KIND
from steadyhead.visit.facts import Fact
from steadyhead.visit.file import parse_visit
from steadyhead.visit.ids import CHANCE_BITS, at_text, ulid_number
from steadyhead.visit.tables import text_of_tables
from steadyhead.visit.to_facts import facts_of_tables
from steadyhead.visit.union import named_by

TEN_YEARS_MS = 10 * 366 * 86_400_000


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
    """

    visits: tuple[str, ...]
    new: int
    collisions: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()


def export_visit(given: Given, visit: str) -> bytes:
    """Return a whole visit as the bytes of a ``.visit`` file.

    Raises
    ------
    NotFoundError
        There is no such visit, or it was erased.
    """
    with given.reading() as work:
        facts, text = _check_alone(work, visit) or (facts_of_visit(work, visit), "")
        text = text or text_of_tables(told(work, visit).tables)
        return archive_bytes(
            Archive(text=text, facts=(*facts, *_purges(work, facts)), photos=dict(_photos(work, facts)))
        )


def _check_alone(work: UnitOfWork, check: str) -> tuple[tuple[Fact, ...], str] | None:
    """Return the facts of a sensor check that stands alone, with its system's and its site's, and its plate as text."""
    own = work.facts(about=check)
    if not own or own[0].kind != CHECK_KIND or own[0].visit != check:
        return None
    now = told_check(work, check)
    system = work.facts(about=now.system) if now.system else ()
    sites = dict.fromkeys(str(fact.body["site"]) for fact in system if fact.body.get("site"))
    beside = [fact for site in sites for fact in work.facts(about=site)]
    plate = {"sensor": dict(now.entities[check].body.get("sensor", {}))}
    return (*facts_of_check(work, check), *system, *beside), text_of_tables(plate)


def _purges(work: UnitOfWork, facts: tuple[Fact, ...]) -> list[Fact]:
    """Return the purges that touch facts."""
    ids = {id_ for fact in facts for id_ in (fact.id, fact.about, fact.visit)}
    return [purge for purge in work.facts(kind="purge") if not ids.isdisjoint(named_by(purge))]


def _photos(work: UnitOfWork, facts: tuple[Fact, ...]) -> list[tuple[str, Photo]]:
    hashes = dict.fromkeys(str(fact.body["sha256"]) for fact in facts if "sha256" in fact.body)
    found = [(sha256, work.blob(sha256)) for sha256 in hashes]
    return [(sha256, Photo(blob.data, blob.media_type)) for sha256, blob in found if blob is not None]


def import_visit(given: Given, data: bytes, name: str = "visit") -> Imported:
    """Bring a ``.visit`` file, or a visit file's text, into the record.

    Raises
    ------
    InputError
        It is neither, or damaged; nothing of it was kept.
    """
    if not is_archive(data):
        return _import_text(given, data, name)
    archive = read_archive(data, name)
    if not archive.facts:
        return _import_text(given, archive.text.encode("utf-8"), name)
    _refuse_from_afar(given, archive.facts, name)
    with given.writing() as work:
        added = work.add(archive.facts)
        for fact in archive.facts:
            _keep_photo(work, fact.id, archive)
        work.commit()
    alone = {fact.about for fact in archive.facts if fact.kind == CHECK_KIND and fact.visit == fact.about}
    visits = tuple(dict.fromkeys(f.about for f in archive.facts if f.kind == "visit" or f.about in alone))
    return Imported(visits=visits, new=len(added.new), collisions=added.collisions, unknown=archive.unknown)


def _refuse_from_afar(given: Given, facts: tuple[Fact, ...], name: str) -> None:
    latest = max(ulid_number(fact.id) for fact in facts) >> CHANCE_BITS
    if latest > given.clock() + TEN_YEARS_MS:
        told_as = at_text(latest)[:10] if latest < LAST_DATE_MS else str(latest)
        raise RecordError(message("archive-from-afar", file=name, got=told_as))


#: 9999-12-31, the last day that a date can tell.
LAST_DATE_MS = 253_402_214_400_000


def _keep_photo(work: UnitOfWork, id_: str, archive: Archive) -> None:
    stands = work.fact(id_)
    photo = archive.photos.get(str(stands.body.get("sha256"))) if stands is not None else None
    if photo is not None:
        work.put_blob(photo.data, photo.media_type)


def _import_text(given: Given, data: bytes, name: str) -> Imported:
    """Keep what a visit file says as a new visit."""
    file = parse_visit(data, name)
    with given.writing() as work:
        facts = facts_of_tables(tomllib.loads(file.text.removeprefix("\ufeff")), given.pen(work))
        work.add(facts)
        work.commit()
    return Imported(visits=(facts[0].about,), new=len(facts))
