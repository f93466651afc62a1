"""The listening socket, and the addresses under which people reach it."""

from __future__ import annotations

import ipaddress
import socket
from collections.abc import Iterable

BACKLOG = 256

UNSENT_MS = 20_000
"""How long what was sent may stay unread (ms) before the system drops the connection."""


KEEPALIVE_S = (60, 10, 3)
"""A connection silent for so long (s) is probed every so often (s), and dropped after so many unanswered."""


class CannotListen(Exception):
    """The address cannot be listened at; the text says which and why."""


def listen(host: str, port: int) -> socket.socket:
    """A socket listening at an address; port 0 takes any free one. Raises CannotListen.

    What is set here is inherited by every connection accepted: small messages go out at once, and neither
    a display that stopped reading nor one that was switched off holds its connection for ever.
    """
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(
            host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE
        )[0]
        listener = socket.socket(family, kind, protocol)
    except (OSError, UnicodeError) as error:
        raise CannotListen(f"HOST is {host!r}, which is no address of this machine ({error}).") from error
    try:
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_KEEPALIVE, 1)
        if hasattr(socket, "TCP_KEEPIDLE"):
            idle, between, count = KEEPALIVE_S
            listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPIDLE, idle)
            listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPINTVL, between)
            listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPCNT, count)
        if hasattr(socket, "TCP_USER_TIMEOUT"):
            listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_USER_TIMEOUT, UNSENT_MS)
        listener.bind(address)
        listener.listen(BACKLOG)
    except OSError as error:
        listener.close()
        raise CannotListen(
            f"Cannot listen at {host} port {port}: {error.strerror}. "
            "Choose another with PORT, or stop what uses it."
        ) from error
    return listener


def own_names(host: str, more: Iterable[str] = ()) -> frozenset[str]:
    """The names (in lower case) by which this machine is called: what it listens as, its own, and ``more``.

    Its own is also announced to the local network with ".local" (multicast DNS, RFC 6762), which no name
    server elsewhere can answer for.
    """
    own = socket.gethostname().lower()
    return frozenset({host.lower(), own, f"{own.partition('.')[0]}.local", *more})


def address_of(listener: socket.socket) -> str:
    """The address for people, as http://host:port; for all interfaces, one that others can reach."""
    host, port = listener.getsockname()[:2]
    found = ipaddress.ip_address(host)
    if found.is_unspecified:
        found = ipaddress.ip_address(_outward())
    return f"http://[{found}]:{port}" if found.version == 6 else f"http://{found}:{port}"


def _outward() -> str:
    """This machine's address towards others. Connecting a datagram socket sends nothing."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return "127.0.0.1"
        return str(probe.getsockname()[0])
