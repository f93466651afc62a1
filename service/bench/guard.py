"""Who may see the owner's pages: whoever sits at the machine, until there is a lock.

The address of the peer must be of this machine, and so must the name it called: a page of another site that
has its name answered with our address still calls by its own name.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from ipaddress import ip_address
from urllib.parse import urlsplit

from flask import Response, request

from service.web.problems import ProblemFound

View = Callable[..., Response]


def is_here(address: str) -> bool:
    """Whether an address (or the name of one) is of this machine alone."""
    name = address.strip("[]").removeprefix("::ffff:").lower()
    if name == "localhost":
        return True
    try:
        return ip_address(name).is_loopback
    except ValueError:
        return False


def owner_only(anywhere: bool) -> Callable[[View], View]:
    """Refuse a view to everyone elsewhere, unless ``anywhere``."""

    def around(view: View) -> View:
        @wraps(view)
        def guarded(*args: object, **kwargs: object) -> Response:
            host = urlsplit(f"//{request.host}").hostname or ""
            if not anywhere and not (is_here(request.remote_addr or "") and is_here(host)):
                raise ProblemFound(
                    "owner-elsewhere",
                    "The owner's pages open only on the service's own machine, "
                    f"not from {request.remote_addr} as {host!r}.",
                )
            return view(*args, **kwargs)

        return guarded

    return around
