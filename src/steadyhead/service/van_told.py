"""What on the van will do, in words and as JSON: a line of the list, a match, what is entered, which pin goes where."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from steadyhead.messages import Message, message
from steadyhead.service.record.van import StockSeen
from steadyhead.service.record.van_fitted import OnVan
from steadyhead.service.repair_cautions import cautions_for
from steadyhead.setup.finding import CHECK, NO, Finding
from steadyhead.setup.resulting import Resulting
from steadyhead.setup.scaling import Settings
from steadyhead.setup.van import Match
from steadyhead.visit.build import unit_spelled
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

SAME_ERROR = 0.005  #: two errors that differ by no more than this part are one to a reader
REMEDY = "replace-sensor"


def before_changing(visit: Visit) -> tuple[Message, ...]:
    """Return what must be heeded before a sensor is changed in a visit."""
    return cautions_for(REMEDY, visit)


def left_text(stock: StockSeen, speaker: Speaker) -> str:
    """Return how many are left."""
    if stock.left is None:
        return speaker.tell("van-left-unknown")
    return speaker.tell("van-left", left=stock.left) if stock.left else speaker.tell("van-left-none")


def plate_text(stock: StockSeen) -> str:
    """Return range and signal as they were typed."""
    plate = stock.body.get("sensor", {})
    return " · ".join(str(plate[key]) for key in ("range", "signal") if isinstance(plate, Mapping) and plate.get(key))


def stock_json(stock: StockSeen, speaker: Speaker) -> dict[str, Any]:
    """Return a line of the van's list."""
    kept = {key: value for key, value in stock.body.items() if key not in {"counted", "withdrawn"}}
    problems = [{"key": each.key, "text": speaker.say(each.message)} for each in stock.problems]
    return {"stock": stock.id, "left": stock.left, **kept, "problems": problems, "conflicts": list(stock.conflicts)}


def match_json(one: OnVan, speaker: Speaker) -> dict[str, Any]:
    """Return what a line of the van's list comes to: figures in SI units, and every sentence beside its id."""
    match = one.match
    return {
        "stock": one.stock.id,
        "name": one.stock.name,
        "left": one.stock.left,
        "grade": match.grade,
        "lasts": match.lasts,
        "because": [_said(each, speaker) for each in match.because],
        "findings": [
            {"aspect": each.aspect, "grade": each.grade, "why": _said(each.why, speaker)} for each in match.findings
        ],
        "way": {"id": match.way.id, "resistor_ohm": match.way.resistor_ohm, "heat_w": match.way.heat_w},
        "settings": _settings_json(match.settings),
        "error": _error_json(match.error, speaker),
        "pins": [
            {"core": row.core, "pin": row.pin, "wire": speaker.name("point", row.wire),
             "terminal": speaker.name("point", row.terminal)}
            for row in match.pins
        ],
    }  # fmt: skip


def _said(told: Message, speaker: Speaker) -> dict[str, Any]:
    return {"id": told.id, "values": dict(told.values), "text": speaker.say(told)}


def _settings_json(made: Settings | None) -> dict[str, Any] | None:
    if made is None:
        return None
    stretched = None if made.stretched is None else [made.stretched.low, made.stretched.high]
    return {
        "kind": made.kind, "signal": [made.low, made.high], "range_pa": [made.range.low, made.range.high],
        "low_fault": made.low_fault, "high_fault": made.high_fault, "stretched_pa": stretched,
        "stretched_at": None if stretched is None else [made.was_low, made.was_high],
    }  # fmt: skip


def _error_json(error: Resulting | None, speaker: Speaker) -> dict[str, Any] | None:
    if error is None:
        return None
    return {
        "parts_pa": dict(error.parts), "total_pa": error.total_pa, "old_pa": error.old_pa, "of_span": error.of_span,
        "ratio": error.ratio, "text": speaker.say(error_message(error)),
    }  # fmt: skip


def error_message(error: Resulting) -> Message:
    """Return what is said of an error, beside the one before where that is known."""
    same = abs(error.ratio - 1.0) <= SAME_ERROR
    if error.total_pa is None:
        return message("van-error-unknown-same") if same else message("van-error-unknown", ratio=error.ratio)
    if error.old_pa is None:
        return message("van-error", total=error.total_pa, share=error.of_span)
    if same:
        return message("van-error-same", total=error.total_pa)
    return message("van-error-ratio", total=error.total_pa, share=error.of_span, ratio=error.ratio, old=error.old_pa)


def in_short(match: Match, speaker: Speaker) -> str:
    """Return in one line why a part will not do, what is to be looked at, or else how long it may stay."""
    for grade, id_ in ((NO, "van-why-not"), (CHECK, "van-look-first")):
        aspects = dict.fromkeys(each.aspect for each in match.findings if each.grade == grade)
        if aspects:
            return speaker.tell(id_, list=tuple(speaker.name("van-aspect", each) for each in aspects))
    return sentence(speaker.name("van-lasts", match.lasts)) + "."


def ordered(match: Match) -> list[Finding]:
    """Return the findings, the worst first."""
    order = {NO: 0, CHECK: 1, "with-work": 2}
    return sorted(match.findings, key=lambda each: order.get(each.grade, 3))


def menu_unit(one: OnVan, visit: Visit) -> str:
    """Return the unit in which a range is entered: the one that the drive's setting was read in, else the plate's."""
    absolute = one.match.stock.sensor.reference == "absolute"
    return visit.set_unit or unit_spelled(one.stock.body, "sensor", "range", absolute=absolute)


def _entered(pressure: float, speaker: Speaker, own: str) -> str:
    """Return a pressure in the reader's unit, the menu's own in brackets where that is another one and it is not 0."""
    here = speaker.tell("van-figure-pressure", pressure=pressure)
    if own in {"", speaker.pressure_unit} or not pressure:
        return here
    there = replace(speaker, pressure_unit=own).tell("van-figure-pressure", pressure=pressure)
    return speaker.tell("van-figure-own", here=here, there=there)


def settings_rows(made: Settings, speaker: Speaker, own: str = "") -> list[tuple[str, str]]:
    """Return what is entered, name and figure, in the order in which a menu asks for it; `own` is the menu's unit."""
    values = {"kind": made.kind, "low": made.low, "high": made.high}
    rows = [
        (speaker.tell("van-set-low"), speaker.tell("van-figure-signal", **{**values, "signal": made.low})),
        (speaker.tell("van-set-high"), speaker.tell("van-figure-signal", **{**values, "signal": made.high})),
        (speaker.tell("van-set-range-low"), _entered(made.range.low, speaker, own)),
        (speaker.tell("van-set-range-high"), _entered(made.range.high, speaker, own)),
    ]
    for id_, limit in (("van-set-low-fault", made.low_fault), ("van-set-high-fault", made.high_fault)):
        if limit is not None:
            rows.append((speaker.tell(id_), speaker.tell("van-figure-signal", kind=made.kind, signal=limit)))
    return rows


def stretched_rows(made: Settings, speaker: Speaker, own: str = "") -> list[tuple[str, str]]:
    """Return what is entered where the menu keeps the ends of its signal; nothing where that is no other."""
    if made.stretched is None:
        return []
    return [
        (speaker.tell("van-set-range-low"), _entered(made.stretched.low, speaker, own)),
        (speaker.tell("van-set-range-high"), _entered(made.stretched.high, speaker, own)),
    ]


def pin_rows_told(match: Match, speaker: Speaker) -> list[tuple[str, str, str]]:
    """Return pin, wire and terminal of each core; a resistor has a row of its own."""
    rows = [
        (
            speaker.tell("van-pin-none") if row.pin is None else row.pin or speaker.tell("van-pin-unknown"),
            speaker.name("point", row.wire),
            speaker.tell("van-stays-free") if row.pin is None else speaker.name("point", row.terminal),
        )
        for row in match.pins
    ]
    if match.way.resistor_ohm is not None:
        between = [speaker.name("point", f"controller.{core}") for core in ("signal", "common")]
        rows.append((speaker.tell("van-resistor", ohm=match.way.resistor_ohm), "", " / ".join(between)))
    return rows
