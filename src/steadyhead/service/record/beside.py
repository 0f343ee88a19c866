"""Use cases: notes, photos, and cautions that were read.

Rules
-----
1. A photo is what its first bytes say (JPEG, PNG or WebP), whatever its name says.
2. Bytes are kept once, by their SHA-256.
3. A caution is kept once a visit: it is told in full until it was read.
"""

from __future__ import annotations

from collections.abc import Iterable

from steadyhead.errors import NotFoundError, RecordError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.whole import facts_of_visit, said
from steadyhead.visit.fact_kinds import PHOTO_TYPES
from steadyhead.visit.facts import Fact
from steadyhead.visit.heads import heads_of
from steadyhead.visit.kinds import LONGEST_TEXT

CAUTION_SEEN = "caution-seen"
LARGEST_PHOTO = 16 * 1024 * 1024  #: bytes

#: First bytes of each type, and where they stand.
_MAGIC: dict[str, tuple[tuple[int, bytes], ...]] = {
    "image/jpeg": ((0, b"\xff\xd8\xff"),),
    "image/png": ((0, b"\x89PNG\r\n\x1a\n"),),
    "image/webp": ((0, b"RIFF"), (8, b"WEBP")),
}


def photo_type(data: bytes) -> str:
    """Return the media type of a photo, by its first bytes.

    Raises
    ------
    RecordError
        It is empty, too large, or none of the types that are taken.

    Examples
    --------
    >>> photo_type(b"RIFF....WEBPVP8 ")
    'image/webp'
    """
    if len(data) > LARGEST_PHOTO:
        raise RecordError(message("photo-too-large", got_bytes=len(data), most_bytes=LARGEST_PHOTO))
    for media_type, marks in _MAGIC.items():
        if all(data[at : at + len(mark)] == mark for at, mark in marks):
            return media_type
    raise RecordError(message("photo-unknown", got=data[:8].hex(" "), must_be=PHOTO_TYPES))


def add_photo(
    given: Given, visit: str, data: bytes, *, says: str = "", of: str | None = None, token: str | None = None
) -> str:
    """Keep a photo, and return the id of the fact that shows it.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    data
        Its bytes.
    says
        What it shows.
    of
        The entity that it shows: a reading, the system.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit.
    RecordError
        It is no photo that is taken, or too large.
    """
    media_type = photo_type(data)
    with given.writing() as work:
        sha256 = work.put_blob(data, media_type)
        body = said({"sha256": sha256, "media_type": media_type, "says": _line(says), "of": of})
        return _keep(given, work, visit, ("photo", body), token)


def add_note(given: Given, visit: str, text: str, *, of: str | None = None, token: str | None = None) -> str:
    """Keep a line that somebody wrote, and return its id.

    Raises
    ------
    NotFoundError
        There is no such visit.
    RecordError
        It is empty, or too long.
    """
    with given.writing() as work:
        line = _line(text)
        if not line:
            raise RecordError(message("note-empty"))
        return _keep(given, work, visit, ("note", said({"text": line, "of": of})), token)


def acknowledge_cautions(given: Given, visit: str, cautions: Iterable[str]) -> None:
    """Keep that cautions were read, each once a visit; `visit` may be a sensor check that stands alone.

    Raises
    ------
    NotFoundError
        There is no such visit.
    """
    with given.writing() as work:
        known = work.facts(visit=visit)
        if not known or work.purged([visit]):
            raise NotFoundError(message("visit-unknown", got=visit))
        read, newest = read_cautions(work, visit), max(fact.id for fact in known)
        new: list[Fact] = []
        for caution in dict.fromkeys(cautions):
            if caution not in read:
                after = new[-1].id if new else newest
                new.append(given.pen(work).fact(CAUTION_SEEN, {"caution": caution}, visit=visit, after=after))
        if new:
            work.add(new)
            work.commit()


def read_cautions(work: UnitOfWork, visit: str) -> frozenset[str]:
    """Return the ids of the cautions that were read in a visit, or in a sensor check that stands alone."""
    heads = heads_of(work.facts(visit=visit, kind=CAUTION_SEEN))
    return frozenset(str(fact.body["caution"]) for fact in heads if "caution" in fact.body)


def _line(text: str) -> str:
    if len(text) > LONGEST_TEXT:
        raise RecordError(message("text-too-long", got=text[:40], length=len(text), most=LONGEST_TEXT))
    return text.strip()


def _keep(given: Given, work: UnitOfWork, visit: str, told: tuple[str, dict[str, object]], token: str | None) -> str:
    kind, body = told
    place = slot(work, given.ids, facts_of_visit(work, visit), token)
    if place.already is not None:
        return place.already.about
    work.add([given.pen(work).fact(kind, body, id_=place.id, visit=visit, extra=place.extra)])
    work.commit()
    return place.id
