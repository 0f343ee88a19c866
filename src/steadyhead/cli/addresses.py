"""On which address phones on the local network find this computer; nothing is sent to find that out.

Rules
-----
1. Unless it is named, it is the address by which this computer would reach the world, where that is one of a local
   network (a private one).
2. Never all addresses at once: it is always one, so that only it is listened on and only its name is heard.
"""

from __future__ import annotations

import errno
import ipaddress
import socket

from steadyhead.errors import InputError
from steadyhead.messages import message

LOOPBACK = "127.0.0.1"
#: Browsers that may wait for an answer at once.
WAITING = 128
#: An address that belongs to nobody (RFC 5737): asking which way leads there sends nothing.
NOBODY = ("192.0.2.1", 9)


def address_named(named: str | None) -> str:
    """Return the address to listen on for phones.

    Parameters
    ----------
    named
        One of this computer's own; None finds it.

    Raises
    ------
    InputError
        ``app-address-is-all``, ``app-address-not-here``, or ``app-no-address`` where none is found.
    """
    found = own_address() if named is None else named
    if found is None:
        raise InputError(message("app-no-address"))
    try:
        address = ipaddress.ip_address(found)
    except ValueError:
        raise InputError(message("app-address-not-here", got=found)) from None
    if address.is_unspecified or address.is_multicast:
        raise InputError(message("app-address-is-all", got=found))
    if address.is_loopback:
        raise InputError(message("app-address-not-here", got=found))
    return str(address)


def listening(port: int | None, usual: int, address: str | None) -> tuple[socket.socket, ...]:
    """Return what listens on one port of this computer's own address and, where there is one, of `address`.

    Parameters
    ----------
    port
        Which port; None takes the usual one, or a free one where that is taken.
    usual
        The usual one.
    address
        Where phones find this computer; None where it serves itself alone.

    Raises
    ------
    InputError
        ``app-port-taken``, or ``app-address-not-here``.
    """
    for each in (usual, 0) if port is None else (port,):
        found = _both(each, address)
        if found:
            return found
    raise InputError(message("app-port-taken", port=port))


def _both(port: int, address: str | None) -> tuple[socket.socket, ...]:
    """Return what listens on a port; nothing where it is taken."""
    own = _one(LOOPBACK, port)
    if own is None or address is None:
        return (own,) if own else ()
    other = _one(address, own.getsockname()[1])
    if other is None:
        own.close()
        return ()
    return own, other


def _one(address: str, port: int) -> socket.socket | None:
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    try:
        return socket.create_server((address, port), family=family, backlog=WAITING)
    except OSError as error:
        if error.errno in {errno.EADDRNOTAVAIL, errno.EINVAL}:
            raise InputError(message("app-address-not-here", got=address)) from None
        return None


def own_address() -> str | None:
    """Return this computer's address on the local network; None where it is on none that it knows of."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(NOBODY)  # a datagram socket only looks up the way
        except OSError:
            return None
        found = str(asked.getsockname()[0])
    address = ipaddress.ip_address(found)
    return found if address.is_private and not address.is_loopback and not address.is_unspecified else None


def host_of(address: str) -> str:
    """Return an address as it stands in a web address and a Host header.

    >>> host_of("192.168.1.5"), host_of("fd00::5")
    ('192.168.1.5', '[fd00::5]')
    """
    return f"[{address}]" if ":" in address else address
