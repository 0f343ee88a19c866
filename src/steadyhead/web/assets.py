"""What pages are made with besides themselves: styles, scripts, typefaces, each under a name that holds its content.

Everything that affects which files a browser may fetch lives in this file.

Rules
-----
1. A file's address holds a digest of what is in it, so that a browser may keep it for ever and never has an old one.
2. The styles are one file, made of the parts in `STYLES`; the typefaces' addresses in it are put in here. So are the
   app's own scripts, of the parts in `SCRIPTS`: each part is whole by itself, and says at its head what it is for.
3. Only what stands in the tables is served: no path from outside is ever joined to a folder.
4. Files are read once, and through the package's own loader: the package may be a zip in a phone's browser.
"""

from __future__ import annotations

import hashlib
import pkgutil
from base64 import b64encode
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from starlette.requests import Request
from starlette.responses import Response

STYLES = ("tokens.css", "page.css", "large.css", "drawing.css", "plot.css", "paper.css")
#: The styles of a paper that is a file of its own.
PAPER_STYLES = ("tokens.css", "paper.css")
FONTS = ("next-regular.woff2", "next-bold.woff2", "mono-bold.woff2")
#: What a page asks for, and the parts that make the file that it gets.
SCRIPTS = {
    "htmx.js": ("htmx-4.0.1.min.js",),
    "app.js": ("app.js", "photos.js", "storage.js", "awake.js", "buzz.js", "report.js", "share.js"),
}
TYPES = {"css": "text/css; charset=utf-8", "js": "text/javascript; charset=utf-8", "woff2": "font/woff2",
         "svg": "image/svg+xml"}  # fmt: skip
FOR_EVER = "public, max-age=31536000, immutable"
PREFIX = "/assets/"


@dataclass(frozen=True, slots=True)
class Asset:
    """One file as it is served."""

    content: bytes
    media_type: str


@dataclass(frozen=True, slots=True)
class Assets:
    """Every file of the app, by its address, and every address by the name that pages use."""

    served: Mapping[str, Asset]
    addresses: Mapping[str, str]

    def address(self, name: str) -> str:
        """Return the address of a file: ``style.css``, ``app.js``.

        Raises
        ------
        KeyError
            No such file: a mistake of the program.
        """
        return self.addresses[name]

    async def serve(self, request: Request) -> Response:
        """Return a file, to be kept for ever; what is not in the table is not there."""
        asset = self.served.get(request.url.path)
        if asset is None:
            return Response(status_code=404)
        return Response(asset.content, media_type=asset.media_type, headers={"Cache-Control": FOR_EVER})


@cache
def read_assets() -> Assets:
    """Return every file of the app, read once."""
    found: dict[str, Asset] = {}
    addresses: dict[str, str] = {}
    for name in FONTS:
        _add(name, _read(f"fonts/{name}"), found, addresses)
    style = b"".join(_read(name) for name in STYLES).decode()
    for name in FONTS:
        style = style.replace(f'url("fonts/{name}")', f'url("{addresses[name]}")')
    _add("style.css", style.encode(), found, addresses)
    _add("icon.svg", _read("icon.svg"), found, addresses)
    for name, parts in SCRIPTS.items():
        _add(name, b"".join(_read(part) for part in parts), found, addresses)
    return Assets(MappingProxyType(found), MappingProxyType(addresses))


def paper_style() -> str:
    """Return the styles of a paper that is a file of its own, with its typefaces inside."""
    style = b"".join(_read(name) for name in PAPER_STYLES).decode()
    for name in FONTS:
        inside = b64encode(_read(f"fonts/{name}")).decode()
        style = style.replace(f'url("fonts/{name}")', f'url("data:font/woff2;base64,{inside}")')
    return style


def _add(name: str, content: bytes, found: dict[str, Asset], addresses: dict[str, str]) -> None:
    stem, _, kind = name.rpartition(".")
    address = f"{PREFIX}{stem}.{hashlib.sha256(content).hexdigest()[:12]}.{kind}"
    addresses[name] = address
    found[address] = Asset(content, TYPES[kind])


def packaged(name: str) -> bytes:
    """Return a file of this package: ``static/page.css``.

    Not by `importlib.resources`: of a zip that reads the whole directory anew for each file, on a phone 20 ms and more.

    Raises
    ------
    OSError
        No such file: a mistake of the program.
    """
    return pkgutil.get_data("steadyhead.web", name) or b""


def _read(name: str) -> bytes:
    return packaged(f"static/{name}")
