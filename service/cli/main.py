"""``levelscoop``: picks the subcommand. Imports a subcommand's own needs only when it runs."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence

from service.cli import build, cards, check, prove, rush, serve

SUBCOMMANDS = (serve, build, check, prove, cards, rush)


def parser() -> argparse.ArgumentParser:
    """The command line as a whole."""
    top = argparse.ArgumentParser(prog="levelscoop", description="The whole tool of a tea bar.")
    choices = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for module in SUBCOMMANDS:
        module.add(choices)
    return top


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one subcommand; its exit code: 0 done, 1 refused, 2 wrong usage."""
    options = parser().parse_args(arguments)
    try:
        code: int = options.run(options)
        sys.stdout.flush()
    except KeyboardInterrupt:
        print(file=sys.stderr)
        return 130
    except BrokenPipeError:
        # Who read along (head, a pager) has seen enough: what is still held back goes nowhere.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 141
    return code


if __name__ == "__main__":
    sys.exit(main())
