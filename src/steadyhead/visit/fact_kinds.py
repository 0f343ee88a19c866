"""The kinds of facts, and the keys of their bodies; the JSON Schema and the manual of the record walk these rows.

Everything that affects what a body of each kind may hold lives in this file. A body holds what a visit file's tables
hold, so most rows come from `steadyhead.visit.keys`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from steadyhead.visit.check_keys import CHECK, CHECK_INNER, CHECK_STATES, CHECK_TABLES, POINT, STAGES
from steadyhead.visit.ids import ULID_PATTERN
from steadyhead.visit.keys import (
    ACTION,
    CABLE,
    CLOSED,
    COMPLAINT,
    CONTROLLER,
    DECLINED,
    GAUGE,
    INSTRUMENTS_TABLE,
    LABELS,
    METER,
    PLACE,
    READING,
    SENSOR,
    SITE,
    Table,
)

#: How a visit stands; what ended it, once it is not open.
STATES = ("open", "proved-on-site", "watching", "left-temporary", "made-safe", "declined")
OPEN = STATES[0]
#: What may protect a system no longer while something temporary stands in its place.
PROTECTIONS = ("sensor-fault-stop", "pressure-control", "dry-run", "over-pressure")

#: The tables of a visit file that a system's body holds.
SYSTEM_TABLES: tuple[Table, ...] = (SENSOR, CABLE, CONTROLLER, PLACE, LABELS)
GAUGE_KIND, METER_KIND = "gauge", "meter"
#: A sensor check, and one point of it.
CHECK_KIND, POINT_KIND = CHECK.name, POINT.name

#: Whether something was seen before anything was changed, or after.
AS_FOUND, AS_LEFT = STAGES
#: How the first minute at a visit ended: it was taken, or passed over.
FIRST_MINUTES = ("taken", "skipped")
#: Who may depend on the water of a system, and is told before it goes off.
DEPENDENTS = ("dialysis", "care", "hospital", "school", "food", "process", "livestock", "sprinklers")

#: Photos that a record takes, by their first bytes.
PHOTO_TYPES = ("image/jpeg", "image/png", "image/webp")
#: What a photo shows.
SHOWS = ("display", "plate", "wiring", "part", "place")
SHA256_PATTERN = "^[0-9a-f]{64}$"

_TEXT: Mapping[str, Any] = {"type": "string"}
_FLAG: Mapping[str, Any] = {"type": "boolean"}
_DAY: Mapping[str, Any] = {"type": "string", "format": "date"}
_ULID: Mapping[str, Any] = {"type": "string", "pattern": ULID_PATTERN}
_ULIDS: Mapping[str, Any] = {"type": "array", "items": _ULID}


class BodyKey(NamedTuple):
    """One key of a body: its name, what it says, its JSON Schema."""

    name: str
    says: str
    schema: Mapping[str, Any]


class KindOfFact(NamedTuple):
    """One kind of fact: its word, what it tells, and the keys of its body."""

    id: str
    says: str
    keys: tuple[BodyKey, ...]


def _keys(table: Table, *, but: Iterable[str] = ()) -> tuple[BodyKey, ...]:
    return tuple(BodyKey(key.name, key.says, key.kind.schema()) for key in table.keys if key.name not in set(but))


def _table(table: Table) -> BodyKey:
    inner = [_table(each) for each in CHECK_INNER if each.inside == table.name]
    properties = {key.name: {"description": key.says, **key.schema} for key in (*_keys(table), *inner)}
    return BodyKey(table.name, table.says, {"type": "object", "properties": properties})


KINDS: tuple[KindOfFact, ...] = (
    KindOfFact("site", "Where systems stand.", _keys(SITE)),
    KindOfFact(
        "system",
        "A system and its loop: the plate, the cable, the controller, the place, the labels of this panel and plug.",
        (
            BodyKey("name", "What it is called.", _TEXT),
            BodyKey("site", "The site where it stands.", _ULID),
            *map(_table, SYSTEM_TABLES),
            BodyKey(
                "depends",
                "Who depends on its water, and is told before it goes off.",
                {"type": "array", "items": {"enum": list(DEPENDENTS)}},
            ),
            BodyKey("access", "How to get in: keys, a dog, the walk, where to park.", _TEXT),
        ),
    ),
    KindOfFact(
        "instrument",
        "A gauge, a meter or another instrument.",
        (
            BodyKey("name", "What it is called.", _TEXT),
            BodyKey("kind", "`gauge`, `meter`, or another word.", _TEXT),
            *_keys(GAUGE),
            *_keys(METER),
            BodyKey("serial", "Its serial number.", _TEXT),
            BodyKey("certificate", "Number of its last certificate.", _TEXT),
            BodyKey("due", "The day on which its next calibration is due.", _DAY),
            BodyKey("withdrawn", "Whether it is out of use.", _FLAG),
        ),
    ),
    KindOfFact(
        "visit",
        "A visit: to which system, why, with what at hand, and how it stands.",
        (
            BodyKey("system", "The system that is visited.", _ULID),
            BodyKey("site", "The site.", _ULID),
            _table(COMPLAINT),
            *_keys(INSTRUMENTS_TABLE),
            BodyKey("instruments", "The gauge and the meter that are used.", _ULIDS),
            BodyKey("state", "How it stands.", {"enum": list(STATES)}),
            BodyKey("system_as", "Facts of the system that held when the visit ended.", _ULIDS),
        ),
    ),
    KindOfFact(
        "reading",
        "One thing that was read.",
        (
            *_keys(READING),
            BodyKey("stage", "Before anything was changed, or after.", {"enum": list(STAGES)}),
            BodyKey("withdrawn", "Whether it was taken out: it could not be made after all.", _FLAG),
        ),
    ),
    KindOfFact("finding", "What was at fault in the end.", _keys(CLOSED)),
    KindOfFact(
        "action",
        "What was done.",
        (*_keys(ACTION, but=("after_reading",)), BodyKey("after", "The readings that had been seen before.", _ULIDS)),
    ),
    KindOfFact(
        CHECK_KIND,
        f"{CHECK.says} It belongs to a visit, or stands alone: then its `visit` is its own id.",
        (
            BodyKey("system", "The system whose sensor it is.", _ULID),
            *_keys(CHECK),
            *map(_table, (SENSOR, CONTROLLER, *CHECK_TABLES)),
            BodyKey("state", "Whether points may still come.", {"enum": list(CHECK_STATES)}),
            BodyKey("withdrawn", "Whether it was taken out.", _FLAG),
        ),
    ),
    KindOfFact(
        POINT_KIND,
        POINT.says,
        (
            BodyKey("check", "The sensor check that it belongs to.", _ULID),
            *_keys(POINT),
            BodyKey("withdrawn", "Whether it was taken out.", _FLAG),
        ),
    ),
    KindOfFact("declined", "A check that cannot be done here.", _keys(DECLINED)),
    KindOfFact("caution-seen", "A caution that was read before a step.", (BodyKey("caution", "Its id.", _TEXT),)),
    KindOfFact(
        "first-minute",
        "How the first minute ended, before anything was reset.",
        (BodyKey("state", "Whether it was taken or passed over.", {"enum": list(FIRST_MINUTES)}),),
    ),
    KindOfFact(
        "photo",
        "A photo.",
        (
            BodyKey("sha256", "SHA-256 of its bytes.", {"type": "string", "pattern": SHA256_PATTERN}),
            BodyKey("media_type", "What its bytes are.", {"enum": list(PHOTO_TYPES)}),
            BodyKey("says", "What it shows, in a few words.", _TEXT),
            BodyKey("shows", "What kind of thing it shows.", {"enum": list(SHOWS)}),
            BodyKey("stage", "Before anything was changed, or after.", {"enum": list(STAGES)}),
            BodyKey("of", "The entity that it shows.", _ULID),
        ),
    ),
    KindOfFact(
        "temporary",
        "What was left temporary: what stands in for what, until when, who watches, what protects no longer.",
        (
            BodyKey("what", "What was left, and how.", _TEXT),
            BodyKey("why", "Why.", _TEXT),
            BodyKey("until", "The last day that it may stay.", _DAY),
            BodyKey("watch", "Who watches it.", _TEXT),
            BodyKey("lost", "What protects no longer.", {"type": "array", "items": {"enum": list(PROTECTIONS)}}),
        ),
    ),
    KindOfFact(
        "note",
        "A line that somebody wrote.",
        (BodyKey("text", "The line.", _TEXT), BodyKey("of", "The entity that it is about.", _ULID)),
    ),
    KindOfFact(
        "purge",
        "Takes away what was said of entities, visits or facts, for ever and wherever it turns up.",
        (BodyKey("of", "What it covers.", _ULIDS),),
    ),
)
KIND: dict[str, KindOfFact] = {kind.id: kind for kind in KINDS}
