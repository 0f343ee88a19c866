"""Serves the app to phones by https, where a certificate was given, and by plain http to this computer itself.

Rules
-----
1. A certificate is made out to a name. Phones find this computer by that name alone, and only by it are they heard.
2. This computer's own browser goes on by its loopback address, which it takes for secure by itself.
3. Both servers end together, on the first signal that asks for it.
4. What a certificate or a key cannot do is said before anything is opened.
"""

from __future__ import annotations

import asyncio
import re
import socket
from collections.abc import Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass
from typing import Any

from steadyhead.errors import InputError
from steadyhead.messages import message

#: A computer's name: labels of letters, digits and hyphens (RFC 1123, 2.1).
NAME = re.compile(r"(?!-)[a-z0-9-]{1,63}(?<!-)(\.(?!-)[a-z0-9-]{1,63}(?<!-))*")
LONGEST_NAME = 253


@dataclass(frozen=True, slots=True)
class Secured:
    """By what phones reach this computer.

    Parameters
    ----------
    name
        The name in the certificate.
    certificate, key
        The files.
    """

    name: str
    certificate: str
    key: str


def secured(name: str | None, certificate: str | None, key: str | None) -> Secured | None:
    """Return by what phones reach this computer; None where nothing was given.

    Raises
    ------
    InputError
        ``app-secure-together``, ``app-name-strange`` or ``app-secure-unusable``.
    """
    if name is certificate is key is None:
        return None
    if name is None or certificate is None or key is None:
        raise InputError(message("app-secure-together"))
    lower = name.lower()
    if not NAME.fullmatch(lower) or len(lower) > LONGEST_NAME:
        raise InputError(message("app-name-strange", got=name))
    found = Secured(lower, certificate, key)
    _usable(found)
    return found


def _usable(given: Secured) -> None:
    """Go on only where the certificate and the key fit together."""
    import ssl  # noqa: PLC0415 - few ask for it

    try:
        ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER).load_cert_chain(given.certificate, given.key, password="")
    except (OSError, ValueError) as error:  # ssl.SSLError is an OSError
        why = (error.strerror if isinstance(error, OSError) else None) or str(error)
        raise InputError(message("app-secure-unusable", why=why)) from None


def run_both(plain: Any, secure: Any, ports: Sequence[socket.socket]) -> None:  # noqa: ANN401 - a server's settings
    """Serve on this computer's own port and, by https, on the network's, until either is told to end."""
    import uvicorn  # noqa: PLC0415 - a server is slow to import

    class Beside(uvicorn.Server):
        """Hears no signal: it ends with the other."""

        def capture_signals(self) -> AbstractContextManager[None]:  # type: ignore[override]
            """Leave the signals to the other."""
            return nullcontext()

    own, other = uvicorn.Server(plain), Beside(secure)

    async def both() -> None:
        beside = asyncio.ensure_future(other.serve(sockets=[ports[1]]))
        try:
            await own.serve(sockets=[ports[0]])
        finally:
            other.should_exit = True
            await beside

    asyncio.run(both())
