"""``levelscoop rush``: a seeded rush played into a running shop on this machine."""

from __future__ import annotations

import argparse
import sys
import threading
import time
from typing import Any

from service.orders.wire import Receipt
from service.rush.customers import Arrival, rush
from service.rush.hands import Crew
from service.rush.shop import Away, NotLoopback, Refused, Shop


def add(choices: Any) -> None:  # noqa: ANN401  (argparse keeps the class of subparsers private)
    """Add this subcommand's options."""
    command = choices.add_parser(
        "rush",
        help="play a rush of customers into a running shop, and watch the bar fill",
        description="Ring in seeded orders at the pace of a rush, into a shop on this machine. The same seed "
        "and book give the same orders. With --hands the bar is worked too, to the last ticket.",
    )
    command.add_argument("--seed", type=int, default=1, help="which rush (default 1)")
    command.add_argument(
        "--orders", type=_between(1, 500), default=24, help="how many orders, 1 to 500 (default 24)"
    )
    command.add_argument(
        "--minutes", type=_between(0, 120), default=5, help="how long, 0 to 120 (default 5; 0: at once)"
    )
    command.add_argument(
        "--hands", type=_between(0, 8), default=0, help="hands that work the bar, 0 to 8 (default 0)"
    )
    command.add_argument(
        "--speed", type=_between(1, 60), default=1, help="the hands' pace, 1 to 60 times life (default 1)"
    )
    command.add_argument("--url", default="http://127.0.0.1:8080", help="the shop (default %(default)s)")
    command.set_defaults(run=run)


def _between(least: int, most: int) -> Any:  # noqa: ANN401
    def number(text: str) -> int:
        try:
            value = int(text)
        except ValueError:
            value = least - 1
        if not least <= value <= most:
            raise argparse.ArgumentTypeError(f"{text!r}: accepted is a whole number from {least} to {most}")
        return value

    return number


def run(options: argparse.Namespace) -> int:
    """Exit code 0 when every customer was served; 1 when the shop cannot be reached."""
    try:
        shop = Shop(options.url)
        arrivals = rush(shop.menu(), options.seed, options.orders, options.minutes * 60.0)
    except NotLoopback as error:
        print(error, file=sys.stderr)
        return 1
    except (Away, Refused) as error:
        print(f"No shop to play into: {error}. Start one: levelscoop serve", file=sys.stderr)
        return 1
    stop = threading.Event()
    crew = Crew(shop, options.hands, options.speed, stop)
    crew.start()
    try:
        _ring_in_all(shop, arrivals)
        if options.hands:
            _until_empty(shop)
    except Away as error:
        print(f"The shop went away: {error}", file=sys.stderr)
        return 1
    finally:
        stop.set()
        crew.join()
    return 0


def _ring_in_all(shop: Shop, arrivals: list[Arrival]) -> None:
    begun = time.monotonic()
    for count, arrival in enumerate(arrivals, 1):
        time.sleep(max(0.0, begun + arrival.at_s - time.monotonic()))
        cups = sum(drink.quantity for drink in arrival.order.drinks)
        told = f"{count:>3}/{len(arrivals)}  {arrival.order.name:<6}"
        receipt = _ring_in(shop, arrival)
        if receipt is None:
            print(f"{told}  left: nothing they wanted can be made", flush=True)
        else:
            print(f"{told}  number {receipt.number}, {cups} drink{'s' if cups != 1 else ''}", flush=True)


def _ring_in(shop: Shop, arrival: Arrival) -> Receipt | None:
    """Ring in an order; drinks that cannot be made are left out, as a customer would choose again."""
    try:
        return shop.ring_in(arrival.order)
    except Refused:
        keep = [
            drink for drink in arrival.order.drinks if _can_be_made(shop, drink.line.model_dump(mode="json"))
        ]
        try:
            return shop.ring_in(arrival.order.model_copy(update={"drinks": keep})) if keep else None
        except Refused:
            return None


def _can_be_made(shop: Shop, line: dict[str, Any]) -> bool:
    try:
        shop.tell("quote", line)
    except Refused:
        return False
    return True


def _until_empty(shop: Shop) -> None:
    """Wait for the hands; shows how many tickets are left as that changes."""
    left = -1
    while tickets := len(shop.queue().tickets):
        if tickets != left:
            print(f"          {tickets} ticket{'s' if tickets != 1 else ''} left", flush=True)
            left = tickets
        time.sleep(0.5)
    print("          all handed off", flush=True)
