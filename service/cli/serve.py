"""``levelscoop serve``: the shop, until Ctrl-C."""

from __future__ import annotations

import argparse
from typing import Any


def add(choices: Any) -> None:  # noqa: ANN401  (argparse keeps the class of subparsers private)
    """Add this subcommand's options."""
    command = choices.add_parser(
        "serve",
        help="start the shop: register, bar, hand-off and times",
        description="Start the shop and print its addresses. Settings from the environment: PORT (8080), "
        "HOST (127.0.0.1), DATA_DIR (./data), REDIS_URL (none: a Redis of its own), BOOK (the demo shop's), "
        "STORE (main), OWNER_ANYWHERE (0).",
    )
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Serve until stopped; 1 when a setting, the book or the data folder is refused."""
    del options
    # Sockets must be made cooperative before anything else takes hold of them.
    from gevent import monkey

    monkey.patch_all()

    from service.app.assemble import serve
    from service.host.settings import from_environment

    return serve(from_environment())
