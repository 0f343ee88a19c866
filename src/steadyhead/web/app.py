"""The app: which address is which page, what happens when something goes wrong, and what every answer promises.

Rules
-----
1. A form that kept something is answered by "look there" (303), so that going back or reloading sends nothing twice.
2. What a person's input is refused for is told in words on a page; what the program did wrong is logged, and told in
   one line that gives nothing away.
3. A page's module is imported, its templates are compiled, when it is asked for first; those of all others soon after
   the first page or, where nobody comes, after the start: beside the pages, where the home can do that.
4. There are no threads and no processes here (the same app runs inside a browser): what takes the engine a while is
   given to the home's thinker, and other pages are served until it is done, where the home can do that.
"""

from __future__ import annotations

import logging
from collections.abc import AsyncIterator, Awaitable, Callable, Iterable
from contextlib import asynccontextmanager
from functools import partial
from importlib import import_module
from typing import TYPE_CHECKING

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp, Receive, Scope, Send

from steadyhead.errors import InputError, NotFoundError, StoreFullError
from steadyhead.service.at_work import Here, Thinker
from steadyhead.service.record.given import Given, mint
from steadyhead.service.sync.version import PREFIX as SYNC
from steadyhead.web.assets import PREFIX, read_assets
from steadyhead.web.joining import ENTER, Door, Joining
from steadyhead.web.noted import Events, Noted, note_error, note_said
from steadyhead.web.pages.shared import NEEDS, Shop, says
from steadyhead.web.phone_site import Handout, PhoneSite
from steadyhead.web.policy import LOCAL_HOSTS, MOST_TAKEN_MB, TAKE_IN, Policy
from steadyhead.web.render import MOST_OF_PHOTO, Renderer, make_renderer
from steadyhead.words import USUAL, Manner

if TYPE_CHECKING:
    from steadyhead.service.sync.courier import Courier, Reach

Handler = Callable[[Shop, Request], Awaitable[Response]]
#: What another home's browser asks with.
SPOKEN = ("GET", "POST", "OPTIONS")
LOG = logging.getLogger("steadyhead.web")
#: How long after the first page the others are made ready, it is on its way by then; and where nobody asks for one [s].
SOON_S, UNASKED_S = 0.3, 2.0

#: Address, what shows it, what its form does: a module of `steadyhead.web.pages` and its function. A page's module is
#: imported when it is asked for first, so that the first page need not wait for the engine.
PAGES: tuple[tuple[str, str, str], ...] = (
    ("/", "today:today", ""),
    ("/visits", "", "today:start"),
    ("/calls", "", "before:begin"),
    ("/name", "", "today:keep_name"),
    ("/demo", "", "today:leave_demo"),
    ("/instruments", "instruments:show", "instruments:keep_van"),
    ("/instruments/{instrument}", "instruments:ask", "instruments:keep"),
    ("/van", "van:show", ""),
    ("/van/{stock}", "van:ask", "van:keep"),
    ("/join", "join:join", ""),
    ("/join/codes", "", "join:renew"),
    ("/join/phones", "", "join:revoke"),
    (ENTER, "", "join:enter"),
    ("/leave", "", "join:leave_here"),
    ("/take-along", "take_along:show", ""),
    ("/guide", "guide:guide", ""),
    ("/guide.pdf", "guide:pdf", ""),
    ("/guide.html", "guide:file", ""),
    ("/search", "search:search", ""),
    ("/settings", "settings:settings", "settings:keep"),
    ("/settings/letterhead", "", "keeping:keep_letterhead"),
    ("/settings/logo", "logo:ask", "logo:keep"),
    ("/settings/logo/picture", "logo:picture", ""),
    ("/settings/times", "times:ask", "times:keep"),
    ("/settings/copy", "keeping:backup", ""),
    ("/settings/storage", "storage:storage", ""),
    ("/report", "report:ask", "report:make"),
    ("/report/file", "", "report:file"),
    ("/hand-over", "handing:every", "handing:every_noted"),
    ("/hand-over/everything/{part}", "handing:everything", ""),
    ("/take-in", "taking:ask", "taking:keep"),
    ("/sync", "syncing:ask", "syncing:keep"),
    ("/visits/{visit}/hand-over", "handing:ask", "handing:noted"),
    ("/visits/{visit}/hand-over/file", "handing:file", ""),
    ("/visits/{visit}", "visit:visit", ""),
    ("/visits/{visit}/first-minute", "first_minute:ask", "first_minute:keep"),
    ("/visits/{visit}/cautions", "", "caring:keep"),
    ("/visits/{visit}/photos", "photos:every", "photos:keep"),
    ("/visits/{visit}/photos/{photo}", "photos:one", "photos:correct"),
    ("/visits/{visit}/photos/{photo}/picture", "photos:picture", ""),
    ("/visits/{visit}/before", "before:ask", "before:keep"),
    ("/visits/{visit}/plate", "plate:ask_signal", "plate:keep_signal"),
    ("/visits/{visit}/range", "plate:ask_range", "plate:keep_range"),
    ("/visits/{visit}/read", "points:read_anywhere", ""),
    ("/visits/{visit}/readings", "", "readings:keep"),
    ("/visits/{visit}/readings/{reading}", "correcting:reading", "correcting:correct"),
    ("/visits/{visit}/why", "explaining:explain", ""),
    ("/visits/{visit}/call", "call:call", "call:keep_call"),
    ("/visits/{visit}/repairs", "repair:ask", "repair:keep"),
    ("/visits/{visit}/repairs/{repair}", "repair:one", "repair:correct"),
    ("/visits/{visit}/close", "", "visit:close"),
    ("/visits/{visit}/former", "", "visit:count_left_open"),
    ("/follow-ups", "follow_ups:every", ""),
    ("/visits/{visit}/end", "ending:ask", "ending:keep"),
    ("/visits/{visit}/night", "night:ask", "night:keep"),
    ("/visits/{visit}/night/close", "", "night:close"),
    ("/visits/{visit}/open", "", "ending:reopen"),
    ("/visits/{visit}/settle", "", "ending:settle"),
    ("/visits/{visit}/follow-ups", "follow_ups:ask", "follow_ups:add"),
    ("/visits/{visit}/follow-ups/{about}", "follow_ups:one", "follow_ups:change"),
    ("/visits/{visit}/report", "papers:report", ""),
    ("/visits/{visit}/tonight", "tonight:tonight", ""),
    ("/visits/{visit}/tank", "tank:tank", ""),
    ("/visits/{visit}/temporary", "temporary:ask", "temporary:keep"),
    ("/visits/{visit}/papers", "papers:choose", ""),
    ("/visits/{visit}/papers/{kind}.pdf", "papers:pdf", ""),
    ("/visits/{visit}/papers/{kind}.html", "papers:file", ""),
    ("/visits/{visit}/papers/{kind}", "papers:paper", ""),
    ("/visits/{visit}/van", "van_here:show", "van_here:change"),
    ("/visits/{visit}/van/{stock}", "van_here:ask", "van_here:fit"),
    ("/visits/{visit}/instruments", "instruments:of_visit", "instruments:keep_of_visit"),
    ("/systems/{system}/erase", "keeping:ask_erase", "keeping:do_erase"),
    ("/systems/{system}", "system:system", ""),
    ("/systems/{system}/plate", "system_plate:ask", "system_plate:keep"),
    ("/systems/{system}/copy", "system_copy:ask", "system_copy:keep"),
    ("/visits/{visit}/birth", "birth:ask", "birth:keep"),
    ("/systems/{system}/birth", "birth:of_system", ""),
    ("/systems/{system}/settle", "", "system:settle"),
    ("/systems/{system}/back", "", "system:back"),
    ("/systems/{system}/sensor-check", "sensor_setup:ask_new", "sensor_setup:begin"),
    ("/visits/{visit}/sensor-check", "sensor_setup:ask_new", "sensor_setup:begin"),
    ("/sensor-checks/{check}", "sensor_check:check", ""),
    ("/sensor-checks/{check}/points", "", "sensor_check:keep"),
    ("/sensor-checks/{check}/points/{point}", "sensor_point:point", "sensor_point:correct"),
    ("/sensor-checks/{check}/cautions", "", "caring:keep_of_check"),
    ("/sensor-checks/{check}/setup", "sensor_setup:ask", "sensor_setup:keep"),
    ("/sensor-checks/{check}/table", "sensor_table:ask", "sensor_table:keep"),
    ("/sensor-checks/{check}/figures", "sensor_figures:figures", ""),
    ("/sensor-checks/{check}/certificate.pdf", "certificate:pdf", ""),
    ("/sensor-checks/{check}/certificate.html", "certificate:file", ""),
    ("/sensor-checks/{check}/certificate", "certificate:paper", ""),
    ("/sensor-checks/{check}/state", "", "sensor_check:state"),
)


def make_app(
    given: Given,
    *,
    manner: Manner = USUAL,
    hosts: Iterable[str] = LOCAL_HOSTS,
    thinker: Thinker | None = None,
    joining: Joining | None = None,
    phone: bool = False,
    reach: Reach | None = None,
    site: PhoneSite | None = None,
) -> ASGIApp:
    """Return the app.

    Parameters
    ----------
    given
        What the use cases of the record need: its store, ids, a clock.
    manner
        How whoever chose nothing is spoken to.
    hosts
        Names under which this home may be reached.
    thinker
        Works out what takes the engine a while; None works it out here and now.
    joining
        How phones on the local network join; None where the app is served to this machine alone.
    phone
        Whether this home is a browser itself, a phone's.
    reach
        Sends a request to another home, for a home that hands over by its pages; None where a command does it.
    site
        The app as a phone takes it along, to be handed out beside this one.
    """
    hosts = frozenset(hosts)
    assets = read_assets()
    renderer = make_renderer(partial(mint, given))
    events = Events(given.clock)
    shop = Shop(
        given=given, renderer=renderer, manner=manner, thinker=thinker or Here(), joining=joining, phone=phone,
        events=events, courier=_courier(reach) if reach else None, site=site,
    )  # fmt: skip
    routes = [Route(PREFIX + "{name}", assets.serve)]
    routes += [_route(path, shop, show, do) for path, show, do in PAGES]
    spoken = _spoken_to(shop)
    routes += [Route(path, spoken, methods=SPOKEN) for path in (SYNC, SYNC + "/{what:path}")]
    gone = partial(_gone, shop)
    inner = Starlette(routes=routes, exception_handlers={404: gone, 405: gone}, lifespan=partial(_opened, shop))
    inner.router.redirect_slashes = False  # an address is what it is: none is made of what somebody asked for
    behind = Door(inner, given, partial(_asks, shop)) if joining else inner
    noted = Noted(behind, events, (path for path, _, _ in PAGES), PREFIX)
    app = Policy(noted, hosts, partial(_too_large, shop))
    return Handout(site, hosts, app) if site else app


def _courier(reach: Reach) -> Courier:
    """Return what carries syncs over a network."""
    from steadyhead.service.sync.courier import Courier  # noqa: PLC0415 - a laptop's app needs none

    return Courier(reach)


def _spoken_to(shop: Shop) -> Callable[[Request], Awaitable[Response]]:
    """Return what answers another home."""

    async def answer(request: Request) -> Response:
        return await handler("sync:answer")(shop, request)

    return answer


async def _asks(shop: Shop, request: Request) -> Response:
    """Return the page that asks for the code."""
    return await _guarded(shop, request, handler("join:ask"))


def _route(path: str, shop: Shop, show: str, do: str) -> Route:
    """Return the route of one address: a page, a form, or both."""
    known: dict[str, Handler] = {}

    async def answer(request: Request) -> Response:
        name = do if request.method == "POST" else show
        if not name:
            return RedirectResponse(request.url.path.rpartition("/")[0] or "/", 303)
        if name not in known:
            known[name] = await shop.thinker.beside(partial(_fetched, path, name))
        return await _guarded(shop, request, known[name])

    return Route(path, answer, methods=["GET", "POST"] if do else ["GET"])


def _fetched(path: str, name: str) -> Handler:
    """Return the function of a page, with what the shop needs for such an address."""
    for start, modules in NEEDS.items():
        if path.startswith(start):
            for each in modules:
                import_module(each)
    return handler(name)


def handler(name: str) -> Handler:
    """Return the function of a page, given its module and its name."""
    module, _, function = name.partition(":")
    found: Handler = getattr(import_module(f"steadyhead.web.pages.{module}"), function)
    return found


def load_pages() -> None:
    """Import every page's module, so that none of them is held up by that later."""
    for _, *names in PAGES:
        for name in filter(None, names):
            handler(name)


def make_ready(renderer: Renderer) -> None:
    """Do before it is asked for what the first request of each page would pay for."""
    from steadyhead.documents.html import compile_templates  # noqa: PLC0415 - no part of the first page

    load_pages()
    renderer.compile()
    compile_templates()


@asynccontextmanager
async def _opened(shop: Shop, _: Starlette) -> AsyncIterator[None]:
    """Make every page ready, where nobody has asked for one soon after the start."""
    shop.thinker.soon(partial(make_ready, shop.renderer), UNASKED_S)
    yield


async def _guarded(shop: Shop, request: Request, page: Handler) -> Response:
    """Return a handler's answer; what it refuses, or where it fails, as a page that says so."""
    shop = shop.asked(request)
    try:
        answer = await page(shop, request)
    except NotFoundError:
        return await _gone(shop, request, None)
    except StoreFullError as error:
        note_said(error.message.id)
        return await _no_room(shop, request)
    except InputError as error:
        head = shop.speaker.tell("web-not-kept")
        return _problem(shop, request, (head, says(error, shop.speaker)), 400)
    except HTTPException:
        raise
    except Exception as error:
        note_error(error)
        LOG.exception("%s %s", request.method, request.url.path)
        return _problem(shop, request, (shop.speaker.tell("web-failed-head"), shop.speaker.tell("web-failed")), 500)
    shop.thinker.soon(partial(make_ready, shop.renderer), SOON_S)
    return answer


async def _too_large(shop: Shop, scope: Scope, receive: Receive, send: Send) -> None:
    """Answer what is too large to be read: a photo from a browser without scripts, most often; or a file taken in."""
    request = Request(scope, receive)
    tell = shop.asked(request).speaker.tell
    photo = scope["path"] != TAKE_IN
    why = tell("body-too-large", most=MOST_OF_PHOTO) if photo else tell("taking-too-large", megabytes=MOST_TAKEN_MB)
    values = {"head": tell("web-not-kept"), "says": why, "back": scope["path"]}
    await shop.renderer.page(request, "problem.html", shop.asked(request).speaker, values, 413)(scope, receive, send)


async def _gone(shop: Shop, request: Request, _: Exception | None) -> Response:
    shop = shop.asked(request)
    told = (shop.speaker.tell("web-gone-head"), shop.speaker.tell("web-page-gone"))
    return _problem(shop, request, told, 404)


async def _no_room(shop: Shop, request: Request) -> Response:
    """Return the page of a full disk, which holds what the form held: once there is room, a tap sends it again."""
    tell, form = shop.speaker.tell, await request.form(max_files=0)
    values = {
        "head": tell("no-room-head"), "says": tell("no-room"), "back": "/",
        "report": True, "again": {key: str(value) for key, value in form.items()},
    }  # fmt: skip
    return shop.renderer.page(request, "problem.html", shop.speaker, values, 507)


def _problem(shop: Shop, request: Request, told: tuple[str, str], status: int) -> Response:
    head, why = told
    values = {"head": head, "says": why, "back": "/", "report": True}
    return shop.renderer.page(request, "problem.html", shop.speaker, values, status)
