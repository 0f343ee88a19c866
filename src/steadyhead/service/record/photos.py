"""Use cases: keep a photo, correct what is said of it, take it out, show its bytes; the photos of a system.

Rules
-----
1. A photo is what its first bytes say (JPEG, PNG or WebP), whatever its name says, and is kept without what it says
   beside its picture (`steadyhead.service.photos.cleaned`): where, when and with what it was taken.
2. Bytes are kept once, by their SHA-256.
3. A small picture for lists may come with a photo: it is cleaned as the photo is. One that is no picture, or too large
   for one, is left out; lists then show the photo itself. It is this device's own, and goes when its photo goes.
4. A photo that is taken out is erased with its bytes, for ever: it may show somebody's house, or a face.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from steadyhead.errors import NotFoundError, RecordError, UnknownWordError
from steadyhead.messages import message
from steadyhead.service.photos.cleaned import cleaned
from steadyhead.service.ports import Blob, UnitOfWork
from steadyhead.service.record.changing import changed
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.given import Given
from steadyhead.service.record.tokens import slot
from steadyhead.service.record.views import Beside
from steadyhead.service.record.whole import entity, facts_of_visit, line_of, said
from steadyhead.visit.check_keys import STAGES
from steadyhead.visit.fact_kinds import PHOTO_TYPES, SHOWS
from steadyhead.visit.heads import Entity
from steadyhead.visit.nearest import nearest_first, shown

KIND = "photo"
LARGEST_PHOTO = 12 * 1024 * 1024  #: bytes; an archive takes somewhat larger ones
LARGEST_PREVIEW = 64 * 1024  #: bytes
PORTION = 200
#: Keys that tell what a photo shows, and the words that they may be.
WORDS: Mapping[str, tuple[str, ...]] = {"shows": SHOWS, "stage": STAGES}

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
    if not data:
        raise RecordError(message("photo-none"))
    for media_type, marks in _MAGIC.items():
        if all(data[at : at + len(mark)] == mark for at, mark in marks):
            return media_type
    raise RecordError(message("photo-unknown", got=data[:8].hex(" "), must_be=PHOTO_TYPES))


def add_photo(
    given: Given, visit: str, data: bytes, *, says: str = "", of: str | None = None, shows: str = "", stage: str = "",
    preview: bytes = b"", token: str | None = None,
) -> str:  # fmt: skip
    """Keep a photo, and return its id.

    Parameters
    ----------
    given
        Store, ids, clock.
    visit
        The visit.
    data
        Its bytes.
    says
        What it shows, in a few words.
    of
        The entity that it shows: a reading, the system.
    shows, stage
        What kind of thing it shows, and whether before anything was changed or after; empty where nobody said.
    preview
        A small picture of it; empty where there is none.
    token
        Id of the fact that this makes; the same one again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such visit.
    RecordError
        It is no photo that is taken, too large, or broken.
    UnknownWordError
        `shows` or `stage` is no word of its list.
    """
    media_type = photo_type(data)
    picture = cleaned(data, media_type)
    small = preview_kept(preview)
    told = _told({"says": says, "of": of, "shows": shows, "stage": stage})
    with given.writing() as work:
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is not None:
            return place.already.about
        body = {"sha256": work.put_blob(picture, media_type), "media_type": media_type, **told}
        if small is not None:
            work.put_thumbnail(body["sha256"], small.data, small.media_type)
        work.add([given.pen(work).fact(KIND, body, id_=place.id, visit=visit, extra=place.extra)])
        work.commit()
        return place.id


def correct_photo(
    given: Given, visit: str, photo: str, changes: Mapping[str, str], *, token: str | None = None
) -> None:
    """Keep what a photo shows in other words: `says`, `shows`, `stage`; an empty one is unknown.

    Raises
    ------
    NotFoundError
        There is no such photo in this visit.
    RecordError
        It says too much.
    UnknownWordError
        `shows` or `stage` is no word of its list.
    """
    told = {key: changes[key] for key in ("says", "shows", "stage") if key in changes}
    _told(told)
    with given.writing() as work:
        found = _photo(work, visit, photo)
        place = slot(work, given.ids, facts_of_visit(work, visit), token)
        if place.already is None:
            new = changed(found, lambda body: _told({**body, **told}), given.pen(work), place)
            work.add(new)
            work.commit()


def remove_photo(given: Given, visit: str, photo: str) -> None:
    """Erase a photo with its bytes, for ever.

    Raises
    ------
    NotFoundError
        There is no such photo in this visit.
    """
    with given.reading() as work:
        _photo(work, visit, photo)
    erase(given, photo)


def preview_kept(data: bytes) -> Blob | None:
    """Return a small picture as it is kept; None where there is none that can be.

    >>> preview_kept(b""), preview_kept(b"<svg>")
    (None, None)
    """
    if not 0 < len(data) <= LARGEST_PREVIEW:
        return None
    try:
        media_type = photo_type(data)
        return Blob(cleaned(data, media_type), media_type)
    except RecordError:
        return None


def photo_bytes(given: Given, visit: str, photo: str, *, small: bool = False) -> Blob:
    """Return the bytes of a photo, and what they are; of its small picture where that is asked for and there is one.

    Raises
    ------
    NotFoundError
        There is no such photo in this visit, or its bytes are not here yet.
    """
    with given.reading() as work:
        sha256 = str(_photo(work, visit, photo).body.get("sha256", ""))
        found = (work.thumbnail(sha256) if small else None) or work.blob(sha256)
    if found is None:
        raise NotFoundError(message("entity-unknown", got=photo))
    return found


def photos_of_system(given: Given, system: str) -> tuple[tuple[str, Beside], ...]:
    """Return the photos of all visits at a system, each with its visit, those of the last visit first."""
    with given.reading() as work:
        return tuple(
            (visit, Beside(id=e.about, body=e.body, at=e.first.at, author=e.first.author))
            for visit in visits_of(work, system)
            for e in _photos(work, visit)
        )


def visits_of(work: UnitOfWork, system: str) -> Iterator[str]:
    """Yield the visits at a system, the last first."""
    before = ""
    while page := work.visit_cards(system=system, before=before, limit=PORTION):
        yield from (card.visit for card in page)
        before = page[-1].last


def _photos(work: UnitOfWork, visit: str) -> Iterator[Entity]:
    facts = work.facts(visit=visit, kind=KIND)
    gone = work.purged({visit, *(fact.about for fact in facts), *(fact.id for fact in facts)})
    for about in dict.fromkeys(fact.about for fact in facts):
        if not gone & {visit, about}:
            yield entity(work, about)


def _photo(work: UnitOfWork, visit: str, photo: str) -> Entity:
    """Return a photo of a visit."""
    found = entity(work, photo)
    if found.kind != KIND or found.first.visit != visit:
        raise NotFoundError(message("entity-unknown", got=photo))
    return found


def _told(body: Mapping[str, Any]) -> dict[str, Any]:
    """Return what is said of a photo, without what is empty; refused where a word is none of its list."""
    for key, words in WORDS.items():
        word = str(body.get(key) or "")
        if word and word not in words:
            allowed, nearest = nearest_first(word, words)
            raise UnknownWordError(message("word-unknown", got=shown(word), must_be=allowed, nearest=nearest))
    return said({**body, "says": line_of(str(body.get("says") or ""))})
