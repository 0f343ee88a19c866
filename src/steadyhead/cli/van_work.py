"""What the commands of the van do and say: for programs, and for people."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from steadyhead.cli.exchange_work import LAST, record
from steadyhead.cli.manner import manner, usual_speaker
from steadyhead.cli.page import columns, paragraph
from steadyhead.cli.visit_input import visit_file
from steadyhead.errors import NotFoundError, RecordError
from steadyhead.messages import message
from steadyhead.service.diagnosis import speaker_of
from steadyhead.service.record.given import Given
from steadyhead.service.record.lists import find_visits
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.van import StockSeen, add_stock, set_stock, stock_on_van, stock_page, withdraw_stock
from steadyhead.service.record.van_fitted import OnVan, what_will_do_in
from steadyhead.service.van_told import (
    before_changing,
    error_message,
    in_short,
    left_text,
    match_json,
    menu_unit,
    ordered,
    pin_rows_told,
    plate_text,
    settings_rows,
    stock_json,
    stretched_rows,
)
from steadyhead.visit.ids import is_ulid
from steadyhead.visit.keys import SENSOR
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.record import Visit
from steadyhead.visit.stock_keys import BUILD, PINS, STOCK
from steadyhead.words import Speaker

#: What a command prints: for programs, and for people.
Said = tuple[dict[str, Any], list[str]]

#: Where a key of the command line belongs; pins are spelled with their table.
_PLACES: dict[str, tuple[str, str]] = {
    **{key.name: ("", key.name) for key in STOCK.keys},
    **{key.name: (table.name, key.name) for table in (SENSOR, BUILD) for key in table.keys},
    **{f"{PINS.name}.{key.name}": (PINS.name, key.name) for key in PINS.keys},
}
_LISTS = frozenset(("adapters", "approval"))


def listed(data: str | None, region: str, wide: int) -> Said:
    """List what is on the van."""
    speaker = manner(region).speaker()
    with record(data) as given:
        found = stock_on_van(given)
    lines = [line for each in found for line in _stock_lines(each, speaker, wide)]
    return {"schema": 1, "stock": [stock_json(each, speaker) for each in found]}, lines or paragraph(
        speaker.tell("van-nothing"), wide
    )


def _stock_lines(each: StockSeen, speaker: Speaker, wide: int) -> list[str]:
    lines = paragraph(f"{each.id}  {each.name}: {left_text(each, speaker)}", wide, rest="  ")
    lines += paragraph(plate_text(each), wide, "  ") if plate_text(each) else []
    for told in each.problems:
        lines += paragraph(speaker.tell("van-unread", problem=speaker.say(told.message)), wide, "  ! ")
    if each.conflicts:
        lines += paragraph(speaker.tell("van-conflict", list=each.conflicts), wide, "  ! ")
    return lines


def added(name: str, fields: Iterable[str], data: str | None, wide: int) -> Said:
    """Put one on the list.

    Raises
    ------
    InputError
        A key is none, or a value cannot be read.
    """
    body = {**_body(fields), "name": name}
    with record(data) as given:
        id_ = add_stock(given, body)
        seen = stock_page(given, id_)
    told = usual_speaker().tell("van-added", name=seen.name, stock=id_)
    return {"schema": 1, **stock_json(seen, usual_speaker())}, paragraph(told, wide)


def put_right(stock: str, fields: Iterable[str], data: str | None, wide: int) -> Said:
    """Put a line of the list right.

    Raises
    ------
    InputError
        There is no such line, a key is none, or a value cannot be read.
    """
    body = _body(fields)
    with record(data) as given:
        id_ = _id_of(given, stock)
        set_stock(given, id_, body)
        seen = stock_page(given, id_)
    speaker = usual_speaker()
    return {"schema": 1, **stock_json(seen, speaker)}, paragraph(speaker.tell("van-kept", name=seen.name), wide)


def taken_off(stock: str, data: str | None, wide: int) -> Said:
    """Take a line off the list.

    Raises
    ------
    NotFoundError
        There is no such line.
    """
    with record(data) as given:
        id_ = _id_of(given, stock)
        withdraw_stock(given, id_)
        seen = stock_page(given, id_)
    told = usual_speaker().tell("van-off", name=seen.name)
    return {"schema": 1, "stock": id_, "name": seen.name}, paragraph(told, wide)


def _id_of(given: Given, stock: str) -> str:
    """Return the id of a line, given that or its name."""
    if is_ulid(stock):
        return stock
    found = [each.id for each in stock_on_van(given) if each.name.casefold() == stock.casefold()]
    if len(found) != 1:
        raise NotFoundError(message("van-not-stock", got=shown(stock)))
    return found[0]


def _body(fields: Iterable[str]) -> dict[str, Any]:
    """Return what the command line says as a body.

    Raises
    ------
    RecordError
        ``word-unknown`` for a key that is none, ``van-count-wrong``.
    """
    body: dict[str, Any] = {}
    for field in fields:
        key, equals, text = field.partition("=")
        if not equals or key not in _PLACES:
            allowed, nearest = nearest_first(key, tuple(_PLACES))
            raise RecordError(message("word-unknown", got=shown(key), must_be=allowed, nearest=nearest))
        table, name = _PLACES[key]
        row = body.setdefault(table, {}) if table else body
        row[name] = _value(name, text)
    return body


def _value(name: str, text: str) -> Any:  # noqa: ANN401 - of the key
    plain = text.strip()
    if name == "count" and plain:
        if not plain.isascii() or not plain.isdigit() or len(plain) > 6:
            raise RecordError(message("van-count-wrong", got=shown(plain)))
        return int(plain)
    if name in _LISTS:
        return [each.strip() for each in plain.split(",") if each.strip()]
    return plain or None


def held_against(visit: str, data: str | None, region: str, wide: int) -> Said:
    """Hold what is on the van against a system.

    Raises
    ------
    InputError
        There is no such visit, or the file cannot be read.
    """
    with record(data) as given:
        name, known = _visit(given, visit)
        found = what_will_do_in(given, known)
    speaker = speaker_of(known, manner(region))
    cautions = before_changing(known)
    made = {
        "schema": 1, "against": name, "van": [match_json(each, speaker) for each in found],
        "cautions": [{"id": each.id, "values": dict(each.values), "text": speaker.say(each)} for each in cautions],
    }  # fmt: skip
    if not found:
        return made, paragraph(speaker.tell("van-nothing"), wide)
    lines = [*paragraph(speaker.tell("van-for-file", file=name), wide), ""]
    for each in found:
        lines += [*_match_lines(each, known, speaker, wide), ""]
    lines += [speaker.tell("van-before-head")]
    return made, [*lines, *(line for each in cautions for line in paragraph(speaker.say(each), wide, "! "))]


def _visit(given: Given, visit: str) -> tuple[str, Visit]:
    if visit != LAST and not is_ulid(visit):
        return visit, visit_file(visit).visit
    if visit == LAST:
        every = find_visits(given, "")
        if not every:
            raise NotFoundError(message("visits-none"))
        visit = every[0].id
    seen = visit_page(given, visit)
    return seen.name or visit, seen.visit


def _match_lines(one: OnVan, visit: Visit, speaker: Speaker, wide: int) -> list[str]:
    """Return one line of the list against a system: the grade, then every reason, then what is to be done."""
    match = one.match
    told = {"name": one.stock.name, "short": in_short(match, speaker)}
    if match.grade in {"no", "check"}:
        lines = paragraph(speaker.tell("van-cli-short", **told), wide)
    else:
        lines = paragraph(speaker.tell("van-cli-grade", **told, grade=match.grade), wide)
    lines += paragraph(f"{plate_text(one.stock)} · {left_text(one.stock, speaker)}", wide, "  ")
    for each in ordered(match):
        mark = {"no": "  x ", "check": "  ? ", "with-work": "  > "}.get(each.grade, "  . ")
        lines += paragraph(speaker.say(each.why), wide, mark)
    for reason in match.because:
        lines += paragraph(speaker.say(reason), wide, "  ~ ")
    if match.grade == "no" or match.settings is None or match.error is None:
        return lines
    lines += paragraph(speaker.say(error_message(match.error)), wide, "  ")
    unit = menu_unit(one, visit)
    lines += ["", f"  {speaker.tell('van-settings-head')}"]
    lines += [f"    {line}" for line in columns(settings_rows(match.settings, speaker, unit))]
    if stretched := stretched_rows(match.settings, speaker, unit):
        own = {"kind": match.settings.kind, "was_low": match.settings.was_low, "was_high": match.settings.was_high}
        lines += paragraph(speaker.tell("van-set-stretched", **own), wide, "  ")
        lines += [f"    {line}" for line in columns(stretched)]
    heads = (speaker.tell("van-pin"), speaker.tell("van-wire"), speaker.tell("van-terminal"))
    return [*lines, *(f"    {line}" for line in columns(pin_rows_told(match, speaker), heads))]
