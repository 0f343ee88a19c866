"""A paper as HTML: an article for a page of the app, or a file of its own that needs nothing else and can be printed.

Rules
-----
1. Every text is escaped by the template; only drawings of our own making are put in as they are (`_drawn`).
2. A file of its own has its styles and typefaces inside, runs no script, and says so to the browser: its policy allows
   its own style by digest, and nothing from anywhere.
3. A click on a figure leads to the line that tells how it was made; without scripts, by a link within the page.
4. A picture is shown by the address that it is handed with: of the app, or ``data:`` in a file of its own. One that has
   none is told to be lacking.
5. The same paper, words, look, pictures and style give the same bytes.
"""

from __future__ import annotations

import hashlib
from base64 import b64encode
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Protocol

from jinja2 import Environment, FunctionLoader, StrictUndefined
from markupsafe import Markup, escape

from steadyhead.documents.laid import Values

#: What a file of its own may load: its own style, by digest, and the typefaces inside it.
POLICY = (
    "default-src 'none'; style-src 'sha256-{digest}'; font-src data:; img-src data:; base-uri 'none'; "
    "form-action 'none'"
)
#: The folder of the package that holds the templates.
TEMPLATES = "templates"


class Bytes(Protocol):
    """The bytes of a picture, and what they are."""

    @property
    def data(self) -> bytes:
        """The bytes."""

    @property
    def media_type(self) -> str:
        """``image/jpeg``, ``image/png`` or ``image/webp``."""


def article(laid: Values, addresses: Mapping[str, str] = MappingProxyType({})) -> Markup:
    """Return a paper as an article, to be put into a page that has the styles.

    Parameters
    ----------
    laid
        The paper in words (`steadyhead.documents.laid.laid_out`).
    addresses
        Where each picture is, by its SHA-256.
    """
    made = _environment().get_template("paper.html").render(paper=laid, addresses=addresses)
    return Markup(made)  # noqa: S704 - escaped by the template


def page(laid: Values, style: str, pictures: Mapping[str, Bytes] = MappingProxyType({})) -> str:
    """Return a paper as a file of its own.

    Parameters
    ----------
    laid
        The paper in words.
    style
        The styles, with typefaces as ``data:`` addresses; ours, never a person's.
    pictures
        The bytes of each picture and what they are, by their SHA-256.

    Raises
    ------
    ValueError
        The style would end its own element: a mistake of the program.
    """
    if "</" in style:
        raise ValueError("a style cannot hold an end tag")  # noqa: EM101, TRY003 - never seen by a person
    digest = b64encode(hashlib.sha256(style.encode()).digest()).decode()
    template = _environment().get_template("page.html")
    addresses = {sha256: _data(picture) for sha256, picture in pictures.items()}
    inside = {"style": Markup(style), "policy": POLICY.format(digest=digest), "article": article(laid, addresses)}  # noqa: S704
    return template.render(paper=laid, **inside)


def compile_templates() -> None:
    """Compile what a paper is set by, so that no page is held up by that later."""
    for each in sorted(each.name for each in (files("steadyhead.documents") / TEMPLATES).iterdir()):
        _environment().get_template(each)


def _data(picture: Bytes) -> str:
    """Return a picture as an address that holds it."""
    return f"data:{picture.media_type};base64,{b64encode(picture.data).decode()}"


def _drawn(svg: str, says: str) -> Markup:
    """Return a drawing of our own making, named for who does not see it.

    >>> _drawn('<svg viewBox="0 0 1 1"></svg>', 'a "code"')
    Markup('<svg role="img" aria-label="a &#34;code&#34;" viewBox="0 0 1 1"></svg>')
    """
    head = Markup('<svg role="img" aria-label="{}" ').format(escape(says))
    return head + Markup(svg.removeprefix("<svg "))  # noqa: S704 - made by `plot` and `qr`, which escape every text


@cache
def _environment() -> Environment:
    made = Environment(
        loader=FunctionLoader(_source), autoescape=True, undefined=StrictUndefined, auto_reload=False,
        trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip
    made.filters["drawn"] = _drawn
    return made


def _source(name: str) -> str:
    """Return a template's text; the package may be a zip in a phone's browser."""
    return (files("steadyhead.documents") / TEMPLATES / name).read_text(encoding="utf-8")
