"""Hands out the files of a phone's site: under a part of the app's address, or by themselves.

Rules
-----
1. The files are the program, the same for everybody: no visit, no name, no code. So whoever reaches the address may
   have them, joined or not; a browser asks for some of them without any cookie.
2. Only what the site's own list names is served, read once, each held against its digest: a path from outside is looked
   up in that list and joined to no folder.
3. A browser asks each time whether a file changed, and is answered in one line where it did not: an old and a new build
   are never mixed.
4. What is smaller compressed is sent so, to whoever takes that; it is compressed once, when it is asked for first.
"""

from __future__ import annotations

import gzip
import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from steadyhead.errors import InputError
from steadyhead.messages import message
from steadyhead.web.policy import host_name

#: What a site says of itself, and the program that it says so of.
SAID, PROGRAM = "build.json", "steadyhead"
#: Where the app hands a site out.
PREFIX = "/phone/"
FIRST = "index.html"
TYPES = {
    "css": "text/css; charset=utf-8", "html": "text/html; charset=utf-8", "js": "text/javascript; charset=utf-8",
    "json": "application/json", "mjs": "text/javascript; charset=utf-8", "png": "image/png", "svg": "image/svg+xml",
    "wasm": "application/wasm", "webmanifest": "application/manifest+json", "zip": "application/zip",
}  # fmt: skip
UNKNOWN = "application/octet-stream"
#: Already compressed: what they hold gets no smaller.
PACKED = frozenset({"zip", "png"})
USUAL_LEVEL = 6
HEADERS = {
    "Cache-Control": "no-cache",
    "Vary": "Accept-Encoding",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "geolocation=(), microphone=(), usb=()",
}


@dataclass(frozen=True, slots=True)
class PhoneSite:
    """A site that was read.

    Parameters
    ----------
    files
        Each file's content, by its path in the site.
    digests
        The digest of each.
    """

    files: Mapping[str, bytes]
    digests: Mapping[str, str]
    _small: dict[str, bytes] = field(default_factory=dict)

    @property
    def sent_mb(self) -> float:
        """What a phone fetches once [MB]."""
        return sum(min(len(self.files[path]), len(self.small(path))) for path in self.files) / 1e6

    def small(self, path: str) -> bytes:
        """Return a file as it is sent to whoever takes it compressed."""
        content = self.files[path]
        if path not in self._small:
            packed = content if ending(path) in PACKED else gzip.compress(content, USUAL_LEVEL, mtime=0)
            self._small[path] = packed if len(packed) < len(content) else content
        return self._small[path]

    def answer(self, method: str, path: str, headers: Headers) -> Response:
        """Return the answer to one request, for a path in the site."""
        path = path or FIRST
        if path not in self.files:
            return PlainTextResponse("There is no such file.", 404, HEADERS)
        if method not in {"GET", "HEAD"}:
            return PlainTextResponse("This is only handed out.", 405, {**HEADERS, "Allow": "GET, HEAD"})
        told = {**HEADERS, "ETag": f'"{self.digests[path][:32]}"'}
        if told["ETag"] in (each.strip().removeprefix("W/") for each in headers.get("if-none-match", "").split(",")):
            return Response(status_code=304, headers=told)
        content = self.files[path]
        if "gzip" in headers.get("accept-encoding", "") and self.small(path) is not content:
            content, told["Content-Encoding"] = self.small(path), "gzip"
        return Response(content, media_type=TYPES.get(ending(path), UNKNOWN), headers=told)


def ending(path: str) -> str:
    """Return what kind a file is of.

    >>> ending("engine/pyodide.asm.wasm"), ending("LICENSE")
    ('wasm', '')
    """
    return path.rpartition(".")[2] if "." in path else ""


def read_site(folder: Path) -> PhoneSite:
    """Return the site in a folder.

    Raises
    ------
    InputError
        ``offline-no-site``: there is none, or a file of it is not the one that was made.
    """
    try:
        said = json.loads((folder / SAID).read_text(encoding="utf-8"))
        digests: dict[str, str] = said["files"] if said["program"] == PROGRAM else {}
        files = {path: (folder / path).read_bytes() for path in digests}
    except (OSError, ValueError, KeyError, TypeError):
        digests, files = {}, {}
    whole = all(hashlib.sha256(files[path]).hexdigest() == digests[path] for path in files)
    if FIRST not in files or not whole:
        raise InputError(message("offline-no-site", folder=str(folder)))
    return PhoneSite(files, digests)


class Handout:
    """Serves a site by itself, or beside the app at `PREFIX`: what is not the site's goes to the app."""

    def __init__(self, site: PhoneSite, hosts: frozenset[str], app: ASGIApp | None = None) -> None:
        self._site = site
        self._hosts = hosts
        self._app = app
        self._prefix = PREFIX if app else "/"

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        path = scope.get("path", "")
        if scope["type"] == "http" and path.startswith(self._prefix):
            await self._answered(scope)(scope, receive, send)
        elif scope["type"] == "http" and self._app and f"{path}/" == self._prefix:
            await RedirectResponse(self._prefix, 303)(scope, receive, send)
        elif self._app:
            await self._app(scope, receive, send)

    def _answered(self, scope: Scope) -> Response:
        headers = Headers(scope=scope)
        if host_name(headers.get("host", "")) not in self._hosts:
            return PlainTextResponse("This address is not served here.", 421)
        return self._site.answer(scope["method"], scope["path"].removeprefix(self._prefix), headers)
