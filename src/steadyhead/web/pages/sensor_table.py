"""Points of a sensor check from a table, pasted or as a file: all of them are kept, or none."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import InputError, RefusedFileError
from steadyhead.sensorcheck.from_csv import points_from_csv
from steadyhead.service.record.check_pages import CheckSeen
from steadyhead.service.record.checks import add_points
from steadyhead.web.forms import read_upload
from steadyhead.web.pages.shared import Shop, go_to, says
from steadyhead.words import Speaker

PASTED = "points.csv"
MOST_SHOWN = 20  #: problems of one table that a page lists


async def ask(shop: Shop, request: Request) -> Response:
    """Show where a table goes in."""
    seen = shop.check(request)
    return shop.page(request, "sensor_table.html", shop.speaker_of_check(seen), _values(shop, seen, "", None))


async def keep(shop: Shop, request: Request) -> Response:
    """Keep the points of a table, or say what is wrong with it."""
    seen, sent = shop.check(request), await read_upload(request)
    try:
        run = seen.told.run
        table = points_from_csv(sent.table, run.sensor, sent.name or PASTED, scale=run.reference.scale)
        add_points(shop.given, seen.id, table.rows, token=sent.form.fact())
    except InputError as error:
        pasted = "" if sent.name else sent.table.decode("utf-8", "replace")
        speaker = shop.speaker_of_check(seen)
        return shop.refused(request, "sensor_table.html", speaker, _values(shop, seen, pasted, error))
    return go_to(f"/sensor-checks/{seen.id}")


def _values(shop: Shop, seen: CheckSeen, pasted: str, error: InputError | None) -> Mapping[str, Any]:
    speaker = shop.speaker_of_check(seen)
    return {
        "seen": seen,
        "title": seen.name or speaker.tell("web-nameless"),
        "pasted": pasted,
        "problems": _problems(error, speaker) if error else (),
    }


def _problems(error: InputError, speaker: Speaker) -> list[dict[str, str]]:
    """Return what is wrong, each with its line and column."""
    if not isinstance(error, RefusedFileError):
        return [{"where": "", "says": says(error, speaker)}]
    return [
        {
            "where": " ".join(
                filter(None, (speaker.tell("sensor-table-line", line=each.line) if each.line else "", each.key))
            ),
            "says": speaker.say(each.message),
        }
        for each in error.problems[:MOST_SHOWN]
    ]
