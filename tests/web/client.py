"""A browser without scripts, spoken to directly: follows links and forms, keeps cookies, needs no network."""

from __future__ import annotations

from collections.abc import Coroutine, Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any
from urllib.parse import urlencode, urlsplit

from starlette.types import ASGIApp, Message


@dataclass
class Answer:
    """What came back."""

    status: int
    headers: Mapping[str, str]
    body: bytes
    address: str

    @property
    def text(self) -> str:
        """The page."""
        return self.body.decode("utf-8")

    @property
    def page(self) -> Page:
        """The page, parsed."""
        return parsed(self.text)


@dataclass
class Browser:
    """Speaks to the app; a redirect is followed as a browser does it."""

    app: ASGIApp
    host: str = "127.0.0.1:8000"
    cookies: dict[str, str] = field(default_factory=dict)
    client: str = "127.0.0.1"
    scheme: str = "http"

    def get(self, address: str, **headers: str) -> Answer:
        """Return a page."""
        return self._followed(self._ask("GET", address, b"", headers))

    def post(self, address: str, fields: Mapping[str, str], **headers: str) -> Answer:
        """Return what comes of a form, with its redirect followed."""
        return self._followed(self.post_only(address, fields, **headers))

    def post_only(self, address: str, fields: Mapping[str, str], **headers: str) -> Answer:
        """Return what comes of a form."""
        kind = {"content-type": "application/x-www-form-urlencoded", **headers}
        return self._ask("POST", address, urlencode(fields).encode(), kind)

    def post_bytes(self, address: str, body: bytes, kind: str) -> Answer:
        """Return what comes of a form that was packed already, with its redirect followed."""
        return self._followed(self._ask("POST", address, body, {"content-type": kind}))

    def _followed(self, answer: Answer) -> Answer:
        while answer.status == 303:
            answer = self._ask("GET", answer.headers["location"], b"", {})
        return answer

    def _ask(self, method: str, address: str, body: bytes, headers: Mapping[str, str]) -> Answer:
        parts = urlsplit(address)
        sent = {"host": self.host, "content-length": str(len(body)), **headers}
        if self.cookies:
            sent["cookie"] = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        scope = {
            "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method, "scheme": self.scheme,
            "path": parts.path, "raw_path": parts.path.encode(), "query_string": parts.query.encode(), "root_path": "",
            "headers": [(name.lower().encode(), value.encode()) for name, value in sent.items()],
            "client": (self.client, 1), "server": ("127.0.0.1", 8000),
        }  # fmt: skip
        answer = _done(_call(self.app, scope, body, parts.path))
        cookie = answer.headers.get("set-cookie", "")
        if cookie:
            name, _, value = cookie.partition(";")[0].partition("=")
            self.cookies[name] = value
        return answer


def _done(answering: Coroutine[Any, Any, Answer]) -> Answer:
    """Return what comes of a call that waits for nothing outside: the app needs no event loop for that."""
    try:
        answering.send(None)
    except StopIteration as end:
        found: Answer = end.value
        return found
    raise AssertionError("the app waits for something")  # noqa: EM101, TRY003 - seen by whoever broke it


async def _call(app: ASGIApp, scope: dict[str, Any], body: bytes, address: str) -> Answer:
    sent = iter([{"type": "http.request", "body": body, "more_body": False}])
    got: list[Message] = []

    async def receive() -> Message:
        return next(sent, {"type": "http.disconnect"})

    async def send(message: Message) -> None:
        got.append(message)

    await app(scope, receive, send)
    headers = {name.decode().lower(): value.decode() for name, value in got[0]["headers"]}
    return Answer(got[0]["status"], headers, b"".join(each.get("body", b"") for each in got[1:]), address)


@dataclass
class Form:
    """A form of a page: where it goes, what it carries, and its buttons (name, value, text)."""

    action: str
    fields: dict[str, str] = field(default_factory=dict)
    buttons: list[tuple[str, str, str]] = field(default_factory=list)

    def filled(self, **more: str) -> dict[str, str]:
        """Return its fields with more of them."""
        return {**self.fields, **more}


@dataclass
class Page(HTMLParser):
    """A page as this browser sees it: its words, links, forms, ids."""

    words: list[str] = field(default_factory=list)
    links: dict[str, str] = field(default_factory=dict)
    forms: list[Form] = field(default_factory=list)
    tags: list[tuple[str, dict[str, str]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()
        self._link = ""
        self._button: tuple[str, str] | None = None
        self._select = ""

    @property
    def said(self) -> str:
        """Every word of the page in one line."""
        return " ".join(" ".join(self.words).split())

    def form(self, ending: str) -> Form:
        """Return the first form whose action ends so, whatever it asks for besides."""
        return next(form for form in self.forms if form.action.partition("?")[0].endswith(ending))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take a tag in."""
        known = {name: value or "" for name, value in attrs}
        self.tags.append((tag, known))
        if tag == "a":
            self._link = known.get("href", "")
            if "aria-label" in known:
                self.links[known["aria-label"]] = self._link
        elif tag == "form":
            self.forms.append(Form(known["action"]))
        elif tag == "button":
            self._button = (known.get("name", ""), known.get("value", ""))
        elif tag in {"input", "select", "option", "textarea"} and self.forms:
            self._take_field(tag, known)

    def _take_field(self, tag: str, known: dict[str, str]) -> None:
        fields = self.forms[-1].fields
        if tag == "select":
            self._select = known["name"]
            fields[self._select] = ""
        elif tag == "option":
            if "selected" in known:
                fields[self._select] = known["value"]
        elif known.get("type") not in {"radio", "checkbox"} or "checked" in known:
            fields[known["name"]] = known.get("value", "")

    def handle_endtag(self, tag: str) -> None:
        """Close a tag."""
        if tag == "a":
            self._link = ""
        elif tag == "button":
            self._button = None

    def handle_data(self, data: str) -> None:
        """Take text in."""
        self.words.append(data)
        if self._link and data.strip():
            self.links[data.strip()] = self._link
        if self._button and self.forms and data.strip():
            self.forms[-1].buttons.append((*self._button, data.strip()))


def parsed(text: str) -> Page:
    """Return a page, parsed."""
    page = Page()
    page.feed(text)
    return page
