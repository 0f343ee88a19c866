"""Every text that can be translated, for the one who writes another language's ``.po`` file.

Whatever passes through `Speaker.translated` stands in this list; a test says so.
"""

from __future__ import annotations

from steadyhead.words import formulas, odds, phrases, points, regions, saying, sizes, sources, takes
from steadyhead.words.names import NAMES
from steadyhead.words.sentences import ENGLISH
from steadyhead.words.speaker import PAIR


def texts() -> tuple[str, ...]:
    """Return every text that can be translated, each once, sorted.

    >>> "replace the {transducer:region}" in texts()
    True
    """
    found = {*ENGLISH.values(), *odds.PHRASES, *takes.TAKES.values(), PAIR, *phrases.PHRASES, *formulas.FORMULAS}
    found |= {takes.LEADS, takes.BETWEEN, takes.WITH_HOOK_UP}
    found |= {name for names in NAMES.values() for name in names.values()}
    found |= {word for by_region in regions.WORDS.values() for word in by_region.values()}
    found |= {*sizes.SIZES.values(), saying.NEAREST, saying.NO_MINUTE, saying.MINUTES, saying.NOTHING_IN}
    found |= {*sources.OWN, *sources.OWN_PARTED}
    tables = (points.TERMINALS, points.WIRES, points.CONTACTS, points.POLES)
    found |= {text for table in tables for text in table.values()}
    found |= {points.COLOURED_WIRE, points.THE_WIRE, points.LABELLED_CONTACT, points.COLOURED_CONTACT, points.NO_WIRE}
    return tuple(sorted(found))
