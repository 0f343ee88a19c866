"""The first page: open visits, and one tap that starts another."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.service.record.check_pages import unfinished_checks
from steadyhead.service.record.demo import leave_demo as remove_demo
from steadyhead.service.record.follow_ups import what_waits
from steadyhead.service.record.given import author, set_author
from steadyhead.service.record.handed import not_handed
from steadyhead.service.record.lists import today as open_today
from steadyhead.service.record.phones import rename
from steadyhead.service.record.views import SystemLine, VisitLine
from steadyhead.service.record.visits import start_visit
from steadyhead.visit.fact_kinds import OPEN
from steadyhead.visit.nearest import shown
from steadyhead.web.complaints import COMPLAINTS
from steadyhead.web.forms import read_form
from steadyhead.web.pages.shared import Shop, check_lines, go_to, local_day
from steadyhead.web.views.ended import wait_view
from steadyhead.words import Speaker
from steadyhead.words.due import stands
from steadyhead.words.web_names import SEEN

#: What comes back is shown here within a week of its day, so many at most; the rest has a page of its own.
SHOWN = 6
#: Visits that a phone did not hand over, so many at most.
MISSED = 3
#: The tap that says nothing of what is seen.
OTHER = "other"


async def today(shop: Shop, request: Request) -> Response:
    """Show what is open."""
    found, speaker = open_today(shop.given), shop.speaker
    waits = what_waits(shop.given, most=SHOWN + 1)
    lists = [
        (speaker.tell("web-open-visits"), [visit_line(each, shop) for each in found.visits]),
        (speaker.tell("web-closed-visits"), [visit_line(each, shop) for each in found.ended]),
    ]
    missed = not_handed(shop.given) if shop.phone else ()
    values = {
        "missed": [visit_line(each, shop) for each in missed[:MISSED]],
        "more_missed": len(missed) > MISSED,
        "waits": [wait_view(each, speaker) for each in waits if each.soon][:SHOWN],
        "more_waits": len(waits) > SHOWN or any(not each.soon for each in waits),
        "lists": lists,
        "checks": check_lines(unfinished_checks(shop.given), shop),
        "systems": [(each.id, system_named(each, speaker)) for each in found.systems],
        "ask_name": not (shop.given.author if shop.who else shop.given.author or author(shop.given)),
        "demo": any(each.demo for each in (*found.visits, *found.ended)),
        "complaints": [(id_, speaker.name("seen", id_)) for id_ in SEEN],
    }
    return shop.page(request, "today.html", speaker, values)


def system_named(line: SystemLine, speaker: Speaker) -> str:
    """Return what a system is called in a list; one without a name is told by its plate."""
    return line.name or " ".join(filter(None, (speaker.tell("web-nameless"), line.range, line.signal)))


def visit_line(line: VisitLine, shop: Shop) -> dict[str, Any]:
    """Return a visit as a list shows it."""
    speaker = shop.speaker
    return {
        "id": line.id,
        "name": line.name or speaker.tell("web-nameless"),
        "complaint": line.complaint,
        "demo": line.demo,
        "state": "" if line.state == OPEN else stands(line.state, speaker),
        "conflict": line.conflict,
        "when": local_day(line.at, shop.given.zone, speaker),
        "readings": speaker.tell("web-reading-count", count=line.readings),
    }


async def start(shop: Shop, request: Request) -> Response:
    """Begin a visit with the tap that says what is seen."""
    form = await read_form(request)
    seen = form.text("complaint")
    if seen not in COMPLAINTS:
        raise UnknownWordError(message("web-check-unknown", got=shown(seen)))
    text = shop.speaker.name("seen", seen)
    system = form.text("system") or None
    complaint = {"text": "" if seen == OTHER else text, **COMPLAINTS[seen]}
    visit = start_visit(shop.given, complaint, system=system, tapped=text, token=form.fact())
    return go_to(f"/visits/{visit}" if system else f"/visits/{visit}/plate")


async def keep_name(shop: Shop, request: Request) -> Response:
    """Keep who writes here."""
    form = await read_form(request)
    if shop.who:
        rename(shop.given, shop.who, form.text("author"))
    else:
        set_author(shop.given, form.text("author"))
    return go_to("/")


async def leave_demo(shop: Shop, request: Request) -> Response:
    """Take the invented visit out."""
    await read_form(request)
    remove_demo(shop.given)
    return go_to("/")
