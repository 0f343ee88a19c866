"""Use case: whose papers these are, the lines that stand over each; this device's own setting.

Rules
-----
1. They are no part of what a paper says: its hash is the same under every letterhead.
2. A line is plain text, at most `LONGEST` signs; empty lines are left out, and no more than `MOST` are kept.
"""

from __future__ import annotations

import json

from steadyhead.service.record.given import Given

LETTERHEAD = "letterhead"
LONGEST, MOST = 80, 4


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


def plain(lines: tuple[str, ...]) -> tuple[str, ...]:
    """Return lines without what cannot be printed, without empty ones, each cut to its length."""
    clean = (" ".join("".join(s if s.isprintable() else " " for s in line).split())[:LONGEST] for line in lines)
    return tuple(line for line in clean if line)[:MOST]
