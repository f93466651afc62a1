"""What crosses between the service and a display about orders."""

from __future__ import annotations

from service.orders.wire.asked import (
    ChangeIn,
    DifferenceIn,
    DrinkIn,
    DrinksIn,
    FinishSteps,
    Follow,
    RemakeIn,
    RingIn,
    SoldOutIn,
    StartStep,
    VoidIn,
    WorkIn,
)
from service.orders.wire.queue import Change, HandedOff, QueueDrink, Snapshot, StepState, Ticket
from service.orders.wire.receipts import Difference, Done, Quote, Receipt, ReceiptLine

__all__ = [
    "Change",
    "ChangeIn",
    "Difference",
    "DifferenceIn",
    "Done",
    "DrinkIn",
    "DrinksIn",
    "FinishSteps",
    "Follow",
    "HandedOff",
    "QueueDrink",
    "Quote",
    "Receipt",
    "ReceiptLine",
    "RemakeIn",
    "RingIn",
    "Snapshot",
    "SoldOutIn",
    "StartStep",
    "StepState",
    "Ticket",
    "VoidIn",
    "WorkIn",
]
