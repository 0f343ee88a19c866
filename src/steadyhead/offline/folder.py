"""Lets the app stand in any folder of an address, though it writes every address as if it stood at the root.

Rules
-----
1. The app knows nothing of the folder: its requests lose it, its answers get it.
2. In a page an attribute that holds an address gets it (`ATTRIBUTE`), in a style an address (`STYLED`): where the
   address begins at the root, with one slash. What a form carries as a value comes back to the app, and stays.
3. So do the headers that say where to look next (`HEADERS`).
4. At the root nothing is done.
"""

from __future__ import annotations

import re
from dataclasses import replace

from steadyhead.offline.exchange import Answer

#: A quote within a page's text is written as a character reference, so that this begins nothing but an attribute.
ATTRIBUTE = re.compile(rb'(\s(?:(?:xlink:)?href|src|action|formaction|poster|hx-[a-z-]+)=["\'])/(?!/)')
STYLED = re.compile(rb'(url\(["\']?)/(?!/)')
PATTERNS = {"text/html": (ATTRIBUTE, STYLED), "image/svg+xml": (ATTRIBUTE,), "text/css": (STYLED,)}
HEADERS = frozenset({"location", "hx-location", "hx-redirect", "hx-push-url", "hx-replace-url"})


class Folder:
    """One folder of an address: ``""`` at the root, else ``/some/folder``.

    >>> Folder("/some/folder/").within("/some/folder/visits"), Folder("/").within("/visits")
    ('/visits', '/visits')
    """

    def __init__(self, path: str) -> None:
        self._path = path.rstrip("/")

    def within(self, path: str) -> str:
        """Return a request's path as the app knows it.

        >>> Folder("/some/folder/").within("/some/folder"), Folder("/some/").within("/somewhere")
        ('/', '/somewhere')
        """
        if path == self._path or path.startswith(f"{self._path}/"):
            return path.removeprefix(self._path) or "/"
        return path

    def outwards(self, answer: Answer) -> Answer:
        """Return the app's answer with every address in it as the browser needs it."""
        if not self._path:
            return answer
        kind = dict(answer.headers).get("content-type", "").partition(";")[0]
        body = answer.body
        for pattern in PATTERNS.get(kind, ()):
            body = pattern.sub(rb"\1" + self._path.encode() + b"/", body)
        headers = tuple((name, self._header(name, value)) for name, value in answer.headers)
        sized = tuple((name, str(len(body)) if name == "content-length" else value) for name, value in headers)
        return replace(answer, headers=sized, body=body)

    def _header(self, name: str, value: str) -> str:
        rooted = name in HEADERS and value.startswith("/") and not value.startswith("//")
        return self._path + value if rooted else value
