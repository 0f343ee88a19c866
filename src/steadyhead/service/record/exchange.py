"""Use cases: a whole visit out of the record as one file, and into it from another device's, or from a visit file.

Rules
-----
1. What goes out is the visit with its system, its site, its instruments, its photos, its sensor checks, and the purges
   that touch them. A sensor check that stands alone goes out in the same way.
2. What comes in is brought together with what stands (`steadyhead.service.record.coming`); the same file again changes
   nothing. It is kept whole or not at all.
"""

from __future__ import annotations

import tomllib
from dataclasses import replace

from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.checks import facts_of_check, told_check
from steadyhead.service.record.coming import Imported, bring_in
from steadyhead.service.record.given import Given
from steadyhead.service.record.whole import facts_of_visit, told
from steadyhead.visit.archive import Archive, Photo, archive_bytes, is_archive, read_archive
from steadyhead.visit.fact_kinds import CHECK_KIND
from steadyhead.visit.facts import Fact
from steadyhead.visit.file import parse_visit
from steadyhead.visit.tables import text_of_tables
from steadyhead.visit.to_facts import facts_of_tables
from steadyhead.visit.union import named_by


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
    if not archive.facts and not archive.text:
        return Imported(unknown=archive.unknown)
    if not archive.facts:
        return _import_text(given, archive.text.encode("utf-8"), name)
    done = bring_in(given, archive.facts, archive.photos, name)
    alone = [fact.about for fact in archive.facts if fact.kind == CHECK_KIND and fact.visit == fact.about]
    return replace(done, visits=tuple(dict.fromkeys((*done.visits, *alone))), unknown=archive.unknown)


def _import_text(given: Given, data: bytes, name: str) -> Imported:
    """Keep what a visit file says as a new visit."""
    file = parse_visit(data, name)
    with given.writing() as work:
        facts = facts_of_tables(tomllib.loads(file.text.removeprefix("\ufeff")), given.pen(work))
        work.add(facts)
        work.commit()
    return Imported(visits=(facts[0].about,), new=len(facts), of={facts[0].about: len(facts)})
