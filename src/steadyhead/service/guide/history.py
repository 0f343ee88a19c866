"""What came before the call, in the words that a visit file has for it: since when, when it shows, what was changed.

Rules
-----
1. The words may stand anywhere in the line; those that the file does not know are passed over, and the echo shows which
   were taken.
2. A key that holds one word takes the first; one that holds several takes them all.
3. A line with no such word is refused with the list.
"""

from __future__ import annotations

import re

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.visit.keys import COMPLAINT
from steadyhead.visit.kinds import OneOf, Several
from steadyhead.visit.nearest import shown

#: Keys that are asked about, in the order in which they are told.
ASKED = ("since", "when", "changed")
#: What people say for a word of the file.
SAID = {
    "suddenly": "sudden",
    "gradually": "gradual",
    "slowly": "gradual",
    "since new": "new-system",
    "new system": "new-system",
    "nights": "night",
    "lightning": "storm",
    "thunderstorm": "storm",
    "surge": "storm",
    "frost": "freeze",
    "frozen": "freeze",
    "power cut": "power-cut",
    "outage": "power-cut",
    "recent work": "recent-work",
    "worked on": "recent-work",
    "new part": "new-part",
}


def words() -> dict[str, str]:
    """Return the key of every word that is known.

    >>> words()["storm"], words()["sudden"]
    ('changed', 'since')
    """
    keys = [key for key in COMPLAINT.keys if key.name in ASKED and isinstance(key.kind, (OneOf, Several))]
    return {word: key.name for key in keys if isinstance(key.kind, (OneOf, Several)) for word in key.kind.words}


def history(line: str) -> dict[str, tuple[str, ...]]:
    """Return what a line says, by key.

    Raises
    ------
    UnknownWordError
        ``guide-no-history``: none of its words is known.

    Examples
    --------
    >>> history("suddenly, after lightning and a power cut")
    {'since': ('sudden',), 'changed': ('storm', 'power-cut')}
    """
    text = f" {line.lower()} "
    for said, word in SAID.items():
        text = re.sub(rf"\b{said}\b", word, text)
    known = words()
    found: dict[str, list[str]] = {}
    for word in re.findall(r"[a-z]+(?:-[a-z]+)*", text):
        if word in known and word not in found.setdefault(known[word], []):
            found[known[word]].append(word)
    if not found:
        raise UnknownWordError(message("guide-no-history", got=shown(line), must_be=tuple(known)))
    several = {key.name for key in COMPLAINT.keys if isinstance(key.kind, Several)}
    return {key: tuple(found[key] if key in several else found[key][:1]) for key in ASKED if key in found}
