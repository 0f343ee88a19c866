"""What is known of a system in rows, what was changed in it in lines, and what two devices say of it as taps."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from steadyhead.service.record.system_changes import Changed, KeyChanged, flat
from steadyhead.service.record.views import SystemSeen
from steadyhead.visit.fact_kinds import SYSTEM_TABLES
from steadyhead.visit.from_facts import Clash
from steadyhead.visit.keys import LABELS, SITE
from steadyhead.words import Speaker
from steadyhead.words.names import NAMES
from steadyhead.words.saying import sentence

#: Keys of a system itself that have a name beside those of the visit file's tables.
OWN = frozenset(("name", "site", "depends", "access"))
#: Tables as the page shows them.
TABLES = (SITE, *(each for each in SYSTEM_TABLES if each is not LABELS), LABELS)


def known_rows(seen: SystemSeen, speaker: Speaker) -> list[tuple[str, list[tuple[str, str]]]]:
    """Return what is known, table by table: the table's name, and rows of a key and its value."""
    return table_rows({**seen.tables, SITE.name: seen.site}, speaker)


def table_rows(tables: Mapping[str, Mapping[str, Any]], speaker: Speaker) -> list[tuple[str, list[tuple[str, str]]]]:
    """Return tables as a page shows them, in its own order: each with its name, and rows of a key and its value."""
    found = []
    for table in TABLES:
        known = tables.get(table.name, {})
        keys = [key.name for key in table.keys if key.name in known and (table is not SITE or key.name != "name")]
        rows = [(key_name(f"{table.name}.{key}", speaker), value_told(known[key], speaker)) for key in keys]
        if rows:
            found.append((sentence(speaker.name("table", table.name)), rows))
    return found


def key_name(key: str, speaker: Speaker) -> str:
    """Return what a key of a system is called; one that only a newer version knows is its own."""
    table, _, inner = key.partition(".")
    if table == LABELS.name and inner in NAMES["label-of"]:
        return sentence(speaker.name("label-of", inner))
    if key in NAMES["field"]:
        return sentence(speaker.name("field", key))
    return sentence(speaker.name("system-key", key)) if key in OWN else key


def value_told(value: object, speaker: Speaker) -> str:
    """Return what a key says, in words where it is a word of a list; nothing said is unknown."""
    if value is None:
        return speaker.tell("system-unknown")
    if isinstance(value, (list, tuple)):
        told = (speaker.name("dependent", str(e)) if e in NAMES["dependent"] else value_told(e, speaker) for e in value)
        return ", ".join(told)
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {value_told(each, speaker)}" for key, each in flat(value))
    word = str(value).lower() if isinstance(value, bool) else str(value)
    return speaker.name("choice", word) if word in NAMES["choice"] else speaker.printable(word)


def change_view(change: Changed, at: str, speaker: Speaker) -> dict[str, Any]:
    """Return a change as the page shows it: when (told already) and who, its lines, whether it can be put back."""
    name = change.copied_name or speaker.tell("web-nameless")
    return {
        "fact": change.fact,
        "when": speaker.tell("system-changed-by", at=at, author=change.author) if change.author else at,
        "copied": speaker.tell("system-copied-from", name=name) if change.copied_from else "",
        "lines": [_line(change, key, speaker) for key in change.keys],
        "back": change.back,
    }


def _line(change: Changed, key: KeyChanged, speaker: Speaker) -> str:
    prefix = f"{SITE.name}." if change.kind == SITE.name else ""
    name = key_name(prefix + key.key, speaker)
    if key.key == SITE.name and not prefix:
        return speaker.tell("system-site-said")
    after = value_told(key.after, speaker)
    if key.before is None:
        return speaker.tell("system-said", key=name, after=after)
    return speaker.tell("system-said-before", key=name, before=value_told(key.before, speaker), after=after)


def clash_view(clash: Clash, speaker: Speaker) -> dict[str, Any]:
    """Return a key that two devices disagree on: its name, and what each says with its fact; the same word once."""
    prefix = f"{SITE.name}." if clash.kind == SITE.name else ""
    choices: dict[str, str] = {}
    for head, value in zip(clash.heads, clash.values, strict=True):
        choices.setdefault(value_told(value, speaker), head)
    return {
        "key": clash.key,
        "says": key_name(prefix + clash.key, speaker),
        "choices": [(head, sentence(text)) for text, head in choices.items()],
    }
