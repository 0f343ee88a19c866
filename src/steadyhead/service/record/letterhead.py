"""Use case: whose papers these are, the lines that stand over each; this device's own setting.

Rules
-----
1. They are no part of what a paper says: its hash is the same under every letterhead.
2. A line is plain text, at most `LONGEST` signs; empty lines are left out, and no more than `MOST` are kept.
3. The logo is a picture of at most `LARGEST_LOGO` bytes, without what it says beside itself; it is this device's own
   setting, no part of the record.
"""

from __future__ import annotations

import json
from base64 import b64decode, b64encode

from steadyhead.errors import RecordError
from steadyhead.messages import message
from steadyhead.service.photos.cleaned import cleaned
from steadyhead.service.ports import Blob
from steadyhead.service.record.given import Given
from steadyhead.service.record.photos import photo_type

LETTERHEAD = "letterhead"
LOGO = "logo"
LONGEST, MOST = 80, 4
LARGEST_LOGO = 200 * 1024  #: bytes


def letterhead(given: Given) -> tuple[str, ...]:
    """Return the lines over every paper; none where nobody said."""
    with given.reading() as work:
        kept = json.loads(work.setting(LETTERHEAD) or "[]")
    return tuple(map(str, kept))


def set_letterhead(given: Given, lines: tuple[str, ...]) -> None:
    """Keep the lines over every paper.

    >>> from steadyhead.service.record import letterhead
    >>> letterhead.plain(("  Molina   pumps ", "", "tel 5550-0134"))
    ('Molina pumps', 'tel 5550-0134')
    """
    with given.writing() as work:
        work.set_setting(LETTERHEAD, json.dumps(plain(lines)))
        work.commit()


def logo(given: Given) -> Blob | None:
    """Return the logo over every paper; None where there is none."""
    with given.reading() as work:
        kept = json.loads(work.setting(LOGO) or "{}")
    return Blob(b64decode(kept["data"]), kept["type"]) if kept else None


def set_logo(given: Given, data: bytes) -> None:
    """Keep a logo.

    Raises
    ------
    RecordError
        ``logo-too-large``, or it is no picture that a record takes.
    """
    if len(data) > LARGEST_LOGO:
        raise RecordError(message("logo-too-large", got=-(-len(data) // 1024), most=LARGEST_LOGO // 1024))
    type_ = photo_type(data)
    _keep_logo(given, {"type": type_, "data": b64encode(cleaned(data, type_)).decode()})


def drop_logo(given: Given) -> None:
    """Take the logo away."""
    _keep_logo(given, {})


def _keep_logo(given: Given, kept: dict[str, str]) -> None:
    with given.writing() as work:
        work.set_setting(LOGO, json.dumps(kept))
        work.commit()


def plain(lines: tuple[str, ...]) -> tuple[str, ...]:
    """Return lines without what cannot be printed, without empty ones, each cut to its length."""
    clean = (" ".join("".join(s if s.isprintable() else " " for s in line).split())[:LONGEST] for line in lines)
    return tuple(line for line in clean if line)[:MOST]
