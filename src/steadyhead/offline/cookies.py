"""Keeps the app's cookies, which a service worker may neither see nor set.

Rules
-----
1. Every cookie of the one app goes back with every request: there is one origin and nobody else at it.
2. A cookie given anew replaces the old one; with ``Max-Age=0`` it is forgotten.
3. Nothing is kept on disk: a cookie lasts as long as the engine runs.
"""

from __future__ import annotations

from http.cookies import SimpleCookie


class Jar:
    """The cookies of one app."""

    def __init__(self) -> None:
        self._kept: dict[str, str] = {}

    def take(self, header: str) -> None:
        """Take in one ``Set-Cookie`` header.

        >>> jar = Jar()
        >>> jar.take("key=abc; HttpOnly; Path=/")
        >>> jar.take("seen=1")
        >>> jar.header()
        'key=abc; seen=1'
        >>> jar.take("key=; Max-Age=0")
        >>> jar.header()
        'seen=1'
        """
        for name, cookie in SimpleCookie(header).items():
            if cookie["max-age"] == "0":
                self._kept.pop(name, None)
            else:
                self._kept[name] = cookie.coded_value

    def header(self) -> str:
        """Return what goes back as ``Cookie``; empty where nothing is kept."""
        return "; ".join(f"{name}={value}" for name, value in self._kept.items())
