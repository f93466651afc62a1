"""The listening socket, and the addresses under which people reach it."""

from __future__ import annotations

import ipaddress
import socket

BACKLOG = 256

UNSENT_MS = 20_000
"""How long what was sent may stay unread (ms) before the system drops the connection."""


class CannotListen(Exception):
    """The address cannot be listened at; the text says which and why."""


def listen(host: str, port: int) -> socket.socket:
    """A socket listening at an address; port 0 takes any free one. Raises CannotListen.

    What is set here is inherited by every connection accepted: small messages go out at once, and a
    display that stopped reading does not hold its connection for ever.
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
