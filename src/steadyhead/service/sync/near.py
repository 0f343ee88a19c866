"""Brings this home's record together with another's: a generator that yields what to ask and is sent what came back.

Rules
-----
1. It knows no network: whoever drives it sends each request (`talk.Ask`) and puts the reply in, or an error.
2. Facts first, range by range, those that come before those that go; then photos. Each batch is kept whole as it comes.
3. It may end anywhere: what was exchanged stays, and the next one begins with what still differs.
4. What is sent is what stands when it is sent: what came and erased it counts.
"""

from __future__ import annotations

from collections.abc import Generator, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from steadyhead.errors import SyncError
from steadyhead.messages import message
from steadyhead.service.record.coming import NOTHING, bring_in
from steadyhead.service.record.demo import invented
from steadyhead.service.record.everything import photos_of
from steadyhead.service.record.given import Given
from steadyhead.service.sync import spans, talk
from steadyhead.service.sync.far import keep_photo
from steadyhead.service.sync.talk import Ask, Reply, Tally, asked, facts_of, refuse_failure, told

#: Yields what to ask, is sent what comes back, returns what was asked for in the end.
Talk = Generator[Ask, Reply, Tally]


def pair(code: str, name: str) -> Generator[Ask, Reply, str]:
    """Ask to be let in by a code that the other home shows; return the key for what follows.

    Raises
    ------
    SyncError
        The code does not let in, or there is no such home.
    """
    reply = yield asked("pair", {"code": code, "name": name}, Tally())
    if reply.status == 403:
        raise SyncError(message("join-wrong"))
    key = told(reply).get("key")
    if not isinstance(key, str) or not key.isascii() or not 16 <= len(key) <= 200:
        raise SyncError(message("sync-unread", key="key"))
    return key


def sync(given: Given, *, photos: bool = True) -> Talk:
    """Bring both records together, and return what came and went.

    Parameters
    ----------
    given
        Store, ids, clock.
    photos
        Whether photos are brought together too; those of this home are sent in any case.

    Raises
    ------
    SyncError
        The other home refuses, or what it says cannot be used; what was exchanged before stays.
    RecordError
        What came cannot be kept.
    """
    return (yield from _Sync(given, photos).whole())


@dataclass
class _Sync:
    """One sync, and how far it has come."""

    given: Given
    fetches: bool
    tally: Tally = field(default_factory=Tally)

    def whole(self) -> Talk:
        after = ""
        while after != spans.END:
            with self.given.reading() as work:
                some = spans.spans_after(work, after, talk.MOST_SPANS, invented(work))
            after = some[-1].upto
            yield from self._settle(some)
        yield from self._photos()
        return self.tally

    def _settle(self, some: list[spans.Span]) -> Generator[Ask, Reply, None]:
        """Bring a run of spans together."""
        while some:
            rows = [[span.after, span.upto, span.count, span.digest] for span in some]
            answer = told((yield asked("compare", {"spans": rows}, self.tally)))
            differ = _differ(answer)
            comes, goes = self._wanted(differ)
            yield from self._fetch(comes)
            yield from self._send(goes)
            some = self._rest(some, str(answer.get("upto", "")))

    def _wanted(self, differ: Iterable[tuple[str, str, Mapping[str, str]]]) -> tuple[list[str], list[str]]:
        """Return the ids that come from there, and those that go there."""
        comes: list[str] = []
        goes: list[str] = []
        with self.given.reading() as work:
            left_out = invented(work)
            for after, upto, there in differ:
                here = dict(spans.marks(spans.within(work, after, upto, left_out)))
                comes += [id_ for id_, mark in there.items() if here.get(id_) != mark]
                goes += [id_ for id_, mark in here.items() if there.get(id_) != mark]
        return comes, goes

    def _rest(self, some: list[spans.Span], reached: str) -> list[spans.Span]:
        """Return what of these spans the other home has not told of yet, as it stands here now.

        Raises
        ------
        SyncError
            It tells of nothing, and would for ever.
        """
        left = [(max(span.after, reached), span.upto) for span in some if span.upto > reached]
        if left and reached <= some[0].after:
            raise SyncError(message("sync-unread", key="upto"))
        with self.given.reading() as work:
            left_out = invented(work)
            return [
                spans.span_of(after, upto, spans.marks(spans.within(work, after, upto, left_out)))
                for after, upto in left
            ]

    def _fetch(self, ids: list[str]) -> Generator[Ask, Reply, None]:
        """Ask for facts, and keep them batch by batch."""
        while ids:
            some = ids[: talk.MOST_IDS]
            facts = facts_of(told((yield asked("give", {"ids": some}, self.tally))))
            known = {fact.id for fact in facts}
            if not known <= set(some):
                raise SyncError(message("sync-unread", key="facts"))
            if not known:
                ids = ids[len(some) :]  # they are gone there: the next sync sees how it stands
                continue
            came = bring_in(self.given, facts, {}, "sync")
            self.tally = replace(self.tally, came=self.tally.came.plus(came))
            ids = [id_ for id_ in ids if id_ not in known]

    def _send(self, ids: list[str]) -> Generator[Ask, Reply, None]:
        """Send facts as they stand, batch by batch."""
        while ids:
            some = ids[: talk.MOST_IDS]
            with self.given.reading() as work:
                facts = [fact for id_ in some if (fact := work.fact(id_)) is not None]
            texts = talk.within(facts)
            answer = told((yield asked("take", {"facts": texts}, self.tally)))
            self.tally = replace(
                self.tally, sent=self.tally.sent + _count(answer, "new"),
                collisions=self.tally.collisions + len(answer.get("collisions", ())),
                erased=self.tally.erased + _count(answer, "erased"),
            )  # fmt: skip
            left = {fact.id for fact in facts[len(texts) :]}
            ids = [*(id_ for id_ in some if id_ in left), *ids[len(some) :]]

    def _photos(self) -> Generator[Ask, Reply, None]:
        """Bring the photos together that facts show."""
        with self.given.reading() as work:
            every = [(each.sha256, each.size is not None) for each in photos_of(work)]
        for start in range(0, len(every), talk.MOST_PHOTOS):
            some = every[start : start + talk.MOST_PHOTOS]
            answer = told((yield asked("photos", {"sha256": [sha256 for sha256, _ in some]}, self.tally)))
            there = frozenset(talk.texts(answer, "here", talk.MOST_PHOTOS))
            lacking = frozenset(talk.texts(answer, "lacking", talk.MOST_PHOTOS))
            for sha256, here in some:
                if here and sha256 in lacking:
                    yield from self._send_photo(sha256)
                elif self.fetches and not here and sha256 in there:
                    yield from self._fetch_photo(sha256)

    def _send_photo(self, sha256: str) -> Generator[Ask, Reply, None]:
        with self.given.reading() as work:
            blob = work.blob(sha256)
        if blob is not None:
            answer = told((yield Ask(f"photos/{sha256}", blob.data, blob.media_type, self.tally)))
            self.tally = replace(self.tally, photos_sent=self.tally.photos_sent + _count(answer, "new"))

    def _fetch_photo(self, sha256: str) -> Generator[Ask, Reply, None]:
        reply = yield Ask(f"photos/{sha256}", tally=self.tally)
        if reply.status == 404:
            return  # erased there since
        refuse_failure(reply)
        new = keep_photo(self.given, sha256, reply.body)
        self.tally = replace(self.tally, came=self.tally.came.plus(replace(NOTHING, photos=new)))


def _differ(answer: Mapping[str, Any]) -> list[tuple[str, str, Mapping[str, str]]]:
    """Return where the other home differs: after which id, up to which, and its marks there.

    Raises
    ------
    SyncError
        It tells none.
    """
    try:
        rows: list[tuple[str, str, Mapping[str, str]]] = [
            (row["after"], row["upto"], dict(row["marks"])) for row in answer["differ"]
        ]
    except (KeyError, TypeError, ValueError) as error:
        raise SyncError(message("sync-unread", key="differ")) from error
    if not all(isinstance(each, str) for row in rows for each in (row[0], row[1], *row[2], *row[2].values())):
        raise SyncError(message("sync-unread", key="differ"))
    return rows


def _count(answer: Mapping[str, Any], key: str) -> int:
    value = answer.get(key)
    return value if isinstance(value, int) and value >= 0 else 0
