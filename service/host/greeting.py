"""What is said once orders can be rung in: where the pages are, for whom, and where the data is kept."""

from __future__ import annotations

import ipaddress

from service.host.settings import Settings

FLOOR = (
    ("start", ""),
    ("register", "register"),
    ("bar", "bar"),
    ("hand-off", "hand-off"),
    ("times", "times"),
    ("learn", "learn"),
)
"""The pages for everybody."""


def greeting(address: str, host: str, settings: Settings) -> list[str]:
    """The lines. ``address`` is the one for people, ``host`` the IP address that is listened at."""
    lines = [_line(name, f"{address}/{path}") for name, path in FLOOR]
    lines.append(_line("owner", _owner(address, host, settings.owner_anywhere)))
    if ipaddress.ip_address(host).is_loopback:
        lines.append("This machine only. For tablets and screens on the network: HOST=0.0.0.0")
    kept = "Versions and proofs are" if settings.redis_url else "Everything is"
    lines.append(f"{kept} kept in {settings.data_dir} (DATA_DIR).")
    lines.append("Orders can be rung in. Stop with Ctrl-C.")
    return lines


def _line(name: str, told: str) -> str:
    return f"{name:<9} {told}"


def _owner(address: str, host: str, anywhere: bool) -> str:
    """Where the owner's pages open, which have no lock: on this machine, if it is listened at there."""
    found = ipaddress.ip_address(host)
    if anywhere or found.is_loopback:
        return f"{address}/owner"
    if found.is_unspecified:
        return f"http://localhost:{address.rpartition(':')[2]}/owner (on this machine only)"
    return "opens on this machine only, which takes HOST=0.0.0.0"
