"""A report of a problem as text: what the app is, what it did of late, and the person's own words before it.

Rules
-----
1. It is plain text that a person can read to its end before they send it; what it holds of the app is made of
   `steadyhead.web.noted.Event` and of versions alone.
2. A browser is told by its family, its version's first number and its system, never by all that it says of itself.
"""

from __future__ import annotations

import platform
import re
import sqlite3
from collections.abc import Iterable
from datetime import UTC, datetime

from steadyhead import __version__
from steadyhead.web.noted import Event

#: Families in the order in which they are looked for: most browsers name others too.
FAMILIES = ("Firefox", "Edg", "OPR", "SamsungBrowser", "CriOS", "FxiOS", "Chrome", "Version")
CALLED = {"Version": "Safari", "Edg": "Edge", "OPR": "Opera", "CriOS": "Chrome", "FxiOS": "Firefox"}
SYSTEMS = ("iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux")
UNKNOWN = "unknown"


def browser_kind(says: str) -> str:
    """Return what kind of browser this is.

    >>> browser_kind("Mozilla/5.0 (Linux; Android 14; K-4471) Chrome/131.0.6778.1 Mobile Safari/537.36")
    'Chrome 131, Android'
    >>> browser_kind("Mozilla/5.0 (iPhone; CPU iPhone OS 17_5) Version/17.5 Mobile/15E148 Safari/604.1")
    'Safari 17, iPhone'
    >>> browser_kind("Ann's own browser")
    'unknown'
    """
    family = next((found for name in FAMILIES if (found := re.search(rf"\b({name})/(\d{{1,4}})", says))), None)
    system = next((name for name in SYSTEMS if name in says), "")
    told = f"{CALLED.get(family[1], family[1])} {family[2]}" if family else UNKNOWN
    return ", ".join(filter(None, (told, system)))


def report_text(words: str, events: Iterable[Event], browser: str, *, phone: bool) -> str:
    """Return the report.

    Parameters
    ----------
    words
        What the person says of it, redacted; empty for nothing.
    events
        What the app did, the oldest first.
    browser
        Its kind.
    phone
        Whether the app runs inside that browser itself.
    """
    head = [
        f"steadyhead {__version__}",
        f"python {platform.python_version()}, sqlite {sqlite3.sqlite_version}",
        f"system {platform.system() or UNKNOWN} {platform.machine()}".strip(),
        f"browser {browser}",
        "home phone" if phone else "home computer",
    ]
    parts = [*([words, ""] if words else []), *head, "", *map(_line, events)]
    return "\n".join(parts) + "\n"


def _line(event: Event) -> str:
    at = datetime.fromtimestamp(event.at / 1000.0, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    said = f" [{', '.join(event.said)}]" if event.said else ""
    return f"{event.number} {at} {event.method} {event.route} {event.status} {event.took} ms{said}"
