"""Turns a template and its values into an answer: the words, the addresses of files, the keys of forms go in here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any
from urllib.parse import urlencode

from jinja2 import Environment, FunctionLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from steadyhead.web import keypad
from steadyhead.web.assets import packaged, read_assets
from steadyhead.web.forms import give_key, key_of_browser
from steadyhead.web.policy import MOST_PHOTO
from steadyhead.words import Speaker
from steadyhead.words.help_names import HELP_PAGES
from steadyhead.words.names import NAMES
from steadyhead.words.saying import sentence

#: The largest photo as a person reads it, rounded down.
MOST_OF_PHOTO = f"{MOST_PHOTO // 10**6} MB"
#: The folder of the package that holds the templates.
TEMPLATES = "templates"
#: What the first page is made of, and every other one in part.
FIRST = ("base.html", "parts.html", "today.html")


@dataclass(frozen=True, slots=True)
class Renderer:
    """Makes pages of templates."""

    environment: Environment
    mint: Callable[[], str]

    def compile(self) -> None:
        """Compile every template, so that no page is held up by that later."""
        for each in sorted(each.name for each in (files("steadyhead.web") / TEMPLATES).iterdir()):
            self.environment.get_template(each)

    def page(
        self, request: Request, template: str, speaker: Speaker, values: Mapping[str, Any], status: int = 200
    ) -> Response:
        """Return a page.

        Parameters
        ----------
        request
            What it answers: it says which browser's key the page's forms carry.
        template
            Name of the template.
        speaker
            Whose words it is in.
        values
            What the template needs.
        status
            200, or 4xx where it says why something was not kept; such a page has no address of its own.
        """
        key = key_of_browser(request)
        words = {"lang": speaker.language, "decimal": speaker.decimal, "unit_name": _unit_namer(speaker)}
        words |= {"say": speaker.tell, "name": speaker.name}
        text = self.environment.get_template(template).render(
            {
                **words,
                "help": help_of(template.removesuffix(".html"), speaker),
                "form_key": key,
                "fact": self.mint,
                "here_now": _address(request),
                "buzz": False,
                **_sized(request),
                **values,
            }
        )
        answer = HTMLResponse(text, status, headers={} if status == 200 else {"HX-Push-Url": "false"})
        give_key(answer, request, key)
        return answer


def help_of(page: str, speaker: Speaker) -> str:
    """Return what a page says of itself where help is opened; a page that only tells what went wrong has none."""
    return speaker.tell(f"help-{page}") if page in HELP_PAGES else ""


def _address(request: Request) -> str:
    """Return the address of a page within this home, with what it was asked for."""
    return f"{request.url.path}?{request.url.query}" if request.url.query else request.url.path


def large_query(request: Request) -> str:
    """Return what keeps the digits large on the page that an answer leads on to; empty where they are not."""
    return "?large=1" if request.query_params.get("large", "") == "1" else ""


def _sized(request: Request) -> dict[str, Any]:
    """Return whether a page's digits are large, what keeps them so, and where the page stands in the other size."""
    large, words = large_query(request), dict(request.query_params)
    words.pop("large", "")
    query = urlencode(words if large else {**words, "large": "1"})
    here = f"{request.url.path}?{query}" if query else request.url.path
    return {"large": bool(large), "large_query": large, "large_at": here if request.method == "GET" else ""}


def _unit_namer(speaker: Speaker) -> Callable[[str], str]:
    """Return what says a unit as an instrument shows it; one without a name is its own."""
    known = NAMES["unit"]
    return lambda unit: speaker.name("unit", unit) if unit in known else unit


def make_renderer(mint: Callable[[], str]) -> Renderer:
    """Return the maker of pages; every text that is put into a template is escaped."""
    return Renderer(_environment(), mint)


def compile_first() -> None:
    """Compile what the first page is made of, where that can be done before there is an app."""
    for each in FIRST:
        _environment().get_template(each)


@cache
def _environment() -> Environment:
    """Return what compiles templates, each once in a program's life."""
    made = Environment(
        loader=FunctionLoader(_source), autoescape=True, undefined=StrictUndefined, auto_reload=False, trim_blocks=True
    )
    made.filters["sentence"] = sentence
    made.globals.update(asset=read_assets().address, digits=keypad.DIGITS)
    made.globals.update(most_bytes=MOST_PHOTO, most_of_photo=MOST_OF_PHOTO)
    return made


def _source(name: str) -> str:
    """Return a template's text; the package may be a zip in a phone's browser."""
    return packaged(f"{TEMPLATES}/{name}").decode()
