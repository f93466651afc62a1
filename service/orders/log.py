"""What the log says of an order's events, each in a few words."""

from __future__ import annotations

from service.host.log import LOG
from service.orders import events
from service.orders.events import Event
from service.orders.subject import OrdersMoved


def log_moved(moved: OrdersMoved) -> None:
    """Log what happened, a line an event. Listens to a fold."""
    for event in moved.events:
        LOG.info("%s", line(event))


def line(event: Event) -> str:
    """An event in a few words."""
    match event:
        case events.BookOpened():
            return f"book {event.version} opened"
        case events.SoldOut():
            return f"{event.item} sold out"
        case events.BackOn():
            return f"{event.item} back on"
        case events.RungIn():
            count = sum(each.quantity for each in event.lines)
            cups = "1 cup" if count == 1 else f"{count} cups"
            return f"order {event.order} rung in as number {event.number}: {cups}"
        case events.StepStarted():
            return f"drink {event.drink}: step {event.step} started"
        case events.StepsFinished():
            return f"drink {event.drink}: steps {', '.join(map(str, event.steps))} done"
        case events.StepsReopened():
            return f"drink {event.drink}: steps {', '.join(map(str, event.steps))} to do again"
        case events.DrinkBumped():
            return f"drink {event.drink} bumped"
        case events.DrinkRecalled():
            return f"drink {event.drink} recalled"
        case events.DrinkVoided():
            return f"drink {event.drink} voided: {event.reason}"
        case events.DrinkChanged():
            return f"drink {event.drink} changed: {event.line.title}"
        case events.DrinkRemade():
            return f"drink {event.drink} to make again: {event.reason}"
        case events.HandedOff():
            return f"order {event.order} handed off"
        case events.HandOffTakenBack():
            return f"order {event.order}: hand-off taken back"
