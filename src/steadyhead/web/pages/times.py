"""Times and costs: what checks and repairs take with these people, instead of the shipped estimates."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError
from steadyhead.quantities import spell_figure
from steadyhead.service.record.times import TimeRow, set_times, times
from steadyhead.web.forms import Form, read_form
from steadyhead.web.pages.shared import Shop, go_to, problems_told
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

#: The table of names that a section's rows are ids of; the rest are named beside the groups.
NAMED = {"arrangements": "arrangement", "inspections": "item", "repairs": "remedy", "parts": "remedy"}


async def ask(shop: Shop, request: Request) -> Response:
    """Show every time that can be changed here."""
    rows = times(shop.given)
    kept = request.query_params.get("kept", "") == "yes"
    values = {**_values(shop, rows, None), "problems": (), "kept": kept, "own": sum(row.own for row in rows)}
    return shop.page(request, "times.html", shop.speaker, values)


async def keep(shop: Shop, request: Request) -> Response:
    """Keep the times that were changed."""
    form, rows = await read_form(request), times(shop.given)
    typed = {(row.section, row.row): form.text(_field(row)) for row in rows}
    try:
        set_times(shop.given, {place: text for place, text in typed.items() if text})
    except InputError as error:
        values = {**_values(shop, rows, form), "problems": problems_told(error, shop.speaker), "kept": False, "own": 0}
        return shop.refused(request, "times.html", shop.speaker, values)
    return go_to("/settings/times?kept=yes")


def _field(row: TimeRow) -> str:
    return f"{row.section}.{row.row}"


def _values(shop: Shop, rows: tuple[TimeRow, ...], form: Form | None) -> dict[str, Any]:
    speaker = shop.speaker
    groups = [
        {"head": speaker.name("time-group", section), "rows": [_row(row, form, speaker) for row in some]}
        for section, some in groupby(rows, key=lambda row: row.section)
    ]
    return {"groups": groups}


def _row(row: TimeRow, form: Form | None, speaker: Speaker) -> Mapping[str, str]:
    own = spell_figure(row.used, digits=4) if row.own else ""
    return {
        "name": _field(row),
        "says": sentence(_named(row, speaker)),
        "value": form.text(_field(row)) if form else own.replace(".", speaker.decimal),
        "shipped": spell_figure(row.shipped, digits=4).replace(".", speaker.decimal),
    }


def _named(row: TimeRow, speaker: Speaker) -> str:
    if row.section == "readings" and row.row != "meter":
        return speaker.name("measure", row.row)
    return speaker.name(NAMED.get(row.section, "time-row"), row.row)
