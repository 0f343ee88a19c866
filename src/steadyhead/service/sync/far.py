"""What a home answers another one that brings its record together with this one; each answer is one whole change.

Rules
-----
1. Whoever asks has been let in already (`steadyhead.web.pages.sync`): here is decided what, never who.
2. Nothing is remembered between two requests: each can be repeated, left out or be the last.
3. What is given is what stands; what is taken is kept by union, whole or not at all.
4. A message that cannot be used is answered by 400 with an id that says why, and changes nothing.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Mapping
from typing import Any

from steadyhead import __version__
from steadyhead.errors import InputError, SyncError
from steadyhead.messages import message
from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.coming import bring_in
from steadyhead.service.record.demo import invented
from steadyhead.service.record.given import Given
from steadyhead.service.record.photos import photo_type
from steadyhead.service.sync import spans, talk
from steadyhead.service.sync.talk import Reply, document, facts_of, json_bytes, texts
from steadyhead.service.sync.version import VERSION
from steadyhead.visit.archive import LARGEST_PHOTO
from steadyhead.visit.ids import is_ulid

_SHA256 = re.compile("[0-9a-f]{64}")
_PHOTO = re.compile("photos/(?P<sha256>[0-9a-f]{64})")


def answer(given: Given, what: str, body: bytes | None) -> Reply:
    """Return the answer to one request.

    Parameters
    ----------
    given
        Store, ids, clock.
    what
        The address below `version.PREFIX`, without its first slash.
    body
        What was sent; None where something is asked for by its address alone.
    """
    photo = _PHOTO.fullmatch(what)
    try:
        if photo is not None:
            return _photo(given, photo["sha256"]) if body is None else _keep(given, photo["sha256"], body)
        if what == "" and body is None:
            return _said({"sync": VERSION, "program": __version__})
        if body is None or what not in _ANSWERS:
            return Reply(404, json_bytes({"error": "none"}))
        return _said(_ANSWERS[what](given, document(body)))
    except InputError as error:
        return Reply(400, json_bytes({"error": error.message.id}))


def _said(values: Mapping[str, Any]) -> Reply:
    return Reply(200, json_bytes(values))


def _compare(given: Given, found: Mapping[str, Any]) -> dict[str, Any]:
    """Answer where spans differ from what is here."""
    asked = _spans(found.get("spans"))
    with given.reading() as work:
        told = spans.differing(work, asked, talk.MOST_MARKS, invented(work))
    differ = [{"after": span.after, "upto": span.upto, "marks": here} for span, here in told.spans]
    return {"differ": differ, "upto": told.upto}


def _spans(rows: object) -> list[spans.Span]:
    if not isinstance(rows, list) or len(rows) > talk.MOST_SPANS:
        raise SyncError(message("sync-unread", key="spans"))
    return [_span(row) for row in rows]


def _span(row: object) -> spans.Span:
    """Return a span.

    Raises
    ------
    SyncError
        It is none.
    """
    if not isinstance(row, list) or len(row) != 4:
        raise SyncError(message("sync-unread", key="spans"))
    after, upto, count, digest = row
    right = (after == "" or is_ulid(after)) and is_ulid(upto) and after < upto
    counted = isinstance(count, int) and not isinstance(count, bool) and 0 <= count <= talk.MOST_MARKS
    if not right or not counted or not isinstance(digest, str):
        raise SyncError(message("sync-unread", key="spans"))
    return spans.Span(after, upto, count, digest)


def _give(given: Given, found: Mapping[str, Any]) -> dict[str, Any]:
    """Answer with facts; whoever gets fewer than asked for asks again for the rest."""
    ids = texts(found, "ids", talk.MOST_IDS)
    with given.reading() as work:
        left_out = invented(work)
        facts = [fact for id_ in ids if (fact := work.fact(id_)) is not None]
        free = [fact for fact in facts if left_out.isdisjoint({fact.id, fact.about, fact.visit or ""})]
    return {"facts": talk.within(free)}


def _take(given: Given, found: Mapping[str, Any]) -> dict[str, Any]:
    """Keep facts, and answer what was new of them."""
    done = bring_in(given, facts_of(found), {}, "sync")
    return {"new": done.new, "collisions": list(done.collisions), "erased": done.erased}


def _photos(given: Given, found: Mapping[str, Any]) -> dict[str, Any]:
    """Answer which of these photos are here, and which are shown here and lacking."""
    asked = texts(found, "sha256", talk.MOST_PHOTOS)
    if not all(_SHA256.fullmatch(each) for each in asked):
        raise SyncError(message("sync-unread", key="sha256"))
    with given.reading() as work:
        shown = {each: size for each in asked for size in _sizes(work, each)}
    here = [each for each, size in shown.items() if size is not None]
    return {"here": here, "lacking": [each for each, size in shown.items() if size is None]}


def _sizes(work: UnitOfWork, sha256: str) -> list[int | None]:
    """Return how many bytes of a photo are here, None for none; empty where no fact that stands shows it."""
    before = f"{max(0, int(sha256, 16) - 1):064x}"
    return [each.size for each in work.photos_shown(before, 1) if each.sha256 == sha256]


def _photo(given: Given, sha256: str) -> Reply:
    """Answer with a photo."""
    with given.reading() as work:
        blob = work.blob(sha256) if _sizes(work, sha256) else None
    return Reply(404, json_bytes({"error": "none"})) if blob is None else Reply(200, blob.data, blob.media_type)


def _keep(given: Given, sha256: str, data: bytes) -> Reply:
    """Keep a photo that a fact here shows, and answer whether it was new."""
    return _said({"new": keep_photo(given, sha256, data)})


def keep_photo(given: Given, sha256: str, data: bytes) -> int:
    """Keep a photo's bytes where a fact that stands shows it, and return how many photos that makes: one or none.

    Raises
    ------
    SyncError
        The bytes are not those of the photo: cut off, or other ones.
    RecordError
        They are no photo.
    """
    if len(data) > LARGEST_PHOTO or hashlib.sha256(data).hexdigest() != sha256:
        raise SyncError(message("sync-cut-off"))
    media_type = photo_type(data[:64])
    with given.writing() as work:
        if _sizes(work, sha256) != [None]:
            return 0
        work.put_blob(data, media_type)
        work.commit()
    return 1


_ANSWERS: Mapping[str, Callable[[Given, Mapping[str, Any]], dict[str, Any]]] = {
    "compare": _compare, "give": _give, "take": _take, "photos": _photos,
}  # fmt: skip
