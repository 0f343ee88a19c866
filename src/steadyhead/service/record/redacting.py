"""Use cases: blank what tells who and where in a text that leaves this device, as far as the record knows it.

Rules
-----
1. Blanked are e-mail addresses, numbers of six digits or more (telephones, serial numbers), and every name that the
   record knows: of sites, systems and instruments, of who writes here, of phones that joined, and the letterhead.
2. Of a name of several words each word that begins with a capital is blanked where it is written so.
3. What only its writer knows is theirs to leave out: they see the text before it goes anywhere.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from steadyhead.service.record.given import AUTHOR, Given
from steadyhead.service.record.letterhead import letterhead
from steadyhead.service.record.phones import phones

BLANK = "[...]"
SHORTEST = 3  #: a shorter word is no name that could be told from others
KINDS = ("site", "system", "instrument")
MOST_NAMES = 5000
_MAIL = re.compile(r"[\w.+%-]+@[\w.-]*\w")
_NUMBER = re.compile(r"\+?\d(?:[\s./()-]{0,2}\d){5,}")


def names_known(given: Given) -> frozenset[str]:
    """Return every name that this record knows of people, places and things."""
    with given.reading() as work:
        found = {each.name for kind in KINDS for each in work.entities(kind, limit=MOST_NAMES)}
        found.add(work.setting(AUTHOR) or "")
    found |= {phone.name for phone in phones(given)} | {given.author or "", *letterhead(given)}
    return frozenset(name for name in found if len(name) >= SHORTEST)


def redacted(text: str, names: Iterable[str]) -> str:
    """Return a text with what tells who and where blanked.

    Examples
    --------
    >>> redacted("At Fernhill Row the pump at fernhill row hunts", ["Fernhill Row"])
    'At [...] the pump at [...] hunts'
    >>> redacted("Ann Molina (molina@example.org, 555 010-4477) read 48.2 psi", ["Ann Molina"])
    '[...] ([...], [...]) read 48.2 psi'
    >>> redacted("Molina says the row is wet", ["Ann Molina", "Fernhill Row"])
    '[...] says the row is wet'
    """
    for pattern in (_MAIL, _NUMBER):
        text = pattern.sub(BLANK, text)
    for name in sorted(names, key=len, reverse=True):
        text = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", BLANK, text, flags=re.IGNORECASE)
    words = {word for name in names for word in name.split() if len(word) >= SHORTEST and word[0].isupper()}
    for word in sorted(words, key=len, reverse=True):
        text = re.sub(rf"(?<!\w){re.escape(word)}(?!\w)", BLANK, text)
    return text
