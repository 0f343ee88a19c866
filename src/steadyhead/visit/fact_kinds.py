"""The kinds of facts, and the keys of their bodies; the JSON Schema and the manual of the record walk these rows.

Everything that affects what a body of each kind may hold lives in this file. A body holds what a visit file's tables
hold, so most rows come from `steadyhead.visit.keys`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from steadyhead.visit.births import NUMBERS
from steadyhead.visit.check_keys import CHECK, CHECK_INNER, CHECK_STATES, CHECK_TABLES, POINT, STAGES
from steadyhead.visit.ids import ULID_PATTERN
from steadyhead.visit.keys import (
    ACTION,
    CABLE,
    CLOSED,
    COMPLAINT,
    CONTROLLER,
    DECLINED,
    FITTING,
    FORMER,
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
from steadyhead.visit.stock_keys import STOCK, STOCK_TABLES
from steadyhead.water.known import WATCHERS
from steadyhead.water.tonight import MODES as WAYS

#: How a visit stands; what ended it, once it is not open.
STATES = ("open", "proved-on-site", "watching", "left-temporary", "made-safe", "declined", "night-pending")
OPEN = STATES[0]
#: What is off, where a visit ended made safe; what a customer is asked to note, where one ended watching.
OFF = ("pump", "drive", "controls", "water", "suction")
NOTES = ("photo", "time", "running", "weather", "sound")
#: What comes back by itself, and how that ended.
FOLLOW_UPS = ("night-test", "watch", "temporary-end", "part-ordered", "next-service")
FOLLOWED = ("done", "dropped")
#: What is shut for the night, and whether the pump was off.
SHUT = ("house-valve", "all-taps")
ANSWERS = ("yes", "no", "unknown")
#: Where a repair was made, as one taps it; any other place is told in words.
MENDED_AT = ("terminal", "run", "plug", "sensor", "drive", "pipe")
#: What may protect a system no longer while something temporary stands in its place.
PROTECTIONS = ("sensor-fault-stop", "pressure-control", "dry-run", "over-pressure")

#: Whether a part from the van may stay.
LASTS = ("permanent", "temporary")

#: The tables of a visit file that a system's body holds.
SYSTEM_TABLES: tuple[Table, ...] = (SENSOR, CABLE, CONTROLLER, FITTING, PLACE, LABELS)
GAUGE_KIND, METER_KIND = "gauge", "meter"
#: A sensor check, and one point of it.
CHECK_KIND, POINT_KIND = CHECK.name, POINT.name
#: A kind of sensor on the van, and one that was taken from there and fitted.
STOCK_KIND, FITTED_KIND = STOCK.name, "fitted"

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
_ANSWER: Mapping[str, Any] = {"enum": list(ANSWERS)}


_KNOWN: Mapping[str, Any] = {"type": "object", "additionalProperties": _TEXT}


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


def _several(words: Iterable[str]) -> Mapping[str, Any]:
    return {"type": "array", "items": {"enum": list(words)}}


def _object(keys: Iterable[BodyKey]) -> Mapping[str, Any]:
    return {"type": "object", "properties": {key.name: {"description": key.says, **key.schema} for key in keys}}


#: What is said where a visit ends; each ending has a few of them (`steadyhead.service.record.ending`).
ENDING: tuple[BodyKey, ...] = (
    BodyKey("note", "What else is to be said of it.", _TEXT),
    BodyKey("notes", "What the customer is asked to note, while it is watched.", _several(NOTES)),
    BodyKey("off", "What is off, where it was made safe.", _several(OFF)),
    BodyKey("locked", "Whether that is locked and tagged.", _FLAG),
    BodyKey("told", "Who was told.", _TEXT),
    BodyKey("by", "Who declined.", _TEXT),
    BodyKey("offered", "What was offered.", _TEXT),
    BodyKey("risk_told", "Whether it was said what may happen.", _FLAG),
    BodyKey(
        "likely",
        "What was likeliest, where it is watched: ids of faults, the likeliest first.",
        {"type": "array", "items": _TEXT},
    ),
    BodyKey(
        "believed",
        "What was suspected then, where it is watched: faults with their shares, the likeliest first.",
        {"type": "array", "items": _TEXT},
    ),
)
#: One part that was fitted.
PART: tuple[BodyKey, ...] = (
    BodyKey("part", "What it is.", _TEXT),
    BodyKey("serial", "Its serial number.", _TEXT),
    BodyKey("old", "The serial number of the one that it replaced.", _TEXT),
)
#: One birth reading.
BIRTH_NUMBER: tuple[BodyKey, ...] = (
    BodyKey("number", "Which it is: " + ", ".join(f"`{word}`" for word in NUMBERS) + ".", _TEXT),
    BodyKey("value", "What was read.", _TEXT),
    BodyKey("within", "How far the instruments may have been off then.", _TEXT),
    BodyKey("measure", "The measure, where it is a reading of a visit.", _TEXT),
    BodyKey("arrangement", "How the loop stood, where not as usual.", _TEXT),
    BodyKey("red", "Where the red lead was.", _TEXT),
    BodyKey("black", "Where the black lead was.", _TEXT),
    BodyKey("reading", "The reading that it is.", _ULID),
)

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
            _table(FORMER),
            *_keys(INSTRUMENTS_TABLE),
            BodyKey("instruments", "The gauge and the meter that are used.", _ULIDS),
            BodyKey("state", "How it stands.", {"enum": list(STATES)}),
            BodyKey("tapped", "What was tapped to begin it; a complaint that says just that is nobody's words.", _TEXT),
            BodyKey("ending", "What is said of how it ended.", _object(ENDING)),
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
        (
            *_keys(ACTION, but=("after_reading",)),
            BodyKey("after", "The readings that had been seen before.", _ULIDS),
            BodyKey("place", "Where: " + ", ".join(f"`{word}`" for word in MENDED_AT) + ", or in words.", _TEXT),
            BodyKey("done", "What exactly.", _TEXT),
            BodyKey("parts", "The parts that were fitted.", {"type": "array", "items": _object(PART)}),
            BodyKey("authorised", "Who said yes to it.", _TEXT),
            BodyKey("quoted", "What it was quoted at, as it was said.", _TEXT),
            BodyKey("tugged", "Whether every wire that was landed again was tugged and marked.", _FLAG),
            BodyKey("came_back", "Whether the fault came back after it.", _FLAG),
            BodyKey("withdrawn", "Whether it was taken out: it was not made after all.", _FLAG),
        ),
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
            BodyKey("mode", "The way that was worked out.", {"enum": list(WAYS)}),
            BodyKey("watch_least", "The least that must watch it.", {"enum": list(WATCHERS)}),
            BodyKey("hertz_start", "Speed that just holds the set pressure, every tap shut.", _TEXT),
            BodyKey("hertz_most", "The highest speed that may be set.", _TEXT),
            BodyKey("pressure_most", "Where the gauge must never come to; then it is switched off.", _TEXT),
            BodyKey("cut_out", "The highest cut-out of the pressure switch.", _TEXT),
            BodyKey("known", "The answers that it was worked out from.", _KNOWN),
        ),
    ),
    KindOfFact(
        "follow-up",
        "What comes back by itself: until it is done, or the visit stands otherwise, it is listed by its day.",
        (
            BodyKey("kind", "What it is.", {"enum": list(FOLLOW_UPS)}),
            BodyKey("due", "The day on which it is due.", _DAY),
            BodyKey("what", "What for.", _TEXT),
            BodyKey("ring", "Whom the customer rings.", _TEXT),
            BodyKey("ended", "How it ended.", {"enum": list(FOLLOWED)}),
            BodyKey("shut", "What is shut over the night.", {"enum": list(SHUT)}),
            BodyKey("pump_off", "Whether the pump was off all night.", _ANSWER),
            BodyKey("waited", "Whether it was ten minutes or more from the pump's stop to the first reading.", _ANSWER),
            BodyKey("holds", "Whether the valve that was shut holds.", _ANSWER),
            BodyKey("meter_from", "The water meter in the evening.", _TEXT),
            BodyKey("meter_to", "The water meter in the morning.", _TEXT),
            BodyKey("tank", "The tank's size, where it is known.", _TEXT),
            BodyKey("charge", "The tank's pre-charge, where it is known.", _TEXT),
            BodyKey("evening", "When the first reading was taken, such as `22:00`.", _TEXT),
            BodyKey("morning", "When the second one was.", _TEXT),
            BodyKey("reading", "The reading, a pressure decay, that came of it.", _ULID),
        ),
    ),
    KindOfFact(
        STOCK_KIND,
        f"{STOCK.says} How many are left: its `count`, less those fitted since.",
        (
            *_keys(STOCK),
            BodyKey("counted", "Those that were fitted before somebody counted last: their `fitted` facts.", _ULIDS),
            *map(_table, STOCK_TABLES),
            BodyKey("withdrawn", "Whether it was taken off the list.", _FLAG),
        ),
    ),
    KindOfFact(
        FITTED_KIND,
        "A sensor from the van that was fitted; it has its own copy of what it is.",
        (
            BodyKey("stock", "The kind of sensor on the van.", _ULID),
            BodyKey("name", "What it is called there.", _TEXT),
            BodyKey("serial", "Its serial number.", _TEXT),
            BodyKey("lasts", "Whether it may stay.", {"enum": list(LASTS)}),
            BodyKey("after", "The readings that had been seen before.", _ULIDS),
            BodyKey("repair", "The repair that is told with it: its `action` fact.", _ULID),
            BodyKey("system_as", "Facts of the system that held before.", _ULIDS),
            _table(SENSOR),
            BodyKey("withdrawn", "Whether it was taken out: it was not fitted after all.", _FLAG),
        ),
    ),
    KindOfFact(
        "birth",
        "Numbers of a system while all is well, for a later visit to be held against; or those of that later visit.",
        (
            BodyKey("system", "The system.", _ULID),
            BodyKey("against", "The earlier ones that these are held against; else these are the youth.", _ULID),
            BodyKey("numbers", "The numbers.", {"type": "array", "items": _object(BIRTH_NUMBER)}),
            BodyKey("withdrawn", "Whether it was taken out.", _FLAG),
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
