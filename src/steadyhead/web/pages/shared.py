"""What every page has at hand: the record, the maker of pages, whose words are used, and what was thought before."""

# ruff: noqa: PLC0415 - the engine is imported by the first page that needs it: the first page of all does not

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING, Any, TypeVar
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from steadyhead.errors import InputError, RefusedFileError, StoreFullError
from steadyhead.service.at_work import Here, Task, Thinker
from steadyhead.service.record.given import Given
from steadyhead.service.record.manners import manner_of
from steadyhead.service.record.phones import Phone
from steadyhead.service.record.vibrating import vibrates
from steadyhead.web.joining import WHO, Joining
from steadyhead.web.noted import Events, note_said
from steadyhead.web.phone_site import PhoneSite
from steadyhead.web.render import Renderer
from steadyhead.web.thoughts import Thoughts
from steadyhead.words import USUAL, Manner, Speaker
from steadyhead.words.speaker import languages

if TYPE_CHECKING:
    from steadyhead.service.record.check_pages import CheckLine, CheckSeen
    from steadyhead.service.record.views import VisitSeen
    from steadyhead.service.sync.courier import Courier
    from steadyhead.web.views.asking import Thought

Page = Callable[[Request], Awaitable[Response]]

Out = TypeVar("Out")
#: What a `Shop` imports itself for what an address names, by how its route begins: imported with the page's module.
NEEDS: Mapping[str, tuple[str, ...]] = {
    "/visits/{": ("steadyhead.service.record.pages", "steadyhead.service.diagnosis"),
    "/sensor-checks/{": ("steadyhead.service.record.check_pages",),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What every page has at hand.

    Parameters
    ----------
    given
        What the use cases of the record need.
    renderer
        Makes pages of templates.
    manner
        How the person who asks is spoken to; of the shop itself, whoever chose nothing.
    who
        Who asks: empty for this device itself, else who joined from another.
    thoughts
        What was worked out before.
    thinker
        Works out what was not.
    joining
        How phones join; None where only this device itself is served.
    events
        What the app did of late.
    phone
        Whether this home is a browser itself, a phone's: no folder, no printer, no network need be there.
    courier
        Brings this record together with another home's, from its pages; None where a command does it.
    site
        The app as a phone takes it along; None where none is handed out here.
    """

    given: Given
    renderer: Renderer
    manner: Manner
    who: str = ""
    thoughts: Thoughts = field(default_factory=Thoughts)
    thinker: Thinker = field(default_factory=Here)
    joining: Joining | None = None
    events: Events = field(default_factory=lambda: Events(lambda: 0))
    phone: bool = False
    courier: Courier | None = None
    site: PhoneSite | None = None

    def asked(self, request: Request) -> Shop:
        """Return the shop as whoever asks finds it: in their manner, writing under their name."""
        phone: Phone | None = request.scope.get(WHO)
        who, given = (phone.id, replace(self.given, author=phone.name)) if phone else ("", self.given)
        usual = self.manner.usual_in(language_asked(request)) if self.manner == USUAL else self.manner
        return replace(self, who=who, given=given, manner=manner_of(given, who, usual))

    @property
    def speaker(self) -> Speaker:
        """Who speaks where no visit is open."""
        return self.manner.speaker()

    @property
    def buzzes(self) -> bool:
        """Whether a phone buzzes for whoever asks."""
        return vibrates(self.given, self.who)

    def visit(self, request: Request) -> VisitSeen:
        """Return the visit that an address names.

        Raises
        ------
        NotFoundError
            There is no such visit.
        """
        from steadyhead.service.record.pages import visit_page

        seen = visit_page(self.given, str(request.path_params["visit"]))
        unit = self.manner.unit or seen.visit.pressure_unit
        return replace(seen, visit=replace(seen.visit, pressure_unit=unit))

    async def think(self, seen: VisitSeen) -> Thought:
        """Return what is asked next in a visit, worked out once for each of its states."""
        from steadyhead.service.record.times import judging_by
        from steadyhead.web.views.asking import thought

        by = judging_by(self.given)
        do = partial(thought, assumed=bool(seen.assumed), estimates=by.estimates)
        key = f"{seen.id}:{seen.evidence}:{self.manner}:{by.key}"
        return await self.worked_out(Task(seen.id, key, do, (seen.visit, self.manner)))

    async def worked_out(self, task: Task[Out]) -> Out:
        """Return what comes of a task that takes the engine a while; other pages are served meanwhile, where it can."""
        return await self.thoughts.of(task, self.thinker)

    async def worked_out_here(self, task: Task[Out]) -> Out:
        """Return what comes of a task that takes milliseconds, or whose answer holds functions, which do not travel."""
        return await self.thoughts.of(task, Here())

    def speaker_for(self, seen: VisitSeen) -> Speaker:
        """Return who speaks of a visit: with its labels, in its unit of pressure."""
        from steadyhead.service.diagnosis import speaker_of

        return speaker_of(seen.visit, self.manner)

    def check(self, request: Request) -> CheckSeen:
        """Return the sensor check that an address names.

        Raises
        ------
        NotFoundError
            There is no such check.
        """
        from steadyhead.service.record.check_pages import check_page

        seen = check_page(self.given, str(request.path_params["check"]))
        unit = self.manner.unit or seen.told.pressure_unit
        return replace(seen, told=replace(seen.told, pressure_unit=unit))

    def speaker_of_check(self, seen: CheckSeen) -> Speaker:
        """Return who speaks of a sensor check: in its unit of pressure."""
        wires = seen.told.run.sensor.signal.wires
        return self.manner.speaker(pressure_unit=seen.told.pressure_unit, wires=wires)

    def name_of(self, seen: VisitSeen) -> str:
        """Return what a visit is called: its system's name or its site's, else that it has none yet."""
        return seen.name or self.speaker.tell("web-nameless")

    def page(self, request: Request, template: str, speaker: Speaker, values: Mapping[str, Any]) -> Response:
        """Return a page."""
        return self.renderer.page(request, template, speaker, {"buzz": self.buzzes, **values})

    def refused(self, request: Request, template: str, speaker: Speaker, values: Mapping[str, Any]) -> Response:
        """Return a page again that says why what was sent was not kept."""
        return self.renderer.page(request, template, speaker, {"buzz": self.buzzes, **values}, 422)


def language_asked(request: Request) -> str:
    """Return the first language of a browser's list that the app speaks; English where it names none."""
    listed = request.headers.get("accept-language", "").lower().split(",")
    first = [each.partition(";")[0].strip().partition("-")[0] for each in listed]
    known = languages()
    return next((each for each in first if each in known), known[0])


def check_lines(found: Iterable[CheckLine], shop: Shop) -> list[dict[str, str]]:
    """Return sensor checks as a list shows them: where, when, before or after a change, which sensor."""
    speaker = shop.speaker
    return [
        {
            "id": each.id,
            "name": each.name or speaker.tell("web-nameless"),
            "what": speaker.tell(
                "sensor-line-serial" if each.serial else "sensor-line",
                stage=speaker.name("check-word", each.stage),
                when=local_day(each.began, shop.given.zone, speaker),
                **({"serial": each.serial} if each.serial else {}),
            ),
        }
        for each in found
    ]


def go_to(address: str) -> Response:
    """Return the answer of a form that was kept: look there. The browser never sends the form again."""
    return RedirectResponse(address, 303)


def problems_told(error: InputError, speaker: Speaker) -> list[dict[str, str]]:
    """Return what was wrong with a form, one row for each field that was; a row without a key is of the whole."""
    if isinstance(error, RefusedFileError):
        _note(error)
        return [{"key": each.key, "says": speaker.say(each.message)} for each in error.problems]
    return [{"key": "", "says": says(error, speaker)}]


def says(error: InputError, speaker: Speaker) -> str:
    """Return in words why something was refused; a file's problems one after the other."""
    _note(error)
    if isinstance(error, RefusedFileError):
        return " ".join(speaker.say(problem.message) for problem in error.problems)
    if isinstance(error, StoreFullError):  # of a file nobody here has heard: this device is full
        return speaker.tell("no-room")
    return speaker.say(error.message)


def _note(error: InputError) -> None:
    """Note which messages said why, for a report of a problem: their ids alone."""
    for each in error.problems if isinstance(error, RefusedFileError) else (error,):
        note_said(each.message.id)


def local_day(at: str, zone: str, speaker: Speaker) -> str:
    """Return a day of the record on the site's calendar: ``4 May 2026``.

    >>> local_day("2026-05-04T23:30:00.000Z", "Europe/Madrid", Speaker(language="es"))
    '5 may 2026'
    """
    return _dated("date-day", at, zone, speaker)


def local_moment(at: str, zone: str, speaker: Speaker) -> str:
    """Return a day and a time of the record, without the year: ``4 May 07:09``."""
    return _dated("date-moment", at, zone, speaker)


def local_whole(at: str, zone: str, speaker: Speaker) -> str:
    """Return a day and a time of the record: ``4 May 2026 07:09``."""
    return _dated("date-whole", at, zone, speaker)


def _dated(id_: str, at: str, zone: str, speaker: Speaker) -> str:
    if not at:
        return ""
    year, month, day, clock = local_time(at, zone, "%Y %m %d %H:%M").split()
    return speaker.tell(id_, year=year, month=month, day=int(day), clock=clock)


def local_time(at: str, zone: str, pattern: str = "%H:%M") -> str:
    """Return a time of the record as a clock on the site's wall shows it.

    >>> local_time("2026-05-04T07:09:31.250Z", "UTC"), local_time("", "UTC")
    ('07:09', '')
    """
    if not at:
        return ""
    moment = datetime.fromisoformat(at)
    try:
        return moment.astimezone(ZoneInfo(zone)).strftime(pattern)
    except ZoneInfoNotFoundError:
        return moment.strftime(pattern)
